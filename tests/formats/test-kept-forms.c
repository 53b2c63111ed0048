/* Files of every earlier form open and lose nothing when they are saved; files of a later form are read as far as they are understood, and never written. */
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>

#include "formats/kept-work.h"
#include "formats/needle-csv.h"
#include "formats/palette-csv.h"
#include "formats/points-json.h"
#include "formats/readings-json.h"
#include "formats/scene-file.h"
#include "scene-texts.h"

static char *
kept (const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "formats", "kept", name, NULL);
}

/* A flag that is not set, an empty list: what need not be said. */
static gboolean
is_unset (JsonNode *node)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    return json_array_get_length (json_node_get_array (node)) == 0;
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_BOOLEAN
         && !json_node_get_boolean (node);
}

/* Every member of was is one of is, wherever it stands; what differs is said. A place in a list is a member. */
static void
assert_holds (JsonNode *is, JsonNode *was, const char *where)
{
  if (JSON_NODE_HOLDS_OBJECT (was))
    {
      g_autoptr (GList) members = json_object_get_members (json_node_get_object (was));

      g_assert_true (JSON_NODE_HOLDS_OBJECT (is));
      for (GList *l = members; l != NULL; l = l->next)
        {
          g_autofree char *place = g_strdup_printf ("%s.%s", where, (const char *)l->data);
          JsonNode *now = json_object_get_member (json_node_get_object (is), l->data);

          if (now == NULL && is_unset (json_object_get_member (json_node_get_object (was), l->data)))
            continue;
          if (now == NULL)
            g_test_message ("lost: %s", place);
          g_assert_nonnull (now);
          assert_holds (now, json_object_get_member (json_node_get_object (was), l->data), place);
        }
    }
  else if (JSON_NODE_HOLDS_ARRAY (was))
    {
      JsonArray *now = json_node_get_array (is), *before = json_node_get_array (was);

      g_assert_cmpuint (json_array_get_length (now), ==, json_array_get_length (before));
      for (guint i = 0; i < json_array_get_length (before); i++)
        assert_holds (json_array_get_element (now, i), json_array_get_element (before, i), where);
    }
  else if (JSON_NODE_HOLDS_VALUE (was) && json_node_get_value_type (was) != G_TYPE_STRING)
    g_assert_cmpfloat_with_epsilon (json_node_get_double (is), json_node_get_double (was), 1e-9);
  else if (JSON_NODE_HOLDS_VALUE (was))
    g_assert_cmpstr (json_node_get_string (is), ==, json_node_get_string (was));
}

typedef struct
{
  const char *name;
  guint hoops, motifs, frozen, log, photos, palette, parts;
} Form;

/* Counted in the files by hand. */
static const Form forms[] = {
  { "first.hoopscene", 2, 2, 1, 0, 0, 0, 0 },        { "least.hoopscene", 1, 1, 0, 0, 0, 0, 0 },
  { "decided.hoopscene", 3, 3, 1, 0, 0, 0, 0 },      { "at-the-machine.hoopscene", 1, 2, 1, 3, 0, 0, 0 },
  { "photographed.hoopscene", 3, 3, 1, 0, 2, 2, 2 }, { "divided.hoopscene", 1, 2, 0, 0, 0, 0, 2 },
  { "everything.hoopscene", 1, 2, 0, 1, 0, 1, 1 },   { "in-turns.hoopscene", 1, 3, 1, 0, 0, 0, 0 },
};

static void
an_earlier_scene_opens_and_loses_nothing (gconstpointer data)
{
  const Form *form = data;
  g_autofree char *path = kept (form->name);
  g_autofree char *text = NULL, *written = NULL;
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwSnapshot) again = NULL;
  g_autoptr (JsonNode) was = NULL, is = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, &error));
  scene = hw_scene_file_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (scene->newer_version, ==, 0);
  g_assert_cmpuint (scene->hoops->len, ==, form->hoops);
  g_assert_cmpuint (scene->motifs->len, ==, form->motifs);
  g_assert_cmpuint (scene->frozen->len, ==, form->frozen);
  g_assert_cmpuint (scene->log->len, ==, form->log);
  g_assert_cmpuint (scene->photos->len, ==, form->photos);
  g_assert_cmpuint (scene->palette->len, ==, form->palette);
  g_assert_cmpuint (scene->parts->len, ==, form->parts);

  written = hw_scene_file_text (scene);
  was = json_from_string (text, NULL);
  is = json_from_string (written, NULL);
  assert_holds (is, was, form->name);
  again = hw_scene_file_parse (written, -1, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (again);
}

