/* Figures at the ends of what is taken: sizes of pages and pictures, resolutions, places in a photo, values of the wrong kind. */
#include "artwork-desk.h"

#include "formats/json-walk.h"
#include "formats/needle-write.h"
#include "formats/picture-load.h"
#include "formats/points-json.h"
#include "formats/readings-json.h"

#include "../planning/needled-motifs.h"

/* --- Pages and pictures */

static void
a_page_too_small_for_a_needle_is_refused (Desk *desk, gconstpointer data)
{
  static const char *const sizes[] = { "width='0.05mm' height='30mm'", "width='30mm' height='0.05mm'" };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *text = g_strdup_printf ("<svg xmlns='http://www.w3.org/2000/svg' %s><rect width='90' "
                                               "height='90' fill='#804020'/></svg>",
                                               sizes[i]);

      put (desk, "thin.svg", text, -1);
      assert_refused (desk, NULL, HW_ARTWORK_ERROR_SIZE);
    }
}

/* Told by its content first, then by how its name ends. */
static void
what_is_not_what_its_name_says_is_refused (Desk *desk, gconstpointer data)
{
  static const char *const names[]
      = { "quay.svg", "quay.svgz", "quay.png", "quay.jpg", "quay.jpeg", "quay.pdf" };
  static const char wide[] = "\xff\xfe<\0s\0v\0g\0 \0/\0>\0";

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      put (desk, names[i], "the tide is out", -1);
      assert_refused (desk, NULL, HW_ARTWORK_ERROR_FORMAT);
    }
  /* Two bytes to a letter: a drawing all the same, which only shows nothing. */
  put (desk, "wide.txt", wide, sizeof wide - 1);
  {
    g_autoptr (GError) error = NULL;
    g_autoptr (HwArtwork) artwork = hw_artwork_load (desk->path, NULL, &error);

    g_assert_null (artwork);
    g_assert_error (error, HW_ARTWORK_ERROR, HW_ARTWORK_ERROR_SIZE);
  }
}

static void
save_dotted (Desk *desk, guint width, guint height, const char *across, const char *down)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, TRUE, 8, (int)width, (int)height);
  g_autoptr (GError) error = NULL;

  gdk_pixbuf_fill (pixbuf, 0x804020ff);
  put (desk, "dots.png", "", 0);
  gdk_pixbuf_save (pixbuf, desk->path, "png", &error, "x-dpi", across, "y-dpi", down, NULL);
  g_assert_no_error (error);
}

/* A scanner that moves its lamp in other steps than its pixels lie apart. */
static void
dots_need_not_be_square (Desk *desk, gconstpointer data)
{
  static const struct
  {
    guint width, height;
    const char *across, *down;
    double mm[2];
    gboolean guessed;
  } cases[] = {
    { 300, 300, "300", "150", { 25.4, 50.8 }, FALSE },  { 300, 300, "150", "300", { 50.8, 25.4 }, FALSE },
    { 96, 192, "300", "10", { 25.4, 50.8 }, TRUE },     { 192, 96, "10", "300", { 50.8, 25.4 }, TRUE },
    { 900, 16, "300", "300", { 76.2, 1.3547 }, FALSE }, { 16, 900, "300", "300", { 1.3547, 76.2 }, FALSE },
    { 192, 96, "30000", "30000", { 50.8, 25.4 }, TRUE }
  };
  const HwArtworkWishes wishes = { .transparent_only = TRUE };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwArtwork) artwork = NULL;

      save_dotted (desk, cases[i].width, cases[i].height, cases[i].across, cases[i].down);
      artwork = load (desk, &wishes);
      g_assert_cmpfloat_with_epsilon (artwork->width, cases[i].mm[0], 0.2);
      g_assert_cmpfloat_with_epsilon (artwork->height, cases[i].mm[1], 0.2);
      g_assert_cmpint (artwork->size_guessed, ==, cases[i].guessed);
      g_assert_cmpfloat_with_epsilon (hw_outline_area (artwork->outline), cases[i].mm[0] * cases[i].mm[1],
                                      15);
    }
}

