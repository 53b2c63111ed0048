/* The program: it goes on with the scene that was open last, else begins with the start page; scenes given to it get a window each, artwork comes into the one that is there. */
#include <glib/gstdio.h>

#include "../folders.h"
#include "../workbench/bench-fixture.h"
#include "window-fixture.h"
#include "workbench/application.h"
#include "workbench/session.h"

static const char drawing[]
    = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm' viewBox='0 0 40 30'>"
      "<rect width='40' height='30' fill='#345'/></svg>";

typedef struct
{
  GApplication *application;
  char *folder, *scene;
} Program;

/* One for all tests but the first: its name on the bus is the process's. */
static GApplication *
the_program (void)
{
  static GApplication *application;
  g_autoptr (GError) error = NULL;

  if (application != NULL)
    return application;
  application = g_object_new (HW_TYPE_APPLICATION, "application-id", HW_APPLICATION_ID, "flags",
                              G_APPLICATION_HANDLES_OPEN | G_APPLICATION_NON_UNIQUE, "resource-base-path",
                              "/org/hoopwright/Hoopwright", NULL);
  g_application_register (application, NULL, &error);
  g_assert_no_error (error);
  return application;
}

static char *
in_folder (Program *program, const char *name, const char *contents)
{
  char *path = g_build_filename (program->folder, name, NULL);

  if (contents != NULL)
    g_assert_true (g_file_set_contents (path, contents, -1, NULL));
  return path;
}

static void
set_up (Program *program, gconstpointer data)
{
  g_autoptr (HwBench) orchard = bench_with_orchard ();
  g_autoptr (GError) error = NULL;

  program->folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  program->scene = in_folder (program, "orchard.hoopscene", NULL);
  g_assert_true (hw_bench_save (orchard, program->scene, &error));
  hw_session_set_last_scene (NULL, NULL);
  program->application = data == NULL ? the_program () : NULL;
}

static GList *
windows (Program *program)
{
  return gtk_application_get_windows (GTK_APPLICATION (program->application));
}

static HwWindow *
window (Program *program)
{
  GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (program->application));

  g_assert_true (HW_IS_WINDOW (active));
  return HW_WINDOW (active);
}

static void
close_all (Program *program)
{
  while (windows (program) != NULL)
    gtk_window_destroy (windows (program)->data);
  hands_settle ();
}

static void
tear_down (Program *program, gconstpointer data)
{
  if (program->application != NULL)
    close_all (program);
  folder_remove (program->folder);
  g_free (program->folder);
  g_free (program->scene);
}

static void
open (Program *program, const char *const *paths)
{
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; paths[i] != NULL; i++)
    g_ptr_array_add (files, g_file_new_for_path (paths[i]));
  g_application_open (program->application, (GFile **)files->pdata, (int)files->len, "");
  hands_settle ();
}

static guint
n_motifs (HwWindow *window)
{
  return g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (hw_window_get_bench (window))));
}

/* In all windows. */
static guint
all_motifs (Program *program)
{
  guint n = 0;

  for (GList *l = windows (program); l != NULL; l = l->next)
    n += HW_IS_WINDOW (l->data) ? n_motifs (l->data) : 0;
  return n;
}

/* Without a scene it begins with the start page; asked again it shows the window that is there. */
static void
it_begins_with_the_start_page (Program *program, gconstpointer data)
{
  g_application_activate (program->application);
  hands_settle ();
  g_assert_cmpuint (g_list_length (windows (program)), ==, 1);
  g_assert_true (hw_window_is_at_start (window (program)));
  g_application_activate (program->application);
  g_assert_cmpuint (g_list_length (windows (program)), ==, 1);
}

static void
it_goes_on_with_the_scene_open_last (Program *program, gconstpointer data)
{
  hw_session_set_last_scene (NULL, program->scene);
  g_application_activate (program->application);
  hands_settle ();
  g_assert_false (hw_window_is_at_start (window (program)));
  g_assert_cmpuint (n_motifs (window (program)), ==, 3);
  /* The desktop's menu: a new scene, or one that is asked for. */
  g_action_group_activate_action (G_ACTION_GROUP (program->application), "new-scene", NULL);
  hands_settle ();
  g_assert_true (hw_window_is_at_start (window (program)));
  g_action_group_activate_action (G_ACTION_GROUP (program->application), "open-scene", NULL);
  hands_settle ();
  g_assert_nonnull (room_chooser ());
  /* What is open in front of a window is answered first. */
  g_action_group_activate_action (G_ACTION_GROUP (program->application), "open-scene", NULL);
  g_action_group_activate_action (G_ACTION_GROUP (program->application), "new-scene", NULL);
  while (room_chooser () != NULL)
    room_pick (NULL);
}

/* A scene is asked for before there is a window. */
static void
it_opens_a_window_to_ask_in (Program *program, gconstpointer data)
{
  g_action_group_activate_action (G_ACTION_GROUP (program->application), "open-scene", NULL);
  hands_settle ();
  g_assert_nonnull (room_chooser ());
  room_pick (program->scene);
  room_until (n_motifs (window (program)) == 3);
}

