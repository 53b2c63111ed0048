/* The lists of a plan as CSV: what stands in them, and that no name of a scene can do harm in a spreadsheet. */
#include <glib/gstdio.h>
#include <math.h>

#include "../planning/needled-motifs.h"

#include "formats/csv-rows.h"
#include "formats/lists-csv.h"

/* Two hoopings in one hoop; the second is stitched already. */
static HwPlan *
two_hoopings (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (GError) error = NULL;
  const HwMark marks[] = { { "A", { 60, 90 } }, { "B", { 140, 110 } } };
  HwMotif *gull;
  HwPlan *plan;

  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 50, 40, 650, 500 }, 0, 2);
  scene->wishes.draw_in = 0;
  little_hoop (scene, 100, 60, 2, HW_TURN_ANY);
  needled_motif (scene, "Rope, \"old\"", 100, 100, "sea:#112233:800; =cmd():#ddccaa:400", NULL);
  gull = needled_motif (scene, "@gull", 300, 100, "white:#ffffff:500", NULL);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 300, 100, gull->id));
  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m1", marks[1].at));
  plan = one_hooping (scene, 100, 100, 90);
  plan->hoopings = g_renew (HwHooping, plan->hoopings, 2);
  plan->n_hoopings = 2;
  plan->hoopings[0].n_motifs = 1;
  plan->hoopings[0].n_marks = G_N_ELEMENTS (marks);
  plan->hoopings[0].marks = g_memdup2 (marks, sizeof marks);
  plan->hoopings[1] = (HwHooping){
    .centre = { 300, 100 }, .n_motifs = 1, .motifs = g_new (guint, 1), .hold = HW_PLACE_FROZEN
  };
  plan->hoopings[1].motifs[0] = 1;
  hw_plan_count (plan);
  return plan;
}

static void
assert_list (HwListKind kind, const char *expected)
{
  g_autoptr (HwPlan) plan = two_hoopings ();
  g_autofree char *text = hw_list_csv_text (kind, plan);

  g_assert_cmpstr (text, ==, expected);
}

static void
hoopings_are_told_with_hoop_place_and_work (void)
{
  assert_list (
      HW_LIST_HOOPINGS,
      "hooping,state,part,hoop,field_width_mm,field_height_mm,frame_width_mm,frame_height_mm,centre_x_mm,"
      "centre_y_mm,angle_deg,motifs,stitches,thread_changes,minutes,needle_thread_m,bobbin_thread_m,"
      "full_bobbin_first,stabiliser_sheets,stabiliser_width_mm,stabiliser_height_mm\r\n"
      "1,planned,,100 x 60,100,60,140,120,100,100,90,\"Rope, \"\"old\"\"\",1200,1,11.5,6,2.4,no,1,180,160\r\n"
      "2,stitched,,100 x 60,100,60,140,120,300,100,0,'@gull,500,1,10.3,,,,,,\r\n");
}

static void
threads_are_told_with_metres_and_hoopings (void)
{
  assert_list (HW_LIST_THREADS, "thread,colour,stitches,needle_thread_m,bobbin_thread_m,hoopings\r\n"
                                "sea,#112233,800,4,1.6,1\r\n"
                                "'=cmd(),#ddccaa,400,2,0.8,1\r\n");
}

/* The hoop is turned by a quarter: what lies to the right on the cloth lies away from the person. */
static void
marks_are_told_from_cloth_corner_and_hoop (void)
{
  assert_list (
      HW_LIST_MARKS,
      "hooping,mark,x_mm,y_mm,corner_right_mm,corner_down_mm,hoop_right_mm,hoop_towards_you_mm,placed_by\r\n"
      "1,centre,100,100,50,60,0,0,plan\r\n"
      "1,A,60,90,10,50,-10,40,plan\r\n"
      "1,B,140,110,90,70,10,-40,hand\r\n");
}

/* A piece is the frame of 140 x 120 mm and 20 mm beyond it; cloth is the edge line's 600 x 460 mm and 50 mm beyond it. */
static void
what_is_lacking_is_to_be_bought (void)
{
  assert_list (HW_LIST_SHOPPING,
               "item,name,number,colour,amount,unit,width_mm,why\r\n"
               "thread,sea,,#112233,4,m,,not at hand\r\n"
               "thread,'=cmd(),,#ddccaa,2,m,,not at hand\r\n"
               "bobbin thread,,,,2.4,m,,under all that is still stitched\r\n"
               "full bobbins,,,,1,pieces,,none runs out inside a hooping that one suffices for\r\n"
               "stabiliser,,,,0.16,m,500,pieces side by side across the roll\r\n"
               "cloth,,,,0.56,m,700,with what lies around the picture and what is drawn in\r\n"
               "needles,,,,1,pieces,,a worn one is changed\r\n");
}

