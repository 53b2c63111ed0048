/* The commands that write what is taken along: needle lists, tables, a picture; run as a person runs them. */
#include "../folders.h"
#include "command-run.h"

#include "formats/needle-csv.h"
#include "formats/picture-load.h"

#define GULL "\"name\": \"Gull\", "
#define SECOND_GULL "\"name\": \"Second gull\", "
#define ARTWORK "\"artwork\": {\"path\": \"gull.csv\", \"kind\": \"needles\"}, "

static const char gull[]
    = "x_mm,y_mm,action,thread\n-10,-5,jump,white\n-9,-4,stitch,white\n10,-5,stitch,white\n"
      "0,5,stitch,white\n0,5,end,white\n";

static void
set_up (Bench *bench, gconstpointer data)
{
  g_autofree char *needles = NULL;

  bench_set_up (bench, data);
  needles = g_build_filename (bench->folder, "gull.csv", NULL);
  bench_write (needles, gull);
  bench_change (bench, GULL, GULL ARTWORK);
  bench_change (bench, SECOND_GULL, SECOND_GULL ARTWORK);
}

static void
tear_down (Bench *bench, gconstpointer data)
{
  folder_empty (bench->folder);
  bench_tear_down (bench, data);
}

static char *
beside (const Bench *bench, const char *name)
{
  return g_build_filename (bench->folder, name, NULL);
}

/* Which hooping of the plan has the gulls: "1" or "2". */
static const char *
hooping_of_gulls (const Bench *bench)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonArray *hoopings, *motifs;

  run_words (&run, (const char *const[]){ "plan", bench->scene, NULL });
  root = answer_of (&run);
  hoopings = json_object_get_array_member (json_node_get_object (root), "hoopings");
  g_assert_cmpuint (json_array_get_length (hoopings), ==, 2);
  motifs = json_object_get_array_member (json_array_get_object_element (hoopings, 0), "motifs");
  return g_str_has_prefix (json_array_get_string_element (motifs, 0), "gull") ? "1" : "2";
}

static void
a_needle_list_is_written_and_told (Bench *bench, gconstpointer data)
{
  const char *hooping = hooping_of_gulls (bench);
  g_autofree char *csv = beside (bench, "list.csv"), *svg = beside (bench, "list.SVG"), *text = NULL,
                  *said = NULL;
  g_autoptr (HwNeedleList) list = NULL;
  g_auto (Run) run = { 0 };

  run_words (&run, (const char *const[]){ "needles", bench->scene, "--hooping", hooping, "-o", csv, NULL });
  said = g_strdup_printf ("Hooping %s: 6 stitches in 1 thread, 0 thread changes.\n"
                          "The scene says there are 600 stitches; the motifs' needle lists hold 6.\n",
                          hooping);
  g_assert_cmpstr (run.out, ==, said);
  g_assert_cmpstr (run.err, ==, "");
  g_assert_cmpint (run.status, ==, HW_EXIT_PLANNED);
  list = hw_needle_csv_load (csv, NULL);
  g_assert_nonnull (list);
  g_assert_cmpuint (list->n_stitches, ==, 6);
  g_assert_cmpuint (list->points[list->n_points - 1].action, ==, HW_NEEDLE_END);
  run_words (&run, (const char *const[]){ "needles", bench->scene, "--hooping", hooping, "-o", svg, NULL });
  g_assert_cmpint (run.status, ==, HW_EXIT_PLANNED);
  g_assert_true (g_file_get_contents (svg, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "width=\"200mm\""));
}

static void
needles_refuses_in_one_sentence (Bench *bench, gconstpointer data)
{
  const char *gulls = hooping_of_gulls (bench), *others = *gulls == '1' ? "2" : "1";
  g_autofree char *csv = beside (bench, "list.csv"), *txt = beside (bench, "list.txt"), *entered = NULL;
  g_auto (Run) run = { 0 };

#define NEEDLES(...) run_words (&run, (const char *const[]){ "needles", bench->scene, __VA_ARGS__, NULL })
  NEEDLES ("-o", csv);
  assert_refused (&run, "needles: say which hooping with --hooping N, counted from 1.");
  NEEDLES ("--hooping", "1");
  assert_refused (&run, "needles: name the file to write with -o FILE.csv or -o FILE.svg.");
  NEEDLES ("--hooping", "1", "-o", txt);
  assert_refused (&run, "list.txt: a needle list is written to a file whose name ends in .csv or .svg.");
  NEEDLES ("--hooping", "3", "-o", csv);
  assert_refused (&run, "--hooping: expected a number from 1 to 2, found \"3\".");
  NEEDLES ("--hooping", "0", "-o", csv);
  assert_refused (&run, "--hooping: expected a number from 1 to 2, found \"0\".");
  NEEDLES ("--hooping", others, "-o", csv);
  assert_one_complaint (&run, HW_EXIT_BAD);
  for (const char *const *name
       = (const char *const[]){ "Quay", "Wall", "Rowing boat", "only the outlines", NULL };
       *name != NULL; name++)
    g_assert_nonnull (strstr (run.err, *name));
  NEEDLES ("--hooping", gulls, "--corrected", "-o", csv);
  entered = g_strdup_printf ("--corrected: no correction has been entered for hooping %s.", gulls);
  assert_refused (&run, entered);
  g_assert_false (g_file_test (csv, G_FILE_TEST_EXISTS));
}

