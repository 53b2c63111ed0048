/* Earlier states of a scene file: the last ten, the newest first, none of them lost to quick saves. */
#include <glib/gstdio.h>
#include <string.h>
#include <utime.h>

#include "../folders.h"
#include "formats/earlier-states.h"
#include "formats/scene-file.h"
#include "scene-texts.h"

typedef struct
{
  char *folder, *states, *path;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hw-earlier-XXXXXX", NULL);
  f->states = g_build_filename (f->folder, "states", NULL);
  f->path = g_build_filename (f->folder, "harbour.hoopscene", NULL);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  folder_remove (f->folder);
  g_free (f->folder);
  g_free (f->states);
  g_free (f->path);
}

/* The file as it was saved at a second, and then about to be saved over. */
static void
save_and_keep (Fixture *f, const char *text, gint64 second, gint64 spacing)
{
  struct utimbuf times = { second, second };

  g_assert_true (g_file_set_contents (f->path, text, -1, NULL));
  g_assert_cmpint (utime (f->path, &times), ==, 0);
  g_assert_true (hw_earlier_state_keep (f->states, f->path, spacing, NULL));
}

static char *
text_of (GPtrArray *states, guint i)
{
  char *text = NULL;

  g_assert_true (g_file_get_contents (((HwEarlierState *)states->pdata[i])->file, &text, NULL, NULL));
  return text;
}

static void
the_last_ten_are_kept_newest_first (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) states = NULL;

  for (guint i = 0; i < 13; i++)
    {
      g_autofree char *text = g_strdup_printf ("state %u", i);
      save_and_keep (f, text, 1000 + i, 0);
    }
  states = hw_earlier_states_list (f->states, f->path);
  g_assert_cmpuint (states->len, ==, HW_MOST_EARLIER_STATES);
  for (guint i = 0; i < states->len; i++)
    {
      g_autofree char *text = text_of (states, i);
      g_autofree char *expected = g_strdup_printf ("state %u", 12 - i);

      g_assert_cmpstr (text, ==, expected);
      g_assert_cmpint (((HwEarlierState *)states->pdata[i])->saved, ==, 1012 - i);
    }
}

static void
the_same_again_is_not_kept_twice (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) states = NULL;

  save_and_keep (f, "one", 1000, 0);
  save_and_keep (f, "one", 1010, 0);
  states = hw_earlier_states_list (f->states, f->path);
  g_assert_cmpuint (states->len, ==, 1);
}

static void
quick_saves_do_not_push_out_a_day (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) states = NULL;

  for (guint i = 0; i < 120; i++) /* an hour of saves every half minute */
    {
      g_autofree char *text = g_strdup_printf ("state %u", i);
      save_and_keep (f, text, 1000 + 30 * i, 600);
    }
  states = hw_earlier_states_list (f->states, f->path);
  g_assert_cmpuint (states->len, >=, 6);
  g_assert_cmpuint (states->len, <=, 8);
  g_assert_cmpint (((HwEarlierState *)states->pdata[0])->saved, ==, 1000 + 30 * 119);
  g_assert_cmpint (((HwEarlierState *)states->pdata[states->len - 1])->saved, ==, 1000);
}

static void
a_clock_set_back_keeps_the_order (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) states = NULL;
  g_autofree char *newest = NULL;

  save_and_keep (f, "one", 5000, 0);
  save_and_keep (f, "two", 2000, 0);
  states = hw_earlier_states_list (f->states, f->path);
  newest = text_of (states, 0);
  g_assert_cmpuint (states->len, ==, 2);
  g_assert_cmpstr (newest, ==, "two");
}

/* Saves an hour apart, on a clock a day behind the last of them. */
static void
a_clock_set_back_lets_no_state_replace_another (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) states = NULL;

  save_and_keep (f, "state 0", 100000, 600);
  for (guint i = 1; i < 8; i++)
    {
      g_autofree char *text = g_strdup_printf ("state %u", i);
      save_and_keep (f, text, 10000 + 3600 * i, 600);
    }
  states = hw_earlier_states_list (f->states, f->path);
  g_assert_cmpuint (states->len, ==, 8);
  for (guint i = 0; i < states->len; i++)
    {
      g_autofree char *text = text_of (states, i);
      g_autofree char *expected = g_strdup_printf ("state %u", 7 - i);

      g_assert_cmpstr (text, ==, expected);
    }
}

static void
scenes_do_not_share_states (Fixture *f, gconstpointer data)
{
  g_autofree char *other = g_build_filename (f->folder, "orchard.hoopscene", NULL);
  g_autoptr (GPtrArray) states = NULL;

  save_and_keep (f, "one", 1000, 0);
  states = hw_earlier_states_list (f->states, other);
  g_assert_cmpuint (states->len, ==, 0);
}

static void
nothing_there_keeps_nothing (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) states = NULL;

  g_assert_true (hw_earlier_state_keep (f->states, f->path, 0, NULL));
  states = hw_earlier_states_list (f->states, f->path);
  g_assert_cmpuint (states->len, ==, 0);
}

static void
a_state_is_read_as_a_scene_or_refused (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) states = NULL;
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (GError) error = NULL;

  save_and_keep (f, "{\"half\": ", 1000, 0);
  save_and_keep (f, full, 1001, 0);
  states = hw_earlier_states_list (f->states, f->path);
  scene = hw_earlier_state_read (states->pdata[0], f->path, NULL);
  g_assert_nonnull (scene);
  g_assert_null (hw_earlier_state_read (states->pdata[1], f->path, &error));
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_READ);
}

static void
a_folder_that_cannot_be_is_told (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (g_file_set_contents (f->states, "in the way", -1, NULL));
  g_assert_true (g_file_set_contents (f->path, "one", -1, NULL));
  g_assert_false (hw_earlier_state_keep (f->states, f->path, 0, &error));
  g_assert_nonnull (strstr (error->message, f->states));
}

#define ADD(name, test) g_test_add ("/earlier-states/" name, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("the-last-ten-are-kept-newest-first", the_last_ten_are_kept_newest_first);
  ADD ("the-same-again-is-not-kept-twice", the_same_again_is_not_kept_twice);
  ADD ("quick-saves-do-not-push-out-a-day", quick_saves_do_not_push_out_a_day);
  ADD ("a-clock-set-back-keeps-the-order", a_clock_set_back_keeps_the_order);
  ADD ("clock-set-back-keeps-each", a_clock_set_back_lets_no_state_replace_another);
  ADD ("scenes-do-not-share-states", scenes_do_not_share_states);
  ADD ("nothing-there-keeps-nothing", nothing_there_keeps_nothing);
  ADD ("a-state-is-read-as-a-scene-or-refused", a_state_is_read_as_a_scene_or_refused);
  ADD ("a-folder-that-cannot-be-is-told", a_folder_that_cannot_be_is_told);
  return g_test_run ();
}
