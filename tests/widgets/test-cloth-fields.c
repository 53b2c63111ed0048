/* Fields for the edge line and for what the workroom uses up: what cannot be is not taken, and what is taken is taken whole. */
#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/edge-fields.h"
#include "workbench/supplies-fields.h"

enum
{
  RECTANGLE,
  ROUNDED,
  ELLIPSE,
  POINTS
};

static GtkWidget *
put (Desk *desk, GtkWidget *fields)
{
  gtk_window_set_child (desk->parent, fields);
  desk->dialog = desk->parent;
  hands_settle ();
  return fields;
}

static void
edited_cb (GtkWidget *fields, guint *count)
{
  (*count)++;
}

static HwEdgeFields *
put_edge (Desk *desk, guint *edited)
{
  GtkWidget *fields = put (desk, hw_edge_fields_new (desk->bench));
  g_autoptr (HwEdgeLine) edge = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 20, 30, 620, 430 }, 0, 5);

  hw_edge_fields_set (HW_EDGE_FIELDS (fields), edge);
  g_signal_connect (fields, "edited", G_CALLBACK (edited_cb), edited);
  hands_settle ();
  return HW_EDGE_FIELDS (fields);
}

static void
an_edge_line_is_what_its_fields_say (Desk *desk, gconstpointer data)
{
  guint edited = 0;
  HwEdgeFields *fields = put_edge (desk, &edited);

  desk_measure (desk, "Edge line from the left", "10");
  desk_measure (desk, "Width of the edge line", "500");
  desk_measure (desk, "Margin inside the edge line", "7");
  g_assert_cmpuint (edited, ==, 3);
  g_autoptr (HwEdgeLine) edge = hw_edge_fields_get (fields);
  g_assert_cmpint (edge->shape, ==, HW_EDGE_RECTANGLE);
  g_assert_cmpfloat_with_epsilon (edge->outline->box.x0, 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (edge->outline->box.x1, 510, 1e-9);
  g_assert_cmpfloat_with_epsilon (edge->outline->box.y1, 430, 1e-9);
  g_assert_cmpfloat_with_epsilon (edge->margin, 7, 1e-9);
}

/* Set from outside, as after an undo, it tells of no edit. */
static void
each_shape_shows_the_fields_it_has (Desk *desk, gconstpointer data)
{
  guint edited = 0;
  HwEdgeFields *fields = put_edge (desk, &edited);
  GtkWidget *radius
      = gtk_widget_get_parent (hands_find (desk->dialog, GTK_TYPE_SPIN_BUTTON, "Corner radius"));
  GtkWidget *width = hands_find (desk->dialog, GTK_TYPE_SPIN_BUTTON, "Width of the edge line");
  GtkWidget *add = hands_find (desk->dialog, GTK_TYPE_BUTTON, "Add a point");
  static const HwEdgeShape shapes[] = { HW_EDGE_RECTANGLE, HW_EDGE_ROUNDED, HW_EDGE_ELLIPSE };

  for (guint i = 0; i < 3; i++)
    {
      desk_choose (desk, "Shape of the edge line", i);
      g_autoptr (HwEdgeLine) edge = hw_edge_fields_get (fields);
      g_assert_cmpint (edge->shape, ==, shapes[i]);
      g_assert_true (gtk_widget_get_mapped (width));
      g_assert_false (gtk_widget_get_mapped (add));
      g_assert_true (gtk_widget_get_mapped (radius) == (i == ROUNDED));
    }
  g_assert_cmpuint (edited, ==, 2);
  g_autoptr (HwEdgeLine) rounded = hw_edge_line_new_shape (HW_EDGE_ROUNDED, (HwBox){ 0, 0, 300, 200 }, 25, 0);
  hw_edge_fields_set (fields, rounded);
  hw_edge_fields_set (fields, NULL);
  g_assert_cmpuint (edited, ==, 2);
  g_autoptr (HwEdgeLine) edge = hw_edge_fields_get (fields);
  g_assert_cmpint (edge->shape, ==, HW_EDGE_ROUNDED);
  g_assert_cmpfloat_with_epsilon (edge->corner_radius, 25, 1e-9);
}

/* A rectangle becomes four points, a curve some of its own; what is added lies between the last and the first. */
static void
a_line_from_point_to_point_begins_where_it_was (Desk *desk, gconstpointer data)
{
  guint edited = 0;
  HwEdgeFields *fields = put_edge (desk, &edited);

  desk_choose (desk, "Shape of the edge line", POINTS);
  g_autoptr (HwEdgeLine) four = hw_edge_fields_get (fields);
  g_assert_cmpint (four->shape, ==, HW_EDGE_POLYGON);
  g_assert_cmpuint (four->outline->rings[0].n_points, ==, 4);
  g_assert_cmpfloat_with_epsilon (four->outline->box.x1, 620, 1e-9);
  hands_click (desk->dialog, "Add a point");
  g_autoptr (HwEdgeLine) five = hw_edge_fields_get (fields);
  g_assert_cmpuint (five->outline->rings[0].n_points, ==, 5);
  hands_click (desk->dialog, "Take this point away");
  g_autoptr (HwEdgeLine) less = hw_edge_fields_get (fields);
  g_assert_cmpuint (less->outline->rings[0].n_points, ==, 4);

  g_autoptr (HwEdgeLine) round = hw_edge_line_new_shape (HW_EDGE_ELLIPSE, (HwBox){ 0, 0, 300, 200 }, 0, 0);
  hw_edge_fields_set (fields, round);
  desk_choose (desk, "Shape of the edge line", POINTS);
  g_autoptr (HwEdgeLine) curve = hw_edge_fields_get (fields);
  g_assert_cmpuint (curve->outline->rings[0].n_points, <=, 48);
  g_assert_cmpuint (curve->outline->rings[0].n_points, >, 8);
}

/* What crosses itself, or has two points, is no edge line: the fields say so and give none. */
static void
what_is_no_line_is_not_given (Desk *desk, gconstpointer data)
{
  static const HwPoint bow_tie[] = { { 0, 0 }, { 100, 100 }, { 100, 0 }, { 0, 100 } };
  HwRing ring = { (HwPoint *)bow_tie, 4 };
  g_autoptr (HwEdgeLine) crossed = hw_edge_line_new ();
  guint edited = 0;
  HwEdgeFields *fields = put_edge (desk, &edited);

  crossed->shape = HW_EDGE_POLYGON;
  crossed->outline = hw_outline_new (&ring, 1);
  hw_edge_fields_set (fields, crossed);
  g_assert_null (hw_edge_fields_get (fields));
  g_autofree char *crosses = desk_sentence (desk, "The line crosses itself.");
  g_assert_nonnull (crosses);
  hands_click (desk->dialog, "Take this point away");
  g_autoptr (HwEdgeLine) three = hw_edge_fields_get (fields);
  g_assert_nonnull (three);
  hands_click (desk->dialog, "Take this point away");
  g_assert_null (hw_edge_fields_get (fields));
  desk_says (desk, "An edge line needs at least three points.");
}

static const HwSupplyFacts *
facts (Desk *desk)
{
  return hw_scene_get_supplies (hw_bench_get_scene (desk->bench));
}

static void
thread_is_typed_as_on_its_spool (Desk *desk, gconstpointer data)
{
  GtkWidget *entry, *bobbin;

  put (desk, hw_supplies_fields_new (desk->bench));
  entry = hands_find (desk->dialog, GTK_TYPE_ENTRY, "Needle thread, how fine");
  bobbin = hands_find (desk->dialog, GTK_TYPE_ENTRY, "Bobbin thread, how fine");
  /* 120 denier twice: 240 g in 9000 m, and tex is g in 1000 m. */
  hands_type (entry, "120 den x 2");
  g_assert_cmpfloat_with_epsilon (facts (desk)->needle_tex, 240.0 / 9, 1e-6);
  hands_type (bobbin, "Nm 80/2");
  g_assert_cmpfloat_with_epsilon (facts (desk)->bobbin_tex, 25, 1e-6);
  double before = facts (desk)->needle_tex;
  hands_type (entry, "rather fine");
  g_assert_cmpfloat (facts (desk)->needle_tex, ==, before);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "rather fine");
  hands_type (entry, "30 tex");
  g_assert_cmpfloat_with_epsilon (facts (desk)->needle_tex, 30, 1e-9);
}

