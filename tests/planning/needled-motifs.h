/* Motifs with little needle lists, and plans of one hooping laid by hand. */
#pragma once

#include <string.h>

#include "little-scenes.h"

#include "../../src/planning/hooping-needles.h"

/* A list from "j 0 0 moss, s 1 0 moss, t 1 0 moss, c 1 0 pine": jump, stitch, trim, colour, end. */
static inline HwNeedleList *
needles_of (const char *text)
{
  static const char letters[] = "sjtce"; /* as HwNeedleAction */
  g_auto (GStrv) rows = g_strsplit (text, ", ", -1);
  GArray *points = g_array_new (FALSE, FALSE, sizeof (HwNeedlePoint));
  GPtrArray *threads = g_ptr_array_new ();

  for (char **row = rows; *row != NULL; row++)
    {
      g_auto (GStrv) fields = g_strsplit (*row, " ", 4);
      guint thread = 0;
      HwNeedlePoint point = { .x = (float)g_ascii_strtod (fields[1], NULL),
                              .y = (float)g_ascii_strtod (fields[2], NULL),
                              .action = (guint8)(strchr (letters, fields[0][0]) - letters) };

      if (!g_ptr_array_find_with_equal_func (threads, fields[3], g_str_equal, &thread))
        {
          thread = threads->len;
          g_ptr_array_add (threads, g_strdup (fields[3]));
        }
      point.thread = (guint16)thread;
      g_array_append_val (points, point);
    }
  g_ptr_array_add (threads, NULL);
  guint n = points->len;
  return hw_needle_list_new ((HwNeedlePoint *)(gpointer)g_array_free (points, FALSE), n,
                             (char **)g_ptr_array_free (threads, FALSE));
}

/* "j 0 0 moss, s 1 0 moss", with up to three decimals. Returns: (transfer full) */
static inline char *
text_of_needles (const HwNeedleList *list)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < list->n_points; i++)
    g_string_append_printf (text, "%s%c %.6g %.6g %s", i > 0 ? ", " : "", "sjtce"[list->points[i].action],
                            list -> points[i].x + 0.0, list->points[i].y + 0.0,
                            list->threads[list->points[i].thread]);
  return g_string_free (text, FALSE);
}

/* threads: "moss:#335522:2; pine:#112211:1": name, colour, stitches. */
static inline HwMotif *
needled_motif (
    HwSnapshot *scene, const char *name, double x, double y, const char *threads, const char *needles)
{
  HwMotif *motif = little_motif (scene, name, 20, 20, x, y);
  g_auto (GStrv) words = g_strsplit (threads, "; ", -1);

  motif->n_threads = g_strv_length (words);
  motif->threads = g_new0 (HwThreadBlock, motif->n_threads);
  for (guint t = 0; t < motif->n_threads; t++)
    {
      g_auto (GStrv) fields = g_strsplit (words[t], ":", 3);

      motif->threads[t].name = g_strdup (fields[0]);
      g_assert_true (hw_colour_parse (fields[1], &motif->threads[t].colour));
      motif->threads[t].stitches = (guint)g_ascii_strtoull (fields[2], NULL, 10);
    }
  motif->needles = needles != NULL ? needles_of (needles) : NULL;
  return motif;
}

/* All motifs in one hooping of the first hoop, in list order. */
static inline HwPlan *
one_hooping (HwSnapshot *scene, double x, double y, double angle)
{
  HwPlan *plan = hw_plan_new (scene);

  plan->hoopings = g_new0 (HwHooping, 1);
  plan->n_hoopings = 1;
  plan->hoopings[0].centre = (HwPoint){ x, y };
  plan->hoopings[0].angle = angle;
  plan->hoopings[0].n_motifs = scene->motifs->len;
  plan->hoopings[0].motifs = g_new (guint, scene->motifs->len + 1);
  for (guint m = 0; m < scene->motifs->len; m++)
    plan->hoopings[0].motifs[m] = m;
  hw_plan_count (plan);
  return plan;
}

/* Gives the hooping's blocks an order of their own: "0.0 1.0 0.1" are motif.block. */
static inline void
mix_blocks (HwPlan *plan, const char *order)
{
  g_auto (GStrv) words = g_strsplit (order, " ", -1);
  HwHooping *hooping = &plan->hoopings[0];

  hooping->n_steps = g_strv_length (words);
  hooping->steps = g_new0 (HwBlockStep, hooping->n_steps);
  for (guint s = 0; s < hooping->n_steps; s++)
    hooping->steps[s] = (HwBlockStep){ (guint)(words[s][0] - '0'), (guint)(words[s][2] - '0') };
  hw_plan_count (plan);
}
