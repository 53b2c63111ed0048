/* The window over an empty cloth: the slip that says what to do, an outline drawn by hand, and a motif to try with. */
#include "../drawing/at-work.h"
#include "window.h"

#include <glib/gi18n.h>

#include "../formats/scene-file.h"
#include "bare-cloth.h"
#include "outline-dialog.h"
#include "ruler.h"
#include "window-private.h"

#define OUTLINE_WIDTH 90 /* mm of the oval an outline begins as */
#define OUTLINE_HEIGHT 70
#define OUTLINE_POINTS 12
#define BORROWED "wren.csv"

/* An oval to be pulled into shape, in one thread. Returns: (transfer full) */
static HwMotif *
oval (void)
{
  const HwThreadBlock thread
      = { .name = (char *)_ ("thread"), .colour = { 0.28, 0.42, 0.48 }, .stitches = 0 };
  HwMotif *motif = hw_motif_new ();

  motif->name = g_strdup (_ ("Outline"));
  motif->outline = hw_outline_new_ellipse (OUTLINE_WIDTH, OUTLINE_HEIGHT, OUTLINE_POINTS);
  motif->placement.scale = 1;
  hw_motif_set_threads (motif, &thread, 1);
  return motif;
}

static void
draw_outline_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;
  g_autoptr (GPtrArray) motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);

  if (hw_bench_is_editing (window->bench))
    return;
  g_ptr_array_add (motifs, oval ());
  hw_bench_add_motifs (window->bench, motifs, NULL);
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (window->bench);
  if (selection->len == 1)
    hw_outline_dialog_show (GTK_WINDOW (window), window->bench,
                            hw_scene_motif_get_record (g_ptr_array_index (selection, 0))->id);
}

/* Returns: (transfer full): the scene whose motif one can try with */
static char *
garden_path (void)
{
  const char *data = g_getenv ("HOOPWRIGHT_DATA_DIR");

  return g_build_filename (data != NULL ? data : HW_DATA_DIR, "demo", "walled-garden.hoopscene", NULL);
}

/* A copy of the motif that fits any hoop, with its artwork where the garden has it. */
static void
borrow_thread (GTask *task, gpointer source, gpointer path, GCancellable *cancellable)
{
  GError *error = NULL;
  g_autoptr (HwSnapshot) garden = hw_scene_file_load (path, &error);
  g_autofree char *folder = g_path_get_dirname (path);

  if (garden == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  for (guint i = 0; i < garden->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (garden, i);

      if (motif->artwork == NULL || !g_str_has_suffix (motif->artwork, BORROWED))
        continue;
      HwMotif *copy = hw_motif_copy (motif);
      char *artwork = g_canonicalize_filename (motif->artwork, folder);
      g_free (copy->artwork);
      copy->artwork = artwork;
      copy->placement.angle = 0;
      copy->placement.scale = 1;
      g_clear_pointer (&copy->before, g_strfreev);
      g_task_return_pointer (task, copy, (GDestroyNotify)hw_motif_unref);
      return;
    }
  g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_NOT_FOUND,
                           _ ("The walled garden has lost its wren. Add a motif from a file instead."));
}

static void
borrowed_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  HwMotif *motif = g_task_propagate_pointer (G_TASK (result), &error);

  if (window->bench == NULL || !gtk_widget_get_mapped (GTK_WIDGET (window)))
    {
      g_clear_pointer (&motif, hw_motif_unref);
      return;
    }
  if (motif == NULL)
    {
      hw_window_tell (window, error->message);
      return;
    }
  g_ptr_array_add (motifs, motif);
  if (!hw_bench_is_editing (window->bench))
    hw_bench_add_motifs (window->bench, motifs, NULL);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
}

static void
borrow_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  g_autoptr (GTask) task = g_task_new (user_data, NULL, borrowed_cb, NULL);

  g_task_set_task_data (task, garden_path (), g_free);
  hw_at_work_run (task, borrow_thread);
}

void
hw_window_add_bare (HwWindow *window)
{
  static const GActionEntry entries[]
      = { { "draw-outline", draw_outline_cb }, { "borrow-motif", borrow_cb } };
  g_autofree char *path = garden_path ();
  GtkWidget *slip = hw_bare_cloth_new (window->bench, g_file_test (path, G_FILE_TEST_IS_REGULAR));

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  gtk_widget_set_margin_start (slip, HW_RULER_BREADTH);
  gtk_widget_set_margin_top (slip, HW_RULER_BREADTH);
  /* It lies on the table beside the side pane, not under it. */
  g_object_bind_property (window->canvas, "margin-end", slip, "margin-end", G_BINDING_SYNC_CREATE);
  gtk_overlay_add_overlay (window->table, slip);
}
