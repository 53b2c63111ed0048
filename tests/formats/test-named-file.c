/* Files that a scene names: read beside the scene and below it, elsewhere only when the person chose them; never what is no file. */
#include <glib/gstdio.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include "../folders.h"
#include "formats/artwork-shelf.h"
#include "formats/named-file.h"
#include "formats/scene-file.h"
#include "scene/limits.h"

#define ELSEWHERE                                                                                            \
  ": it lies outside the scene's folder, so it is not read; put it beside the scene, or open the scene in "  \
  "the window and allow it there."
#define NO_FILE ": this is no file that could be read; choose the artwork or the photo again."

static const char needles[] = "x_mm,y_mm,action,thread\n0,0,stitch,moss\n4,0,stitch,moss\n4,4,stitch,moss\n";

/* top/scene/art/leaf.csv, top/scene/fern.csv, top/secret.csv */
typedef struct
{
  char *top, *scene;
} Places;

static char *
put (const char *folder, const char *name, const char *text)
{
  char *path = g_build_filename (folder, name, NULL);
  g_autofree char *where = g_path_get_dirname (path);

  g_assert_cmpint (g_mkdir_with_parents (where, 0700), ==, 0);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  return path;
}

static void
set_up (Places *places, gconstpointer data)
{
  g_autofree char *leaf = NULL, *fern = NULL, *secret = NULL, *beside = NULL;

  places->top = g_dir_make_tmp ("hw-XXXXXX", NULL);
  places->scene = g_build_filename (places->top, "scene", NULL);
  leaf = put (places->scene, "art/leaf.csv", needles);
  fern = put (places->scene, "fern.csv", needles);
  secret = put (places->top, "secret.csv", needles);
  beside = put (places->top, "scene-of-others/secret.csv", needles);
}

static void
tear_down (Places *places, gconstpointer data)
{
  folder_remove (places->top);
  g_free (places->top);
  g_free (places->scene);
}

static void
assert_read (Places *places, const char *named)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *found = hw_named_file_find (named, places->scene, &error);

  g_assert_no_error (error);
  g_assert_nonnull (found);
}

static void
assert_left (Places *places, const char *named, const char *sentence)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *found = hw_named_file_find (named, places->scene, &error);

  g_assert_null (found);
  g_assert_nonnull (error);
  g_assert_cmpstr (error->message, ==, sentence);
}

static void
what_lies_beside_the_scene_is_read (Places *places, gconstpointer data)
{
  g_autofree char *whole = g_build_filename (places->scene, "art", "leaf.csv", NULL);

  assert_read (places, "fern.csv");
  assert_read (places, "art/leaf.csv");
  assert_read (places, "./art/../fern.csv");
  assert_read (places, "../scene/fern.csv");
  assert_read (places, whole);
  assert_left (places, "art/gone.csv", "gone.csv: there is no such file.");
}

static void
what_lies_elsewhere_is_left_alone (Places *places, gconstpointer data)
{
  g_autofree char *whole = g_build_filename (places->top, "secret.csv", NULL);

  assert_left (places, "../secret.csv", "secret.csv" ELSEWHERE);
  assert_left (places, "art/../../secret.csv", "secret.csv" ELSEWHERE);
  assert_left (places, "../scene-of-others/secret.csv", "secret.csv" ELSEWHERE);
  assert_left (places, whole, "secret.csv" ELSEWHERE);
  assert_left (places, "/etc/passwd", "passwd" ELSEWHERE);
  assert_left (places, "/dev/zero", "zero" ELSEWHERE);
  assert_left (places, "/proc/self/environ", "environ" ELSEWHERE);
  /* Whether it is there is not told either. */
  assert_left (places, "../gone.csv", "gone.csv" ELSEWHERE);
  assert_left (places, "../two\nlines.csv", "two\\nlines.csv" ELSEWHERE);
  assert_left (places, "..", ".." ELSEWHERE);
}

