/* The search for commands: what is typed finds commands, motifs and hoopings; keys go through the list and what is chosen is done. */
#include "../workbench/bench-fixture.h"
#include "window-fixture.h"
#include "workbench/command-list.h"

typedef struct
{
  Room room;
  GtkWidget *popover, *entry, *list;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  room_set_up (&f->room, NULL);
  f->popover = GTK_WIDGET (gtk_menu_button_get_popover (f->room.window->search_button));
  f->entry = room_first (f->popover, GTK_TYPE_SEARCH_ENTRY);
  f->list = room_first (f->popover, GTK_TYPE_LIST_BOX);
  room_do (&f->room, "find-command", NULL);
  g_assert_true (gtk_widget_get_visible (f->popover));
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  room_tear_down (&f->room, NULL);
}

static void
type (Fixture *f, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (f->entry), text);
  g_signal_emit_by_name (f->entry, "search-changed");
  hands_settle ();
}

static void
enter (Fixture *f)
{
  g_signal_emit_by_name (f->entry, "activate");
  hands_settle ();
}

static int
chosen (Fixture *f)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (f->list));

  return row != NULL ? gtk_list_box_row_get_index (row) : -1;
}

static int
n_rows (Fixture *f)
{
  int n = 0;

  while (gtk_list_box_get_row_at_index (GTK_LIST_BOX (f->list), n) != NULL)
    n++;
  return n;
}

/* The key is pressed in the field, which keeps the focus; whoever listens above it may take it. */
static gboolean
key (Fixture *f, guint keyval)
{
  for (GtkWidget *at = f->entry; at != NULL; at = gtk_widget_get_parent (at))
    {
      if (hands_key (at, keyval, 0))
        return TRUE;
      if (at == f->popover)
        break;
    }
  return FALSE;
}

static void
keys_go_through_the_list (Fixture *f, gconstpointer data)
{
  int n = n_rows (f);

  g_assert_cmpint (n, >, 14); /* with nothing typed, all of them */
  g_assert_cmpint (chosen (f), ==, 0);
  g_assert_true (key (f, GDK_KEY_Down));
  g_assert_cmpint (chosen (f), ==, 1);
  g_assert_true (key (f, GDK_KEY_Page_Down));
  g_assert_cmpint (chosen (f), ==, 7);
  g_assert_true (key (f, GDK_KEY_KP_Up));
  g_assert_cmpint (chosen (f), ==, 6);
  g_assert_true (key (f, GDK_KEY_Page_Up));
  g_assert_cmpint (chosen (f), ==, 0);
  g_assert_true (key (f, GDK_KEY_Up));
  g_assert_cmpint (chosen (f), ==, 0);
  for (int i = 0; i < n; i++)
    key (f, GDK_KEY_KP_Down);
  g_assert_cmpint (chosen (f), ==, n - 1);
  g_assert_true (key (f, GDK_KEY_Page_Down));
  g_assert_cmpint (chosen (f), ==, n - 1);
  g_assert_false (key (f, GDK_KEY_F5));
}

static void
a_hooping_is_found_and_chosen (Fixture *f, gconstpointer data)
{
  type (f, "hooping 2");
  key (f, GDK_KEY_Page_Up);
  enter (f);
  g_assert_cmpint (hw_bench_get_chosen_hooping (f->room.bench), ==, 1);
  g_assert_false (gtk_widget_get_visible (f->popover));
}

static void
a_motif_is_found_selected_and_shown (Fixture *f, gconstpointer data)
{
  type (f, "quince");
  g_assert_cmpint (n_rows (f), >=, 1);
  g_signal_emit_by_name (f->list, "row-activated", gtk_list_box_get_row_at_index (GTK_LIST_BOX (f->list), 0));
  hands_settle ();
  g_assert_true (hw_bench_is_selected (f->room.bench, "m3"));
  g_assert_cmpuint (hw_bench_get_n_selected (f->room.bench), ==, 1);
}

/* A motif that is gone when it is to be shown is none. */
static void
a_motif_that_went_meanwhile_is_none (Fixture *f, gconstpointer data)
{
  hw_bench_select_only (f->room.bench, "m3");
  type (f, "quince");
  g_signal_emit_by_name (f->entry, "activate");
  hw_bench_delete (f->room.bench);
  hands_settle ();
  g_assert_cmpuint (hw_bench_get_n_selected (f->room.bench), ==, 0);
  g_assert_cmpuint (room_n_motifs (&f->room), ==, 2);
}

static void
nothing_found_is_said_and_nothing_done (Fixture *f, gconstpointer data)
{
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (f->room.bench));

  type (f, "xyzzyq");
  g_assert_cmpint (n_rows (f), ==, 0);
  g_assert_cmpint (chosen (f), ==, -1);
  g_assert_true (key (f, GDK_KEY_Down));
  enter (f);
  g_assert_true (gtk_widget_get_visible (f->popover));
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (hw_bench_get_scene (f->room.bench));
  g_assert_true (hw_snapshot_equal (before, after));
  g_assert_null (gtk_test_accessible_check_property (
      GTK_ACCESSIBLE (f->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, "Nothing is called so.", NULL));
  g_signal_emit_by_name (f->entry, "stop-search");
  hands_settle ();
  g_assert_false (gtk_widget_get_visible (f->popover));
}

/* What cannot be done now is listed, pale, and not done. */
static void
what_cannot_be_done_now_is_shown_and_stays_undone (Fixture *f, gconstpointer data)
{
  type (f, "mirror");
  g_assert_cmpint (n_rows (f), >=, 1);
  enter (f);
  g_assert_true (gtk_widget_get_visible (f->popover));
  hw_bench_select_only (f->room.bench, "m1");
  hands_settle ();
  type (f, "");
  type (f, "mirror");
  enter (f);
  g_assert_false (gtk_widget_get_visible (f->popover));
}

/* A choice that holds now bears a check. */
static void
a_choice_is_made_from_the_list (Fixture *f, gconstpointer data)
{
  gboolean shown;

  g_object_get (f->room.window->canvas, "show-density", &shown, NULL);
  g_assert_false (shown);
  type (f, hw_command_find ("win.show-density")->label);
  enter (f);
  g_object_get (f->room.window->canvas, "show-density", &shown, NULL);
  g_assert_true (shown);
  type (f, hw_command_find ("win.unit::inch")->label);
  enter (f);
  g_assert_cmpint (hw_bench_get_unit (f->room.bench), ==, HW_UNIT_INCH);
  hw_bench_set_unit (f->room.bench, HW_UNIT_MM);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-search/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (keys_go_through_the_list);
  ADD (a_hooping_is_found_and_chosen);
  ADD (a_motif_is_found_selected_and_shown);
  ADD (a_motif_that_went_meanwhile_is_none);
  ADD (nothing_found_is_said_and_nothing_done);
  ADD (what_cannot_be_done_now_is_shown_and_stays_undone);
  ADD (a_choice_is_made_from_the_list);
  return g_test_run ();
}
