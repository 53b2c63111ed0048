/* The dialog for the hoops a person owns: what she types is one hoop's, at once, and no hoop becomes one that cannot be. */
#include "../workbench/bench-fixture.h"
#include "hands.h"
#include "workbench/hoops-dialog.h"

typedef struct
{
  HwBench *bench;
  GtkWindow *parent, *dialog;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->bench = bench_with_orchard ();
  f->parent = hands_show (gtk_label_new ("orchard"), 300, 200);
  hw_hoops_dialog_show (f->parent, f->bench);
  f->dialog = hands_window ("Hoops");
  g_assert_nonnull (f->dialog);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (f->parent);
  hands_settle ();
  g_object_unref (f->bench);
}

static guint
count (Fixture *f)
{
  return g_list_model_get_n_items (hw_scene_get_hoops (hw_bench_get_scene (f->bench)));
}

static const HwHoop *
hoop (Fixture *f, guint i)
{
  g_autoptr (HwSceneHoop) item
      = g_list_model_get_item (hw_scene_get_hoops (hw_bench_get_scene (f->bench)), i);

  return hw_scene_hoop_get_record (item);
}

static void
type (Fixture *f, const char *field, const char *text)
{
  hands_type (hands_find (f->dialog, GTK_TYPE_SPIN_BUTTON, field), text);
}

static char *
undo_name (Fixture *f)
{
  char *name = NULL;

  g_object_get (f->bench, "undo-name", &name, NULL);
  return name;
}

/* Rings keep their width, and a hoop named after its size is named after the new one. */
static void
a_larger_field_has_a_larger_frame (Fixture *f, gconstpointer data)
{
  type (f, "Field width", "140");
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->field_width, 140, 1e-9);
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->frame_width, 180, 1e-9);
  type (f, "Field height", "200");
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->field_height, 200, 1e-9);
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->frame_height, 260, 1e-9);
}

static void
a_frame_is_never_smaller_than_its_field (Fixture *f, gconstpointer data)
{
  type (f, "Frame width", "90");
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->frame_width, 130, 1e-9);
  type (f, "Frame height", "300");
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->frame_height, 300, 1e-9);
  type (f, "Frame height", "20");
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->frame_height, 180, 1e-9);
}

/* What is kept free inside leaves some of the field to stitch on. */
static void
the_margin_leaves_some_of_the_field (Fixture *f, gconstpointer data)
{
  type (f, "Kept free inside the field", "500");
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->clearance, 64, 1e-9);
  g_assert_cmpfloat_with_epsilon (gtk_spin_button_get_value (GTK_SPIN_BUTTON (hands_find (
                                      f->dialog, GTK_TYPE_SPIN_BUTTON, "Kept free inside the field"))),
                                  64, 1e-9);
}

static void
a_hoop_is_added_named_and_taken_away (Fixture *f, gconstpointer data)
{
  g_autofree char *added = NULL;

  hands_click (f->dialog, "Add a hoop");
  g_assert_cmpuint (count (f), ==, 2);
  g_assert_cmpstr (hoop (f, 1)->id, ==, "h2");
  gtk_editable_set_text (GTK_EDITABLE (hands_find (f->dialog, GTK_TYPE_ENTRY, "Name of the hoop")), "Oak");
  g_assert_cmpstr (hoop (f, 1)->name, ==, "Oak");
  g_assert_cmpstr (hoop (f, 0)->name, ==, "130 x 180");
  added = undo_name (f);
  g_assert_cmpstr (added, ==, "change the hoop Oak");
  /* A name that is wiped away is on its way to another: the hoop keeps its own. */
  gtk_editable_set_text (GTK_EDITABLE (hands_find (f->dialog, GTK_TYPE_ENTRY, "Name of the hoop")), "");
  g_assert_cmpstr (hoop (f, 1)->name, ==, "Oak");
  hands_click (f->dialog, "Take this hoop away");
  g_assert_cmpuint (count (f), ==, 1);
  g_assert_cmpstr (hoop (f, 0)->id, ==, "h1");
}

static void
without_a_hoop_there_is_nothing_to_change (Fixture *f, gconstpointer data)
{
  GtkWidget *away = hands_find (f->dialog, GTK_TYPE_BUTTON, "Take this hoop away");

  hands_click (f->dialog, "Take this hoop away");
  g_assert_cmpuint (count (f), ==, 0);
  g_assert_false (gtk_widget_is_sensitive (away));
  g_assert_false (gtk_widget_is_sensitive (hands_find (f->dialog, GTK_TYPE_ENTRY, "Name of the hoop")));
  hw_bench_undo (f->bench);
  hands_settle ();
  g_assert_cmpuint (count (f), ==, 1);
  hands_click (f->dialog, "Add a hoop");
  g_assert_cmpstr (hoop (f, 1)->id, ==, "h2");
}

static void
how_it_is_turned_and_set_aside (Fixture *f, gconstpointer data)
{
  GtkWidget *turn = hands_find (f->dialog, GTK_TYPE_DROP_DOWN, "How it may be turned");
  GtkWidget *aside = hands_find (f->dialog, GTK_TYPE_CHECK_BUTTON, "Set aside: not used for new hoopings");

  gtk_drop_down_set_selected (GTK_DROP_DOWN (turn), 1);
  g_assert_cmpint (hoop (f, 0)->turn, ==, HW_TURN_QUARTER);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (turn), 0);
  g_assert_cmpint (hoop (f, 0)->turn, ==, HW_TURN_ANY);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (aside), TRUE);
  g_assert_true (hoop (f, 0)->set_aside);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (aside), FALSE);
  g_assert_false (hoop (f, 0)->set_aside);
}

/* The fields follow the scene: also what is undone behind the dialog. */
static void
undo_is_seen_in_the_fields (Fixture *f, gconstpointer data)
{
  GtkWidget *width = hands_find (f->dialog, GTK_TYPE_SPIN_BUTTON, "Field width");

  type (f, "Field width", "140");
  hw_bench_undo (f->bench);
  hands_settle ();
  g_assert_cmpfloat_with_epsilon (gtk_spin_button_get_value (GTK_SPIN_BUTTON (width)), 130, 1e-9);
  g_assert_cmpfloat_with_epsilon (hoop (f, 0)->field_width, 130, 1e-9);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/hoops-dialog/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (a_larger_field_has_a_larger_frame);
  ADD (a_frame_is_never_smaller_than_its_field);
  ADD (the_margin_leaves_some_of_the_field);
  ADD (a_hoop_is_added_named_and_taken_away);
  ADD (without_a_hoop_there_is_nothing_to_change);
  ADD (how_it_is_turned_and_set_aside);
  ADD (undo_is_seen_in_the_fields);
  return g_test_run ();
}
