/* The window comes back to where the person was: the scene open last, how it was seen, and whether the work was at the machine. */
#include "window.h"

#include "session.h"
#include "window-private.h"

void
hw_window_keep_seen (HwWindow *window)
{
  const char *path = hw_bench_get_path (window->bench);
  HwSceneSeen seen = { .at_machine = hw_window_is_at_machine (window) };

  if (path == NULL)
    return;
  seen.whole = !hw_canvas_get_place (window->canvas, &seen.centre, &seen.zoom);
  g_object_get (window->canvas, "show-hoopings", &seen.hoopings, "show-marks", &seen.marks, "show-order",
                &seen.order, "show-density", &seen.density, NULL);
  hw_session_write (NULL, path, &seen);
}

void
hw_window_take_up_seen (HwWindow *window)
{
  const char *path = hw_bench_get_path (window->bench);
  HwSceneSeen seen;

  if (path == NULL || !hw_session_read (NULL, path, &seen))
    {
      hw_canvas_zoom_fit (window->canvas);
      return;
    }
  g_object_set (window->canvas, "show-hoopings", seen.hoopings, "show-marks", seen.marks, "show-order",
                seen.order, "show-density", seen.density, NULL);
  if (seen.whole)
    hw_canvas_zoom_fit (window->canvas);
  else
    hw_canvas_set_place (window->canvas, seen.centre, seen.zoom);
  if (seen.at_machine != hw_window_is_at_machine (window))
    g_action_group_activate_action (G_ACTION_GROUP (window), "at-machine", NULL);
}

void
hw_window_keep_last (HwWindow *window)
{
  hw_window_keep_seen (window);
  hw_session_set_last_scene (NULL, hw_window_is_at_start (window) ? NULL : hw_bench_get_path (window->bench));
}

gboolean
hw_window_open_last (HwWindow *window)
{
  g_autofree char *path = hw_session_last_scene (NULL);
  g_autoptr (GFile) file = path != NULL ? g_file_new_for_path (path) : NULL;

  g_return_val_if_fail (HW_IS_WINDOW (window), FALSE);

  if (file != NULL)
    hw_window_open (window, file);
  return file != NULL && window->has_scene;
}
