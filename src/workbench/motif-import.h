/* Motifs made from files of artwork. */
#pragma once

#include "../formats/artwork.h"
#include "bench.h"

G_BEGIN_DECLS

/* One file on its way to becoming a motif. The worker fills it; after that it is the main thread's. */
typedef struct
{
  char *path;
  HwArtworkWishes wishes; /* what the person said of it */
  HwMotif *motif;         /* at (0, 0), without an id, artwork as a whole path; NULL: it could not be read */
  char *trouble;          /* then one sentence why */
  HwArtworkKind kind;
  guint n_pages;
  gboolean asks_size; /* a picture that does not tell how large it is, and the person did not either */
  gboolean asks_page; /* a PDF of several pages, none of them chosen */
} HwMotifFile;

HwMotifFile *
hw_motif_file_new (const char *path);
void
hw_motif_file_free (HwMotifFile *file);
/* Reads it by its wishes; on any thread. May be called again with other wishes. */
void
hw_motif_file_read (HwMotifFile *file);
/* Reads them one after another on a worker; files (of HwMotifFile) are not to be touched until done is called, on the main context. */
void
hw_motif_files_read_async (GPtrArray *files,
                           GCancellable *cancellable,
                           GAsyncReadyCallback done,
                           gpointer user_data);

/* Reads the file (errors of HW_ARTWORK_ERROR, or of the needle list) and puts it as a new motif in the middle of the cloth, on top of all, as one step of the history. */
gboolean
hw_motif_import (HwBench *bench, const char *path, GError **error);

/* The motif record alone, at (0, 0), without an id; artwork is path, relative to folder where it lies below it (folder may be NULL).
 * Returns: (transfer full) (nullable) */
HwMotif *
hw_motif_from_file (const char *path, const char *folder, GError **error);

/* How a scene in that folder names the file: relative where it lies below it, else whole. folder may be NULL. Returns: (transfer full) */
char *
hw_motif_artwork_from (const char *path, const char *folder);
/* Where both show the same of the same file, lets motif (not shared yet) keep the other's artwork instead of a copy of it. */
gboolean
hw_motif_share_artwork (HwMotif *motif, const HwMotif *other);

G_END_DECLS
