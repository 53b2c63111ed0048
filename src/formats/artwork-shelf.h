/* The artwork files of one scene, each read once however many motifs show it. Private to this room. */
#pragma once

#include "../scene/records.h"

G_BEGIN_DECLS

typedef struct _HwArtworkShelf HwArtworkShelf;

/* folder: where relative paths start; NULL: nothing is read. */
HwArtworkShelf *
hw_artwork_shelf_new (const char *folder);
void
hw_artwork_shelf_free (HwArtworkShelf *shelf);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwArtworkShelf, hw_artwork_shelf_free)

/* Gives the motif its needles or its picture, or the sentence why there is neither. */
void
hw_artwork_shelf_fill (HwArtworkShelf *shelf, HwMotif *motif);

G_END_DECLS