static void
shares_and_sheets_are_kept_as_such (Desk *desk, gconstpointer data)
{
  put (desk, hw_supplies_fields_new (desk->bench));
  desk_measure (desk, "Bobbin thread to needle thread", "40");
  g_assert_cmpfloat_with_epsilon (facts (desk)->bobbin_share, 0.4, 1e-9);
  desk_measure (desk, "Sheets, one over the other", "3");
  g_assert_cmpuint (facts (desk)->stabiliser_sheets, ==, 3);
  double before = facts (desk)->fabric_thickness;
  desk_measure (desk, "The cloth, how thick", "0.75");
  g_assert_cmpfloat_with_epsilon (facts (desk)->fabric_thickness, 0.75, 1e-9);
  hw_bench_undo (desk->bench);
  hands_settle ();
  g_assert_cmpfloat (facts (desk)->fabric_thickness, ==, before);
  g_assert_cmpfloat (gtk_spin_button_get_value (GTK_SPIN_BUTTON (
                         hands_find (desk->dialog, GTK_TYPE_SPIN_BUTTON, "The cloth, how thick"))),
                     ==, before);
}

/* The core is always smaller than what is wound on it; whichever was typed takes the other along. */
static void
a_bobbin_is_larger_than_its_core (Desk *desk, gconstpointer data)
{
  GtkWidget *check, *outer, *metres;

  put (desk, hw_supplies_fields_new (desk->bench));
  check = hands_find (desk->dialog, GTK_TYPE_CHECK_BUTTON, "Reckon a full bobbin from its size");
  outer = hands_find (desk->dialog, GTK_TYPE_SPIN_BUTTON, "What is wound, across");
  metres = hands_find (desk->dialog, GTK_TYPE_SPIN_BUTTON, "Wound on a full bobbin");
  g_assert_false (gtk_widget_get_mapped (outer));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
  hands_settle ();
  g_assert_true (gtk_widget_get_mapped (outer));
  g_assert_false (gtk_widget_get_mapped (metres));
  desk_measure (desk, "Its core, across", "25");
  g_assert_cmpfloat_with_epsilon (facts (desk)->bobbin_outer, 25.1, 1e-6);
  desk_measure (desk, "What is wound, across", "10");
  g_assert_cmpfloat_with_epsilon (facts (desk)->bobbin_inner, 9.9, 1e-6);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), FALSE);
  hands_settle ();
  g_assert_cmpfloat (facts (desk)->bobbin_outer, ==, 0);
  g_assert_true (gtk_widget_get_mapped (metres));
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/cloth-fields/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (an_edge_line_is_what_its_fields_say);
  ADD (each_shape_shows_the_fields_it_has);
  ADD (a_line_from_point_to_point_begins_where_it_was);
  ADD (what_is_no_line_is_not_given);
  ADD (thread_is_typed_as_on_its_spool);
  ADD (shares_and_sheets_are_kept_as_such);
  ADD (a_bobbin_is_larger_than_its_core);
  return g_test_run ();
}
