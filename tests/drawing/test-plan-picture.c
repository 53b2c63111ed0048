/* The picture of a plan as PNG and SVG: how large it is, what it shows, what is refused. */
#include <glib/gstdio.h>
#include <librsvg/rsvg.h>
#include <math.h>

#include "../planning/needled-motifs.h"

#include "drawing/plan-picture.h"
#include "formats/picture-load.h"

typedef struct
{
  HwPlan *plan;
  char *folder, *png, *svg;
} Desk;

/* A cloth of 200 by 150 mm with a red square in the first hooping and a blue one in the second, which reaches 10 mm beyond the cloth. */
static void
desk_set_up (Desk *desk, gconstpointer data)
{
  g_autoptr (HwSnapshot) scene = little_scene (200, 150);

  scene->fabric.colour = (HwColour){ 1, 1, 1 };
  g_free (scene->name);
  scene->name = g_strdup ("Quay <1> & \"tide\"");
  little_hoop (scene, 80, 60, 2, HW_TURN_ANY);
  needled_motif (scene, "Red", 60, 60, "rust:#c01010:900", NULL);
  needled_motif (scene, "Blue", 150, 100, "sea:#1010c0:900", NULL);
  desk->plan = one_hooping (scene, 60, 60, 0);
  desk->plan->hoopings = g_renew (HwHooping, desk->plan->hoopings, 2);
  desk->plan->hoopings[0].n_motifs = 1;
  desk->plan->hoopings[1] = (HwHooping){ .centre = { 170, 100 }, .n_motifs = 1, .motifs = g_new (guint, 1) };
  desk->plan->hoopings[1].motifs[0] = 1;
  desk->plan->n_hoopings = 2;
  desk->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  desk->png = g_build_filename (desk->folder, "garden.png", NULL);
  desk->svg = g_build_filename (desk->folder, "garden.svg", NULL);
}

static void
desk_tear_down (Desk *desk, gconstpointer data)
{
  g_unlink (desk->png);
  g_unlink (desk->svg);
  g_assert_cmpint (g_rmdir (desk->folder), ==, 0);
  hw_plan_unref (desk->plan);
  g_free (desk->folder);
  g_free (desk->png);
  g_free (desk->svg);
}

static HwPicture *
painted (const Desk *desk, const HwPlanPictureOptions *options)
{
  g_autoptr (GError) error = NULL;
  HwPicture *picture;

  g_assert_true (hw_plan_picture_save (desk->plan, options, desk->png, &error));
  g_assert_no_error (error);
  picture = hw_picture_load (desk->png, &error);
  g_assert_no_error (error);
  return picture;
}

/* The mean of 9 by 9 pixels. */
static HwColour
colour_at (const HwPicture *picture, double x, double y)
{
  HwColour sum = { 0, 0, 0 };

  for (int j = -4; j <= 4; j++)
    for (int i = -4; i <= 4; i++)
      {
        const guint8 *p = picture->pixels + (gsize)(y + j) * picture->stride + (gsize)(x + i) * 4;

        sum.red += p[0] / 255.0 / 81;
        sum.green += p[1] / 255.0 / 81;
        sum.blue += p[2] / 255.0 / 81;
      }
  return sum;
}

static void
assert_size (const HwPicture *picture, guint width, guint height)
{
  g_assert_cmpuint (picture->width, ==, width);
  g_assert_cmpuint (picture->height, ==, height);
}

/* 254 dots per inch are ten to the millimetre. */
static void
dots_per_inch_make_true_size (Desk *desk, gconstpointer data)
{
  g_autoptr (HwPicture) picture
      = painted (desk, &(HwPlanPictureOptions){ .dpi = 254, .plain = TRUE, .stage = -1 });
  HwColour red = colour_at (picture, 600, 600), blue = colour_at (picture, 1500, 1000);

  assert_size (picture, 2000, 1500);
  g_assert_cmpfloat_with_epsilon (picture->dpi_x, 254, 0.5);
  g_assert_cmpfloat (red.red, >, red.blue + 0.4);
  g_assert_cmpfloat (blue.blue, >, blue.red + 0.4);
}

static void
a_width_is_kept_and_what_reaches_beyond_the_cloth_is_shown (Desk *desk, gconstpointer data)
{
  g_autoptr (HwPicture) plain
      = painted (desk, &(HwPlanPictureOptions){ .width = 1000, .plain = TRUE, .stage = -1 });
  g_autoptr (HwPicture) planned = painted (desk, &(HwPlanPictureOptions){ .width = 1000, .stage = -1 });
  HwColour field = colour_at (planned, 999 - 5, 400);

  assert_size (plain, 1000, 750);
  g_assert_cmpuint (planned->width, ==, 1000);
  /* The second field ends 10 mm beside the cloth, with a little room beyond it. */
  g_assert_cmpfloat_with_epsilon (planned->height, 1000.0 * 150 / (210 + 28.0 / 1000 * 200), 1);
  g_assert_cmpfloat (field.red, >, 0.99);
}

