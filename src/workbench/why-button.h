/* A button that opens a slip of paper with an explanation of the plan. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

/* The explanation for the plan of this moment, or NULL when there is nothing to explain. Returns: (transfer full) */
typedef char *(*HwWhyText) (HwBench *bench, gpointer user_data);
/* The motifs it speaks of, pointed out on the table while it is read. Returns: (transfer full): ids */
typedef char **(*HwWhyMotifs) (HwBench *bench, gpointer user_data);

/* label is what stands on the button, name what it is called aloud; motifs may be NULL. */
GtkWidget *
hw_why_button_new (HwBench *bench,
                   const char *label,
                   const char *name,
                   HwWhyText text,
                   HwWhyMotifs motifs,
                   gpointer user_data);

/* Gives the button other words, on it and read aloud. */
void
hw_why_button_set_words (GtkWidget *button, const char *label, const char *name);

G_END_DECLS
