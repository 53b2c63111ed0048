/* hoopwright square: from known points of a photo to how it lies on the cloth, and the photo put square. */
#include "command-scene.h"

#include <math.h>

#include "../geometry/language.h"
#include "../formats/picture-load.h"
#include "../formats/points-json.h"
#include "../scene/limits.h"

#define USUAL_DPI 100.0

typedef struct
{
  gboolean help;
  char *output;
  char *dpi_text;
  char **rest;
  double dpi;
} Words;

static void
words_clear (Words *words)
{
  g_free (words->output);
  g_free (words->dpi_text);
  g_strfreev (words->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, words_clear)

static GOptionContext *
make_context (Words *words)
{
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &words->output, N_ ("Also write the photo put square"),
      N_ ("FILE.png") },
    { "dpi", 'd', 0, G_OPTION_ARG_STRING, &words->dpi_text, N_ ("Its dots per inch of cloth (100)"),
      N_ ("N") },
    { "help", 'h', 0, G_OPTION_ARG_NONE, &words->help, N_ ("Show this help"), NULL },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &words->rest, NULL, NULL },
    { NULL },
  };
  g_autofree char *files = g_strdup_printf ("%s %s", _ ("PHOTO"), _ ("POINTS.json"));
  GOptionContext *context = g_option_context_new (files);

  /* Help of one's own: GLib's would end the program itself. */
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_summary (
      context, _ ("Finds from known points how a photo lies on the cloth, and prints it as JSON."));
  g_option_context_set_description (
      context,
      _ ("POINTS.json holds {\"points\": [{\"px\": [812.5, 640], \"mm\": [60, 40]}, …]}: four points or "
         "more, "
         "each with its "
         "place in the photo and on the cloth. Pixels are counted in the photo as it is seen upright, from "
         "its "
         "top left "
         "corner; the middle of the first pixel is 0.5, 0.5. Optional are \"bow\" (of the lens: a number, or "
         "\"fit\" with six "
         "points or more), \"box\" (left, top, width and height in millimetres of what FILE.png shows; else "
         "the box "
         "around the points) and \"lines\" (lists of places in the photo that lie on one straight line of "
         "the cloth). It ends with 0 when there is an answer, and with 2 when the input cannot be used."));
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  return context;
}

static gboolean
read_dpi (Words *words)
{
  char *end = NULL;

  words->dpi = USUAL_DPI;
  if (words->dpi_text == NULL)
    return TRUE;
  words->dpi = g_ascii_strtod (words->dpi_text, &end);
  if (end != words->dpi_text && *end == '\0' && words->dpi >= 1 && words->dpi <= HW_GREATEST_DPI)
    return TRUE;
  hw_command_complain (_ ("--dpi: expected dots per inch from 1 to 2400, found \"%s\"."), words->dpi_text);
  return FALSE;
}

/* FALSE when there is nothing more to do. */
static gboolean
read_line (Words *words, int argc, char **argv, int *status)
{
  g_autoptr (GOptionContext) context = make_context (words);
  guint n;

  if (!hw_command_parse (context, &words->help, argc, argv, status))
    return FALSE;
  n = words->rest != NULL ? g_strv_length (words->rest) : 0;
  if (n == 2)
    return read_dpi (words);
  hw_command_complain (
      _ ("square: name the photo and POINTS.json, found %u. hoopwright square --help says more."), n);
  return FALSE;
}

static gboolean
back_to_photo (double x_mm, double y_mm, double *x_px, double *y_px, gpointer data)
{
  HwPoint px;

  if (!hw_homography_back (data, (HwPoint){ x_mm, y_mm }, &px))
    return FALSE;
  *x_px = px.x;
  *y_px = px.y;
  return TRUE;
}

static HwBox
box_of_points (const HwKnownPoints *known)
{
  HwBox box = HW_BOX_EMPTY;

  for (guint i = 0; i < known->n_points; i++)
    box = hw_box_union (box, hw_box_of_points (&known->points[i].mm, 1));
  return box;
}

static gboolean
write_squared (
    const Words *words, const HwPicture *photo, const HwKnownPoints *known, HwHomography *h, GError **error)
{
  HwBox box = hw_box_is_empty (known->box) ? box_of_points (known) : known->box;
  g_autoptr (HwPicture) squared = hw_picture_squared (photo, box.x0, box.y0, box.x1 - box.x0, box.y1 - box.y0,
                                                      words->dpi, back_to_photo, h, error);

  return squared != NULL && hw_picture_save_png (squared, words->output, error);
}

int
hw_command_square (int argc, char **argv)
{
  g_auto (Words) words = { 0 };
  g_autoptr (HwKnownPoints) known = NULL;
  g_autoptr (HwPicture) photo = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree double *residuals = NULL;
  g_autofree char *text = NULL;
  HwHomography h;
  double bad_by;
  int status, bad_point;

  if (!read_line (&words, argc, argv, &status))
    return status;
  known = hw_known_points_load (words.rest[1], &error);
  if (known == NULL)
    return hw_command_complain ("%s", error->message);
  photo = hw_picture_load (words.rest[0], &error);
  if (photo == NULL || !hw_known_points_check (known, photo->width, photo->height, &error))
    return hw_command_complain ("%s", error->message);
  residuals = g_new0 (double, known->n_points);
  if (!hw_homography_fit (known->points, known->n_points, photo->width, photo->height, known->bow,
                          known->fit_bow, &h, residuals, &error))
    return hw_command_complain ("%s: %s", known->name, error->message);
  bad_point
      = hw_homography_bad_point (known->points, known->n_points, &h, photo->width, photo->height, &bad_by);
  if (words.output != NULL && !write_squared (&words, photo, known, &h, &error))
    return hw_command_complain ("%s", error->message);
  text = hw_square_json_text (known, &h, residuals, bad_point, bad_by);
  return hw_command_output (text, 0);
}
