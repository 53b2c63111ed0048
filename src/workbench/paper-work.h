/* Pages laid out and written away from the window, which stays alive. */
#pragma once

#include "../paper/print-job.h"

G_BEGIN_DECLS

/* Lays out on a thread of its own. The plan is kept, the options are copied. */
void
hw_paper_lay_out_async (const HwPlan *plan,
                        const HwPaperOptions *options,
                        GCancellable *cancellable,
                        GAsyncReadyCallback callback,
                        gpointer user_data);
/* Returns: (transfer full) (nullable) */
HwPrintJob *
hw_paper_lay_out_finish (GAsyncResult *result, GError **error);

/* How far writing is: read by the window while the thread counts up. */
typedef struct
{
  guint n_pages;
  guint n_written;
} HwPaperProgress;

/* Lays out and writes a PDF. progress must live until the callback. */
void
hw_paper_write_async (const HwPlan *plan,
                      const HwPaperOptions *options,
                      const char *path,
                      HwPaperProgress *progress,
                      GCancellable *cancellable,
                      GAsyncReadyCallback callback,
                      gpointer user_data);
gboolean
hw_paper_write_finish (GAsyncResult *result, GError **error);

G_END_DECLS
