/* A catalogue of translations: a GNU .mo file, held in memory. Private to this room. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _HwCatalogue HwCatalogue;

#define HW_CATALOGUE_LARGEST (16 * 1024 * 1024) /* bytes */

/* Every place is checked against the file's end, and a translation that would put other figures or words into its sentence than the sentence
 * has is left out, so that whatever the file holds can be printed. Returns: (transfer full) (nullable): NULL when it is no catalogue in UTF-8 */
HwCatalogue *
hw_catalogue_new (GBytes *bytes);
void
hw_catalogue_free (HwCatalogue *catalogue);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwCatalogue, hw_catalogue_free)

/* The translation of text; of a text in a context, "CONTEXT\004TEXT". Returns: (transfer none) (nullable) */
const char *
hw_catalogue_find (const HwCatalogue *catalogue, const char *text);
/* The form for n of a text that counts, by its form for one. Returns: (transfer none) (nullable) */
const char *
hw_catalogue_find_plural (const HwCatalogue *catalogue, const char *one, gulong n);

G_END_DECLS
