/* Needle lists written: CSV by RFC 4180 and SVG by the W3C's recommendation, whose user unit is here one millimetre of the hoop's field. */
#include "needle-write.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "../geometry/language.h"
#include "csv-rows.h"
#include "whole-file.h"

G_DEFINE_QUARK (hw_needle_write_error_quark, hw_needle_write_error)

#define THREAD_WIDTH 0.4 /* mm: a 40 weight thread lying flat (common practice, no source) */
#define CROSS 5.0        /* mm: half the length of the centre's lines */

/* To a thousandth, without the zeros at its end. */
static void
append_mm (GString *text, double mm)
{
  long thousandths = lround (mm * 1000), size = labs (thousandths);
  char figure[48];
  int length = g_snprintf (figure, sizeof figure, "%s%ld.%03ld", thousandths < 0 ? "-" : "", size / 1000,
                           size % 1000);

  while (figure[length - 1] == '0')
    length--;
  if (figure[length - 1] == '.')
    length--;
  g_string_append_len (text, figure, length);
}

/* --- CSV */

char *
hw_needle_csv_text (const HwNeedleList *needles)
{
  static const char *const actions[] = { "stitch", "jump", "trim", "colour", "end" };
  GString *text;
  g_autoptr (GPtrArray) names = NULL;

  g_return_val_if_fail (needles != NULL, NULL);

  names = g_ptr_array_new_with_free_func (g_free);
  for (char **thread = needles->threads; *thread != NULL; thread++)
    {
      GString *name = g_string_new (NULL);

      hw_csv_append (name, *thread);
      g_ptr_array_add (names, g_string_free (name, FALSE));
    }
  text = g_string_sized_new ((gsize)needles->n_points * 28 + 64);
  g_string_append (text, "x_mm,y_mm,action,thread\r\n");
  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *point = &needles->points[i];

      append_mm (text, point->x);
      g_string_append_c (text, ',');
      append_mm (text, point->y);
      g_string_append_c (text, ',');
      g_string_append (text, actions[point->action]);
      g_string_append_c (text, ',');
      g_string_append (text, names->pdata[point->thread]);
      g_string_append (text, "\r\n");
    }
  return g_string_free (text, FALSE);
}

/* --- SVG */

/* A name as XML may hold it: what is no character of XML 1.0 becomes a space. */
static void
append_words (GString *text, const char *words)
{
  for (const char *c = words; *c != '\0'; c = g_utf8_next_char (c))
    {
      gunichar letter = g_utf8_get_char (c);

      if (letter < 0x20 || letter == 0x7f || letter == 0xfffe || letter == 0xffff)
        g_string_append_c (text, ' ');
      else if (letter == '&')
        g_string_append (text, "&amp;");
      else if (letter == '<')
        g_string_append (text, "&lt;");
      else if (letter == '>')
        g_string_append (text, "&gt;");
      else if (letter == '"')
        g_string_append (text, "&quot;");
      else
        g_string_append_unichar (text, letter);
    }
}

static void
append_figure (GString *text, const char *before, double mm, const char *after)
{
  g_string_append (text, before);
  append_mm (text, mm);
  g_string_append (text, after);
}

static void
append_head (GString *text, const HwHoopingNeedles *needles)
{
  const HwSnapshot *snapshot = needles->plan->snapshot;
  const HwHooping *hooping = &needles->plan->hoopings[needles->hooping];
  const HwHoop *hoop = hw_snapshot_hoop (snapshot, hooping->hoop);
  double width = hoop->field_width, height = hoop->field_height;

  g_string_append (text,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"");
  append_figure (text, " width=\"", width, "mm\"");
  append_figure (text, " height=\"", height, "mm\"");
  append_figure (text, " viewBox=\"", -width / 2, "");
  append_figure (text, " ", -height / 2, "");
  append_figure (text, " ", width, "");
  append_figure (text, " ", height, "\">\n  <title>");
  if (snapshot->name != NULL && *snapshot->name != '\0')
    {
      append_words (text, snapshot->name);
      g_string_append (text, ", ");
    }
  g_string_append_printf (text, _ ("hooping %u"), needles->hooping + 1);
  g_string_append (text, "</title>\n  <metadata>\n    <hooping xmlns=\"urn:hoopwright:needles\"");
  g_string_append_printf (text, " number=\"%u\" unit=\"mm\" hoop=\"", needles->hooping + 1);
  append_words (text, hoop->name);
  append_figure (text, "\" field_width=\"", width, "");
  append_figure (text, "\" field_height=\"", height, "");
  g_string_append_printf (text, "\" stitches=\"%u\" thread_changes=\"%u\"/>\n  </metadata>\n",
                          needles->needles->n_stitches, needles->thread_changes);
}