static void
a_link_leads_where_it_leads (Places *places, gconstpointer data)
{
  g_autofree char *inside = g_build_filename (places->scene, "near.csv", NULL);
  g_autofree char *outside = g_build_filename (places->scene, "far.csv", NULL);
  g_autofree char *folder = g_build_filename (places->scene, "library", NULL);
  g_autofree char *round = g_build_filename (places->scene, "round.csv", NULL);

  g_assert_cmpint (symlink ("art/leaf.csv", inside), ==, 0);
  g_assert_cmpint (symlink ("../secret.csv", outside), ==, 0);
  g_assert_cmpint (symlink (places->top, folder), ==, 0);
  g_assert_cmpint (symlink ("round.csv", round), ==, 0);
  assert_read (places, "near.csv");
  assert_left (places, "far.csv", "far.csv" ELSEWHERE);
  assert_left (places, "library/secret.csv", "secret.csv" ELSEWHERE);
  assert_left (places, "round.csv", "round.csv: there is no such file.");
}

/* The scene may be opened by a way that leads through a link, as home folders on another disk are. */
static void
the_scene_may_be_come_to_by_a_link (Places *places, gconstpointer data)
{
  g_autofree char *way = g_build_filename (places->top, "way", NULL);
  g_autofree char *true_leaf = g_build_filename (places->scene, "art", "leaf.csv", NULL);
  g_autofree char *leaf = NULL, *same = NULL, *secret = NULL;

  g_assert_cmpint (symlink ("scene", way), ==, 0);
  leaf = hw_named_file_find ("art/leaf.csv", way, NULL);
  same = hw_named_file_find (true_leaf, way, NULL);
  secret = hw_named_file_find ("../secret.csv", way, NULL);
  g_assert_cmpstr (leaf, ==, true_leaf);
  g_assert_cmpstr (same, ==, true_leaf);
  g_assert_null (secret);
}

static void
only_files_are_read (Places *places, gconstpointer data)
{
  g_autofree char *pipe = g_build_filename (places->scene, "pipe.csv", NULL);
  g_autofree char *zero = g_build_filename (places->scene, "zero.csv", NULL);
  struct sockaddr_un address = { .sun_family = AF_UNIX };
  int handle = socket (AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);

  g_snprintf (address.sun_path, sizeof address.sun_path, "%s/socket.csv", places->scene);
  g_assert_cmpint (bind (handle, (struct sockaddr *)&address, sizeof address), ==, 0);
  g_assert_cmpint (mkfifo (pipe, 0600), ==, 0);
  g_assert_cmpint (symlink ("/dev/zero", zero), ==, 0);
  assert_left (places, "pipe.csv", "pipe.csv" NO_FILE);
  assert_left (places, "socket.csv", "socket.csv" NO_FILE);
  assert_left (places, "art", "art" NO_FILE);
  assert_left (places, "zero.csv", "zero.csv" ELSEWHERE);
  /* A device stays a device when it was chosen. */
  hw_named_file_choose ("/dev/zero", NULL);
  assert_left (places, "/dev/zero", "zero" NO_FILE);
  close (handle);
}

static void
what_the_person_chose_is_read (Places *places, gconstpointer data)
{
  g_autofree char *link = g_build_filename (places->scene, "chosen.csv", NULL);

  assert_left (places, "../secret.csv", "secret.csv" ELSEWHERE);
  hw_named_file_choose ("../secret.csv", places->scene);
  assert_read (places, "../secret.csv");
  g_assert_cmpint (symlink ("../secret.csv", link), ==, 0);
  assert_read (places, "chosen.csv");
  /* that file, not its neighbours */
  assert_left (places, "../scene-of-others/secret.csv", "secret.csv" ELSEWHERE);
}

/* A name that was chosen is not a word for whatever is put there later. */
static void
a_chosen_name_does_not_come_to_lead_elsewhere (Places *places, gconstpointer data)
{
  g_autofree char *swapped = put (places->top, "swapped.csv", needles);

  hw_named_file_choose ("../swapped.csv", places->scene);
  g_assert_cmpint (g_unlink (swapped), ==, 0);
  g_assert_cmpint (symlink ("scene-of-others/secret.csv", swapped), ==, 0);
  assert_left (places, "../swapped.csv", "swapped.csv" ELSEWHERE);
}

static char *
list_of_chosen (void)
{
  return g_build_filename (g_get_user_state_dir (), "hoopwright", "chosen-files", NULL);
}

