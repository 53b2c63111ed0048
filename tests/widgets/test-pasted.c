/* The clipboard may hold anything. It is pasted into whatever takes a text, in the window, at the machine and in the dialogs, with Enter after it: the scene stays one that is
 * read again as it was written, and its names are names. */
#include <string.h>

#include <json-glib/json-glib.h>

#include "../rounds.h"
#include "../workbench/bench-fixture.h"
#include "formats/scene-file.h"
#include "geometry/one-line.h"
#include "window-fixture.h"
#include "workbench/section.h"

#define CLIPS_A_FIELD 3

/* What another program may have put there: figures out of range, of another kind, in other digits; markup, formulas, formats, terminal sequences; line ends, turns of direction. */
static const char *const pieces[] = {
  "12.3 mm",
  "-1e999",
  "9999999999999999999999999",
  "1e-300",
  "nan",
  "inf",
  "\xd9\xa3\xd9\xab\xd9\xa5",
  "3 1/2 in",
  "1/0",
  "0",
  "-0",
  "%",
  "\xe2\x80\xb3",
  "<b>Quay</b> &amp;",
  "%s%n%999999d",
  "=HYPERLINK(1)",
  "\033]0;taken\a",
  "\n\n",
  "\r\n",
  "\t",
  "\xe2\x80\xae",
  "\xe2\x80\xa8",
  "\xf0\x9f\xaa\xa1",
  "e\xcc\x81\xcc\x81\xcc\x81\xcc\x81\xcc\x81\xcc\x81",
  "Ida\xef\xbb\xbf",
  "../../",
  "\"}],\"name\":[",
  " ",
};

static GdkContentProvider *
bytes_as_text (const char *data, gsize size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);

  return gdk_content_provider_new_for_bytes ("text/plain;charset=utf-8", bytes);
}

/* Returns: (transfer full) (nullable): NULL for a clipboard that is empty */
static GdkContentProvider *
some_clip (void)
{
  g_autoptr (GString) text = g_string_new (NULL);

  switch (g_test_rand_int_range (0, 12))
    {
    case 0:
      return NULL;
    case 1: /* said to be UTF-8, and is not */
      return bytes_as_text ("Quay \xff\xfe\xc3\x28 12", 12);
    case 2: /* with an end in its middle */
      return bytes_as_text ("12\0 mm", 6);
    case 3:
      {
        g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 4, 4);
        g_autoptr (GdkTexture) texture = NULL;

        gdk_pixbuf_fill (picture, 0x336699ff);
        texture = gdk_texture_new_for_pixbuf (picture);
        return gdk_content_provider_new_typed (GDK_TYPE_TEXTURE, texture);
      }
    case 4: /* a whole page, by mistake */
      for (int i = 0; i < 400; i++)
        g_string_append (text, "Pear blossom over the wall, \n");
      break;
    case 5:
      for (int i = 0; i < 20000; i++)
        g_string_append_c (text, 'w');
      break;
    default:
      for (int n = g_test_rand_int_range (1, 5); n > 0; n--)
        g_string_append (text, pieces[g_test_rand_int_range (0, G_N_ELEMENTS (pieces))]);
    }
  return gdk_content_provider_new_typed (G_TYPE_STRING, text->str);
}

static void
read_cb (GObject *clipboard, GAsyncResult *result, gpointer is_read)
{
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);

  *(gboolean *)is_read = TRUE;
}

static void
paste (GtkWidget *into, GdkContentProvider *clip)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (into);
  gboolean is_read = FALSE;

  gdk_clipboard_set_content (clipboard, clip);
  gtk_widget_grab_focus (into);
  if (gtk_widget_get_ancestor (into, GTK_TYPE_VIEWPORT) != NULL)
    room_wait (20); /* it is scrolled into sight */
  gtk_widget_activate_action (into, "selection.select-all", NULL);
  gtk_widget_activate_action (into, "clipboard.paste", NULL);
  /* Whoever reads it after has read it later. */
  gdk_clipboard_read_text_async (clipboard, NULL, read_cb, &is_read);
  room_until (is_read);
  hands_settle ();
}

