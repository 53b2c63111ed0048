/* Artwork files, each read once however many motifs show it. A piece is put on the shelf before it is read, so that whoever asks for it meanwhile
 * waits for the one reader; records are filled from it under the lock and share what it holds. */
#include "artwork-shelf.h"

#include "artwork.h"
#include "file-stamp.h"
#include "json-lines.h"
#include "named-file.h"
#include "needle-csv.h"
#include "../geometry/language.h"

#define MOST_READERS 4 /* threads: more wait for the disk or for memory */

struct _HwArtworkShelf
{
  gatomicrefcount ref_count;
  GMutex lock;        /* over all below */
  GCond read;         /* a piece has been read */
  GHashTable *pieces; /* kind, page, scale, scene's folder and whole path -> Piece */
};

typedef struct
{
  char *path;
  HwFileStamp stamp; /* of the file when reading began */
  gboolean withheld; /* it lies elsewhere: the file was not even looked at */
  gboolean is_read;
  gboolean was_given;    /* since the shelf was checked last, or read since */
  HwNeedleList *needles; /* of a needle list */
  HwPicture *picture;    /* of the other kinds */
  double pixels_per_mm;
  char *trouble; /* why there is neither, or NULL */
} Piece;

static void
piece_free (gpointer data)
{
  Piece *piece = data;

  g_clear_pointer (&piece->needles, hw_needle_list_unref);
  g_clear_pointer (&piece->picture, hw_picture_unref);
  g_free (piece->trouble);
  g_free (piece->path);
  g_free (piece);
}

HwArtworkShelf *
hw_artwork_shelf_new (void)
{
  HwArtworkShelf *shelf = g_new0 (HwArtworkShelf, 1);

  g_atomic_ref_count_init (&shelf->ref_count);
  g_mutex_init (&shelf->lock);
  g_cond_init (&shelf->read);
  shelf->pieces = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, piece_free);
  return shelf;
}

HwArtworkShelf *
hw_artwork_shelf_ref (HwArtworkShelf *shelf)
{
  g_return_val_if_fail (shelf != NULL, NULL);

  g_atomic_ref_count_inc (&shelf->ref_count);
  return shelf;
}

void
hw_artwork_shelf_unref (HwArtworkShelf *shelf)
{
  g_return_if_fail (shelf != NULL);

  if (!g_atomic_ref_count_dec (&shelf->ref_count))
    return;
  g_hash_table_unref (shelf->pieces);
  g_mutex_clear (&shelf->lock);
  g_cond_clear (&shelf->read);
  g_free (shelf);
}

static gboolean
is_stale (gpointer key, gpointer value, gpointer user_data)
{
  Piece *piece = value;
  HwFileStamp now;

  if (!piece->is_read)
    return FALSE;
  if (piece->withheld)
    return TRUE;
  now = hw_file_stamp_of (piece->path);
  piece->was_given = FALSE;
  return !hw_file_stamp_equal (&now, &piece->stamp);
}

void
hw_artwork_shelf_check (HwArtworkShelf *shelf)
{
  g_return_if_fail (shelf != NULL);

  g_mutex_lock (&shelf->lock);
  g_hash_table_foreach_remove (shelf->pieces, is_stale, NULL);
  g_mutex_unlock (&shelf->lock);
}

static gboolean
is_left_over (gpointer key, gpointer value, gpointer user_data)
{
  const Piece *piece = value;

  return piece->is_read && !piece->was_given;
}

void
hw_artwork_shelf_tidy (HwArtworkShelf *shelf)
{
  g_return_if_fail (shelf != NULL);

  g_mutex_lock (&shelf->lock);
  g_hash_table_foreach_remove (shelf->pieces, is_left_over, NULL);
  g_mutex_unlock (&shelf->lock);
}

static void
read_needles (Piece *piece, const char *path)
{
  g_autoptr (GError) error = NULL;

  piece->needles = hw_needle_csv_load (path, &error);
  if (piece->needles == NULL)
    piece->trouble = g_strdup (error->message);
}

static void
read_picture (Piece *piece, const char *path, const HwMotif *motif)
{
  const HwArtworkWishes wishes
      = { .page = motif->artwork_page, .pixels_per_mm = motif->artwork_pixels_per_mm };
  g_autoptr (GError) error = NULL;
  g_autoptr (HwArtwork) artwork = hw_artwork_load (path, &wishes, &error);

  if (artwork == NULL)
    {
      piece->trouble = g_strdup (error->message);
      return;
    }
  if (artwork->needles != NULL)
    piece->needles = hw_needle_list_ref (artwork->needles);
  piece->picture = hw_artwork_picture (artwork);
  piece->pixels_per_mm = piece->picture != NULL ? artwork->pixels_per_mm : 0;
}

/* A motif that names no kind shows a needle list. */
static const char *
kind_of (const HwMotif *motif)
{
  return motif->artwork_kind != NULL ? motif->artwork_kind : hw_artwork_nicks[HW_ARTWORK_NEEDLES];
}

/* What the motif shows, as the shelf knows it. What scenes in one folder may name those in another may not. Returns: (transfer full) */
static char *
key_of (const HwMotif *motif, const char *folder, const char *path)
{
  g_autofree char *scale = hw_json_number_text (motif->artwork_pixels_per_mm);

  return g_strdup_printf ("%s %u %s %s\n%s", kind_of (motif), motif->artwork_page, scale,
                          folder != NULL ? folder : "", path);
}

/* A scene that was named from where one stands lies in a folder named so too. Returns: (transfer full) */
static char *
path_of (const HwMotif *motif, const char *folder)
{
  g_autofree char *whole = folder != NULL ? g_canonicalize_filename (folder, NULL) : NULL;

  return g_canonicalize_filename (motif->artwork, whole);
}

