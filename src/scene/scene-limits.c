/* The counts of a scene and the lengths of its texts, each with the sentence that says it is too much. */
#include "scene-limits.h"

#include <string.h>

#include "../geometry/language.h"

gboolean
hw_text_is_too_long (const char *text)
{
  /* Most texts need not be counted: a letter takes a byte at least. */
  return text != NULL && strlen (text) > HW_LONGEST_TEXT && g_utf8_strlen (text, -1) > HW_LONGEST_TEXT;
}

#define REFUSE_OVER(list, most, sentence)                                                                    \
  if ((list)->len > (most))                                                                                  \
  return g_strdup_printf (sentence, (guint)(most), (list)->len)

static char *
too_many_things (const HwSnapshot *scene)
{
  REFUSE_OVER (
      scene->motifs, HW_MOST_MOTIFS,
      _ ("A scene holds at most %u motifs, and this would be %u. Put the others into a second scene."));
  REFUSE_OVER (scene->hoops, HW_MOST_HOOPS,
               _ ("A scene holds at most %u hoops, and this would be %u. Remove those that are not used."));
  REFUSE_OVER (scene->photos, HW_MOST_PHOTOS,
               _ ("A scene holds at most %u photos, and this would be %u. Remove the oldest first."));
  REFUSE_OVER (
      scene->palette, HW_MOST_PALETTE_THREADS,
      _ ("A scene holds at most %u threads at hand, and this would be %u. Remove those that are used up."));
  REFUSE_OVER (scene->parts, HW_MOST_PARTS,
               _ ("A scene has at most %u parts, and this would be %u. Join some of them first."));
  REFUSE_OVER (
      scene->apart, HW_MOST_APART,
      _ ("At most %u pairs of motifs can be kept apart, and this would be %u. Let go of some first."));
  REFUSE_OVER (scene->held_marks, HW_MOST_HELD_MARKS,
               _ ("A scene holds at most %u marks of your own, and this would be %u. Let go of some first."));
  return NULL;
}

static char *
long_text (const char *text)
{
  g_autofree char *beginning = NULL;

  if (!hw_text_is_too_long (text))
    return NULL;
  beginning = g_utf8_substring (text, 0, 20);
  return g_strdup_printf (
      _ ("The text that begins \"%s\" has %ld letters, and a name or a note has at most %d. "
         "Shorten it."),
      beginning, g_utf8_strlen (text, -1), HW_LONGEST_TEXT);
}

static char *
too_much_of_a_motif (const HwMotif *motif)
{
  guint64 stitches = 0;
  char *sentence = long_text (motif->name);

  if (sentence == NULL)
    sentence = long_text (motif->note);
  for (guint i = 0; i < motif->n_threads && sentence == NULL; i++)
    {
      stitches += motif->threads[i].stitches;
      sentence = long_text (motif->threads[i].name);
    }
  if (sentence == NULL && stitches > HW_MOST_STITCHES)
    sentence = g_strdup_printf (_ ("%s would have %.0f stitches, and a motif has at most %u. "
                                   "Divide it into two."),
                                motif->name, (double)stitches, HW_MOST_STITCHES);
  return sentence;
}

static char *
too_much_of_a_photo (const HwPhoto *photo)
{
  if (photo->n_points > HW_MOST_PHOTO_POINTS)
    return g_strdup_printf (
        _ ("A photo has at most %u known points, and this would be %u. Remove those that add nothing."),
        HW_MOST_PHOTO_POINTS, photo->n_points);
  return long_text (photo->name);
}

static char *
too_much_of_one (const HwSnapshot *scene)
{
  char *sentence = long_text (scene->name);

  for (guint i = 0; i < scene->hoops->len && sentence == NULL; i++)
    sentence = long_text (hw_snapshot_hoop (scene, i)->name);
  for (guint i = 0; i < scene->motifs->len && sentence == NULL; i++)
    sentence = too_much_of_a_motif (hw_snapshot_motif (scene, i));
  for (guint i = 0; i < scene->photos->len && sentence == NULL; i++)
    sentence = too_much_of_a_photo (scene->photos->pdata[i]);
  for (guint i = 0; i < scene->parts->len && sentence == NULL; i++)
    sentence = long_text (((const HwPart *)scene->parts->pdata[i])->name);
  for (guint i = 0; i < scene->palette->len && sentence == NULL; i++)
    {
      const HwPaletteThread *thread = scene->palette->pdata[i];

      sentence = long_text (thread->name);
      if (sentence == NULL)
        sentence = long_text (thread->number);
    }
  return sentence;
}

char *
hw_scene_too_much (const HwSnapshot *snapshot)
{
  char *sentence;

  g_return_val_if_fail (snapshot != NULL, NULL);

  sentence = too_many_things (snapshot);
  return sentence != NULL ? sentence : too_much_of_one (snapshot);
}
