/* Private to this room: pictures of artwork painted ahead, on threads of their own, while the pages before them are written. What is foreseen is only a guess: a
 * picture nobody foresaw is painted when it is asked for, and is the same. */
#pragma once

#include "template-artwork.h"

G_BEGIN_DECLS

typedef struct _HwArtworkAhead HwArtworkAhead;

/* From here on this thread foresees; pictures it asks for may have been painted on another. */
HwArtworkAhead *
hw_artwork_ahead_begin (void);
/* To be called on the same thread. What was foreseen and not asked for is dropped. */
void
hw_artwork_ahead_end (HwArtworkAhead *ahead);

/* This picture will probably be asked for next but those foreseen before. Does nothing on a thread that does not foresee. */
void
hw_artwork_foresee (const HwArtworkWish *wish);
/* Whether the picture was foreseen and is there: then it is handed over, and guesses before it that did not come true are dropped. */
gboolean
hw_artwork_take_foreseen (const HwArtworkWish *wish, HwArtwork *artwork);

G_END_DECLS