/* As two windows do: what the one writes the other reads. A line that is no address is passed over. */
static void
the_choice_is_kept (Places *places, gconstpointer data)
{
  g_autofree char *list = list_of_chosen ();
  g_autofree char *name = put (places->top, "two\nlines %s.csv", needles);
  g_autofree char *text = NULL, *more = NULL;

  hw_named_file_choose (name, NULL);
  g_assert_true (g_file_get_contents (list, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "two%0Alines%20%25s.csv\n"));
  more = g_strdup_printf ("no address\nfile://elsewhere/x\n\n%s", text);
  g_assert_true (g_file_set_contents (list, "", -1, NULL));
  assert_left (places, name, "two\\nlines %s.csv" ELSEWHERE);
  g_assert_true (g_file_set_contents (list, more, -1, NULL));
  assert_read (places, name);
}

static char *
scene_naming (const char *artwork)
{
  g_autofree char *escaped = g_strescape (artwork, NULL);

  return g_strdup_printf (
      "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Orchard\",\n"
      " \"fabric\": {\"width\": 300, \"height\": 300},\n"
      " \"edge_line\": {\"points\": [[10, 10], [290, 10], [290, 290], [10, 290]]},\n"
      " \"hoops\": [{\"id\": \"h1\", \"name\": \"Large\", \"field\": [130, 180], \"frame\": [170, 240]}],\n"
      " \"motifs\": [{\"id\": \"m1\", \"name\": \"Leaf\", \"outline\": [[[-9, -9], [9, -9], [0, 9]]],\n"
      "   \"position\": [150, 150], \"artwork\": {\"path\": \"%s\", \"kind\": \"needles\"},\n"
      "   \"threads\": [{\"name\": \"moss\", \"colour\": \"#335522\", \"stitches\": 3}]}]}\n",
      escaped);
}

/* The scene opens with the motif's outline, and its problem is the sentence. */
static void
the_scene_opens_with_the_outline (Places *places, gconstpointer data)
{
  static const char *const named[] = { "../secret.csv",          "/etc/passwd",
                                       "/dev/urandom",           "art",
                                       "../../../../etc/shadow", "http://orchard.example/leaf.csv" };
  g_autofree char *path = g_build_filename (places->scene, "orchard.hoopscene", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (named); i++)
    {
      g_autofree char *text = scene_naming (named[i]);
      g_autoptr (HwSnapshot) scene = NULL;
      g_autoptr (GPtrArray) elsewhere = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (g_file_set_contents (path, text, -1, NULL));
      scene = hw_scene_file_load (path, &error);
      g_assert_no_error (error);
      g_assert_nonnull (hw_snapshot_motif (scene, 0)->outline);
      g_assert_null (hw_snapshot_motif (scene, 0)->needles);
      g_assert_nonnull (hw_snapshot_motif (scene, 0)->artwork_trouble);
      elsewhere = hw_named_files_elsewhere (scene, places->scene);
      g_assert_cmpuint (elsewhere->len, ==, named[i][0] == '.' || named[i][0] == '/' ? 1 : 0);
    }
}

/* The shelf knows a file by the scene's folder as well: what one scene may read another may not have from it. */
static void
the_shelf_gives_nothing_away (Places *places, gconstpointer data)
{
  g_autoptr (HwArtworkShelf) shelf = hw_artwork_shelf_new ();
  g_autofree char *whole = g_build_filename (places->scene, "fern.csv", NULL);
  g_autofree char *others = g_build_filename (places->top, "scene-of-others", NULL);
  g_autoptr (HwMotif) ours = hw_motif_new (), theirs = hw_motif_new (), again = hw_motif_new ();

  ours->artwork = g_strdup (whole);
  theirs->artwork = g_strdup (whole);
  again->artwork = g_strdup (whole);
  ours->artwork_awaited = theirs->artwork_awaited = again->artwork_awaited = TRUE;
  hw_artwork_shelf_fill (shelf, places->scene, ours);
  hw_artwork_shelf_fill (shelf, others, theirs);
  g_assert_nonnull (ours->needles);
  g_assert_null (theirs->needles);
  g_assert_cmpstr (theirs->artwork_trouble, ==, "fern.csv" ELSEWHERE);

  /* once it is chosen, the next opening reads it */
  hw_named_file_choose (whole, NULL);
  hw_artwork_shelf_check (shelf);
  hw_artwork_shelf_fill (shelf, others, again);
  g_assert_nonnull (again->needles);
}

