/* The artwork files of one scene, each read once however many motifs show it. */
#include "artwork-shelf.h"

#include "artwork.h"
#include "json-lines.h"
#include "needle-csv.h"
#include "../geometry/language.h"

struct _HwArtworkShelf
{
  char *folder;
  GHashTable *pieces; /* path as the scene gives it, kind, page and scale -> Piece */
};

typedef struct
{
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

static Piece *
read_piece (const char *folder, const HwMotif *motif)
{
  g_autofree char *whole = g_path_is_absolute (motif->artwork)
                               ? g_strdup (motif->artwork)
                               : g_build_filename (folder, motif->artwork, NULL);
  Piece *piece = g_new0 (Piece, 1);

  if (g_str_equal (kind_of (motif), hw_artwork_nicks[HW_ARTWORK_NEEDLES]))
    read_needles (piece, whole);
  else
    read_picture (piece, whole, motif);
  return piece;
}

static char *
key_of (const HwMotif *motif)
{
  g_autofree char *scale = hw_json_number_text (motif->artwork_pixels_per_mm);

  return g_strdup_printf ("%s %u %s %s", kind_of (motif), motif->artwork_page, scale, motif->artwork);
}

void
hw_artwork_shelf_fill (HwArtworkShelf *shelf, HwMotif *motif)
{
  g_autofree char *key = NULL;
  Piece *piece;

  if (shelf->folder == NULL || motif->artwork == NULL)
    return;
  if (!g_strv_contains (hw_artwork_nicks, kind_of (motif)))
    {
      motif->artwork_trouble
          = g_strdup_printf (_ ("%s: artwork of the kind \"%s\" cannot be shown by this version."),
                             motif->artwork, motif->artwork_kind);
      return;
    }

  key = key_of (motif);
  piece = g_hash_table_lookup (shelf->pieces, key);
  if (piece == NULL)
    {
      piece = read_piece (shelf->folder, motif);
      g_hash_table_insert (shelf->pieces, g_steal_pointer (&key), piece);
    }
  motif->needles = piece->needles != NULL ? hw_needle_list_ref (piece->needles) : NULL;
  motif->picture = piece->picture != NULL ? hw_picture_ref (piece->picture) : NULL;
  motif->picture_pixels_per_mm = piece->pixels_per_mm;
  motif->artwork_trouble = g_strdup (piece->trouble);
}
