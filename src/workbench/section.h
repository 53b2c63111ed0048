/* A section of the side pane: a heading that folds what lies below it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_SECTION (hw_section_get_type ())
G_DECLARE_FINAL_TYPE (HwSection, hw_section, HW, SECTION, GtkBox)

/* Property "open" (gboolean, with notify). */
GtkWidget *
hw_section_new (const char *heading, GtkWidget *child);
/* A small picture before the heading; NULL takes it away. */
void
hw_section_set_icon (HwSection *section, const char *icon_name);
void
hw_section_set_heading (HwSection *section, const char *heading);
void
hw_section_set_open (HwSection *section, gboolean open);
gboolean
hw_section_get_open (HwSection *section);

G_END_DECLS
