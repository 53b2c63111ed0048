/* What there is to say of a scene that was just opened: that a newer program wrote it, and that it names files elsewhere, which are read only when the
 * person allows it. */
#include "window.h"

#include <glib/gi18n.h>

#include "../formats/named-file.h"
#include "window-private.h"

/* Returns: (transfer full) */
static GPtrArray *
elsewhere (HwWindow *window)
{
  g_autoptr (HwSnapshot) scene = hw_scene_snapshot (hw_bench_get_scene (window->bench));

  return hw_named_files_elsewhere (scene, hw_bench_get_folder (window->bench));
}

static void
open_again (HwWindow *window, gpointer file)
{
  hw_window_open (window, file);
}

static void
read_them_cb (gpointer user_data)
{
  HwWindow *window = user_data;
  g_autoptr (GPtrArray) files = elsewhere (window);

  for (guint i = 0; i < files->len; i++)
    hw_named_file_choose (files->pdata[i], hw_bench_get_folder (window->bench));
  hw_window_guard (window, open_again, g_object_ref (window->opened), g_object_unref);
}

static void
ask_about (HwWindow *window, GPtrArray *files)
{
  const HwNoticeAnswer answers[] = {
    { _ ("Leave unread"), NULL, FALSE },
    { _ ("Read"), read_them_cb, TRUE },
    { NULL },
  };
  g_autofree char *first = g_filename_display_name (files->pdata[0]);
  g_autofree char *sentence = g_strdup_printf (
      ngettext ("This scene names %u file outside its folder (%s). If the scene is your own, have it read.",
                "This scene names %u files outside its folder (%s and more). If the scene is your own, have "
                "them read.",
                files->len),
      files->len, first);

  hw_notice_bar_ask (HW_NOTICE_BAR (window->opened_bar), sentence, answers, window);
}

void
hw_window_tell_of_opened (HwWindow *window, GFile *file)
{
  guint version = hw_bench_get_newer_version (window->bench);
  g_autoptr (GPtrArray) files = elsewhere (window);

  g_set_object (&window->opened, file);
  if (version > 0)
    hw_window_tell (window,
                    _ ("A newer Hoopwright wrote this scene. Its file stays as it is: what you change here "
                       "can be saved under another name, without what only the newer one knows."));
  if (files->len > 0)
    ask_about (window, files);
  else
    hw_notice_bar_withdraw (HW_NOTICE_BAR (window->opened_bar));
}

static void
renewed_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  hw_notice_bar_withdraw (HW_NOTICE_BAR (window->opened_bar));
}

void
hw_window_add_opened (HwWindow *window)
{
  window->opened_bar = hw_notice_bar_new ();
  gtk_box_prepend (window->bars, window->opened_bar);
  g_signal_connect_object (window->bench, "notify::path", G_CALLBACK (renewed_cb), window, 0);
}
