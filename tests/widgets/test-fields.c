/* Fields for measures and for readings at the machine: what is typed is taken as it was meant, or not at all. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "hands.h"
#include "workbench/measure-field.h"
#include "workbench/readings-fields.h"

typedef struct
{
  HwBench *bench;
  GtkWidget *box;
  GtkWindow *window;
  GString *told; /* what the readings said */
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->bench = bench_with_orchard ();
  f->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  f->told = g_string_new (NULL);
  f->window = hands_show (f->box, 700, 500);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (f->window);
  hands_settle ();
  g_object_unref (f->bench);
  g_string_free (f->told, TRUE);
}

static GtkWidget *
add_measure (Fixture *f, HwMeasure measure)
{
  GtkWidget *field = hw_measure_field_new (f->bench, measure, "Way", 0, 1000);

  gtk_box_append (GTK_BOX (f->box), field);
  hands_frame (field);
  return field;
}

typedef struct
{
  HwMeasure measure;
  const char *typed;
  double value; /* NAN: it is not taken */
  const char *shown;
} Typed;

/* Whatever else the figure is typed with: a comma, a unit, nothing. What is no figure, or one of another kind, changes nothing. */
static void
each_measure_takes_its_own_figures (Fixture *f, gconstpointer data)
{
  static const Typed all[] = {
    { HW_MEASURE_LENGTH, "41,3", 41.3, "41.3 mm" },
    { HW_MEASURE_LENGTH, "2 in", 50.8, "50.8 mm" },
    { HW_MEASURE_LENGTH, "far", NAN, NULL },
    { HW_MEASURE_ANGLE, "30", 30, "30°" },
    { HW_MEASURE_ANGLE, "90 mm", NAN, NULL },
    { HW_MEASURE_PERCENT, "96,5", 96.5, "96.5 %" },
    { HW_MEASURE_PERCENT, "96.5 %", 96.5, "96.5 %" },
    { HW_MEASURE_PERCENT, "90 mm", NAN, NULL },
    { HW_MEASURE_PERCENT, "4 \"", NAN, NULL },
    { HW_MEASURE_PERCENT, "%", NAN, NULL },
    { HW_MEASURE_COUNT, "12", 12, "12" },
    { HW_MEASURE_MINUTES, "2.5", 2.5, "2.5 min" },
    { HW_MEASURE_MINUTES, "1e999", NAN, NULL },
    { HW_MEASURE_DENSITY, "6.25", 6.25, "6.2" },
    { HW_MEASURE_THICKNESS, "0.4 mm", 0.4, "0.40 mm" },
    { HW_MEASURE_THICKNESS, "thin", NAN, NULL },
    { HW_MEASURE_METRES, "500", 500, "500.0 m" },
    { HW_MEASURE_HOURS, "8", 8, "8.0 h" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      GtkWidget *field = add_measure (f, all[i].measure);
      GtkWidget *spin = hands_find (field, GTK_TYPE_SPIN_BUTTON, "Way");
      g_autofree char *text = NULL;

      hw_measure_field_set_value (HW_MEASURE_FIELD (field), 7);
      hands_type (spin, all[i].typed);
      g_test_message ("%s", all[i].typed);
      g_assert_cmpfloat_with_epsilon (hw_measure_field_get_value (HW_MEASURE_FIELD (field)),
                                      isnan (all[i].value) ? 7 : all[i].value, 1e-9);
      text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (spin)));
      for (char *space; (space = strstr (text, "\302\240")) != NULL;)
        {
          *space = ' ';
          memmove (space + 1, space + 2, strlen (space + 2) + 1);
        }
      if (all[i].shown != NULL)
        g_assert_cmpstr (text, ==, all[i].shown);
      gtk_box_remove (GTK_BOX (f->box), field);
    }
}

/* What the slip of a field says, or NULL when none is up. */
static const char *
slip_of (GtkWidget *field)
{
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (gtk_widget_get_native (field)));
       child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child) && gtk_widget_get_visible (child))
      return gtk_label_get_text (GTK_LABEL (gtk_popover_get_child (GTK_POPOVER (child))));
  return NULL;
}