/* The gulls are in the machine, moved by 3 mm: pins carry the work of a hooping. */
static void
a_correction_is_laid_over_when_asked (Bench *bench, gconstpointer data)
{
  g_autofree char *csv = beside (bench, "list.csv");
  g_autoptr (HwNeedleList) plain = NULL, corrected = NULL;
  g_auto (Run) run = { 0 };
  const char *gulls;

  bench_change (
      bench, "\"machine\":",
      "\"pins\": [{\"hoop\": \"h1\", \"centre\": [555, 250], \"angle\": 0, \"motifs\": [\"gull1\", "
      "\"gull2\"], \"work\": {\"step\": \"stitch\", \"correction\": {\"shift\": [3, -2], \"turn\": 0}}}],\n "
      "\"machine\":");
  gulls = hooping_of_gulls (bench);
  NEEDLES ("--hooping", gulls, "-o", csv);
  g_assert_cmpstr (run.err, ==, "");
  plain = hw_needle_csv_load (csv, NULL);
  NEEDLES ("--hooping", gulls, "--corrected", "-o", csv);
  g_assert_cmpstr (run.err, ==, "");
  corrected = hw_needle_csv_load (csv, NULL);
  g_assert_cmpuint (corrected->n_points, ==, plain->n_points);
  g_assert_cmpfloat_with_epsilon (corrected->points[1].x - plain->points[1].x, 3, 0.001);
  g_assert_cmpfloat_with_epsilon (corrected->points[1].y - plain->points[1].y, -2, 0.001);
  g_assert_cmpfloat (corrected->points[0].x, ==, 0);
}

static void
lists_are_written_into_a_folder_or_printed (Bench *bench, gconstpointer data)
{
  static const char *const names[] = { "hoopings.csv", "threads.csv", "marks.csv", "shopping.csv" };
  g_autofree char *folder = beside (bench, "lists");
  g_auto (Run) run = { 0 };

  run_words (&run, (const char *const[]){ "lists", bench->scene, "-o", folder, NULL });
  g_assert_cmpstr (run.err, ==, "");
  g_assert_cmpstr (run.out, ==, "");
  g_assert_cmpint (run.status, ==, HW_EXIT_PLANNED);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);
      g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  run_words (&run, (const char *const[]){ "lists", bench->scene, "--only", "threads", NULL });
  g_assert_true (g_str_has_prefix (run.out, "thread,colour,stitches,"));
  g_assert_nonnull (strstr (run.out, "\r\nstone,#777766,1400,7,"));
}

static void
lists_refuses_in_one_sentence (Bench *bench, gconstpointer data)
{
  g_autofree char *under_a_file = g_build_filename (bench->scene, "lists", NULL);
  g_auto (Run) run = { 0 };

  run_words (&run, (const char *const[]){ "lists", bench->scene, NULL });
  assert_refused (&run, "lists: name the folder to write into with -o FOLDER, or one list with --only.");
  run_words (&run, (const char *const[]){ "lists", bench->scene, "--only", "recipes", NULL });
  assert_refused (&run, "--only: expected hoopings, threads, marks or shopping, found \"recipes\".");
  run_words (&run, (const char *const[]){ "lists", bench->scene, "-o", under_a_file, NULL });
  assert_one_complaint (&run, HW_EXIT_BAD);
  g_assert_nonnull (strstr (run.err, "the folder cannot be made"));
}

