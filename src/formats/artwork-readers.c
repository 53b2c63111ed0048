/* Many artwork files read side by side, by a few threads that take one after the other. */
#include "artwork-shelf.h"

#include "../geometry/language.h"

#define MOST_READERS 4 /* threads: more wait for the disk or for memory */

typedef struct
{
  HwArtworkShelf *shelf;
  const char *folder;
  GPtrArray *motifs;
  const HwLanguage *language;
  gint next;
  gint *n_read;
  GCancellable *cancellable;
} Reading;

static gpointer
read_thread (gpointer data)
{
  Reading *reading = data;
  const HwLanguage *before = hw_language_enter (reading->language);

  for (;;)
    {
      guint i = (guint)g_atomic_int_add (&reading->next, 1);

      if (i >= reading->motifs->len || g_cancellable_is_cancelled (reading->cancellable))
        break;
      g_autoptr (HwMotif) motif = hw_motif_copy (reading->motifs->pdata[i]);
      hw_artwork_shelf_fill (reading->shelf, reading->folder, motif);
      if (reading->n_read != NULL)
        g_atomic_int_inc (reading->n_read);
    }
  hw_language_leave (before);
  return NULL;
}

void
hw_artwork_shelf_read (
    HwArtworkShelf *shelf, const char *folder, GPtrArray *motifs, gint *n_read, GCancellable *cancellable)
{
  Reading reading = { .shelf = shelf,
                      .folder = folder,
                      .motifs = motifs,
                      .language = hw_language_now (),
                      .n_read = n_read,
                      .cancellable = cancellable };
  GThread *others[MOST_READERS];
  guint n_others;

  g_return_if_fail (shelf != NULL && motifs != NULL);

  n_others = MIN (MIN (g_get_num_processors (), MOST_READERS), MAX (motifs->len, 1)) - 1;
  for (guint i = 0; i < n_others; i++)
    others[i] = g_thread_new ("artwork", read_thread, &reading);
  read_thread (&reading);
  for (guint i = 0; i < n_others; i++)
    g_thread_join (others[i]);
}
