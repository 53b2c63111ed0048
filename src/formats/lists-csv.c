/* The lists of a plan as CSV. What a cell from a stranger's file may do in a spreadsheet, and the apostrophe that keeps it words: OWASP, "CSV
 * Injection" (owasp.org, community attacks). */
#include "lists-csv.h"

#include <math.h>
#include <string.h>

#include "../planning/mark-list.h"
#include "../planning/parts-hoopings.h"
#include "../planning/supplies.h"
#include "../scene/thread-needs.h"
#include "csv-rows.h"
#include "whole-file.h"

#define SAME_PLACE 0.05 /* mm */

static const char *const nicks[HW_N_LISTS] = { "hoopings", "threads", "marks", "shopping" };

const char *
hw_list_nick (HwListKind kind)
{
  g_return_val_if_fail ((guint)kind < HW_N_LISTS, NULL);

  return nicks[kind];
}

int
hw_list_find (const char *nick)
{
  g_return_val_if_fail (nick != NULL, -1);

  for (int k = 0; k < HW_N_LISTS; k++)
    if (g_str_equal (nicks[k], nick))
      return k;
  return -1;
}

/* --- Fields: a comma follows each, and the last one's is taken back */

static void
end_field (GString *text)
{
  g_string_append_c (text, ',');
}

static void
end_row (GString *text)
{
  g_string_truncate (text, text->len - 1);
  g_string_append (text, "\r\n");
}

/* Whether a spreadsheet may take the words for a formula; it passes over spaces before them. */
static gboolean
looks_like_formula (const char *words)
{
  while (*words == ' ')
    words++;
  return *words != '\0' && strchr ("=+-@\t\r\n", *words) != NULL;
}

static void
add_words (GString *text, const char *words)
{
  g_autofree char *guarded
      = words != NULL && looks_like_formula (words) ? g_strconcat ("'", words, NULL) : NULL;

  if (words != NULL)
    hw_csv_append (text, guarded != NULL ? guarded : words);
  end_field (text);
}

/* Without zeros at its end. NAN: empty */
static void
add_figure (GString *text, double value, int decimals)
{
  g_autofree char *format = g_strdup_printf ("%%.%df", decimals);
  char figure[400]; /* the longest double has 309 digits */
  gsize length;

  if (isfinite (value))
    {
      g_ascii_formatd (figure, sizeof figure, format, value);
      length = strlen (figure);
      while (decimals > 0 && figure[length - 1] == '0')
        length--;
      if (figure[length - 1] == '.')
        length--;
      if (length == 2 && strncmp (figure, "-0", 2) == 0)
        g_string_append_c (text, '0');
      else
        g_string_append_len (text, figure, (gssize)length);
    }
  end_field (text);
}

static void
add_mm (GString *text, double mm)
{
  add_figure (text, mm, 3);
}

static void
add_count (GString *text, guint64 count)
{
  g_string_append_printf (text, "%" G_GUINT64_FORMAT ",", count);
}

static void
add_nothing (GString *text, guint fields)
{
  for (guint i = 0; i < fields; i++)
    end_field (text);
}

static void
add_colour (GString *text, HwColour colour)
{
  g_autofree char *hex = hw_colour_text (colour);

  g_string_append (text, hex);
  end_field (text);
}

/* --- Hoopings */

static char *
names_of_motifs (const HwPlan *plan, const HwHooping *hooping)
{
  GString *names = g_string_new (NULL);

  for (guint m = 0; m < hooping->n_motifs; m++)
    g_string_append_printf (names, "%s%s", m > 0 ? "; " : "",
                            hw_snapshot_motif (plan->snapshot, hooping->motifs[m])->name);
  return g_string_free (names, FALSE);
}

/* Of one that is stitched already: nothing. */
static void
add_taken (GString *text, const HwHoopingSupplies *taken)
{
  if (taken == NULL)
    {
      add_nothing (text, 6);
      return;
    }
  add_figure (text, taken->needle_metres, 2);
  add_figure (text, taken->bobbin_metres, 2);
  add_words (text, taken->bobbin_runs_out ? "yes" : "no");
  add_count (text, taken->sheets);
  add_mm (text, taken->piece_width);
  add_mm (text, taken->piece_height);
}

