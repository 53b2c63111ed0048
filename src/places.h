/* Where the program finds its own files, installed or run from its build folder. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Points the settings schema, the data folder, the guide and the catalogues, by the environment and unless already set there, to where they lie: in the
 * source tree and build folder when the program runs from its build folder; under the folder it was installed into when that stands in front of the place
 * it was built for (DESTDIR). Installed at that place: only the schema, which GLib would not look for under every prefix. Call before anything else. */
void hw_places_prepare (void);

/* The folder of the catalogues of translations: FOLDER/CODE/LC_MESSAGES/hoopwright.mo. Returns: (transfer none) */
const char *
hw_places_catalogues (void);

G_END_DECLS