/* Each scene gets a window; what is no scene says so in its own, and artwork comes into the last. */
static void
scenes_get_a_window_each (Program *program, gconstpointer data)
{
  g_autofree char *torn = in_folder (program, "torn.hoopscene", "{");
  g_autofree char *leaf = in_folder (program, "leaf.SVG", drawing);
  const char *both[] = { torn, program->scene, leaf, NULL }, *alone[] = { leaf, NULL };

  open (program, both);
  g_assert_cmpuint (g_list_length (windows (program)), ==, 2);
  HwWindow *second = NULL;
  for (GList *l = windows (program); l != NULL; l = l->next)
    if (hw_bench_get_path (hw_window_get_bench (l->data)) != NULL)
      second = l->data;
  g_assert_nonnull (second);
  room_until (n_motifs (second) == 4);
  /* A dialog in front of the window does not keep artwork from it. */
  g_action_group_activate_action (G_ACTION_GROUP (second), "supplies", NULL);
  hands_settle ();
  gtk_window_present (GTK_WINDOW (second));
  hands_settle ();
  guint before = all_motifs (program);
  open (program, alone);
  room_until (all_motifs (program) == before + 1);
}

/* Artwork alone opens a window to lay it in. */
static void
artwork_alone_gets_a_new_cloth (Program *program, gconstpointer data)
{
  g_autofree char *leaf = in_folder (program, "leaf.svg", drawing);
  const char *alone[] = { leaf, NULL };

  open (program, alone);
  g_assert_cmpuint (g_list_length (windows (program)), ==, 1);
  room_until (n_motifs (window (program)) == 1);
  g_assert_false (hw_window_is_at_start (window (program)));
}

/* More scenes than anyone means are a slip of the hand: some open, and that is told. */
static void
too_many_scenes_are_a_slip (Program *program, gconstpointer data)
{
  const char *many[24] = { NULL };

  for (guint i = 0; i < 23; i++)
    many[i] = program->scene;
  open (program, many);
  g_assert_cmpuint (g_list_length (windows (program)), ==, 20);
  guint told = 0;
  for (GList *l = windows (program); l != NULL; l = l->next)
    told += g_str_has_prefix (gtk_label_get_label (HW_WINDOW (l->data)->message),
                              "More than 20 scenes at once are too many");
  g_assert_cmpuint (told, ==, 1);
}

/* Every window is asked, so that each can speak of its work; one that has some stays. */
static void
quitting_asks_every_window (Program *program, gconstpointer data)
{
  const char *both[] = { program->scene, program->scene, NULL };

  open (program, both);
  HwWindow *busy = windows (program)->data;
  hw_bench_select_only (hw_window_get_bench (busy), "m1");
  hw_bench_nudge (hw_window_get_bench (busy), 3, 0);
  g_action_group_activate_action (G_ACTION_GROUP (program->application), "quit", NULL);
  hands_settle ();
  GtkWindow *question = hands_window ("Not saved yet");
  g_assert_nonnull (question);
  hands_click (question, "Go on working");
  guint left = 0;
  for (GList *l = windows (program); l != NULL; l = l->next)
    left += HW_IS_WINDOW (l->data);
  g_assert_cmpuint (left, ==, 1);
  g_assert_true (windows (program)->data == busy);
}

static gboolean
look_and_leave_cb (gpointer data)
{
  GApplication *application = g_application_get_default ();
  gboolean *at_start = data;
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window == NULL)
    return G_SOURCE_CONTINUE;
  while (HW_IS_WINDOW (window) == FALSE && gtk_window_get_transient_for (window) != NULL)
    window = gtk_window_get_transient_for (window);
  *at_start = HW_IS_WINDOW (window) && hw_window_is_at_start (HW_WINDOW (window));
  for (GList *l; (l = gtk_application_get_windows (GTK_APPLICATION (application))) != NULL;)
    gtk_window_destroy (l->data);
  return G_SOURCE_REMOVE;
}

/* As it is started from a terminal or the desktop's menu: with a new scene wanted it does not go on with the last. */
static void
an_option_asks_for_a_new_scene (Program *program, gconstpointer data)
{
  const char *wanted[] = { "hoopwright", "--new-scene", NULL };
  gboolean at_start = FALSE;

  hw_session_set_last_scene (NULL, program->scene);
  g_timeout_add (50, look_and_leave_cb, &at_start);
  g_assert_cmpint (hw_application_main (2, (char **)wanted), ==, 0);
  g_assert_true (at_start);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/program/" #test, Program, NULL, set_up, test, tear_down)
  g_test_add ("/program/an_option_asks_for_a_new_scene", Program, "by itself", set_up,
              an_option_asks_for_a_new_scene, tear_down);
  ADD (it_begins_with_the_start_page);
  ADD (it_goes_on_with_the_scene_open_last);
  ADD (it_opens_a_window_to_ask_in);
  ADD (scenes_get_a_window_each);
  ADD (artwork_alone_gets_a_new_cloth);
  ADD (too_many_scenes_are_a_slip);
  ADD (quitting_asks_every_window);
  return g_test_run ();
}