/* What is not taken is said, with what would be, until something else is typed. */
static void
a_field_says_what_it_does_not_take (Fixture *f, gconstpointer data)
{
  GtkWidget *field = add_measure (f, HW_MEASURE_COUNT);
  GtkWidget *spin = hands_find (field, GTK_TYPE_SPIN_BUTTON, "Way");

  hw_measure_field_set_value (HW_MEASURE_FIELD (field), 7);
  g_assert_null (slip_of (field));
  hands_type (spin, "many");
  g_assert_cmpstr (slip_of (field), ==, "“many” is no figure for this field. It stays at 7.");
  hands_type (spin, "1001");
  g_assert_cmpstr (slip_of (field), ==, "From 0 to 1000 can be typed here. It stays at 7.");
  hands_type (spin, "-1");
  g_assert_cmpstr (slip_of (field), ==, "From 0 to 1000 can be typed here. It stays at 7.");
  g_assert_cmpfloat (hw_measure_field_get_value (HW_MEASURE_FIELD (field)), ==, 7);
  hands_type (spin, "1000");
  g_assert_null (slip_of (field));
  g_assert_cmpfloat (hw_measure_field_get_value (HW_MEASURE_FIELD (field)), ==, 1000);
}

/* It is the window's, and does not stay where its field is gone or scrolled away. */
static void
what_a_field_says_goes_with_it (Fixture *f, gconstpointer data)
{
  GtkWidget *scrolled = gtk_scrolled_window_new (), *tall = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *field = hw_measure_field_new (f->bench, HW_MEASURE_COUNT, "Way", 0, 1000);
  GtkWidget *below = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkAdjustment *way;

  gtk_widget_set_size_request (below, -1, 3000);
  gtk_box_append (GTK_BOX (tall), field);
  gtk_box_append (GTK_BOX (tall), below);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), tall);
  gtk_widget_set_vexpand (scrolled, TRUE);
  gtk_box_append (GTK_BOX (f->box), scrolled);
  hands_frame (scrolled);
  way = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scrolled));
  hands_type (hands_find (field, GTK_TYPE_SPIN_BUTTON, "Way"), "many");
  g_assert_nonnull (slip_of (field));
  gtk_adjustment_set_value (way, 4);
  for (int i = 0; i < 3; i++)
    hands_frame (scrolled);
  g_assert_nonnull (slip_of (field));
  gtk_adjustment_set_value (way, 2000);
  for (int i = 0; i < 3; i++)
    hands_frame (scrolled);
  g_assert_null (slip_of (field));
  /* What nobody sees says nothing. */
  hands_type (hands_find (field, GTK_TYPE_SPIN_BUTTON, "Way"), "more");
  g_assert_null (slip_of (field));
  gtk_adjustment_set_value (way, 0);
  hands_frame (scrolled);
  hands_type (hands_find (field, GTK_TYPE_SPIN_BUTTON, "Way"), "more");
  g_assert_nonnull (slip_of (field));
  gtk_widget_set_visible (scrolled, FALSE);
  g_assert_null (slip_of (field));
  gtk_box_remove (GTK_BOX (f->box), scrolled);
}

static void
edited_cb (HwMeasureField *field, double value, guint *count)
{
  (*count)++;
}

/* What is shown is rounded; read again as it stands, or in another unit, it stays what it is. */
static void
looking_at_a_length_does_not_change_it (Fixture *f, gconstpointer data)
{
  GtkWidget *field = add_measure (f, HW_MEASURE_LENGTH);
  GtkWidget *spin = hands_find (field, GTK_TYPE_SPIN_BUTTON, "Way");
  double step, page;
  guint edited = 0;

  g_signal_connect (field, "edited", G_CALLBACK (edited_cb), &edited);
  hw_measure_field_set_value (HW_MEASURE_FIELD (field), 41.2649);
  gtk_spin_button_update (GTK_SPIN_BUTTON (spin));
  hw_bench_set_unit (f->bench, HW_UNIT_INCH);
  gtk_spin_button_update (GTK_SPIN_BUTTON (spin));
  g_assert_cmpfloat_with_epsilon (hw_measure_field_get_value (HW_MEASURE_FIELD (field)), 41.2649, 1e-6);
  g_assert_cmpuint (edited, ==, 0);
  /* By thirty-seconds of an inch then. */
  gtk_spin_button_get_increments (GTK_SPIN_BUTTON (spin), &step, &page);
  g_assert_cmpfloat_with_epsilon (step, 25.4 / 32, 1e-9);
  hands_type (spin, "1.5");
  g_assert_cmpfloat_with_epsilon (hw_measure_field_get_value (HW_MEASURE_FIELD (field)), 38.1, 1e-6);
  g_assert_cmpuint (edited, ==, 1);
}

