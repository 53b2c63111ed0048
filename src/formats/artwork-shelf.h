/* Artwork files, each read once however many motifs show it, and read again only when it has changed. */
#pragma once

#include <gio/gio.h>

#include "../scene/records.h"

G_BEGIN_DECLS

/* Refcounted; all of it may be used by several threads at once. */
typedef struct _HwArtworkShelf HwArtworkShelf;

HwArtworkShelf *
hw_artwork_shelf_new (void);
HwArtworkShelf *
hw_artwork_shelf_ref (HwArtworkShelf *shelf);
void
hw_artwork_shelf_unref (HwArtworkShelf *shelf);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwArtworkShelf, hw_artwork_shelf_unref)

/* Before another scene is laid on the table: lets go of pieces whose file is no longer what it was. */
void
hw_artwork_shelf_check (HwArtworkShelf *shelf);
/* Lets go of pieces that no motif was given since the shelf was checked. */
void
hw_artwork_shelf_tidy (HwArtworkShelf *shelf);

/* Gives a motif that awaits its artwork the needles or the picture, or the sentence why there is neither; reads the file if it is not on the
 * shelf, and waits if another thread does. folder: where relative paths start; NULL: such a motif gets nothing. The motif must not be shared
 * yet. */
void
hw_artwork_shelf_fill (HwArtworkShelf *shelf, const char *folder, HwMotif *motif);
/* The same of what is on the shelf already: FALSE, and the motif goes on waiting, when a file would have to be read. */
gboolean
hw_artwork_shelf_fill_at_hand (HwArtworkShelf *shelf, const char *folder, HwMotif *motif);

/* Looks how the files are found now whose artwork these motifs have: what was changed and can be read takes the place of what was read before; what cannot
 * takes nothing away. folder: as above. sentences: gains why, for each file of which something is kept though it cannot be read any more. Returns TRUE when
 * something on the shelf is new. May be long work. */
gboolean
hw_artwork_shelf_look_again (HwArtworkShelf *shelf,
                             const char *folder,
                             GPtrArray *motifs,
                             GPtrArray *sentences);
/* Whether there is something else on the shelf for the motif than it shows. */
gboolean
hw_artwork_shelf_has_other (HwArtworkShelf *shelf, const char *folder, const HwMotif *motif);

/* Those of the motifs that await artwork, one for each file that would have to be read, in the order given. motifs: of HwMotif.
 * Returns: (transfer full) (element-type HwMotif) */
GPtrArray *
hw_artwork_shelf_to_read (HwArtworkShelf *shelf, const char *folder, GPtrArray *motifs);

/* Puts the artwork of these motifs on the shelf, several files side by side. n_read: counted up atomically as they are read, or NULL. Stops between
 * files when it is cancelled. */
void
hw_artwork_shelf_read (
    HwArtworkShelf *shelf, const char *folder, GPtrArray *motifs, gint *n_read, GCancellable *cancellable);

G_END_DECLS