static void
on_a_stage_later_motifs_are_pale_and_earlier_ones_full (Desk *desk, gconstpointer data)
{
  const HwPlanPictureOptions first = { .dpi = 127, .plain = TRUE, .stage = 0 },
                             second = { .dpi = 127, .plain = TRUE, .stage = 1 };
  g_autoptr (HwPicture) begun = painted (desk, &first), on = painted (desk, &second);

  g_assert_cmpfloat (colour_at (begun, 300, 300).blue, <, 0.4);
  g_assert_cmpfloat (colour_at (begun, 750, 500).red, >, 0.7);
  g_assert_cmpfloat (colour_at (on, 300, 300).blue, <, 0.4);
  g_assert_cmpfloat (colour_at (on, 750, 500).red, <, 0.4);
}

static void
all_stages_are_of_one_size_and_show_their_own_hooping (Desk *desk, gconstpointer data)
{
  g_autoptr (HwPicture) first = painted (desk, &(HwPlanPictureOptions){ .width = 800, .stage = 0 });
  g_autoptr (HwPicture) last = painted (desk, &(HwPlanPictureOptions){ .width = 800, .stage = 2 });
  double mm = 800
              / (200 + 20 + 10
                 + 28.0 / 1000 * 200); /* the second frame is 20 mm wider than the field on each side */
  HwColour in_field = colour_at (first, 30 * mm, 80 * mm), bare = colour_at (last, 30 * mm, 80 * mm);

  assert_size (last, first->width, first->height);
  g_assert_cmpfloat_with_epsilon (first->height, (150 + 10 + 28.0 / 1000 * 200) * mm, 1);
  g_assert_cmpfloat (in_field.red, <, bare.red - 0.08); /* woad */
}

/* CSS Values and Units 3, 6.2: 96 px are 25.4 mm. Read by librsvg. */
static void
svg_is_of_true_size_and_has_the_name (Desk *desk, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  double width, height;
  RsvgHandle *handle;

  g_assert_true (hw_plan_picture_save (desk->plan, &(HwPlanPictureOptions){ .plain = TRUE, .stage = -1 },
                                       desk->svg, &error));
  handle = rsvg_handle_new_from_file (desk->svg, &error);
  g_assert_no_error (error);
  rsvg_handle_set_dpi (handle, 96);
  g_assert_true (rsvg_handle_get_intrinsic_size_in_pixels (handle, &width, &height));
  g_assert_cmpfloat_with_epsilon (width, 200 / 25.4 * 96, 1e-3);
  g_assert_cmpfloat_with_epsilon (height, 150 / 25.4 * 96, 1e-3);
  g_object_unref (handle);
  g_assert_true (g_file_get_contents (desk->svg, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "<title>Quay &lt;1&gt; &amp; &quot;tide&quot;</title>"));
}

static void
assert_not_painted (const Desk *desk,
                    const HwPlanPictureOptions *options,
                    const char *path,
                    const char *sentence)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_plan_picture_save (desk->plan, options, path, &error));
  g_assert_cmpstr (error->message, ==, sentence);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
}

static void
what_cannot_be_painted_is_answered_with_a_sentence (Desk *desk, gconstpointer data)
{
  g_autofree char *other = g_build_filename (desk->folder, "garden.gif", NULL);
  const HwPlanPictureOptions huge = { .dpi = 2400, .plain = TRUE, .stage = -1 },
                             usual = { .plain = TRUE, .stage = -1 };

  assert_not_painted (desk, &usual, other,
                      "garden.gif: a picture is written to a file whose name ends in .png or .svg.");
  assert_not_painted (
      desk, &huge, desk->png,
      "the picture would be 18898 by 14173 pixels. At most 64 million are painted, and 30000 along "
      "a side; ask for fewer.");
}

static HwPlan *
plan_of (double width, double height)
{
  g_autoptr (HwSnapshot) scene = little_scene (width, height);

  little_hoop (scene, 80, 60, 2, HW_TURN_ANY);
  needled_motif (scene, "Red", 10, 4, "rust:#c01010:90", NULL)->placement.scale = 0.1;
  return one_hooping (scene, 10, 4, 0);
}