static void
read_cb (GtkWidget *fields, const char *letter, double x, double y, GString *told)
{
  g_string_append_printf (told, "%s %.1f %.1f; ", letter, x, y);
}

static void
forgotten_cb (GtkWidget *fields, const char *letter, GString *told)
{
  g_string_append_printf (told, "%s forgotten; ", letter);
}

static void
left_out_cb (GtkWidget *fields, const char *letter, gboolean out, GString *told)
{
  g_string_append_printf (told, "%s %s; ", letter, out ? "out" : "in");
}

static void
finished_cb (GtkWidget *fields, GString *told)
{
  g_string_append (told, "finished; ");
}

static const HwReading marks[] = { { .letter = "A", .design = { -60, -40 } },
                                   { .letter = "B", .design = { 60, 40 } },
                                   { .letter = "C", .design = { 60, -40 } } };

static HwReadingsFields *
add_readings (Fixture *f, guint n_marks)
{
  GtkWidget *fields = hw_readings_fields_new (f->bench);

  gtk_box_append (GTK_BOX (f->box), fields);
  g_signal_connect (fields, "read", G_CALLBACK (read_cb), f->told);
  g_signal_connect (fields, "forgotten", G_CALLBACK (forgotten_cb), f->told);
  g_signal_connect (fields, "left-out", G_CALLBACK (left_out_cb), f->told);
  g_signal_connect (fields, "finished", G_CALLBACK (finished_cb), f->told);
  hw_readings_fields_set (HW_READINGS_FIELDS (fields), marks, n_marks, NULL, 0);
  hands_settle ();
  return HW_READINGS_FIELDS (fields);
}

static GtkWidget *
entry (HwReadingsFields *fields, const char *letter, gboolean along)
{
  g_autofree char *name
      = g_strdup_printf (along ? "Mark %s, away or towards you" : "Mark %s, right or left", letter);

  return hands_find (fields, GTK_TYPE_ENTRY, name);
}

static void
assert_told (Fixture *f, const char *expected)
{
  g_assert_cmpstr (f->told->str, ==, expected);
  g_string_truncate (f->told, 0);
}

/* A figure alone goes the way the plan has it; a letter, or a minus across, turns it. A reading is told when both of its figures are there. */
static void
readings_go_the_way_the_plan_has_them (Fixture *f, gconstpointer data)
{
  HwReadingsFields *fields = add_readings (f, 2);

  hands_type (entry (fields, "A", FALSE), "59.5");
  assert_told (f, "");
  hands_type (entry (fields, "A", TRUE), "38");
  assert_told (f, "A -59.5 -38.0; ");
  hands_type (entry (fields, "B", FALSE), "1.5 l");
  hands_type (entry (fields, "B", TRUE), "41");
  assert_told (f, "B -1.5 41.0; finished; ");
  hands_type (entry (fields, "A", TRUE), "38");
  assert_told (f, "");
}

static void
a_figure_wiped_away_forgets_the_reading (Fixture *f, gconstpointer data)
{
  HwReadingsFields *fields = add_readings (f, 2);

  hands_type (entry (fields, "A", FALSE), "59.5");
  hands_type (entry (fields, "A", TRUE), "38");
  hands_type (entry (fields, "A", FALSE), "");
  assert_told (f, "A -59.5 -38.0; A forgotten; ");
  hands_type (entry (fields, "A", FALSE), "");
  assert_told (f, "");
}

