/* What is written of a scene for others to read, with a fault at each call: paper, lists, stitches, pictures, a photo's copy. See each-call.h. */
#include <cairo-pdf.h>
#include <string.h>

#include "drawing/plan-picture.h"
#include "each-call.h"
#include "formats/lists-csv.h"
#include "formats/needle-write.h"
#include "workbench/photo-file.h"

/* The fonts are looked for before, once for all runs. */
static void
draw_once (Desk *desk)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (NULL, NULL, 600, 800);
  cairo_t *cr = cairo_create (surface);

  for (guint i = 0; i < hw_print_job_n_pages (desk->print); i++)
    hw_print_job_draw_page (desk->print, i, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
old_print (Desk *desk)
{
  static gsize drawn;

  if (g_once_init_enter (&drawn))
    {
      draw_once (desk);
      g_once_init_leave (&drawn, 1);
    }
  put (desk->file, "the old print");
}

static gboolean
print_anew (Desk *desk, GError **error)
{
  arm (desk);
  return hw_print_jobs_write_pdf (&desk->print, 1, "A garden in print", desk->file, NULL, error);
}

static void
look_at_print (Desk *desk, Outcome outcome)
{
  g_autofree char *text = NULL;
  gsize length;
  gboolean old, new;

  g_assert_true (g_file_get_contents (desk->file, &text, &length, NULL));
  old = g_str_equal (text, "the old print");
  new = length > 1000 && memcmp (text, "%PDF-", 5) == 0 && memcmp (text + length - 6, "%%EOF\n", 6) == 0;
  g_assert_true (old || new);
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static gboolean
list_anew (Desk *desk, GError **error)
{
  arm (desk);
  return hw_list_csv_save (HW_LIST_THREADS, desk->plan, desk->file, error);
}

static void
look_at_list (Desk *desk, Outcome outcome)
{
  g_autofree char *wanted = hw_list_csv_text (HW_LIST_THREADS, desk->plan);
  gboolean new = holds (desk->file, wanted);

  g_assert_true (new || holds (desk->file, "the old print"));
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

/* Another photo has the name already. */
static void
other_photo (Desk *desk)
{
  g_autofree char *path = g_build_filename (desk->home, "quay.jpg", NULL);

  put (path, "another quay");
}

static gboolean
copy_photo (Desk *desk, GError **error)
{
  g_autofree char *from = g_build_filename (desk->root, "camera", "quay.jpg", NULL);
  g_autofree char *name = NULL;
  gboolean copied;

  arm (desk);
  name = hw_photo_file_put_beside (from, desk->photo, desk->home, &copied, error);
  return name != NULL;
}

static void
look_at_photo (Desk *desk, Outcome outcome)
{
  g_autofree char *other = g_build_filename (desk->home, "quay.jpg", NULL);
  g_autofree char *path = g_build_filename (desk->home, "quay-2.jpg", NULL);
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (holds (other, "another quay"));
  if (g_file_get_contents (path, &bytes, &length, NULL))
    g_assert_cmpmem (bytes, length, g_bytes_get_data (desk->photo, NULL), PHOTO_SIZE);
  if (outcome != KILLED)
    g_assert_true ((bytes != NULL) == (outcome == DONE));
}

/* What is drawn of a plan, and the stitches of a hooping: by the path's ending. Returns: (transfer full) */
static char *
path_ending_in (Desk *desk, const char *ending)
{
  g_autofree char *name = g_strconcat ("harbour", ending, NULL);

  return g_build_filename (desk->home, name, NULL);
}

static gboolean
draw_anew (Desk *desk, const char *ending, GError **error)
{
  const HwPlanPictureOptions options = { .width = 60, .stage = -1 };
  g_autofree char *path = path_ending_in (desk, ending);

  put (path, "the old picture");
  arm (desk);
  return hw_plan_picture_save (desk->stitched, &options, path, error);
}

static gboolean
draw_svg (Desk *desk, GError **error)
{
  return draw_anew (desk, ".svg", error);
}

static gboolean
draw_png (Desk *desk, GError **error)
{
  return draw_anew (desk, ".png", error);
}

static gboolean
write_needles (Desk *desk, GError **error)
{
  g_autofree char *path = path_ending_in (desk, ".csv");
  g_autoptr (HwHoopingNeedles) needles = hw_hooping_needles_new (desk->stitched, 0, NULL, error);

  g_assert_nonnull (needles);
  put (path, "the old picture");
  arm (desk);
  return hw_hooping_needles_save (needles, path, error);
}

static void
look_at_ending (Desk *desk, Outcome outcome, const char *ending, const char *begins, const char *ends)
{
  g_autofree char *path = path_ending_in (desk, ending);
  g_autofree char *text = NULL;
  gsize length, tail = strlen (ends);
  gboolean old, new;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  old = g_str_equal (text, "the old picture");
  new = length > 100 && memcmp (text, begins, strlen (begins)) == 0
        && memcmp (text + length - tail, ends, tail) == 0;
  g_assert_true (old != new);
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static void
look_at_svg (Desk *desk, Outcome outcome)
{
  look_at_ending (desk, outcome, ".svg", "<?xml", "</svg>\n");
}

static void
look_at_png (Desk *desk, Outcome outcome)
{
  look_at_ending (desk, outcome, ".png", "\x89PNG", "\xae\x42\x60\x82"); /* the checksum of IEND */
}

static void
look_at_needles (Desk *desk, Outcome outcome)
{
  look_at_ending (desk, outcome, ".csv", "x_mm,y_mm,action,thread", "\n");
}

static const Way ways[] = {
  { "a-print", old_print, print_anew, look_at_print },
  { "a-list", old_print, list_anew, look_at_list },
  { "a-photo-copied", other_photo, copy_photo, look_at_photo },
  { "a-drawing-of-the-plan", bare, draw_svg, look_at_svg },
  { "a-picture-of-the-plan", bare, draw_png, look_at_png },
  { "the-stitches-of-a-hooping", bare, write_needles, look_at_needles },
};

int
main (int argc, char **argv)
{
  return each_way (argc, argv, ways, G_N_ELEMENTS (ways));
}
