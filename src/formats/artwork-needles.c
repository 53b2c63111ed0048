/* A needle list as artwork: its outline from what is stitched, its thread blocks from the threads it names, in stitching order. A list tells no colours; threads
 * whose name is no colour either get natural ones to begin with. */

#include "artwork-private.h"
#include "needle-csv.h"
#include "stitched-area.h"
#include "../geometry/language.h"
#include "../geometry/one-line.h"

/* One block for each run of a thread. */
static void
set_threads (HwArtwork *artwork, const HwNeedleList *needles)
{
  g_autoptr (GArray) blocks = g_array_new (TRUE, TRUE, sizeof (HwThreadBlock));
  int current = -1;

  for (guint i = 0; i < needles->n_points; i++)
    {
      const HwNeedlePoint *p = &needles->points[i];

      if (p->action != HW_NEEDLE_STITCH)
        continue;
      if (p->thread != current)
        {
          const char *name = needles->threads[p->thread];
          HwThreadBlock block = { .name = hw_one_line_name (name) };

          if (!hw_colour_parse (name, &block.colour))
            block.colour = hw_artwork_colour_to_begin_with (p->thread);
          g_array_append_val (blocks, block);
          current = p->thread;
        }
      g_array_index (blocks, HwThreadBlock, blocks->len - 1).stitches++;
    }
  artwork->n_threads = blocks->len;
  artwork->threads = (HwThreadBlock *)(gpointer)g_array_free (g_steal_pointer (&blocks), FALSE);
}

HwArtwork *
hw_artwork_from_needles (const char *text, gsize length, const char *name, GError **error)
{
  g_autoptr (HwNeedleList) needles = hw_needle_csv_parse (text, length, name, error);
  g_autoptr (HwOutline) outline = NULL;
  HwArtwork *artwork;

  if (needles == NULL)
    return NULL;
  outline = hw_stitched_area (needles);
  if (outline == NULL)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_NO_AREA, name,
                       _ ("the list holds no stitches that cover an area, so no motif can be made of it."));
      return NULL;
    }
  artwork = g_new0 (HwArtwork, 1);
  g_atomic_ref_count_init (&artwork->ref_count);
  artwork->kind = HW_ARTWORK_NEEDLES;
  artwork->width = outline->box.x1 - outline->box.x0;
  artwork->height = outline->box.y1 - outline->box.y0;
  artwork->centre = (HwPoint){ -outline->box.x0, -outline->box.y0 };
  artwork->outline = g_steal_pointer (&outline);
  artwork->n_pages = 1;
  set_threads (artwork, needles);
  artwork->needles = g_steal_pointer (&needles);
  return artwork;
}
