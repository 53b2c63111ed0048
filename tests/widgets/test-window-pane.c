/* The side pane: what is typed and ticked there is done to what is selected, one's own motifs are brought out of it, rows of the stitch order are dropped on another, and wishes
 * are the plan's. */
#include <glib/gstdio.h>

#include "../workbench/bench-fixture.h"
#include "window-fixture.h"
#include "workbench/library-pane.h"
#include "workbench/motif-pane.h"
#include "workbench/order-row.h"
#include "workbench/section.h"
#include "workbench/settings.h"
#include "workbench/wishes-fields.h"

static const char drawing[]
    = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm' viewBox='0 0 40 30'>"
      "<rect width='40' height='30' fill='#345'/></svg>";

static GtkWidget *
pane (Room *room, GType type)
{
  GtkWidget *found = room_first (room->window, type);
  GtkWidget *section = gtk_widget_get_ancestor (found, HW_TYPE_SECTION);

  if (section != NULL)
    hw_section_set_open (HW_SECTION (section), TRUE);
  hands_settle ();
  return found;
}

static const HwMotif *
motif (Room *room, const char *id)
{
  return hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (room->bench), id));
}

static void
type (GtkWidget *root, const char *name, const char *text)
{
  hands_type (hands_find (root, GTK_TYPE_SPIN_BUTTON, name), text);
}

static void
what_is_typed_is_done_to_what_is_selected (Room *room, gconstpointer data)
{
  static const char *const pair[] = { "m1", "m3", NULL };
  GtkWidget *facts = pane (room, HW_TYPE_MOTIF_PANE);

  hw_bench_select_only (room->bench, "m1");
  hands_settle ();
  type (facts, "From the left", "90");
  type (facts, "From the top", "120");
  type (facts, "Turn", "30");
  type (facts, "Size", "50");
  g_assert_cmpfloat (motif (room, "m1")->placement.angle, ==, 30);
  g_assert_cmpfloat_with_epsilon (motif (room, "m1")->placement.scale, 0.5, 1e-9);
  type (facts, "Turn", "0");
  type (facts, "Width", "60");
  g_assert_cmpfloat_with_epsilon (motif (room, "m1")->placement.scale, 1.5, 1e-9);
  type (facts, "Height", "40");
  g_assert_cmpfloat_with_epsilon (motif (room, "m1")->placement.scale, 1, 1e-9);
  /* Of several all are, but for one that is locked. */
  hw_bench_select_only (room->bench, "m3");
  hw_bench_set_locked (room->bench, TRUE);
  hw_bench_select_ids (room->bench, pair);
  hands_settle ();
  hands_says (facts, "Pear, Quince");
  g_assert_true (gtk_check_button_get_inconsistent (
      GTK_CHECK_BUTTON (hands_find (facts, GTK_TYPE_CHECK_BUTTON, "Lock in place"))));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (facts, GTK_TYPE_CHECK_BUTTON, "Mirrored")),
                               TRUE);
  hands_settle ();
  g_assert_true (motif (room, "m1")->placement.mirrored);
  g_assert_false (motif (room, "m3")->placement.mirrored);
  g_assert_true (gtk_check_button_get_inconsistent (
      GTK_CHECK_BUTTON (hands_find (facts, GTK_TYPE_CHECK_BUTTON, "Mirrored"))));
  hw_bench_select_only (room->bench, "m3");
  hands_settle ();
  g_assert_false (gtk_widget_is_sensitive (hands_find (facts, GTK_TYPE_SPIN_BUTTON, "From the left")));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (facts, GTK_TYPE_CHECK_BUTTON, "Lock in place")),
                               FALSE);
  hands_settle ();
  g_assert_false (motif (room, "m3")->locked);
  g_assert_true (gtk_widget_is_sensitive (hands_find (facts, GTK_TYPE_SPIN_BUTTON, "From the left")));
}