/* 200 by 150 mm, and 200 by 1.5 mm; the motif is small, since thread takes long to paint at this size. */
static void
pictures_end_at_64_megapixels_and_30000_along_a_side (Desk *desk, gconstpointer data)
{
  static const struct
  {
    double height;
    guint most;
    const char *more;
  } cloths[] = {
    { 150, 9237,
      "the picture would be 9238 by 6928 pixels. At most 64 million are painted, and 30000 along a side; ask "
      "for fewer." },
    { 1.5, 30000,
      "the picture would be 30001 by 225 pixels. At most 64 million are painted, and 30000 along a side; ask "
      "for fewer." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cloths); i++)
    {
      const HwPlanPictureOptions most = { .width = cloths[i].most, .plain = TRUE, .stage = -1 },
                                 more = { .width = cloths[i].most + 1, .plain = TRUE, .stage = -1 };

      hw_plan_unref (desk->plan);
      desk->plan = plan_of (200, cloths[i].height);
      assert_not_painted (desk, &more, desk->svg, cloths[i].more);
      g_assert_true (hw_plan_picture_save (desk->plan, &most, desk->svg, NULL));
      g_unlink (desk->svg);
    }
}

/* Pictures of no pixels and of a sliver; a path nobody can write to. */
static void
small_pictures_and_folders_that_are_not_there (Desk *desk, gconstpointer data)
{
  const HwPlanPictureOptions none = { .dpi = 0.01, .plain = TRUE, .stage = -1 },
                             long_side = { .width = 40000, .plain = TRUE, .stage = -1 },
                             usual = { .dpi = 10, .plain = TRUE, .stage = -1 };
  const char *const endings[] = { "garden.png", "garden.svg" };

  assert_not_painted (desk, &none, desk->png,
                      "the picture would be less than a pixel high or wide; ask for more.");
  assert_not_painted (desk, &none, desk->svg,
                      "the picture would be less than a pixel high or wide; ask for more.");
  assert_not_painted (
      desk, &long_side, desk->svg,
      "the picture would be 40000 by 30000 pixels. At most 64 million are painted, and 30000 along "
      "a side; ask for fewer.");
  for (guint i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *path = g_build_filename (desk->folder, "attic", endings[i], NULL);
      g_autoptr (GError) error = NULL;

      g_assert_false (hw_plan_picture_save (desk->plan, &usual, path, &error));
      g_assert_error (error, HW_PLAN_PICTURE_ERROR, HW_PLAN_PICTURE_ERROR_WRITE);
      g_assert_nonnull (strstr (error->message, endings[i]));
      g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
    }
}

/* Without a name the drawing has no title, and a hooping that reaches beyond the cloth at the top and the left is shown whole, with its marks. */
static void
a_nameless_scene_beyond_its_corner (Desk *desk, gconstpointer data)
{
  const HwPlanPictureOptions stage = { .dpi = 50, .stage = 1 };
  HwPlan *plan = desk->plan;
  g_autoptr (GError) error = NULL;
  g_autofree char *svg = NULL, *without = NULL;

  ((char *)plan->snapshot->name)[0] = '\0';
  plan->hoopings[1].centre = (HwPoint){ 20, 10 };
  g_assert_true (hw_plan_picture_save (plan, &stage, desk->svg, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (desk->svg, &svg, NULL, NULL));
  g_assert_null (strstr (svg, "<title>"));
  plan->hoopings[1].marks = g_new0 (HwMark, 1);
  plan->hoopings[1].marks[0].at = (HwPoint){ 30, 20 };
  plan->hoopings[1].n_marks = 1;
  g_assert_true (hw_plan_picture_save (plan, &stage, desk->svg, &error));
  g_assert_true (g_file_get_contents (desk->svg, &without, NULL, NULL));
  g_assert_cmpuint (strlen (without), >, strlen (svg));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add ("/drawing/plan-picture/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (dots_per_inch_make_true_size);
  ADD (a_width_is_kept_and_what_reaches_beyond_the_cloth_is_shown);
  ADD (on_a_stage_later_motifs_are_pale_and_earlier_ones_full);
  ADD (all_stages_are_of_one_size_and_show_their_own_hooping);
  ADD (svg_is_of_true_size_and_has_the_name);
  ADD (what_cannot_be_painted_is_answered_with_a_sentence);
  ADD (small_pictures_and_folders_that_are_not_there);
  ADD (pictures_end_at_64_megapixels_and_30000_along_a_side);
  ADD (a_nameless_scene_beyond_its_corner);
  return g_test_run ();
}