/* OWASP, "CSV Injection": = + - @, tab and carriage return at a cell's beginning; spaces before them do not keep a spreadsheet from it. */
static void
no_name_begins_a_formula (void)
{
  const char *const names[] = { "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "\n=1", NULL };

  for (const char *const *name = names; *name != NULL; name++)
    {
      g_autoptr (HwPlan) plan = two_hoopings ();
      g_autofree char *text = NULL;
      const char *wrong = NULL;
      HwMotif *motif = (HwMotif *)hw_snapshot_motif (plan->snapshot, 0);
      HwCsvRows rows;

      g_free (motif->threads[0].name);
      motif->threads[0].name = g_strdup (*name);
      text = hw_list_csv_text (HW_LIST_THREADS, plan);
      hw_csv_rows_init (&rows, text, strlen (text));
      g_ptr_array_unref (hw_csv_rows_next (&rows, &wrong));
      g_autoptr (GPtrArray) fields = hw_csv_rows_next (&rows, &wrong);
      g_assert_null (wrong);
      g_assert_cmpuint (fields->len, ==, 6);
      g_assert_cmpint (*(const char *)fields->pdata[0], ==, '\'');
      g_assert_cmpstr ((const char *)fields->pdata[0] + 1, ==, *name);
    }
}

static void
a_thread_without_a_name_keeps_its_column (void)
{
  g_autoptr (HwPlan) plan = two_hoopings ();
  HwMotif *motif = (HwMotif *)hw_snapshot_motif (plan->snapshot, 0);
  g_autofree char *text = NULL;

  g_free (motif->threads[0].name);
  motif->threads[0].name = g_strdup ("");
  text = hw_list_csv_text (HW_LIST_THREADS, plan);
  assert_says (text, "\r\n,#112233,800,4,1.6,1\r\n");
}

/* Without stabiliser none is bought, and with nothing left to stitch only what the threads lack. */
static void
what_is_not_used_is_not_bought (void)
{
  g_autoptr (HwPlan) plan = two_hoopings ();
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwPlan) empty = hw_plan_new (scene);
  g_autofree char *with = hw_list_csv_text (HW_LIST_SHOPPING, plan), *without = NULL, *nothing = NULL;

  ((HwSnapshot *)plan->snapshot)->supplies.stabiliser_sheets = 0;
  without = hw_list_csv_text (HW_LIST_SHOPPING, plan);
  nothing = hw_list_csv_text (HW_LIST_SHOPPING, empty);
  assert_says (with, "\r\nstabiliser,");
  g_assert_null (strstr (without, "stabiliser"));
  assert_says (without, "\r\ncloth,");
  g_assert_cmpstr (nothing, ==, "item,name,number,colour,amount,unit,width_mm,why\r\n");
}

/* A hair to the left of the corner is told as 0, not as -0; a place that cannot be told is left empty. */
static void
figures_are_plain (void)
{
  g_autoptr (HwPlan) plan = two_hoopings ();
  g_autofree char *text = NULL;

  plan->hoopings[0].centre = (HwPoint){ -0.0001, -1 };
  plan->hoopings[1].centre = (HwPoint){ NAN, 1200.5 };
  text = hw_list_csv_text (HW_LIST_HOOPINGS, plan);
  assert_says (text, ",140,120,0,-1,90,");
  assert_says (text, ",140,120,,1200.5,0,");
}

static void
a_list_is_found_by_its_name (void)
{
  for (int kind = 0; kind < HW_N_LISTS; kind++)
    g_assert_cmpint (hw_list_find (hw_list_nick ((HwListKind)kind)), ==, kind);
  g_assert_cmpint (hw_list_find ("recipes"), ==, -1);
}

static void
a_list_that_cannot_be_written_is_told_by_name (void)
{
  g_autoptr (HwPlan) plan = two_hoopings ();
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "none", "marks.csv", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_list_csv_save (HW_LIST_MARKS, plan, path, &error));
  g_assert_true (g_str_has_prefix (error->message, "marks.csv: nothing can be written in its folder"));
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/lists-csv/" #test, test)
  ADD (hoopings_are_told_with_hoop_place_and_work);
  ADD (threads_are_told_with_metres_and_hoopings);
  ADD (marks_are_told_from_cloth_corner_and_hoop);
  ADD (what_is_lacking_is_to_be_bought);
  ADD (no_name_begins_a_formula);
  ADD (a_thread_without_a_name_keeps_its_column);
  ADD (what_is_not_used_is_not_bought);
  ADD (figures_are_plain);
  ADD (a_list_is_found_by_its_name);
  ADD (a_list_that_cannot_be_written_is_told_by_name);
  return g_test_run ();
}
