/* A page of the guide as text in a buffer. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The page as it lies in the program, by its name (a file's name under help/C without its ending), in the person's language where it is written in that,
 * else in English. Returns: (transfer full) (nullable) */
GBytes *
hw_guide_page_load (const char *page);
/* Makes the tags that pages are written with. Call once for a buffer. */
void
hw_guide_page_add_tags (GtkTextBuffer *buffer);
/* Appends the page's text and pictures. */
void
hw_guide_page_fill (GtkTextBuffer *buffer, GBytes *page);
/* Returns: (transfer full) (nullable) */
char *
hw_guide_page_title (GBytes *page);
/* The page that a link at this place leads to, by its name; NULL when there is none. (transfer none) */
const char *
hw_guide_page_link_at (const GtkTextIter *place);

G_END_DECLS
