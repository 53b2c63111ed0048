/* Artwork files, each read once however many motifs show it. A piece is put on the shelf before it is read, so that whoever asks for it meanwhile
 * waits for the one reader; records are filled from it under the lock and share what it holds. */
#include "artwork-shelf.h"

#include <unistd.h>

#include "artwork.h"
#include "file-stamp.h"
#include "json-lines.h"
#include "named-file.h"
#include "needle-csv.h"
#include "whole-file.h"
#include "../geometry/language.h"

struct _HwArtworkShelf
{
  gatomicrefcount ref_count;
  GMutex lock;        /* over all below */
  GCond read;         /* a piece has been read */
  GHashTable *pieces; /* kind, page, scale, scene's folder and whole path -> Piece */
};

/* How a file was found. */
typedef struct
{
  HwFileStamp stamp;
  gboolean readable;
} Look;

typedef struct
{
  char *path;
  HwFileStamp stamp; /* of the file when reading began */
  Look last;         /* how it was found last */
  char *lost;        /* why the file cannot be read any more, though what was read of it is kept; or NULL */
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
  g_free (piece->lost);
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

static Look
look (const char *path)
{
  return (Look){ hw_file_stamp_of (path), euidaccess (path, R_OK) == 0 };
}

/* Away from the lock: only this thread has to do with a piece that is not read yet. */
static void
read_piece (Piece *piece, const char *folder, const HwMotif *motif)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *found = hw_named_file_find (motif->artwork, folder, &error);

  piece->withheld = g_error_matches (error, HW_NAMED_FILE_ERROR, HW_NAMED_FILE_ERROR_ELSEWHERE);
  if (!piece->withheld)
    piece->last = look (piece->path);
  piece->stamp = piece->last.stamp;
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

/* --- Files that change while their scene is on the table */

static gboolean
shows (const Piece *piece)
{
  return piece->needles != NULL || piece->picture != NULL;
}

static gboolean
names_artwork (const HwMotif *motif, const char *folder)
{
  return !motif->artwork_awaited && motif->artwork != NULL
         && (folder != NULL || g_path_is_absolute (motif->artwork))
         && g_strv_contains (hw_artwork_nicks, kind_of (motif));
}

/* A motif just brought in shows what it was made of, as the person wished it: its file is not read again for that. */
static void
look_at_unread (const char *folder, const HwMotif *motif, GPtrArray *sentences)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *found = hw_named_file_find (motif->artwork, folder, &error);

  if (found == NULL && !g_error_matches (error, HW_NAMED_FILE_ERROR, HW_NAMED_FILE_ERROR_ELSEWHERE))
    g_ptr_array_add (sentences, g_strdup (error->message));
}

/* The lock is held, but for the reading. Returns: (transfer full) */
static Piece *
read_anew (HwArtworkShelf *shelf, const char *path, const char *folder, const HwMotif *motif)
{
  Piece *fresh = g_new0 (Piece, 1);

  fresh->path = g_strdup (path);
  g_mutex_unlock (&shelf->lock);
  read_piece (fresh, folder, motif);
  g_mutex_lock (&shelf->lock);
  fresh->is_read = fresh->was_given = TRUE;
  return fresh;
}

static gboolean
has_end (const HwNeedleList *list)
{
  return list != NULL && list->points[list->n_points - 1].action == HW_NEEDLE_END;
}

/* The rows of a list that breaks off read well as far as they go; but what had an end before has lost it. */
static void
refuse_cut_off (const Piece *piece, Piece *fresh)
{
  if (!has_end (piece->needles) || fresh->needles == NULL || has_end (fresh->needles))
    return;
  g_autofree char *name = hw_file_shown_name (piece->path);
  g_clear_pointer (&fresh->needles, hw_needle_list_unref);
  fresh->trouble = g_strdup_printf (_ ("%s: the needle list breaks off before its end."), name);
}

/* What cannot be read any more takes nothing away. Takes over fresh. TRUE: there is something new on the shelf. */
static gboolean
renew (HwArtworkShelf *shelf, const char *key, Piece *fresh)
{
  Piece *piece = g_hash_table_lookup (shelf->pieces, key);
  gboolean lost = FALSE;

  if (piece != NULL && piece->is_read && shows (piece))
    {
      refuse_cut_off (piece, fresh);
      lost = !shows (fresh);
    }
  if (piece == NULL || !piece->is_read || lost)
    {
      if (lost)
        {
          g_free (piece->lost);
          piece->lost = g_steal_pointer (&fresh->trouble);
          piece->last = fresh->last;
        }
      piece_free (fresh);
      return FALSE;
    }
  g_hash_table_insert (shelf->pieces, g_strdup (key), fresh);
  return TRUE;
}

/* The lock is held, but while a file is read. */
static gboolean
look_at (HwArtworkShelf *shelf, const char *key, const char *path, const char *folder, const HwMotif *motif)
{
  Piece *piece = g_hash_table_lookup (shelf->pieces, key);
  Look now = look (path);
  gboolean same
      = hw_file_stamp_equal (&now.stamp, &piece->last.stamp) && now.readable == piece->last.readable;

  if (!same && now.readable && hw_file_stamp_equal (&now.stamp, &piece->stamp))
    {
      piece->last = now;
      g_clear_pointer (&piece->lost, g_free); /* it has come back as it was */
      return FALSE;
    }
  return !same && renew (shelf, key, read_anew (shelf, path, folder, motif));
}

gboolean
hw_artwork_shelf_look_again (HwArtworkShelf *shelf,
                             const char *folder,
                             GPtrArray *motifs,
                             GPtrArray *sentences)
{
  g_autoptr (GHashTable) done = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gboolean renewed = FALSE;

  g_return_val_if_fail (shelf != NULL && motifs != NULL && sentences != NULL, FALSE);

  g_mutex_lock (&shelf->lock);
  for (guint i = 0; i < motifs->len; i++)
    {
      const HwMotif *motif = motifs->pdata[i];
      g_autofree char *path = names_artwork (motif, folder) ? path_of (motif, folder) : NULL;
      char *key = path != NULL ? key_of (motif, folder, path) : NULL;
      Piece *piece;

      if (key == NULL || !g_hash_table_add (done, key))
        continue;
      piece = g_hash_table_lookup (shelf->pieces, key);
      if (piece == NULL && (motif->needles != NULL || motif->picture != NULL))
        look_at_unread (folder, motif, sentences);
      if (piece == NULL || !piece->is_read || piece->withheld)
        continue;
      renewed = look_at (shelf, key, path, folder, motif) || renewed;
      piece = g_hash_table_lookup (shelf->pieces, key);
      if (piece != NULL && piece->lost != NULL)
        g_ptr_array_add (sentences, g_strdup (piece->lost));
    }
  g_mutex_unlock (&shelf->lock);
  return renewed;
}

gboolean
hw_artwork_shelf_has_other (HwArtworkShelf *shelf, const char *folder, const HwMotif *motif)
{
  gboolean other = FALSE;
  Piece *piece;

  g_return_val_if_fail (shelf != NULL && motif != NULL, FALSE);

  if (!names_artwork (motif, folder))
    return FALSE;
  g_mutex_lock (&shelf->lock);
  piece = piece_at_hand (shelf, folder, motif);
  if (piece != NULL && shows (piece))
    other = piece->needles != motif->needles || piece->picture != motif->picture;
  else if (piece != NULL && motif->needles == NULL && motif->picture == NULL)
    other = g_strcmp0 (piece->trouble, motif->artwork_trouble) != 0;
  g_mutex_unlock (&shelf->lock);
  return other;
}