static void
wishes_are_kept_or_refused (Desk *desk, gconstpointer data)
{
  const double odd[] = { 0.001, 2000, NAN, -3 };
  cairo_t *cr = paper_new (30, 20, "#f4efe2");
  HwArtworkWishes wishes = { .speck = 20, .smoothing = 0.3 };
  g_autoptr (HwArtwork) few = NULL;
  g_autoptr (HwArtwork) all = NULL;

  box (cr, "#1d4a34", 2, 2, 12, 12);
  box (cr, "#1d4a34", 20, 2, 3, 3);
  save (desk, cr, "shed.png", "300");
  all = load (desk, NULL);
  few = load (desk, &wishes);
  assert_area (all, 144 + 9);
  g_assert_cmpfloat_with_epsilon (hw_outline_area (few->outline), 144, 3);
  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    {
      const HwArtworkWishes other = { .pixels_per_mm = odd[i] };

      assert_refused (desk, &other, HW_ARTWORK_ERROR_SIZE);
    }
}

/* --- A photo as it lies on the cloth */

typedef struct
{
  double scale; /* px to the mm */
  HwPoint hole; /* mm: beyond it the camera saw nothing */
} View;

static gboolean
see (double x, double y, double *x_px, double *y_px, gpointer data)
{
  const View *view = data;

  *x_px = x > view->hole.x ? INFINITY : view->scale * x;
  *y_px = y > view->hole.y ? NAN : view->scale * y;
  return TRUE;
}

static guint8
opacity_at (const HwPicture *picture, guint x, guint y)
{
  return picture->pixels[y * picture->stride + 4 * x + 3];
}

static void
what_the_camera_did_not_see_stays_clear (void)
{
  const View views[] = { { 2, { 30, 20 } }, { 2, { 1e9, 1e9 } } };
  View view = views[0];
  guint8 *pixels = g_malloc (100 * 100 * 4);
  g_autoptr (HwPicture) photo = NULL, dot = NULL;
  g_autoptr (GError) tall = NULL, wide = NULL, much = NULL;

  memset (pixels, 255, 100 * 100 * 4);
  photo = hw_picture_new (100, 100, 400, pixels);
  /* A pixel to the mm; the photo shows 50 x 50 mm, and of these only what lies before the holes. */
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      g_autoptr (HwPicture) squared
          = hw_picture_squared (photo, -10, -10, 80, 70, 25.4, see, (gpointer)&views[i], NULL);

      g_assert_cmpuint (squared->width, ==, 80);
      g_assert_cmpuint (squared->height, ==, 70);
      for (guint y = 0; y < 70; y++)
        for (guint x = 0; x < 80; x++)
          {
            gboolean seen = x >= 10 && y >= 10 && x < 10 + MIN (views[i].hole.x, 50)
                            && y < 10 + MIN (views[i].hole.y, 50);

            g_assert_cmpuint (opacity_at (squared, x, y), ==, seen ? 255 : 0);
          }
    }
  /* Less than a pixel is one. */
  dot = hw_picture_squared (photo, 5, 5, 0.01, 0.01, 25.4, see, &view, NULL);
  g_assert_true (dot->width == 1 && dot->height == 1 && opacity_at (dot, 0, 0) == 255);
  g_assert_null (hw_picture_squared (photo, 0, 0, 1, 1e6, 2540, see, &view, &tall));
  g_assert_null (hw_picture_squared (photo, 0, 0, 1e6, 1, 2540, see, &view, &wide));
  g_assert_null (hw_picture_squared (photo, 0, 0, 2000, 2000, 2540, see, &view, &much));
  g_assert_error (tall, HW_PICTURE_ERROR, HW_PICTURE_ERROR_TOO_LARGE);
  g_assert_error (wide, HW_PICTURE_ERROR, HW_PICTURE_ERROR_TOO_LARGE);
  g_assert_error (much, HW_PICTURE_ERROR, HW_PICTURE_ERROR_TOO_LARGE);
}

