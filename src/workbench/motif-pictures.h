/* Thread pictures of motifs, kept ready for the canvas: painted on worker threads, coarse first, sharp when ready, dropped when
 * long unused. Used from the main thread only. */
#pragma once

#include "../drawing/thread-painting.h"
#include "../scene/scene.h"
#include "canvas-view.h"

G_BEGIN_DECLS

typedef struct _HwMotifPictures HwMotifPictures;

/* Told on the main context that a better picture of the motif is there. */
typedef void (*HwMotifPictureReady) (const char *motif_id, gpointer user_data);

HwMotifPictures *
hw_motif_pictures_new (HwMotifPictureReady ready, gpointer user_data);
void
hw_motif_pictures_free (HwMotifPictures *pictures);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwMotifPictures, hw_motif_pictures_free)

/* Draws the motif where it lies, in pixels of the view; device: device pixels per pixel of the view (1, 2 ...). The best picture at hand is
 * used, turned and stretched if need be; when it is not exact, a better one is asked for. With none at all the outline is
 * filled in the motif's main colour. alpha: 1 full, less for pale. */
void
hw_motif_pictures_draw (HwMotifPictures *pictures,
                        cairo_t *cr,
                        const HwMotif *motif,
                        const HwView *view,
                        double device,
                        double alpha);
/* Bounds of what hw_motif_pictures_draw() paints now, pixels. */
HwBox
hw_motif_pictures_bounds (HwMotifPictures *pictures, const HwMotif *motif, const HwView *view);

/* While they are held nothing is asked for: what is drawn will soon be drawn otherwise. */
void
hw_motif_pictures_hold (HwMotifPictures *pictures, gboolean held);

/* True while some picture asked for is not there yet. */
gboolean
hw_motif_pictures_is_busy (HwMotifPictures *pictures);

/* The most bytes kept; pictures unused for longest go first, those drawn since the last call of _turn_page() never. */
void
hw_motif_pictures_set_limit (HwMotifPictures *pictures, gsize bytes);
/* The scene has these motifs now (HwSceneMotif): of those that went, what is kept is forgotten, but for the few drawn last. */
void
hw_motif_pictures_motifs_changed (HwMotifPictures *pictures, GPtrArray *motifs);
/* To be called before everything visible is drawn anew. */
void
hw_motif_pictures_turn_page (HwMotifPictures *pictures);

G_END_DECLS
