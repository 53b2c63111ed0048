/* Artwork as JSON, as `hoopwright outline` prints it. */
#pragma once

#include "artwork.h"

G_BEGIN_DECLS

/* Returns: (transfer full): the text, ending in a newline */
char *
hw_artwork_json_text (const HwArtwork *artwork);

G_END_DECLS