/* Seen from so far that a pixel of the answer holds hundreds of the photo's, and from so near that it holds a part of one. */
static void
coarse_and_fine_pixels_are_means (void)
{
  const double scales[] = { 100, 2, 0.001 };
  guint8 *pixels = g_malloc (100 * 100 * 4);
  g_autoptr (HwPicture) photo = NULL;

  for (guint i = 0; i < 100 * 100; i++)
    memcpy (pixels + 4 * i, (guint8[]){ 200, 100, 50, 255 }, 4);
  photo = hw_picture_new (100, 100, 400, pixels);
  for (guint i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      View view = { scales[i], { 1e9, 1e9 } };
      double side = 100 / scales[i];
      g_autoptr (HwPicture) squared
          = hw_picture_squared (photo, 0, 0, side, side, 25.4 / side, see, &view, NULL);

      g_assert_cmpuint (squared->width, ==, 1);
      g_assert_cmpuint (squared->pixels[0], ==, 200);
      g_assert_cmpuint (squared->pixels[1], ==, 100);
      g_assert_cmpuint (squared->pixels[2], ==, 50);
      g_assert_cmpuint (squared->pixels[3], ==, 255);
    }
}

static void
points_lie_in_the_photo (void)
{
  const HwPoint outside[] = { { -1, 5 }, { 5, -1 }, { 101, 5 }, { 5, 81 }, { NAN, 5 } };
  HwPhotoPoint point = { .px = { 100, 80 } };
  const HwKnownPoints known = { .points = &point, .n_points = 1 };

  g_assert_true (hw_known_points_check (&known, 100, 80, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (outside); i++)
    {
      g_autoptr (GError) error = NULL;

      point.px = outside[i];
      g_assert_false (hw_known_points_check (&known, 100, 80, &error));
      g_assert_true (g_str_has_prefix (error->message, "points[0].px: "));
    }
}

/* --- Values of the wrong kind */

static char *
complaint (const char *member, gboolean colour)
{
  static const char *const nicks[] = { "floated", "hooped", NULL };
  g_autofree char *text = g_strdup_printf ("{\"hold\": %s}", member);
  g_autoptr (JsonNode) root = json_from_string (text, NULL);
  HwJsonWalk walk;
  char *said;

  hw_json_walk_init (&walk, HW_POINTS_ERROR, 0);
  if (colour)
    hw_json_walk_colour (&walk, json_node_get_object (root), "hold", (HwColour){ 0, 0, 0 });
  else
    g_assert_cmpint (hw_json_walk_choice (&walk, json_node_get_object (root), "hold", nicks, 1), ==,
                     g_str_equal (member, "\"floated\"") ? 0 : 1);
  said = walk.error != NULL ? g_strdup (walk.error->message) : NULL;
  hw_json_walk_clear (&walk);
  return said;
}

static void
values_of_the_wrong_kind_are_told (void)
{
  static const char *const wrong[] = { "7", "true", "[1, 2]", "{}", "\"neither\"" };
  g_autofree char *letters = g_strnfill (90, 'k'), *member = g_strdup_printf ("\"%s\"", letters);
  g_autofree char *good = complaint ("\"floated\"", FALSE), *colour = complaint ("\"#335522\"", TRUE);
  g_autofree char *cut = complaint (member, FALSE), *listed = g_strdup_printf ("[%s, 2]", member);
  g_autofree char *counted = complaint (listed, FALSE);

  g_assert_null (good);
  g_assert_null (colour);
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    for (guint way = 0; way < 2; way++)
      {
        g_autofree char *said = complaint (wrong[i], way == 1);

        g_assert_nonnull (said);
        g_assert_true (g_str_has_prefix (said, "hold: "));
      }
  g_assert_nonnull (strstr (cut, "kkk…\""));
  g_assert_null (strstr (cut, letters));
  g_assert_true (g_str_has_suffix (counted, "found a list of 2."));
}

/* --- Readings of a plan that has no hooping, or one without marks */

static void
readings_need_marks_to_be_of (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  g_autoptr (GError) none = NULL, bare = NULL, zero = NULL;
  g_autoptr (HwMeasured) measured = hw_measured_parse ("{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", "
                                                       "\"at\": [1, 2]}, {\"mark\": \"B\", \"at\": [3, 2]}]}",
                                                       -1, HW_MEASURED_READINGS, NULL);

  g_assert_nonnull (measured);
  g_assert_null (hw_measured_hooping (measured, plan, &none));
  g_assert_cmpstr (none->message, ==, "hooping: the plan has no hooping, found 1.");
  plan->hoopings = g_new0 (HwHooping, 1);
  plan->n_hoopings = 1;
  g_assert_nonnull (hw_measured_hooping (measured, plan, NULL));
  g_assert_null (hw_measured_readings (measured, plan->hoopings, &bare));
  g_assert_nonnull (strstr (bare->message, "hooping 1 has no marks, found \"A\"."));
  measured->hooping = 0;
  g_assert_null (hw_measured_hooping (measured, plan, &zero));
  g_assert_cmpstr (zero->message, ==, "hooping: the plan has 1 hooping, found 0.");
}

/* XML 1.0, 2.2: what is no character of it becomes a space; a picture without a name has none in its title. */
static void
titles_of_drawings_are_xml (void)
{
  static const struct
  {
    const char *name, *title;
  } cases[] = { { "Quay\x7f\xef\xbf\xbe\xef\xbf\xbfwall\x01", "<title>Quay   wall , hooping 1</title>" },
                { "", "<title>hooping 1</title>" },
                { NULL, "<title>hooping 1</title>" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwSnapshot) scene = little_scene (700, 540);
      g_autoptr (HwPlan) plan = NULL;
      g_autoptr (HwHoopingNeedles) needles = NULL;
      g_autofree char *text = NULL;

      g_free (scene->name);
      scene->name = g_strdup (cases[i].name);
      little_hoop (scene, 100, 60, 2, HW_TURN_ANY);
      needled_motif (scene, "Rope", 10, 0, "sea:#112233:2", "j 0 0 a, s 1 -2 a, s 3 4 a");
      plan = one_hooping (scene, 0, 0, 0);
      needles = hw_hooping_needles_new (plan, 0, NULL, NULL);
      text = hw_needle_svg_text (needles);
      g_assert_nonnull (strstr (text, cases[i].title));
    }
}

#define ADD_PLAIN(name, test) g_test_add_func ("/formats/odd-figures/" name, test)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/formats/odd-figures/small-pages", NULL, a_page_too_small_for_a_needle_is_refused);
  ADD ("/formats/odd-figures/names-that-mislead", NULL, what_is_not_what_its_name_says_is_refused);
  ADD ("/formats/odd-figures/dots-that-are-not-square", NULL, dots_need_not_be_square);
  ADD ("/formats/odd-figures/wishes", NULL, wishes_are_kept_or_refused);
  ADD_PLAIN ("what-the-camera-did-not-see-stays-clear", what_the_camera_did_not_see_stays_clear);
  ADD_PLAIN ("coarse-and-fine-pixels-are-means", coarse_and_fine_pixels_are_means);
  ADD_PLAIN ("points-lie-in-the-photo", points_lie_in_the_photo);
  ADD_PLAIN ("values-of-the-wrong-kind-are-told", values_of_the_wrong_kind_are_told);
  ADD_PLAIN ("readings-need-marks-to-be-of", readings_need_marks_to_be_of);
  ADD_PLAIN ("titles-of-drawings-are-xml", titles_of_drawings_are_xml);
  return g_test_run ();
}
