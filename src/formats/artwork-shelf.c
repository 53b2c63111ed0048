/* The artwork files of one scene, each read once however many motifs show it. */
#include "artwork-shelf.h"

#include <glib/gi18n.h>

#include "needle-csv.h"

struct _HwArtworkShelf
{
  char *folder;
  GHashTable *pieces; /* path as the scene gives it -> Piece */
};

typedef struct
{
  HwNeedleList *needles; /* or NULL and: */
  char *trouble;
} Piece;

static void
piece_free (gpointer data)
{
  Piece *piece = data;

  g_clear_pointer (&piece->needles, hw_needle_list_unref);
  g_free (piece->trouble);
  g_free (piece);
}

HwArtworkShelf *
hw_artwork_shelf_new (const char *folder)
{
  HwArtworkShelf *shelf = g_new0 (HwArtworkShelf, 1);

  shelf->folder = g_strdup (folder);
  shelf->pieces = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, piece_free);
  return shelf;
}

void
hw_artwork_shelf_free (HwArtworkShelf *shelf)
{
  g_free (shelf->folder);
  g_hash_table_unref (shelf->pieces);
  g_free (shelf);
}

static Piece *
read_piece (const char *folder, const char *path)
{
  g_autofree char *whole
      = g_path_is_absolute (path) ? g_strdup (path) : g_build_filename (folder, path, NULL);
  g_autoptr (GError) error = NULL;
  Piece *piece = g_new0 (Piece, 1);

  piece->needles = hw_needle_csv_load (whole, &error);
  if (piece->needles == NULL)
    piece->trouble = g_strdup (error->message);
  return piece;
}

void
hw_artwork_shelf_fill (HwArtworkShelf *shelf, HwMotif *motif)
{
  Piece *piece;

  if (shelf->folder == NULL || motif->artwork == NULL)
    return;
  if (motif->artwork_kind != NULL && !g_str_equal (motif->artwork_kind, "needles"))
    {
      motif->artwork_trouble
          = g_strdup_printf (_ ("%s: artwork of the kind \"%s\" cannot be shown by this version."),
                             motif->artwork, motif->artwork_kind);
      return;
    }

  piece = g_hash_table_lookup (shelf->pieces, motif->artwork);
  if (piece == NULL)
    {
      piece = read_piece (shelf->folder, motif->artwork);
      g_hash_table_insert (shelf->pieces, g_strdup (motif->artwork), piece);
    }
  motif->needles = piece->needles != NULL ? hw_needle_list_ref (piece->needles) : NULL;
  motif->artwork_trouble = g_strdup (piece->trouble);
}