/* The name follows the typing; one that is left empty comes back. The note is kept, and taken away when it is wiped out; a locked motif may bear both. */
static void
name_and_note_are_kept (Room *room, gconstpointer data)
{
  GtkWidget *facts = pane (room, HW_TYPE_MOTIF_PANE), *name, *view;
  GtkTextBuffer *note;

  hw_bench_select_only (room->bench, "m2");
  hw_bench_set_locked (room->bench, TRUE);
  hands_settle ();
  name = hands_find (facts, GTK_TYPE_ENTRY, "Name of the motif");
  view = hands_find (facts, GTK_TYPE_TEXT_VIEW, "Note: where the motif comes from, what its licence allows");
  note = gtk_text_view_get_buffer (GTK_TEXT_VIEW (view));
  gtk_widget_grab_focus (name);
  gtk_editable_set_text (GTK_EDITABLE (name), "Damson");
  g_assert_cmpstr (motif (room, "m2")->name, ==, "Damson");
  gtk_editable_set_text (GTK_EDITABLE (name), "");
  g_assert_cmpstr (motif (room, "m2")->name, ==, "Damson");
  gtk_widget_grab_focus (view);
  hands_settle ();
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (name)), ==, "Damson");
  gtk_text_buffer_set_text (note, "drawn in the orchard", -1);
  g_assert_cmpstr (motif (room, "m2")->note, ==, "drawn in the orchard");
  hw_bench_select_only (room->bench, "m1");
  hands_settle ();
  g_assert_cmpint (gtk_text_buffer_get_char_count (note), ==, 0);
  hw_bench_select_only (room->bench, "m2");
  hands_settle ();
  g_assert_cmpint (gtk_text_buffer_get_char_count (note), ==, 20);
  gtk_text_buffer_set_text (note, "", -1);
  g_assert_null (motif (room, "m2")->note);
}

/* Of more than a dozen not all are named. */
static void
of_many_a_dozen_are_named (Room *room, gconstpointer data)
{
  GtkWidget *facts = pane (room, HW_TYPE_MOTIF_PANE);

  for (guint i = 0; i < 3; i++)
    {
      hw_bench_select_all (room->bench);
      room_do (room, "duplicate", NULL);
    }
  hw_bench_select_all (room->bench);
  hands_settle ();
  g_assert_cmpuint (room_n_motifs (room), ==, 24);
  g_autofree char *names = hands_sentence (facts, "Pear, ");
  g_assert_nonnull (names);
  g_assert_true (g_str_has_suffix (names, " …"));
}

static GtkWidget *
library (Room *room)
{
  return pane (room, HW_TYPE_LIBRARY_PANE);
}

/* The folder of one's own motifs is chosen once; they are found by their name, and a double click lays one on the cloth. */
static void
ones_own_motifs_are_brought_out (Room *room, gconstpointer data)
{
  g_autofree char *leaf = room_write (room, "leaf.svg", drawing),
                  *bud = room_write (room, "bud.svg", drawing);
  g_autofree char *torn = room_write (room, "torn.svg", "<svg");
  g_autofree char *empty = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  GtkWidget *search, *grid;
  GtkSelectionModel *model;

  hw_settings_set_text (HW_SETTING_MOTIF_FOLDER, "");
  hands_says (library (room), "Choose the folder in which your motifs are");
  hands_click (library (room), "Folder of motifs");
  room_pick (NULL);
  hands_says (library (room), "Choose the folder in which your motifs are");
  hw_settings_set_text (HW_SETTING_MOTIF_FOLDER, empty);
  hands_click (library (room), "Folder of motifs");
  room_pick (room->folder);
  search = hands_find (library (room), GTK_TYPE_SEARCH_ENTRY, "Search by name");
  g_assert_true (gtk_widget_get_visible (search));
  grid = hands_find (library (room), GTK_TYPE_GRID_VIEW, "Motifs of the folder");
  model = gtk_grid_view_get_model (GTK_GRID_VIEW (grid));
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (model)), ==, 3);
  room_until (gtk_widget_get_mapped (grid));
  gtk_editable_set_text (GTK_EDITABLE (search), "quay");
  room_until (g_list_model_get_n_items (G_LIST_MODEL (model)) == 0);
  hands_says (library (room), "No motif bears that name.");
  gtk_editable_set_text (GTK_EDITABLE (search), "LEA");
  room_until (g_list_model_get_n_items (G_LIST_MODEL (model)) == 1);
  g_signal_emit_by_name (grid, "activate", 0);
  room_until (room_n_motifs (room) == 4);
  gtk_editable_set_text (GTK_EDITABLE (search), "");
  room_until (g_list_model_get_n_items (G_LIST_MODEL (model)) == 3);
  room_wait (300); /* the pictures are made meanwhile */
  hands_frame (grid);
  /* A folder that is empty, or gone, says so when one comes back to it. */
  hw_settings_set_text (HW_SETTING_MOTIF_FOLDER, empty);
  hw_window_set_pane_open (room->window, FALSE);
  hands_settle ();
  hw_window_set_pane_open (room->window, TRUE);
  hands_settle ();
  hands_says (library (room), "There are no motifs in this folder.");
  g_assert_false (gtk_widget_get_visible (search));
  g_rmdir (empty);
  hw_window_set_pane_open (room->window, FALSE);
  hands_settle ();
  hw_window_set_pane_open (room->window, TRUE);
  hands_settle ();
  g_autofree char *gone = hands_sentence (library (room), "There are no motifs");
  g_assert_null (gone);
  hw_settings_set_text (HW_SETTING_MOTIF_FOLDER, "");
}