static void
a_picture_is_written_as_wide_as_asked (Bench *bench, gconstpointer data)
{
  g_autofree char *png = beside (bench, "plan.png"), *svg = beside (bench, "plan.svg"), *text = NULL;
  g_autoptr (HwPicture) picture = NULL;
  g_auto (Run) run = { 0 };

  run_words (&run,
             (const char *const[]){ "picture", bench->scene, "--plain", "--width", "350", "-o", png, NULL });
  g_assert_cmpstr (run.err, ==, "");
  g_assert_cmpint (run.status, ==, HW_EXIT_PLANNED);
  picture = hw_picture_load (png, NULL);
  g_assert_cmpuint (picture->width, ==, 350);
  g_assert_cmpuint (picture->height, ==, 270);
  run_words (
      &run, (const char *const[]){ "picture", bench->scene, "--dpi", "20", "--stage", "3", "-o", svg, NULL });
  g_assert_cmpstr (run.err, ==, "");
  g_assert_true (g_file_get_contents (svg, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "<title>Harbour at Low Tide</title>"));
}

/* A file manager gives its own name for the file, and wants the longer side so long whatever the cloth's shape. */
static void
a_small_picture_is_painted_for_a_file_manager (Bench *bench, gconstpointer data)
{
  g_autofree char *small = beside (bench, "thumb.4XK2"), *bytes = NULL;
  g_auto (Run) run = { 0 };
  g_autoptr (HwPicture) picture = NULL;
  g_autoptr (GBytes) png = NULL;
  gsize length;

  run_words (&run, (const char *const[]){ "picture", bench->scene, "--size", "128", "-o", small, NULL });
  g_assert_cmpstr (run.err, ==, "");
  g_assert_cmpint (run.status, ==, HW_EXIT_PLANNED);
  g_assert_true (g_file_get_contents (small, &bytes, &length, NULL));
  png = g_bytes_new (bytes, length);
  picture = hw_picture_load_bytes (png, "thumb", NULL);
  g_assert_cmpuint (picture->width, ==, 128);
  g_assert_cmpuint (picture->height, ==, 99);
}

static void
picture_refuses_in_one_sentence (Bench *bench, gconstpointer data)
{
  g_autofree char *png = beside (bench, "plan.png"), *gif = beside (bench, "plan.gif");
  g_auto (Run) run = { 0 };

#define PICTURE(...) run_words (&run, (const char *const[]){ "picture", bench->scene, __VA_ARGS__, NULL })
  PICTURE ("--plain");
  assert_refused (&run, "picture: name the file to write with -o FILE.png or -o FILE.svg.");
  PICTURE ("-o", gif);
  assert_refused (&run, "plan.gif: a picture is written to a file whose name ends in .png or .svg.");
  PICTURE ("-o", png, "--width", "0");
  assert_refused (&run, "--width: expected pixels from 1 to 30000, found \"0\".");
  PICTURE ("-o", png, "--width", "30001");
  assert_refused (&run, "--width: expected pixels from 1 to 30000, found \"30001\".");
  PICTURE ("-o", png, "--dpi", "2400.1");
  assert_refused (&run, "--dpi: expected dots per inch from 1 to 2400, found \"2400.1\".");
  PICTURE ("-o", png, "--dpi", "many");
  assert_refused (&run, "--dpi: expected dots per inch from 1 to 2400, found \"many\".");
  PICTURE ("-o", png, "--dpi", "96", "--width", "100");
  assert_refused (&run, "picture: --width and --dpi both say how large the picture is; give one of them.");
  PICTURE ("-o", png, "--stage", "4");
  assert_refused (&run, "--stage: expected a number from 1 to 3, found \"4\".");
  PICTURE ("-o", png, "--dpi", "2400");
  assert_one_complaint (&run, HW_EXIT_BAD);
  g_assert_nonnull (strstr (run.err, "ask for fewer"));
  PICTURE ("--size", "128");
  assert_refused (&run, "picture: name the file to write with -o FILE.");
  PICTURE ("-o", png, "--size", "5000");
  assert_refused (&run, "--size: expected pixels from 1 to 4096, found \"5000\".");
  PICTURE ("-o", png, "--size", "128", "--stage", "1");
  assert_refused (&run,
                  "picture: --size is for a small picture of the whole cloth; --width, --dpi and --stage "
                  "do not go with it.");
  g_assert_false (g_file_test (png, G_FILE_TEST_EXISTS));
}

int
main (int argc, char **argv)
{
  if (argc > 2 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add ("/commands/handouts/" #test, Bench, NULL, set_up, test, tear_down)
  ADD (a_needle_list_is_written_and_told);
  ADD (needles_refuses_in_one_sentence);
  ADD (a_correction_is_laid_over_when_asked);
  ADD (lists_are_written_into_a_folder_or_printed);
  ADD (lists_refuses_in_one_sentence);
  ADD (a_picture_is_written_as_wide_as_asked);
  ADD (a_small_picture_is_painted_for_a_file_manager);
  ADD (picture_refuses_in_one_sentence);
  return g_test_run ();
}
