/* One page of a print job, small. */
#pragma once

#include <gtk/gtk.h>

#include "../paper/print-job.h"

G_BEGIN_DECLS

#define HW_TYPE_PAGE_PREVIEW (hw_page_preview_get_type ())
G_DECLARE_FINAL_TYPE (HwPagePreview, hw_page_preview, HW, PAGE_PREVIEW, GtkBox)

GtkWidget *
hw_page_preview_new (void);
/* Takes over job, which nobody else may use from then on; NULL: nothing to show. */
void
hw_page_preview_take_job (HwPagePreview *preview, HwPrintJob *job);
gboolean
hw_page_preview_has_job (HwPagePreview *preview);

G_END_DECLS