/* The row of the stitch order with that place. */
static GtkWidget *
row (GtkWidget *root, guint place)
{
  if (HW_IS_ORDER_ROW (root) && hw_order_row_get_motif (HW_ORDER_ROW (root)) != NULL)
    {
      g_autofree char *number = g_strdup_printf ("%u", place);
      g_autofree char *found = hands_sentence (root, number);

      if (g_strcmp0 (found, number) == 0)
        return root;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = row (child, place);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static char *
order (Room *room)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (room->bench));
  GString *ids = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (motifs); i++)
    {
      g_autoptr (HwSceneMotif) one = g_list_model_get_item (motifs, i);

      g_string_append (ids, hw_scene_motif_get_record (one)->id);
    }
  return g_string_free (ids, FALSE);
}

static gboolean
drop (GtkWidget *onto, HwSceneMotif *what, double y)
{
  GtkEventController *target = hands_controller (onto, GTK_TYPE_DROP_TARGET);
  g_auto (GValue) value = G_VALUE_INIT;
  gboolean taken = FALSE;
  GdkDragAction action;

  g_signal_emit_by_name (target, "motion", 5.0, y, &action);
  g_assert_true (
      gtk_widget_has_css_class (onto, y > gtk_widget_get_height (onto) / 2.0 ? "drop-after" : "drop-before"));
  g_value_init (&value, HW_TYPE_SCENE_MOTIF);
  g_value_set_object (&value, what);
  g_signal_emit_by_name (target, "drop", &value, 5.0, y, &taken);
  g_assert_false (gtk_widget_has_css_class (onto, "drop-after"));
  hands_settle ();
  return taken;
}

/* The upper half of a row means before it, the lower half after it. */
static void
a_row_is_dropped_before_or_after_another (Room *room, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (room->bench);
  GtkWidget *list = GTK_WIDGET (room->window->side_pane);
  g_autoptr (HwSceneMotif) stranger = NULL;

  pane (room, HW_TYPE_MOTIF_PANE);
  for (GtkWidget *section = gtk_widget_get_parent (
           gtk_widget_get_ancestor (room_first (room->window, HW_TYPE_MOTIF_PANE), HW_TYPE_SECTION));
       section != NULL; section = NULL)
    for (GtkWidget *child = gtk_widget_get_first_child (section); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      if (HW_IS_SECTION (child))
        hw_section_set_open (HW_SECTION (child), TRUE);
  hands_settle ();
  hands_frame (list);
  room_until (row (list, 1) != NULL && gtk_widget_get_height (row (list, 1)) > 0);
  GtkWidget *first = row (list, 1);
  double height = gtk_widget_get_height (first);
  g_assert_true (drop (first, hw_scene_find_motif (scene, "m3"), 2));
  g_autofree char *before = order (room);
  g_assert_cmpstr (before, ==, "m3m1m2");
  hands_frame (list);
  g_assert_true (drop (row (list, 2), hw_scene_find_motif (scene, "m3"), height - 2));
  g_autofree char *after = order (room);
  g_assert_cmpstr (after, ==, "m1m3m2");
  hands_frame (list);
  g_assert_true (drop (row (list, 3), hw_scene_find_motif (scene, "m3"), 2));
  g_autofree char *same = order (room);
  g_assert_cmpstr (same, ==, "m1m3m2");
  g_assert_false (drop (row (list, 1), NULL, 2));
  g_signal_emit_by_name (hands_controller (row (list, 1), GTK_TYPE_DROP_TARGET), "leave");
  g_assert_false (gtk_widget_has_css_class (row (list, 1), "drop-before"));
  /* What is taken from a row is its motif; one that is locked says so. */
  GdkContentProvider *content = NULL;
  g_signal_emit_by_name (hands_controller (row (list, 1), GTK_TYPE_DRAG_SOURCE), "prepare", 3.0, 3.0,
                         &content);
  g_assert_nonnull (content);
  g_object_unref (content);
  hw_bench_select_only (room->bench, "m1");
  hw_bench_set_locked (room->bench, TRUE);
  hands_settle ();
  GtkWidget *locked = row (list, 1);
  hands_find (gtk_widget_get_parent (gtk_widget_get_parent (locked)), GTK_TYPE_WIDGET,
              "1, Pear, locked in place. Stitched in hooping 1");
}

static void
wishes_are_the_plans (Room *room, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (room->bench);
  GtkWidget *fields = pane (room, HW_TYPE_WISHES_FIELDS);
  const HwWishes *wishes;

  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (fields, GTK_TYPE_DROP_DOWN, "Plan for")), 1);
  hands_settle ();
  wait_for_plan (room->bench);
  g_assert_cmpint (hw_scene_get_wishes (scene)->best, ==, HW_BEST_LEAST_TIME);
  hands_find (room->window->foot, GTK_TYPE_MENU_BUTTON, "Why not quicker?");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (fields, GTK_TYPE_DROP_DOWN, "Plan for")), 0);
  gtk_check_button_set_active (
      GTK_CHECK_BUTTON (
          hands_find (fields, GTK_TYPE_CHECK_BUTTON,
                      "Threads of neighbouring motifs may be stitched in turns within a hooping")),
      TRUE);
  type (fields, "Minutes for setting a hooping", "12");
  type (fields, "Warn of more stitches to the square millimetre", "4");
  type (fields, "Placing may be off by", "1.5 mm");
  type (fields, "Marks to a hooping, at least", "3");
  wishes = hw_scene_get_wishes (scene);
  g_assert_cmpint (wishes->best, ==, HW_BEST_FEWEST);
  g_assert_true (wishes->interleave);
  g_assert_cmpfloat (wishes->density_limit, ==, 4);
  g_assert_cmpfloat (wishes->tolerance, ==, 1.5);
  /* The one that was changed takes the other along. */
  type (fields, "Scale without new stitches, from", "150");
  wishes = hw_scene_get_wishes (scene);
  g_assert_cmpfloat_with_epsilon (wishes->scale_low, 1.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (wishes->scale_high, 1.5, 1e-9);
  type (fields, "Scale without new stitches, to", "90");
  wishes = hw_scene_get_wishes (scene);
  g_assert_cmpfloat_with_epsilon (wishes->scale_low, 0.9, 1e-9);
  g_assert_cmpfloat_with_epsilon (wishes->scale_high, 0.9, 1e-9);
  wait_for_plan (room->bench);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->hoopings[0].n_marks, >=, 3);
}