/* Whether there is a file to ask for; else what there is to say is said. */
static gboolean
can_be_read (const char *folder, HwMotif *motif)
{
  if (!motif->artwork_awaited)
    return FALSE;
  if (motif->artwork == NULL || (folder == NULL && !g_path_is_absolute (motif->artwork)))
    {
      motif->artwork_awaited = FALSE;
      return FALSE;
    }
  if (g_strv_contains (hw_artwork_nicks, kind_of (motif)))
    return TRUE;
  motif->artwork_awaited = FALSE;
  motif->artwork_trouble
      = g_strdup_printf (_ ("%s: artwork of the kind \"%s\" cannot be shown by this version."),
                         motif->artwork, motif->artwork_kind);
  return FALSE;
}

static void
give (Piece *piece, HwMotif *motif)
{
  piece->was_given = TRUE;
  motif->artwork_awaited = FALSE;
  motif->needles = piece->needles != NULL ? hw_needle_list_ref (piece->needles) : NULL;
  motif->picture = piece->picture != NULL ? hw_picture_ref (piece->picture) : NULL;
  motif->picture_pixels_per_mm = piece->pixels_per_mm;
  motif->artwork_trouble = g_strdup (piece->trouble);
}

/* Away from the lock: only this thread has to do with a piece that is not read yet. */
static void
read_piece (Piece *piece, const char *folder, const HwMotif *motif)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *found = hw_named_file_find (motif->artwork, folder, &error);

  piece->withheld = g_error_matches (error, HW_NAMED_FILE_ERROR, HW_NAMED_FILE_ERROR_ELSEWHERE);
  if (!piece->withheld)
    piece->stamp = hw_file_stamp_of (piece->path);
  if (found == NULL)
    piece->trouble = g_strdup (error->message);
  else if (g_str_equal (kind_of (motif), hw_artwork_nicks[HW_ARTWORK_NEEDLES]))
    read_needles (piece, found);
  else
    read_picture (piece, found, motif);
}

/* The lock is held, but for the reading. Returns: (transfer none): read, and on the shelf */
static Piece *
read_for (HwArtworkShelf *shelf, char *key, char *path, const char *folder, const HwMotif *motif)
{
  Piece *piece = g_new0 (Piece, 1);

  piece->path = path;
  g_hash_table_insert (shelf->pieces, key, piece);
  g_mutex_unlock (&shelf->lock);
  read_piece (piece, folder, motif);
  g_mutex_lock (&shelf->lock);
  piece->is_read = piece->was_given = TRUE;
  g_cond_broadcast (&shelf->read);
  return piece;
}

/* The piece a motif shows, read by this thread or by another; the lock is held. It is looked for anew after each wait: it may have been let go. */
static Piece *
piece_for (HwArtworkShelf *shelf, const char *folder, const HwMotif *motif)
{
  g_autofree char *path = path_of (motif, folder);
  g_autofree char *key = key_of (motif, folder, path);
  Piece *piece;

  while ((piece = g_hash_table_lookup (shelf->pieces, key)) != NULL && !piece->is_read)
    g_cond_wait (&shelf->read, &shelf->lock);
  return piece != NULL ? piece
                       : read_for (shelf, g_steal_pointer (&key), g_steal_pointer (&path), folder, motif);
}

void
hw_artwork_shelf_fill (HwArtworkShelf *shelf, const char *folder, HwMotif *motif)
{
  g_return_if_fail (shelf != NULL && motif != NULL);

  if (!can_be_read (folder, motif))
    return;
  g_mutex_lock (&shelf->lock);
  give (piece_for (shelf, folder, motif), motif);
  g_mutex_unlock (&shelf->lock);
}

/* The lock is held. Returns: (transfer none) (nullable) */
static Piece *
piece_at_hand (HwArtworkShelf *shelf, const char *folder, const HwMotif *motif)
{
  g_autofree char *path = path_of (motif, folder);
  g_autofree char *key = key_of (motif, folder, path);
  Piece *piece = g_hash_table_lookup (shelf->pieces, key);

  return piece != NULL && piece->is_read ? piece : NULL;
}

gboolean
hw_artwork_shelf_fill_at_hand (HwArtworkShelf *shelf, const char *folder, HwMotif *motif)
{
  Piece *piece;

  g_return_val_if_fail (shelf != NULL && motif != NULL, FALSE);

  if (!can_be_read (folder, motif))
    return TRUE;
  g_mutex_lock (&shelf->lock);
  piece = piece_at_hand (shelf, folder, motif);
  if (piece != NULL)
    give (piece, motif);
  g_mutex_unlock (&shelf->lock);
  return piece != NULL;
}

GPtrArray *
hw_artwork_shelf_to_read (HwArtworkShelf *shelf, const char *folder, GPtrArray *motifs)
{
  GPtrArray *to_read = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  g_autoptr (GHashTable) asked = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  g_return_val_if_fail (shelf != NULL && motifs != NULL, to_read);

  g_mutex_lock (&shelf->lock);
  for (guint i = 0; i < motifs->len; i++)
    {
      const HwMotif *motif = motifs->pdata[i];

      if (!motif->artwork_awaited || motif->artwork == NULL || piece_at_hand (shelf, folder, motif) != NULL)
        continue;
      g_autofree char *path = path_of (motif, folder);
      if (g_hash_table_add (asked, key_of (motif, folder, path)))
        g_ptr_array_add (to_read, hw_motif_ref (motif));
    }
  g_mutex_unlock (&shelf->lock);
  return to_read;
}

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