/* What a scene may read it may read still after it was saved elsewhere; what it may not it may not then either. */
static void
saving_elsewhere_takes_along_what_was_read (Places *places, gconstpointer data)
{
  static const char *const named[] = { "fern.csv", "../scene-of-others/secret.csv" };
  g_autofree char *path = g_build_filename (places->scene, "orchard.hoopscene", NULL);
  g_autofree char *other = g_build_filename (places->top, "moved", NULL);
  g_autofree char *moved = g_build_filename (other, "orchard.hoopscene", NULL);

  g_assert_cmpint (g_mkdir (other, 0700), ==, 0);
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *text = scene_naming (named[i]);
      g_autoptr (HwSnapshot) scene = NULL;
      g_autoptr (HwSnapshot) there = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (g_file_set_contents (path, text, -1, NULL));
      scene = hw_scene_file_load (path, &error);
      g_assert_true (hw_scene_file_save (scene, moved, places->scene, &error));
      there = hw_scene_file_load (moved, &error);
      g_assert_no_error (error);
      g_assert_true ((hw_snapshot_motif (there, 0)->needles != NULL) == (i == 0));
    }
}

/* What is not there cannot be chosen, and what was chosen is not written down twice; everything lies below the root. */
static void
choosing_twice_is_choosing_once (Places *places, gconstpointer data)
{
  g_autofree char *list = list_of_chosen (), *once = NULL, *twice = NULL, *none = NULL;
  g_autofree char *beside = put (places->top, "tide.csv", needles);
  g_autofree char *link = g_build_filename (places->top, "high-tide.csv", NULL), *fern = NULL, *found = NULL;

  hw_named_file_choose (beside, NULL);
  g_assert_true (g_file_get_contents (list, &once, NULL, NULL));
  hw_named_file_choose (beside, NULL);
  hw_named_file_choose ("../tide.csv", places->scene);
  g_assert_true (g_file_get_contents (list, &twice, NULL, NULL));
  g_assert_cmpstr (twice, ==, once);
  hw_named_file_choose ("../ebb.csv", places->scene);
  g_assert_true (g_file_get_contents (list, &none, NULL, NULL));
  g_assert_cmpstr (none, ==, once);
  assert_left (places, "../ebb.csv", "ebb.csv" ELSEWHERE);
  /* A link to what was chosen has not been chosen before it was. */
  g_assert_cmpint (symlink ("tide.csv", link), ==, 0);
  assert_left (places, "../high-tide.csv", "high-tide.csv" ELSEWHERE);
  hw_named_file_choose (link, NULL);
  assert_read (places, "../high-tide.csv");
  fern = g_build_filename (places->scene, "fern.csv", NULL);
  found = hw_named_file_find (fern, "/", NULL);
  g_assert_nonnull (found);
}

/* Motifs and photos that name the same file ask for it once. */
static void
what_is_named_twice_is_asked_for_once (Places *places, gconstpointer data)
{
  g_autofree char *text = scene_naming ("../secret.csv");
  g_autofree char *path = g_build_filename (places->scene, "orchard.hoopscene", NULL);
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (GPtrArray) elsewhere = NULL;
  HwPhoto *photo = hw_photo_new (), *other = hw_photo_new (), *inside = hw_photo_new ();

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  scene = hw_scene_file_load (path, NULL);
  photo->path = g_strdup ("../secret.csv");
  other->path = g_strdup ("../scene-of-others/secret.csv");
  inside->path = g_strdup ("fern.csv");
  g_ptr_array_add (scene->photos, photo);
  g_ptr_array_add (scene->photos, other);
  g_ptr_array_add (scene->photos, inside);
  elsewhere = hw_named_files_elsewhere (scene, places->scene);
  g_assert_cmpuint (elsewhere->len, ==, 2);
  g_assert_cmpstr (elsewhere->pdata[0], ==, "../secret.csv");
  g_assert_cmpstr (elsewhere->pdata[1], ==, "../scene-of-others/secret.csv");
}