static void
unfold (GtkWidget *root)
{
  if (HW_IS_SECTION (root))
    hw_section_set_open (HW_SECTION (root), TRUE);
  if (GTK_IS_EXPANDER (root))
    gtk_expander_set_expanded (GTK_EXPANDER (root), TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    unfold (child);
}

static gboolean
takes_text (GtkWidget *widget)
{
  if (!gtk_widget_is_sensitive (widget) || !gtk_widget_get_mapped (widget))
    return FALSE;
  return (GTK_IS_TEXT (widget) && gtk_editable_get_editable (GTK_EDITABLE (widget)))
         || (GTK_IS_TEXT_VIEW (widget) && gtk_text_view_get_editable (GTK_TEXT_VIEW (widget)));
}

/* The one of that number of what takes text below root; *number is counted down on the way. (transfer none) (nullable) */
static GtkWidget *
find_text (GtkWidget *root, guint *number)
{
  if (!gtk_widget_get_visible (root))
    return NULL;
  if (takes_text (root) && (*number)-- == 0)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_text (child, number);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static guint
n_texts (GtkWidget *root)
{
  guint number = G_MAXUINT;

  find_text (root, &number);
  return G_MAXUINT - number;
}

static void
assert_name (JsonObject *object, const char *key, JsonNode *value, gpointer data);

static void
assert_names (JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    json_object_foreach_member (json_node_get_object (node), assert_name, NULL);
  else if (JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      assert_names (json_array_get_element (json_node_get_array (node), i));
}

static void
assert_name (JsonObject *object, const char *key, JsonNode *value, gpointer data)
{
  if (!g_str_equal (key, "name"))
    assert_names (value);
  else
    {
      const char *name = json_node_get_string (value);

      g_assert_cmpint (g_utf8_strlen (name, -1), <=, HW_LONGEST_NAME + 1);
      for (const char *at = name; *at != '\0'; at = g_utf8_next_char (at))
        g_assert_false (g_unichar_iscntrl (g_utf8_get_char (at)));
    }
}

static void
assert_whole (HwBench *bench)
{
  g_autoptr (HwSnapshot) scene = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autofree char *text = hw_scene_file_text (scene);
  g_autofree char *again = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) read = hw_scene_file_parse (text, -1, NULL, &error);
  g_autoptr (JsonNode) root = NULL;

  g_assert_no_error (error);
  again = hw_scene_file_text (read);
  g_assert_cmpstr (again, ==, text);
  root = json_from_string (text, &error);
  g_assert_no_error (error);
  assert_names (root);
}

/* Enter, a question for a file that comes of it put away. What an Enter before has closed by now has nothing left to press. */
static void
press_enter (GtkWidget *text)
{
  if (GTK_IS_TEXT (text) && gtk_widget_get_root (text) != NULL)
    g_signal_emit_by_name (text, "activate");
  hands_settle ();
  if (room_chooser () != NULL)
    room_pick (NULL);
}

/* Pastes into everything below what root() gives, which is asked anew each time: a dialog may close at Enter, a row be made anew. At least so many texts are
 * waited for. Returns: how often it pasted */
static guint
paste_everywhere (Room *room,
                  GtkWidget *(*root) (Room *room, const char *name),
                  const char *name,
                  guint least)
{
  guint n, pasted = 0;

  room_until ((n = n_texts (root (room, name))) >= least);
  for (guint i = 0; i < n; i++)
    for (guint clips = 0; clips < ROUNDS (CLIPS_A_FIELD); clips++)
      {
        guint number = i;
        GtkWidget *text = find_text (root (room, name), &number);
        g_autoptr (GdkContentProvider) clip = some_clip ();

        if (text == NULL)
          continue;
        g_object_ref (text);
        paste (text, clip);
        press_enter (text);
        g_object_unref (text);
        assert_whole (room->bench);
        pasted++;
      }
  g_test_message ("pasted %u times", pasted);
  return pasted;
}

static GtkWidget *
the_window (Room *room, const char *name)
{
  unfold (GTK_WIDGET (room->window));
  hands_settle ();
  return GTK_WIDGET (room->window);
}

static void
into_the_window (Room *room, gconstpointer data)
{
  hw_bench_select_only (room->bench, "m1");
  g_assert_cmpuint (paste_everywhere (room, the_window, NULL, 12), >, 9 * ROUNDS (CLIPS_A_FIELD));
}

static GtkWidget *
the_machine (Room *room, const char *name)
{
  if (!hw_window_is_at_machine (room->window))
    room_do (room, "at-machine", NULL);
  return GTK_WIDGET (room->window);
}

static void
at_the_machine (Room *room, gconstpointer data)
{
  guint pasted = 0;

  wait_for_plan (room->bench);
  g_assert_true (hw_bench_begin_hooping (room->bench, 0));
  wait_for_plan (room->bench);
  for (HwWorkStep step = HW_WORK_MARK; step <= HW_WORK_DONE; step++)
    {
      hw_bench_go_to_step (room->bench, step);
      hands_settle ();
      pasted += paste_everywhere (room, the_machine, NULL, 0);
    }
  g_assert_cmpuint (pasted, >, 8 * ROUNDS (CLIPS_A_FIELD));
}

static GtkWidget *
the_dialog (Room *room, const char *action)
{
  /* One that Enter has closed may go only now. */
  do
    {
      if (room_dialog (room) == NULL)
        room_do (room, action, NULL);
      room_until (room_dialog (room) != NULL && gtk_widget_get_mapped (GTK_WIDGET (room_dialog (room))));
      unfold (GTK_WIDGET (room_dialog (room)));
      hands_settle ();
    }
  while (room_dialog (room) == NULL);
  return GTK_WIDGET (room_dialog (room));
}

static const char *const dialogs[] = { "new-scene", "edit-cloth", "edit-hoops", "parts", "measure-cloth" };

static void
into_a_dialog (Room *room, gconstpointer data)
{
  wait_for_plan (room->bench);
  hw_bench_select_all (room->bench);
  hands_settle ();
  g_assert_cmpuint (paste_everywhere (room, the_dialog, data, 1), >, 0);
  while (room_dialog (room) != NULL)
    hands_close (room_dialog (room));
}

static int
least_width (gpointer root)
{
  int least;

  gtk_widget_measure (GTK_WIDGET (root), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

static const char *const with_names[]
    = { "new-scene", "edit-cloth", "edit-hoops",      "parts",   "measure-cloth", "put-in-part",
        "mark-list", "supplies",   "threads-at-hand", "day-log", "take-along" };
#define N_VIEWS (G_N_ELEMENTS (with_names) + 3 + HW_N_WORK_STEPS)

/* What each view takes at least across, px: the pane, the window, the dialogs, the steps at the machine. */
static void
least_widths (Room *room, int widths[N_VIEWS])
{
  guint n = 0;

  hw_bench_select_only (room->bench, "m1");
  wait_for_plan (room->bench);
  the_window (room, NULL);
  widths[n++] = least_width (room->window->side_pane);
  widths[n++] = least_width (room->window);
  hw_bench_select_all (room->bench);
  hands_settle ();
  widths[n++] = least_width (room->window->side_pane);
  for (guint i = 0; i < G_N_ELEMENTS (with_names); i++)
    {
      widths[n++] = least_width (the_dialog (room, with_names[i]));
      hands_close (room_dialog (room));
    }
  g_assert_true (hw_bench_begin_hooping (room->bench, 0));
  wait_for_plan (room->bench);
  for (HwWorkStep step = HW_WORK_MARK; step <= HW_WORK_DONE; step++)
    {
      hw_bench_go_to_step (room->bench, step);
      hands_settle ();
      widths[n++] = least_width (the_machine (room, NULL));
    }
  hw_bench_lay_aside (room->bench);
  room_do (room, "at-machine", NULL);
}

/* One word as long as names may be, pasted by mistake: the window keeps its size and the pane its place. */
static void
a_word_without_end_pushes_nothing_away (Room *room, gconstpointer data)
{
  g_autofree char *word = g_strnfill (HW_LONGEST_NAME, 'w');
  HwScene *scene = hw_bench_get_scene (room->bench);
  GListModel *motifs = hw_scene_get_motifs (scene);
  HwThreadBlock thread = { .name = word, .colour = { 0.4, 0.3, 0.2 }, .stitches = 900 };
  g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hw_scene_get_hoops (scene), 0);
  int plain[N_VIEWS], wide[N_VIEWS];

  hw_bench_select_only (room->bench, "m1");
  g_assert_true (hw_bench_put_in_part (room->bench, "Part"));
  least_widths (room, plain);
  g_object_set (scene, "name", word, NULL);
  g_object_set (hoop, "name", word, NULL);
  for (guint i = 0; i < g_list_model_get_n_items (motifs); i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      g_autoptr (HwMotif) copy = hw_motif_copy (hw_scene_motif_get_record (motif));

      g_free (copy->name);
      copy->name = g_strdup (word);
      hw_motif_set_threads (copy, &thread, 1);
      hw_scene_motif_set_record (motif, copy);
    }
  g_assert_true (hw_bench_rename_part (room->bench, 0, word));
  wait_for_plan (room->bench);
  least_widths (room, wide);
  for (guint i = 0; i < N_VIEWS; i++)
    {
      g_test_message ("view %u: %d, %d", i, plain[i], wide[i]);
      g_assert_cmpint (wide[i], <=, plain[i] + 60);
    }
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
  g_test_add ("/pasted/into_the_window", Room, NULL, room_set_up, into_the_window, room_tear_down);
  g_test_add ("/pasted/at_the_machine", Room, NULL, room_set_up, at_the_machine, room_tear_down);
  g_test_add ("/pasted/a_word_without_end", Room, NULL, room_set_up, a_word_without_end_pushes_nothing_away,
              room_tear_down);
  for (guint i = 0; i < G_N_ELEMENTS (dialogs); i++)
    {
      g_autofree char *path = g_strconcat ("/pasted/into/", dialogs[i], NULL);

      g_test_add (path, Room, dialogs[i], room_set_up, into_a_dialog, room_tear_down);
    }
  return g_test_run ();
}