static gboolean
focus_is_in (Room *room, gpointer part)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (room->window));

  return focus != NULL && (focus == part || gtk_widget_is_ancestor (focus, part));
}

/* One key goes round the parts of the window that are in sight. */
static void
one_key_goes_round_the_window (Room *room, gconstpointer data)
{
  gpointer parts[] = { room->window->side_pane, room->window->foot,
                       gtk_window_get_titlebar (GTK_WINDOW (room->window)), room->window->canvas };

  gtk_widget_grab_focus (GTK_WIDGET (room->window->canvas));
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      room_do (room, "next-part", NULL);
      g_assert_true (focus_is_in (room, parts[i]));
    }
  hw_window_set_pane_open (room->window, FALSE);
  hands_settle ();
  room_do (room, "next-part", NULL);
  g_assert_true (focus_is_in (room, room->window->foot));
  gtk_window_set_focus (GTK_WINDOW (room->window), NULL);
  room_do (room, "next-part", NULL);
  g_assert_true (focus_is_in (room, room->window->canvas));
  hw_window_set_pane_open (room->window, TRUE);
}

/* What is read below the facts stays where it is when a selection gives them another height. */
static void
what_is_read_stays_where_it_is (Room *room, gconstpointer data)
{
  GtkWidget *fields = pane (room, HW_TYPE_WISHES_FIELDS);
  GtkWidget *field = hands_find (fields, GTK_TYPE_SPIN_BUTTON, "Stitches per minute");
  graphene_rect_t before, after;

  hw_bench_select_only (room->bench, NULL);
  gtk_widget_grab_focus (field);
  hands_frame (fields);
  hands_frame (fields);
  g_assert_true (gtk_widget_compute_bounds (field, GTK_WIDGET (room->window->side_pane), &before));
  hw_bench_select_only (room->bench, "m1");
  hands_frame (fields);
  hands_frame (fields);
  g_assert_true (gtk_widget_compute_bounds (field, GTK_WIDGET (room->window->side_pane), &after));
  g_assert_cmpfloat (ABS (after.origin.y - before.origin.y), <, 3);
  hw_bench_select_only (room->bench, NULL);
  hands_frame (fields);
  hands_frame (fields);
  g_assert_true (gtk_widget_compute_bounds (field, GTK_WIDGET (room->window->side_pane), &after));
  g_assert_cmpfloat (ABS (after.origin.y - before.origin.y), <, 3);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-pane/" #test, Room, NULL, room_set_up, test, room_tear_down)
  ADD (what_is_typed_is_done_to_what_is_selected);
  ADD (name_and_note_are_kept);
  ADD (of_many_a_dozen_are_named);
  ADD (ones_own_motifs_are_brought_out);
  ADD (a_row_is_dropped_before_or_after_another);
  ADD (wishes_are_the_plans);
  ADD (one_key_goes_round_the_window);
  ADD (what_is_read_stays_where_it_is);
  return g_test_run ();
}