static void
what_else_is_read_still_opens (void)
{
  g_autofree char *readings = kept ("readings.json"), *distances = kept ("distances.json");
  g_autofree char *points = kept ("points.json"), *needles = kept ("needles.csv");
  g_autofree char *palette = kept ("palette.csv");
  g_autoptr (GError) error = NULL;
  g_autoptr (HwMeasured) read = hw_measured_load (readings, HW_MEASURED_EITHER, &error);
  g_autoptr (HwMeasured) apart = hw_measured_load (distances, HW_MEASURED_EITHER, &error);
  g_autoptr (HwKnownPoints) known = hw_known_points_load (points, &error);
  g_autoptr (HwNeedleList) list = hw_needle_csv_load (needles, &error);
  g_autoptr (GPtrArray) threads = hw_palette_csv_load (palette, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (read->n_distances, ==, 2);
  g_assert_cmpuint (apart->n_distances, ==, 2);
  g_assert_cmpuint (known->n_points, ==, 4);
  g_assert_cmpuint (list->n_stitches, >, 0);
  g_assert_cmpuint (threads->len, >, 0);
}

/* A folder of unsaved work with one text in it. */
static GPtrArray *
left_with (const char *text, char **folder)
{
  g_autofree char *file = NULL;

  *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  file = g_build_filename (*folder, "1.hoopwork", NULL);
  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  return hw_left_work_list (*folder);
}

static void
clear (const char *folder)
{
  g_autofree char *file = g_build_filename (folder, "1.hoopwork", NULL);

  g_assert_cmpint (g_unlink (file), ==, 0); /* it was left where it is */
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static void
unsaved_work_of_an_earlier_form_comes_back (void)
{
  g_autofree char *path = kept ("unsaved.hoopwork");
  g_autofree char *text = NULL, *folder = NULL, *other = NULL;
  g_autoptr (GPtrArray) left = NULL;
  g_autoptr (GPtrArray) later = NULL;
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (GString) changed = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  left = left_with (text, &folder);
  g_assert_cmpuint (left->len, ==, 1);
  scene = hw_left_work_read (left->pdata[0], NULL);
  g_assert_nonnull (scene);
  g_assert_cmpstr (((HwLeftWork *)left->pdata[0])->path, ==, "/garden/walled.hoopscene");
  clear (folder);

  /* Work that a newer program kept is not offered, and not thrown away. */
  changed = g_string_new (text);
  g_string_replace (changed, "\"version\":1", "\"version\":2", 1);
  later = left_with (changed->str, &other);
  g_assert_cmpuint (later->len, ==, 0);
  clear (other);
}

static void
a_newer_scene_is_read_and_not_written (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "wall.hoopscene", NULL);
  g_autofree char *text = NULL, *after = NULL;
  g_autoptr (GString) newer = g_string_new (contract);
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (GError) error = NULL;

  g_string_replace (newer, "\"version\": 1,", "\"version\": 3000000000, \"weather\": {\"wind\": \"west\"},",
                    1);
  g_assert_true (g_file_set_contents (path, newer->str, -1, NULL));
  scene = hw_scene_file_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (scene->newer_version, ==, 3000000000u);
  g_assert_cmpuint (scene->motifs->len, ==, 1);

  g_assert_false (hw_scene_file_save (scene, path, NULL, &error));
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_WRITE);
  g_assert_cmpstr (
      error->message, ==,
      "wall.hoopscene was not saved: a newer Hoopwright wrote this scene, and this one only reads it.");
  g_assert_true (g_file_get_contents (path, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, newer->str);
  g_unlink (path);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autofree char *name = g_strdup_printf ("/formats/kept-forms/%s", forms[i].name);

      g_test_add_data_func (name, &forms[i], an_earlier_scene_opens_and_loses_nothing);
    }
  g_test_add_func ("/formats/kept-forms/what-else-is-read", what_else_is_read_still_opens);
  g_test_add_func ("/formats/kept-forms/unsaved-work", unsaved_work_of_an_earlier_form_comes_back);
  g_test_add_func ("/formats/kept-forms/newer", a_newer_scene_is_read_and_not_written);
  return g_test_run ();
}
