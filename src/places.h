/* Where the program finds its own files, installed or run from its build folder. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Run from a build folder: points the settings schema, the data folder and the guide to the source tree and build folder (by
 * the environment, unless already set there). Installed: does nothing. Call before anything else. */
void hw_places_prepare (void);

/* The folder of the catalogues of translations: FOLDER/CODE/LC_MESSAGES/hoopwright.mo. Returns: (transfer none) */
const char *
hw_places_catalogues (void);

G_END_DECLS
