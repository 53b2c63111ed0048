/* Needle lists of millions of stitches and a large picture take seconds: they are written on a thread, from a plan that nobody changes. */
#include "handout-work.h"

#include <glib/gi18n.h>

#include "../drawing/at-work.h"
#include "../formats/file-name.h"
#include "../formats/needle-write.h"

typedef enum
{
  FILE_NEEDLES,
  FILE_LIST,
  FILE_PICTURE
} FileKind;

typedef struct
{
  FileKind kind;
  guint index; /* the hooping, or the HwListKind */
  HwPlanPictureOptions picture;
  char *name;
} File;

struct _HwHandout
{
  HwPlan *plan;
  char *folder;
  GPtrArray *files; /* File, owned */
  guint *n_done;
};

static void
file_free (gpointer data)
{
  File *file = data;

  g_free (file->name);
  g_free (file);
}

HwHandout *
hw_handout_new (const HwPlan *plan, const char *folder)
{
  HwHandout *handout = g_new0 (HwHandout, 1);

  g_return_val_if_fail (plan != NULL && folder != NULL, handout);

  handout->plan = hw_plan_ref (plan);
  handout->folder = g_strdup (folder);
  handout->files = g_ptr_array_new_with_free_func (file_free);
  return handout;
}

void
hw_handout_free (HwHandout *handout)
{
  g_return_if_fail (handout != NULL);

  g_clear_pointer (&handout->plan, hw_plan_unref);
  g_clear_pointer (&handout->files, g_ptr_array_unref);
  g_free (handout->folder);
  g_free (handout);
}

/* --- Names */

static const char *
scene_name (const HwPlan *plan)
{
  const char *name = plan->snapshot->name;

  return name != NULL && *name != '\0' ? name : _ ("Unnamed scene");
}

/* Takes over name. */
static char *
fit_for_file (char *name)
{
  char *fit = hw_file_name_of (name);

  g_free (name);
  return fit;
}

char *
hw_handout_needles_name (const HwPlan *plan, guint hooping, const char *ending)
{
  g_return_val_if_fail (plan != NULL && ending != NULL, NULL);

  /* Translators: the name of a file: "The Walled Garden, Hooping 3.csv" */
  return fit_for_file (g_strdup_printf (_ ("%s, Hooping %u.%s"), scene_name (plan), hooping + 1, ending));
}

const char *
hw_handout_list_words (HwListKind kind)
{
  const char *const words[HW_N_LISTS] = { _ ("Hoopings"), _ ("Threads"), _ ("Marks"), _ ("What to buy") };

  g_return_val_if_fail ((guint)kind < HW_N_LISTS, NULL);

  return words[kind];
}

static File *
add_file (HwHandout *handout, FileKind kind, guint index, char *name)
{
  File *file = g_new0 (File, 1);

  *file = (File){ .kind = kind, .index = index, .name = name };
  g_ptr_array_add (handout->files, file);
  return file;
}

void
hw_handout_add_needles (HwHandout *handout, guint hooping, const char *ending)
{
  g_return_if_fail (handout != NULL && hooping < handout->plan->n_hoopings);

  add_file (handout, FILE_NEEDLES, hooping, hw_handout_needles_name (handout->plan, hooping, ending));
}

void
hw_handout_add_list (HwHandout *handout, HwListKind kind)
{
  g_return_if_fail (handout != NULL);

  add_file (handout, FILE_LIST, kind,
            fit_for_file (
                g_strdup_printf ("%s, %s.csv", scene_name (handout->plan), hw_handout_list_words (kind))));
}

void
hw_handout_add_picture (HwHandout *handout, const HwPlanPictureOptions *options, const char *ending)
{
  g_return_if_fail (handout != NULL && options != NULL);

  add_file (handout, FILE_PICTURE, 0,
            fit_for_file (g_strdup_printf ("%s, %s.%s", scene_name (handout->plan), _ ("Picture"), ending)))
      ->picture
      = *options;
}

guint
hw_handout_n_files (const HwHandout *handout)
{
  g_return_val_if_fail (handout != NULL, 0);

  return handout->files->len;
}

GPtrArray *
hw_handout_there_already (const HwHandout *handout)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (handout != NULL, names);

  for (guint i = 0; i < handout->files->len; i++)
    {
      const File *file = handout->files->pdata[i];
      g_autofree char *path = g_build_filename (handout->folder, file->name, NULL);

      if (g_file_test (path, G_FILE_TEST_EXISTS))
        g_ptr_array_add (names, g_strdup (file->name));
    }
  return names;
}

/* --- Writing */

void
hw_handout_result_free (HwHandoutResult *result)
{
  g_return_if_fail (result != NULL);

  g_ptr_array_unref (result->troubles);
  g_free (result);
}

static gboolean
write_file (const HwHandout *handout, const File *file, GError **error)
{
  g_autofree char *path = g_build_filename (handout->folder, file->name, NULL);
  g_autoptr (HwHoopingNeedles) needles = NULL;

  if (file->kind == FILE_LIST)
    return hw_list_csv_save ((HwListKind)file->index, handout->plan, path, error);
  if (file->kind == FILE_PICTURE)
    return hw_plan_picture_save (handout->plan, &file->picture, path, error);
  needles = hw_hooping_needles_new (handout->plan, file->index, NULL, error);
  return needles != NULL && hw_hooping_needles_save (needles, path, error);
}

static void
write_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const HwHandout *handout = data;
  HwHandoutResult *result = g_new0 (HwHandoutResult, 1);

  result->troubles = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < handout->files->len && !g_cancellable_is_cancelled (cancellable); i++)
    {
      g_autoptr (GError) error = NULL;

      if (write_file (handout, handout->files->pdata[i], &error))
        result->n_written++;
      else
        g_ptr_array_add (result->troubles, g_strdup (error->message));
      g_atomic_int_inc ((gint *)handout->n_done);
    }
  g_task_return_pointer (task, result, (GDestroyNotify)hw_handout_result_free);
}

void
hw_handout_write_async (HwHandout *handout,
                        guint *n_done,
                        GCancellable *cancellable,
                        GAsyncReadyCallback callback,
                        gpointer user_data)
{
  g_autoptr (GTask) task = g_task_new (NULL, cancellable, callback, user_data);

  g_return_if_fail (handout != NULL && n_done != NULL);

  *n_done = 0;
  handout->n_done = n_done;
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, handout, (GDestroyNotify)hw_handout_free);
  hw_at_work_run (task, write_thread);
}

HwHandoutResult *
hw_handout_write_finish (GAsyncResult *result)
{
  return g_task_propagate_pointer (G_TASK (result), NULL);
}
