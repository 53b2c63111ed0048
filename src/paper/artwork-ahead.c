/* Half the time of writing pages goes into painting thread, half into packing what was painted; so one thread paints while another packs. Guesses wait in a
 * queue in the order they were made; painters stop while more is painted than is asked for. */
#include "artwork-ahead.h"

#define MOST_PAINTERS 3
#define MOST_WAITING 400             /* guesses */
#define MOST_BYTES ((gsize)24 << 20) /* of pictures that are painted and not asked for yet */

typedef enum
{
  GUESS_WAITS,
  GUESS_IS_PAINTED, /* by a painter now */
  GUESS_IS_THERE
} GuessState;

typedef struct
{
  HwArtworkWish wish; /* its motif is owned */
  GuessState state;
  gboolean dropped; /* while it was painted */
  HwArtwork artwork;
} Guess;

struct _HwArtworkAhead
{
  GMutex lock;  /* over all below */
  GCond news;   /* a guess was made, painted or dropped */
  GQueue queue; /* Guess, in the order they were made */
  gsize bytes;  /* painted and not taken */
  gboolean ended;
  GThread *painters[MOST_PAINTERS];
  guint n_painters;
};

static GPrivate foreseeing; /* HwArtworkAhead of this thread, or NULL */

static gsize
bytes_of (const HwArtwork *artwork)
{
  if (artwork->surface == NULL)
    return 0;
  return (gsize)cairo_image_surface_get_stride (artwork->surface)
         * (gsize)cairo_image_surface_get_height (artwork->surface);
}

static void
guess_free (Guess *guess)
{
  hw_artwork_clear (&guess->artwork);
  hw_motif_unref ((HwMotif *)guess->wish.motif);
  g_free (guess);
}

static gboolean
same_wish (const HwArtworkWish *a, const HwArtworkWish *b)
{
  return a->motif == b->motif && a->turn == b->turn && a->paleness == b->paleness && a->ground == b->ground
         && a->pixels_per_mm == b->pixels_per_mm;
}

/* Out of the queue, and freed unless a painter is at it. */
static void
drop (HwArtworkAhead *ahead, GList *link)
{
  Guess *guess = link->data;

  g_queue_delete_link (&ahead->queue, link);
  if (guess->state == GUESS_IS_PAINTED)
    {
      guess->dropped = TRUE;
      return;
    }
  ahead->bytes -= bytes_of (&guess->artwork);
  guess_free (guess);
}

static Guess *
first_waiting (HwArtworkAhead *ahead)
{
  for (GList *l = ahead->queue.head; l != NULL; l = l->next)
    if (((Guess *)l->data)->state == GUESS_WAITS)
      return l->data;
  return NULL;
}

/* The lock is held, but for the painting. */
static void
paint_guess (HwArtworkAhead *ahead, Guess *guess)
{
  guess->state = GUESS_IS_PAINTED;
  g_mutex_unlock (&ahead->lock);
  hw_artwork_paint_wish (&guess->artwork, &guess->wish);
  g_mutex_lock (&ahead->lock);
  if (guess->dropped)
    {
      guess_free (guess);
      return;
    }
  guess->state = GUESS_IS_THERE;
  ahead->bytes += bytes_of (&guess->artwork);
  g_cond_broadcast (&ahead->news);
}

static gpointer
painter (gpointer data)
{
  HwArtworkAhead *ahead = data;

  g_mutex_lock (&ahead->lock);
  while (!ahead->ended)
    {
      Guess *guess = ahead->bytes < MOST_BYTES ? first_waiting (ahead) : NULL;

      if (guess != NULL)
        paint_guess (ahead, guess);
      else
        g_cond_wait (&ahead->news, &ahead->lock);
    }
  g_mutex_unlock (&ahead->lock);
  return NULL;
}

HwArtworkAhead *
hw_artwork_ahead_begin (void)
{
  HwArtworkAhead *ahead = g_new0 (HwArtworkAhead, 1);

  g_mutex_init (&ahead->lock);
  g_cond_init (&ahead->news);
  g_queue_init (&ahead->queue);
  ahead->n_painters = MIN (g_get_num_processors () - 1, MOST_PAINTERS);
  for (guint i = 0; i < ahead->n_painters; i++)
    ahead->painters[i] = g_thread_new ("paints-ahead", painter, ahead);
  g_private_set (&foreseeing, ahead);
  return ahead;
}

void
hw_artwork_ahead_end (HwArtworkAhead *ahead)
{
  g_private_set (&foreseeing, NULL);
  g_mutex_lock (&ahead->lock);
  ahead->ended = TRUE;
  g_cond_broadcast (&ahead->news);
  g_mutex_unlock (&ahead->lock);
  for (guint i = 0; i < ahead->n_painters; i++)
    g_thread_join (ahead->painters[i]);
  while (ahead->queue.head != NULL)
    drop (ahead, ahead->queue.head);
  g_mutex_clear (&ahead->lock);
  g_cond_clear (&ahead->news);
  g_free (ahead);
}

static GList *
find (HwArtworkAhead *ahead, const HwArtworkWish *wish)
{
  for (GList *l = ahead->queue.head; l != NULL; l = l->next)
    if (same_wish (&((Guess *)l->data)->wish, wish))
      return l;
  return NULL;
}

void
hw_artwork_foresee (const HwArtworkWish *wish)
{
  HwArtworkAhead *ahead = g_private_get (&foreseeing);

  if (ahead == NULL || ahead->n_painters == 0)
    return;
  g_mutex_lock (&ahead->lock);
  if (ahead->queue.length < MOST_WAITING && find (ahead, wish) == NULL)
    {
      Guess *guess = g_new0 (Guess, 1);

      guess->wish = *wish;
      guess->wish.motif = hw_motif_ref (wish->motif);
      g_queue_push_tail (&ahead->queue, guess);
      g_cond_signal (&ahead->news);
    }
  g_mutex_unlock (&ahead->lock);
}

/* What was foreseen before a guess that came true will not be asked for any more. */
static void
drop_before (HwArtworkAhead *ahead, GList *link)
{
  while (ahead->queue.head != link)
    drop (ahead, ahead->queue.head);
}

gboolean
hw_artwork_take_foreseen (const HwArtworkWish *wish, HwArtwork *artwork)
{
  HwArtworkAhead *ahead = g_private_get (&foreseeing);
  gboolean there = FALSE;
  GList *link;

  if (ahead == NULL)
    return FALSE;
  g_mutex_lock (&ahead->lock);
  link = find (ahead, wish);
  if (link != NULL)
    {
      Guess *guess = link->data;

      drop_before (ahead, link);
      while (guess->state == GUESS_IS_PAINTED)
        g_cond_wait (&ahead->news, &ahead->lock);
      there = guess->state == GUESS_IS_THERE;
      if (there)
        {
          ahead->bytes -= bytes_of (&guess->artwork);
          *artwork = guess->artwork;
          guess->artwork = (HwArtwork){ NULL };
        }
      /* One that still waits is painted by who asks. */
      drop (ahead, link);
      g_cond_broadcast (&ahead->news);
    }
  g_mutex_unlock (&ahead->lock);
  return there;
}