/* What is no length stands marked until it is put right, says so, and is not gone on from. */
static void
what_is_no_length_is_marked (Fixture *f, gconstpointer data)
{
  HwReadingsFields *fields = add_readings (f, 2);
  GtkWidget *across = entry (fields, "A", FALSE);

  hands_type (across, "fig");
  g_assert_true (gtk_widget_has_css_class (across, "error"));
  g_assert_false (hw_readings_fields_commit (fields));
  gtk_editable_set_text (GTK_EDITABLE (across), "5");
  g_assert_false (gtk_widget_has_css_class (across, "error"));
  g_assert_true (hw_readings_fields_commit (fields));
  assert_told (f, "");
}

static void
the_word_turns_a_figure (Fixture *f, gconstpointer data)
{
  HwReadingsFields *fields = add_readings (f, 2);

  hands_type (entry (fields, "A", FALSE), "59.5");
  hands_type (entry (fields, "A", TRUE), "38");
  assert_told (f, "A -59.5 -38.0; ");
  hands_click (fields, "left");
  assert_told (f, "A 59.5 -38.0; ");
  hands_click (fields, "away");
  assert_told (f, "A 59.5 38.0; ");
}

/* Only where three are read may one be left out: two are needed. */
static void
of_three_one_may_be_left_out (Fixture *f, gconstpointer data)
{
  const HwReading read[]
      = { { "A", { -60, -40 }, { -59, -41 }, FALSE, TRUE }, { "B", { 60, 40 }, { 61, 41 }, TRUE, FALSE } };
  HwReadingsFields *two = add_readings (f, 2), *three;
  GtkWidget *out;

  hw_readings_fields_set (two, marks, 2, read, 2);
  g_assert_false (gtk_widget_get_visible (hands_find (two, GTK_TYPE_CHECK_BUTTON, "Leave mark A out")));
  three = add_readings (f, 3);
  hw_readings_fields_set (three, marks, 3, read, 2);
  out = hands_find (three, GTK_TYPE_CHECK_BUTTON, "Leave mark A out");
  g_assert_true (gtk_widget_get_visible (out));
  g_assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (out)));
  g_assert_true (gtk_check_button_get_active (
      GTK_CHECK_BUTTON (hands_find (three, GTK_TYPE_CHECK_BUTTON, "Leave mark B out"))));
  assert_told (f, "");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (out), TRUE);
  assert_told (f, "A out; ");
  /* The one that is not read yet is where one goes on. */
  hw_readings_fields_focus (three);
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (f->window), entry (three, "C", FALSE)));
  hw_readings_fields_set (three, marks, 3, NULL, 0);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry (three, "A", FALSE))), ==, "");
  hw_readings_fields_focus (three);
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (f->window), entry (three, "A", FALSE)));
}

static void
readings_follow_the_unit (Fixture *f, gconstpointer data)
{
  const HwReading read[] = { { "A", { -60, -40 }, { -50.8, -25.4 }, FALSE, FALSE } };
  HwReadingsFields *fields = add_readings (f, 1);

  hw_readings_fields_set (fields, marks, 1, read, 1);
  hw_bench_set_unit (f->bench, HW_UNIT_INCH);
  g_assert_true (g_str_has_prefix (gtk_editable_get_text (GTK_EDITABLE (entry (fields, "A", FALSE))), "2"));
  g_assert_true (g_str_has_suffix (gtk_editable_get_text (GTK_EDITABLE (entry (fields, "A", FALSE))), "in"));
  hands_type (entry (fields, "A", TRUE), "2");
  assert_told (f, "A -50.8 -50.8; finished; ");
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/fields/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (a_field_says_what_it_does_not_take);
  ADD (what_a_field_says_goes_with_it);
  ADD (each_measure_takes_its_own_figures);
  ADD (looking_at_a_length_does_not_change_it);
  ADD (readings_go_the_way_the_plan_has_them);
  ADD (a_figure_wiped_away_forgets_the_reading);
  ADD (what_is_no_length_is_marked);
  ADD (the_word_turns_a_figure);
  ADD (of_three_one_may_be_left_out);
  ADD (readings_follow_the_unit);
  return g_test_run ();
}
