/* What the search for drawn crosses is worth: photographs as a telephone takes them, made up (tests/registration/marked-photo.h), each with one cross somewhere
 * about its place, and as many without one but with something that may be taken for it. Prints for each light how many crosses were believed and by how much these
 * lie off, how many were missed, how many were believed wrongly (farther off than WRONG, or where none was drawn), and the same at other demands on the confidence.
 * Arguments: photos for each line (default 200), a part of the lines' names to have only these; --seed as in every test. */
#include <stdlib.h>

#include "../../src/workbench/photo-marks.h"
#include "../registration/marked-photo.h"

#define WRONG 0.6   /* mm: farther off it is another thing */
#define AROUND 10.0 /* mm */
#define ASTRAY 6.0  /* mm across and along that the cloth lies off */

static const char *only;

static const double demands[] = { 0.2, 0.35, 0.5, 0.65, 0.8, 0.9 };

typedef struct
{
  guint n, believed, wrong, at[G_N_ELEMENTS (demands)], wrong_at[G_N_ELEMENTS (demands)];
  double squares, worst, expected, chi;
} Tally;

static gboolean
look (const HwPicture *picture, const ClothPhoto *photo, HwPoint place, HwSeenMark *mark)
{
  HwKnownPlace known = { HW_KNOWN_MARK, (char *)"A", place };
  g_autoptr (GPtrArray) places = g_ptr_array_new ();
  g_autoptr (GArray) seen = NULL;

  g_ptr_array_add (places, &known);
  seen = hw_photo_look_for_marks (picture, &photo->view, places, AROUND, NULL);
  if (seen->len == 0)
    return FALSE;
  *mark = g_array_index (seen, HwSeenMark, 0);
  return TRUE;
}

static void
count (Tally *tally, const HwSeenMark *mark, double off)
{
  for (guint i = 0; i < G_N_ELEMENTS (demands); i++)
    if (mark->found.confidence >= demands[i])
      {
        tally->at[i]++;
        tally->wrong_at[i] += off > WRONG;
      }
  if (!hw_seen_mark_is_sure (mark))
    return;
  tally->believed++;
  if (off > WRONG)
    {
      tally->wrong++;
      return;
    }
  tally->squares += off * off;
  tally->worst = MAX (tally->worst, off);
  tally->expected += 2 * mark->sigma * mark->sigma;
  tally->chi += off * off / (2 * mark->sigma * mark->sigma);
}

static void
say (const char *name, const Tally *tally)
{
  guint right = tally->believed - tally->wrong;

  printf ("%-28s %5u  %5.1f %%  %3u", name, tally->n, 100.0 * tally->believed / tally->n, tally->wrong);
  if (right > 0)
    printf ("   %.3f  %.3f  %.3f  %.2f", sqrt (tally->squares / right), tally->worst,
            sqrt (tally->expected / right), sqrt (tally->chi / right));
  printf ("\n    at");
  for (guint i = 0; i < G_N_ELEMENTS (demands); i++)
    printf ("  %.2f: %u (%u)", demands[i], tally->at[i], tally->wrong_at[i]);
  printf ("\n");
  fflush (stdout);
}

static void
with_crosses (const MarkedLight *light, guint n)
{
  Tally tally = { .n = n };

  for (guint i = 0; i < n; i++)
    {
      ClothPhoto photo = marked_cloth (light);
      HwPoint at = marked_place (&photo, 2), place;
      g_autoptr (HwPicture) picture = NULL;
      HwSeenMark mark;

      marked_pen (&photo, light);
      marked_cross (&photo, at);
      if (g_test_rand_bit ())
        marked_letter (&photo, at);
      place = (HwPoint){ at.x + g_test_rand_double_range (-ASTRAY, ASTRAY),
                         at.y + g_test_rand_double_range (-ASTRAY, ASTRAY) };
      picture = marked_photo (&photo, light->quality);
      if (look (picture, &photo, place, &mark))
        count (&tally, &mark, hw_point_distance (hw_homography_apply (&photo.view, mark.found.px), at));
    }
  say (light->name, &tally);
}

static void
without (MarkedBait bait, guint n)
{
  Tally tally = { .n = n };

  for (guint i = 0; i < n; i++)
    {
      const MarkedLight *light = &marked_lights[i % G_N_ELEMENTS (marked_lights)];
      ClothPhoto photo = marked_cloth (light);
      g_autoptr (HwPicture) picture = NULL;
      HwSeenMark mark;

      marked_pen (&photo, light);
      marked_bait (&photo, bait, marked_place (&photo, 4));
      picture = marked_photo (&photo, light->quality);
      if (look (picture, &photo, marked_place (&photo, 2), &mark))
        count (&tally, &mark, HUGE_VAL);
    }
  say (marked_baits[bait], &tally);
}

static gboolean
is_wanted (const char *name)
{
  return only == NULL || strstr (name, only) != NULL;
}

int
main (int argc, char **argv)
{
  guint n;

  g_test_init (&argc, &argv, NULL);
  only = argc > 2 ? argv[2] : NULL;
  n = argc > 1 ? (guint)MAX (atoi (argv[1]), 1) : 200;
  printf ("%-28s %5s  %s  %s   %s  %s  %s  %s\n", "with a cross", "n", "believed", "wrong", "rms mm", "worst",
          "said", "chi");
  for (guint i = 0; i < G_N_ELEMENTS (marked_lights); i++)
    if (is_wanted (marked_lights[i].name))
      with_crosses (&marked_lights[i], n);
  printf ("without one\n");
  for (guint i = 0; i < N_BAITS; i++)
    if (is_wanted (marked_baits[i]))
      without (i, n);
  return 0;
}
