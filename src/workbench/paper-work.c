/* Laying out and writing pages takes seconds for a large scene: it is done on a thread, on a plan that nobody changes. */
#include "paper-work.h"

#include "../drawing/at-work.h"

typedef struct
{
  HwPlan *plan;
  HwPaperOptions options;
  char *language;
  char *path; /* or NULL */
  HwPaperProgress *progress;
} Work;

static void
work_free (gpointer data)
{
  Work *work = data;

  g_clear_pointer (&work->plan, hw_plan_unref);
  g_free (work->language);
  g_free (work->path);
  g_free (work);
}

static GTask *
work_task (const HwPlan *plan,
           const HwPaperOptions *options,
           GCancellable *cancellable,
           GAsyncReadyCallback callback,
           gpointer user_data,
           Work **work)
{
  GTask *task = g_task_new (NULL, cancellable, callback, user_data);

  *work = g_new0 (Work, 1);
  (*work)->plan = plan != NULL ? hw_plan_ref (plan) : NULL;
  (*work)->options = *options;
  (*work)->language = g_strdup (options->language);
  (*work)->options.language = (*work)->language;
  g_task_set_task_data (task, *work, work_free);
  return task;
}

static void
lay_out_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Work *work = data;
  GError *error = NULL;
  HwPrintJob *job = hw_print_job_new (work->plan, &work->options, &error);

  if (job != NULL)
    g_task_return_pointer (task, job, (GDestroyNotify)hw_print_job_free);
  else
    g_task_return_error (task, error);
}

void
hw_paper_lay_out_async (const HwPlan *plan,
                        const HwPaperOptions *options,
                        GCancellable *cancellable,
                        GAsyncReadyCallback callback,
                        gpointer user_data)
{
  Work *work;
  g_autoptr (GTask) task = work_task (plan, options, cancellable, callback, user_data, &work);

  hw_at_work_run (task, lay_out_thread);
}

HwPrintJob *
hw_paper_lay_out_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
write_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Work *work = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwPrintJob) job = hw_print_job_new (work->plan, &work->options, &error);
  g_autofree char *title = job != NULL ? hw_print_job_title (job) : NULL;

  if (job != NULL)
    g_atomic_int_set ((gint *)&work->progress->n_pages, (gint)hw_print_job_n_pages (job));
  if (job == NULL
      || !hw_print_jobs_write_pdf_counting (&job, 1, title, work->path, &work->progress->n_written,
                                            cancellable, &error))
    g_task_return_error (task, g_steal_pointer (&error));
  else
    g_task_return_boolean (task, TRUE);
}

void
hw_paper_write_async (const HwPlan *plan,
                      const HwPaperOptions *options,
                      const char *path,
                      HwPaperProgress *progress,
                      GCancellable *cancellable,
                      GAsyncReadyCallback callback,
                      gpointer user_data)
{
  Work *work;
  g_autoptr (GTask) task = work_task (plan, options, cancellable, callback, user_data, &work);

  g_return_if_fail (path != NULL && progress != NULL);

  *progress = (HwPaperProgress){ 0, 0 };
  work->path = g_strdup (path);
  work->progress = progress;
  /* Stopped too late, it was written all the same. */
  g_task_set_check_cancellable (task, FALSE);
  hw_at_work_run (task, write_thread);
}

gboolean
hw_paper_write_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_boolean (G_TASK (result), error);
}