static void
add_hooping (GString *text, const HwSupplies *supplies, guint index, const char *part)
{
  static const char *const holds[] = { "planned", "pinned", "stitched" }; /* as HwPlaceHold */
  const HwPlan *plan = supplies->plan;
  const HwHooping *hooping = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  g_autofree char *motifs = names_of_motifs (plan, hooping);

  add_count (text, index + 1);
  add_words (text, holds[hooping->hold]);
  add_words (text, part);
  add_words (text, hoop->name);
  add_mm (text, hoop->field_width);
  add_mm (text, hoop->field_height);
  add_mm (text, hoop->frame_width);
  add_mm (text, hoop->frame_height);
  add_mm (text, hooping->centre.x);
  add_mm (text, hooping->centre.y);
  add_figure (text, hooping->angle, 4);
  add_words (text, motifs);
  add_count (text, hooping->stitches);
  add_count (text, hooping->thread_changes);
  add_figure (text, hooping->minutes, 1);
  add_taken (text, hw_supplies_of_hooping (supplies, index));
  end_row (text);
}

static void
add_hoopings (GString *text, const HwPlan *plan)
{
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);
  g_autofree int *parts = hw_plan_parts (plan);

  g_string_append (
      text,
      "hooping,state,part,hoop,field_width_mm,field_height_mm,frame_width_mm,frame_height_mm,"
      "centre_x_mm,centre_y_mm,angle_deg,motifs,stitches,thread_changes,minutes,needle_thread_m,"
      "bobbin_thread_m,full_bobbin_first,stabiliser_sheets,stabiliser_width_mm,stabiliser_height_mm\r\n");
  for (guint h = 0; h < plan->n_hoopings; h++)
    add_hooping (text, supplies, h,
                 parts[h] >= 0 ? ((const HwPart *)plan->snapshot->parts->pdata[parts[h]])->name : NULL);
}

/* --- Threads */

/* "1 3 4": the hoopings still to be stitched that take the thread. */
static char *
hoopings_with (const HwPlan *plan, const char *name, HwColour colour)
{
  GString *numbers = g_string_new (NULL);

  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      g_autoptr (GArray) steps = hw_plan_steps (plan, h);
      gboolean takes = FALSE;

      for (guint s = 0; s < steps->len && !takes; s++)
        {
          const HwBlockStep *step = &g_array_index (steps, HwBlockStep, s);
          const HwThreadBlock *block = &hw_snapshot_motif (plan->snapshot, step->motif)->threads[step->block];

          takes = g_strcmp0 (block->name, name) == 0 && hw_colour_equal (block->colour, colour);
        }
      if (takes && plan->hoopings[h].hold != HW_PLACE_FROZEN)
        g_string_append_printf (numbers, "%s%u", numbers->len > 0 ? " " : "", h + 1);
    }
  return g_string_free (numbers, FALSE);
}

static void
add_threads (GString *text, const HwPlan *plan)
{
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);

  g_string_append (text, "thread,colour,stitches,needle_thread_m,bobbin_thread_m,hoopings\r\n");
  for (guint i = 0; i < supplies->threads->len; i++)
    {
      const HwThreadUse *use = supplies->threads->pdata[i];
      g_autofree char *hoopings = hoopings_with (plan, use->name, use->colour);

      add_words (text, use->name);
      add_colour (text, use->colour);
      add_count (text, use->stitches);
      add_figure (text, use->metres, 2);
      add_figure (text, use->bobbin_metres, 2);
      add_words (text, hoopings);
      end_row (text);
    }
}

/* --- Marks */

static gboolean
is_held (const HwSnapshot *snapshot, HwPoint at)
{
  for (guint i = 0; i < snapshot->held_marks->len; i++)
    if (hw_point_distance (((const HwHeldMark *)snapshot->held_marks->pdata[i])->at, at) < SAME_PLACE)
      return TRUE;
  return FALSE;
}

static void
add_mark (GString *text,
          const HwPlan *plan,
          guint index,
          const char *name,
          HwPoint at,
          HwPoint corner,
          const char *by)
{
  const HwHooping *hooping = &plan->hoopings[index];
  HwPoint in_hoop
      = hw_point_turn ((HwPoint){ at.x - hooping->centre.x, at.y - hooping->centre.y }, -hooping->angle);

  add_count (text, index + 1);
  add_words (text, name);
  add_mm (text, at.x);
  add_mm (text, at.y);
  add_mm (text, at.x - corner.x);
  add_mm (text, at.y - corner.y);
  add_mm (text, in_hoop.x);
  add_mm (text, in_hoop.y);
  add_words (text, by);
  end_row (text);
}