/* The file that was chosen longest ago is the first to go. */
static void
five_thousand_choices_are_kept (Places *places, gconstpointer data)
{
  g_autofree char *secret = g_build_filename (places->top, "secret.csv", NULL);
  g_autofree char *state = g_build_filename (g_get_user_state_dir (), "hoopwright", NULL);
  g_autofree char *list = g_build_filename (state, "chosen-files", NULL);
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *uri = NULL, *first = NULL, *further = g_build_filename (places->scene, "fern.csv", NULL);

  first = g_canonicalize_filename (secret, NULL);
  uri = g_filename_to_uri (first, NULL, NULL);
  g_string_append_printf (text, "%s\n", uri);
  for (guint i = 2; i <= HW_MOST_CHOSEN_FILES; i++)
    g_string_append_printf (text, "file:///harbour/%u.csv\n", i);
  g_assert_cmpint (g_mkdir_with_parents (state, 0700), ==, 0);
  g_assert_true (g_file_set_contents (list, text->str, -1, NULL));
  for (guint more = 0; more < 2; more++)
    {
      g_auto (GStrv) lines = NULL;
      g_autofree char *kept = NULL;

      hw_named_file_choose (more == 0 ? secret : further, NULL);
      g_assert_true (g_file_get_contents (list, &kept, NULL, NULL));
      lines = g_strsplit (kept, "\n", -1);
      g_assert_cmpuint (g_strv_length (lines), ==, HW_MOST_CHOSEN_FILES + 1); /* the last one is empty */
      g_assert_cmpstr (lines[0], ==, more == 0 ? uri : "file:///harbour/2.csv");
    }
}

/* One that is larger is none of ours, and begun anew. */
static void
a_list_of_choices_is_read_up_to_16_mb (Places *places, gconstpointer data)
{
  g_autofree char *further = g_build_filename (places->scene, "fern.csv", NULL);
  g_autofree char *list = g_build_filename (g_get_user_state_dir (), "hoopwright", "chosen-files", NULL);
  g_autofree char *folder = g_path_get_dirname (list);
  static const char first[] = "file:///harbour/1.csv\n";

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  for (guint more = 0; more < 2; more++)
    {
      g_autofree char *text = g_strnfill (HW_LARGEST_CHOSEN_LIST + more, 'x');
      g_autofree char *kept = NULL;

      memcpy (text, first, strlen (first));
      g_assert_true (g_file_set_contents (list, text, -1, NULL));
      hw_named_file_choose (further, NULL);
      g_assert_true (g_file_get_contents (list, &kept, NULL, NULL));
      g_assert_true (g_str_has_prefix (kept, first) == (more == 0));
      g_assert_nonnull (strstr (kept, "fern.csv"));
    }
}

int
main (int argc, char **argv)
{
  g_autofree char *state = g_dir_make_tmp ("hw-state-XXXXXX", NULL);
  int result;

  g_setenv ("XDG_STATE_HOME", state, TRUE);
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test) g_test_add ("/formats/named-file/" name, Places, NULL, set_up, test, tear_down)
  ADD ("beside", what_lies_beside_the_scene_is_read);
  ADD ("elsewhere", what_lies_elsewhere_is_left_alone);
  ADD ("links", a_link_leads_where_it_leads);
  ADD ("scene-by-a-link", the_scene_may_be_come_to_by_a_link);
  ADD ("only-files", only_files_are_read);
  ADD ("chosen", what_the_person_chose_is_read);
  ADD ("chosen-and-swapped", a_chosen_name_does_not_come_to_lead_elsewhere);
  ADD ("choice-is-kept", the_choice_is_kept);
  ADD ("opens-with-the-outline", the_scene_opens_with_the_outline);
  ADD ("shelf", the_shelf_gives_nothing_away);
  ADD ("chosen-twice", choosing_twice_is_choosing_once);
  ADD ("chosen-five-thousand", five_thousand_choices_are_kept);
  ADD ("chosen-list-of-16-mb", a_list_of_choices_is_read_up_to_16_mb);
  ADD ("named-twice", what_is_named_twice_is_asked_for_once);
  ADD ("saved-elsewhere", saving_elsewhere_takes_along_what_was_read);
  result = g_test_run ();
  folder_remove (state);
  return result;
}
