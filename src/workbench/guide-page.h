/* A page of the guide as plain, readable text. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The tags a buffer needs before a page is put in it. */
void
hw_guide_page_add_tags (GtkTextBuffer *buffer);
/* Appends the page (Mallard) to the buffer. */
void
hw_guide_page_fill (GtkTextBuffer *buffer, GBytes *page);
/* Returns: (transfer full) (nullable) */
char *
hw_guide_page_title (GBytes *page);

G_END_DECLS