/* Those of the hoopings still to be stitched; a mark that serves several is told for each, since it lies elsewhere in each hoop. */
static void
add_marks (GString *text, const HwPlan *plan)
{
  g_autoptr (HwMarkList) list = hw_mark_list_new (plan);

  g_string_append (text, "hooping,mark,x_mm,y_mm,corner_right_mm,corner_down_mm,hoop_right_mm,"
                         "hoop_towards_you_mm,placed_by\r\n");
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &plan->hoopings[h];

      if (hooping->hold == HW_PLACE_FROZEN)
        continue;
      add_mark (text, plan, h, "centre", hooping->centre, list->corner, "plan");
      for (guint m = 0; m < hooping->n_marks; m++)
        add_mark (text, plan, h, hooping->marks[m].letter, hooping->marks[m].at, list->corner,
                  is_held (plan->snapshot, hooping->marks[m].at) ? "hand" : "plan");
    }
}

/* --- What to buy */

static void
add_purchases (GString *text, const HwSnapshot *snapshot)
{
  g_autoptr (GPtrArray) needs = hw_thread_needs (snapshot, snapshot->palette);
  g_autoptr (GPtrArray) purchases = hw_thread_purchases (needs, snapshot->palette);

  for (guint i = 0; i < purchases->len; i++)
    {
      const HwThreadPurchase *purchase = purchases->pdata[i];

      add_words (text, "thread");
      add_words (text, purchase->name);
      add_words (text, purchase->number);
      add_colour (text, purchase->colour);
      add_figure (text, purchase->metres, 2);
      add_words (text, "m");
      add_nothing (text, 1);
      add_words (text, purchase->thread >= 0 ? "too little left" : "not at hand");
      end_row (text);
    }
}

/* What has neither name nor colour. width: mm, of what is sold by its length; else NAN. */
static void
add_other (GString *text, const char *item, double amount, const char *unit, double width, const char *why)
{
  add_words (text, item);
  add_nothing (text, 3);
  add_figure (text, amount, 3);
  add_words (text, unit);
  add_mm (text, width);
  add_words (text, why);
  end_row (text);
}

static void
add_shopping (GString *text, const HwPlan *plan)
{
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);

  g_string_append (text, "item,name,number,colour,amount,unit,width_mm,why\r\n");
  add_purchases (text, plan->snapshot);
  if (supplies->n_hoopings == 0)
    return;
  add_other (text, "bobbin thread", supplies->bobbin_metres, "m", NAN, "under all that is still stitched");
  add_other (text, "full bobbins", supplies->bobbins, "pieces", NAN,
             "none runs out inside a hooping that one suffices for");
  if (supplies->roll_length > 0)
    add_other (text, "stabiliser", supplies->roll_length / 1000, "m", supplies->roll_width,
               "pieces side by side across the roll");
  add_other (text, "cloth", supplies->cloth_height / 1000, "m", supplies->cloth_width,
             "with what lies around the picture and what is drawn in");
  add_other (text, "needles", supplies->needles, "pieces", NAN, "a worn one is changed");
}

char *
hw_list_csv_text (HwListKind kind, const HwPlan *plan)
{
  GString *text;

  g_return_val_if_fail ((guint)kind < HW_N_LISTS && plan != NULL, NULL);

  text = g_string_new (NULL);
  switch (kind)
    {
    case HW_LIST_HOOPINGS:
      add_hoopings (text, plan);
      break;
    case HW_LIST_THREADS:
      add_threads (text, plan);
      break;
    case HW_LIST_MARKS:
      add_marks (text, plan);
      break;
    case HW_LIST_SHOPPING:
      add_shopping (text, plan);
      break;
    }
  return g_string_free (text, FALSE);
}

gboolean
hw_list_csv_save (HwListKind kind, const HwPlan *plan, const char *path, GError **error)
{
  g_autofree char *text = hw_list_csv_text (kind, plan), *name = NULL;
  g_autoptr (GError) problem = NULL;

  g_return_val_if_fail (path != NULL, FALSE);

  if (hw_file_replace_whole (path, text, strlen (text), &problem))
    return TRUE;
  name = hw_file_shown_name (path);
  g_set_error (error, G_FILE_ERROR, problem->code, "%s: %s", name, problem->message);
  return FALSE;
}