static void
append_hoop (GString *text, const HwHoop *hoop)
{
  append_figure (text,
                 "  <g id=\"field\" fill=\"none\" stroke=\"#8a8a84\" stroke-width=\"0.4\">\n    <rect x=\"",
                 -hoop->field_width / 2, "\"");
  append_figure (text, " y=\"", -hoop->field_height / 2, "\"");
  append_figure (text, " width=\"", hoop->field_width, "\"");
  append_figure (text, " height=\"", hoop->field_height, "\"/>\n  </g>\n");
  append_figure (text,
                 "  <g id=\"centre\" fill=\"none\" stroke=\"#8a8a84\" stroke-width=\"0.2\">\n    <path d=\"M",
                 -CROSS, " 0");
  append_figure (text, "H", CROSS, "M0 ");
  append_figure (text, "", -CROSS, "V");
  append_figure (text, "", CROSS, "\"/>\n  </g>\n");
}

static void
append_place (GString *text, const char *before, const HwNeedlePoint *point)
{
  g_string_append (text, before);
  append_mm (text, point->x);
  g_string_append_c (text, ' ');
  append_mm (text, point->y);
}

/* A line along the stitches, broken where the needle jumps. */
static void
append_stitches (GString *text, const HwNeedleList *needles, const HwNeedleBlock *block)
{
  gboolean open = FALSE;

  for (guint i = block->first; i < block->end; i++)
    {
      if (needles->points[i].action != HW_NEEDLE_STITCH)
        {
          open = FALSE;
          continue;
        }
      /* Before the first stitch of a list there is always a jump. */
      if (!open)
        append_place (text, "M", &needles->points[i - 1]);
      append_place (text, " ", &needles->points[i]);
      open = TRUE;
    }
}

static void
append_block (GString *text, const HwHoopingNeedles *needles, const HwNeedleBlock *block, guint number)
{
  g_autofree char *colour = hw_colour_text (needles->colours[block->thread]);

  g_string_append_printf (text, "    <path id=\"block-%u\" stroke=\"%s\" data-motif=\"", number, colour);
  append_words (text, hw_snapshot_motif (needles->plan->snapshot, block->motif)->name);
  g_string_append (text, "\" d=\"");
  append_stitches (text, needles->needles, block);
  g_string_append (text, "\"><title>");
  append_words (text, needles->needles->threads[block->thread]);
  g_string_append (text, "</title></path>\n");
}

char *
hw_needle_svg_text (const HwHoopingNeedles *needles)
{
  GString *text;

  g_return_val_if_fail (needles != NULL, NULL);

  text = g_string_sized_new ((gsize)needles->needles->n_points * 16 + 4096);
  append_head (text, needles);
  append_hoop (text,
               hw_snapshot_hoop (needles->plan->snapshot, needles->plan->hoopings[needles->hooping].hoop));
  append_figure (text, "  <g id=\"stitches\" fill=\"none\" stroke-width=\"", THREAD_WIDTH,
                 "\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n");
  for (guint b = 0; b < needles->n_blocks; b++)
    append_block (text, needles, &needles->blocks[b], b + 1);
  g_string_append (text, "  </g>\n</svg>\n");
  return g_string_free (text, FALSE);
}

/* --- Files */

gboolean
hw_needle_path_check (const char *path, GError **error)
{
  g_autofree char *name = NULL;

  g_return_val_if_fail (path != NULL, FALSE);

  if (hw_file_ends_in (path, ".csv") || hw_file_ends_in (path, ".svg"))
    return TRUE;
  name = hw_file_shown_name (path);
  g_set_error (error, HW_NEEDLE_WRITE_ERROR, HW_NEEDLE_WRITE_ERROR_ENDING,
               _ ("%s: a needle list is written to a file whose name ends in .csv or .svg."), name);
  return FALSE;
}

gboolean
hw_hooping_needles_save (const HwHoopingNeedles *needles, const char *path, GError **error)
{
  g_autofree char *text = NULL, *name = NULL;
  g_autoptr (GError) problem = NULL;

  g_return_val_if_fail (needles != NULL && path != NULL, FALSE);

  if (!hw_needle_path_check (path, error))
    return FALSE;
  text
      = hw_file_ends_in (path, ".csv") ? hw_needle_csv_text (needles->needles) : hw_needle_svg_text (needles);
  if (hw_file_replace_whole (path, text, strlen (text), &problem))
    return TRUE;
  name = hw_file_shown_name (path);
  g_set_error (error, HW_NEEDLE_WRITE_ERROR, HW_NEEDLE_WRITE_ERROR_WRITE, "%s: %s", name, problem->message);
  return FALSE;
}
