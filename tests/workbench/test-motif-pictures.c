/* Thread pictures kept ready for the canvas. */
#include "workbench/motif-pictures.h"

#include <gio/gio.h>

typedef struct
{
  HwMotifPictures *pictures;
  HwMotif *motif;
  cairo_surface_t *sheet;
  cairo_t *cr;
  guint told;
} Fixture;

static const HwView view = { 2, 100, 100 };

static void
ready_cb (const char *id, gpointer user_data)
{
  Fixture *f = user_data;

  g_assert_true (g_str_has_prefix (id, "pear"));
  f->told++;
}

static HwMotif *
pear (void)
{
  HwMotif *motif = hw_motif_new ();
  HwNeedlePoint *points = g_new0 (HwNeedlePoint, 400);
  char **threads = g_new0 (char *, 2);
  const HwThreadBlock block = { "pear", { 0.7, 0.65, 0.1 }, 400, NULL };

  for (guint i = 0; i < 400; i++)
    points[i] = (HwNeedlePoint){ (i % 2 ? 20 : -20), -15 + i * 0.075f, 0, HW_NEEDLE_STITCH };
  threads[0] = g_strdup ("pear");
  motif->id = g_strdup ("pear");
  motif->name = g_strdup ("Pear");
  motif->outline = hw_outline_new_rectangle (40, 30);
  motif->placement = (HwPlacement){ { 50, 40 }, 0, 1, FALSE };
  motif->needles = hw_needle_list_new (points, 400, threads);
  hw_motif_set_threads (motif, &block, 1);
  return motif;
}

static void
set_up (Fixture *f, gconstpointer data)
{
  f->pictures = hw_motif_pictures_new (ready_cb, f);
  f->motif = pear ();
  f->sheet = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 400, 400);
  f->cr = cairo_create (f->sheet);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  cairo_destroy (f->cr);
  cairo_surface_destroy (f->sheet);
  hw_motif_unref (f->motif);
  g_clear_pointer (&f->pictures, hw_motif_pictures_free);
}

static void
wait_for_pictures (Fixture *f)
{
  while (hw_motif_pictures_is_busy (f->pictures))
    g_main_context_iteration (NULL, TRUE);
}

static void
draw (Fixture *f)
{
  cairo_save (f->cr);
  cairo_set_operator (f->cr, CAIRO_OPERATOR_CLEAR);
  cairo_paint (f->cr);
  cairo_restore (f->cr);
  hw_motif_pictures_draw (f->pictures, f->cr, f->motif, &view, 1, 1);
  cairo_surface_flush (f->sheet);
}

static guint
alpha_at (Fixture *f, int x, int y)
{
  const guchar *row = cairo_image_surface_get_data (f->sheet) + y * cairo_image_surface_get_stride (f->sheet);

  return ((const guint32 *)row)[x] >> 24;
}

/* The motif's middle lies at pixel (200, 180); it reaches 40 px to the sides and 30 px up and down. */
static void
test_something_shows_at_once (Fixture *f, gconstpointer data)
{
  draw (f);
  g_assert_cmpuint (alpha_at (f, 200, 180), >, 100);
  g_assert_cmpuint (alpha_at (f, 200, 240), ==, 0);
  wait_for_pictures (f);
}

static void
test_thread_shows_when_ready (Fixture *f, gconstpointer data)
{
  draw (f);
  wait_for_pictures (f);
  g_assert_cmpuint (f->told, ==, 1);
  draw (f);
  g_assert_cmpuint (alpha_at (f, 200, 180), >, 200);
  g_assert_cmpuint (alpha_at (f, 165, 180), >, 200);
  g_assert_cmpuint (alpha_at (f, 200, 240), ==, 0);
  g_assert_false (hw_motif_pictures_is_busy (f->pictures));
}

static void
moved_by (Fixture *f, double dx, double turn)
{
  HwMotif *copy = hw_motif_copy (f->motif);

  copy->placement.position.x += dx;
  copy->placement.angle += turn;
  hw_motif_unref (f->motif);
  f->motif = copy;
}

static void
test_moving_needs_no_new_picture (Fixture *f, gconstpointer data)
{
  draw (f);
  wait_for_pictures (f);
  moved_by (f, 25, 0);
  draw (f);
  g_assert_false (hw_motif_pictures_is_busy (f->pictures));
  g_assert_cmpuint (alpha_at (f, 250, 180), >, 200);
  g_assert_cmpuint (alpha_at (f, 190, 180), ==, 0);
}

static void
test_turning_shows_at_once_and_sharpens (Fixture *f, gconstpointer data)
{
  draw (f);
  wait_for_pictures (f);
  moved_by (f, 0, 90);
  draw (f);
  /* Turned by a quarter it reaches 40 px up and down, with the picture at hand ... */
  g_assert_cmpuint (alpha_at (f, 200, 215), >, 100);
  g_assert_cmpuint (alpha_at (f, 236, 180), ==, 0);
  g_assert_true (hw_motif_pictures_is_busy (f->pictures));
  wait_for_pictures (f);
  g_assert_cmpuint (f->told, ==, 2);
  draw (f);
  /* ... and as well with the new one. */
  g_assert_cmpuint (alpha_at (f, 200, 215), >, 200);
  g_assert_cmpuint (alpha_at (f, 236, 180), ==, 0);
  g_assert_false (hw_motif_pictures_is_busy (f->pictures));
}

static void
test_bounds_hold_what_is_drawn (Fixture *f, gconstpointer data)
{
  for (int i = 0; i < 12; i++)
    {
      HwBox box;

      moved_by (f, 1, 31);
      box = hw_motif_pictures_bounds (f->pictures, f->motif, &view);
      draw (f);
      for (int y = 0; y < 400; y++)
        for (int x = 0; x < 400; x++)
          if (alpha_at (f, x, y) > 0)
            g_assert_true (x >= box.x0 && x + 1 <= box.x1 && y >= box.y0 && y + 1 <= box.y1);
      if (i % 3 == 0)
        wait_for_pictures (f);
    }
  wait_for_pictures (f);
}

static void
test_unused_pictures_are_dropped (Fixture *f, gconstpointer data)
{
  draw (f);
  wait_for_pictures (f);
  hw_motif_pictures_set_limit (f->pictures, 1);
  draw (f); /* still in use: kept */
  g_assert_false (hw_motif_pictures_is_busy (f->pictures));
  hw_motif_pictures_turn_page (f->pictures);
  hw_motif_pictures_set_limit (f->pictures, 1);
  draw (f);
  g_assert_true (hw_motif_pictures_is_busy (f->pictures));
  wait_for_pictures (f);
}

#define MANY 30

/* Draws pear number i, on a page of its own. */
static void
draw_pear (Fixture *f, guint i)
{
  HwMotif *copy = hw_motif_copy (f->motif);

  g_free (copy->id);
  copy->id = g_strdup_printf ("pear %u", i);
  hw_motif_unref (f->motif);
  f->motif = copy;
  hw_motif_pictures_turn_page (f->pictures);
  draw (f);
}

/* What went is forgotten, so that a day of duplicates and deleting takes no more memory; what went last is kept for an undo. */
static void
test_motifs_that_went_are_forgotten (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  g_autoptr (GPtrArray) first = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < MANY; i++)
    {
      draw_pear (f, i);
      if (i == 0)
        g_ptr_array_add (first, hw_scene_motif_new (f->motif));
    }
  wait_for_pictures (f);
  hw_motif_pictures_motifs_changed (f->pictures, first);
  draw_pear (f, 0); /* is there still */
  draw_pear (f, MANY - 1);
  draw_pear (f, MANY - 12);
  g_assert_false (hw_motif_pictures_is_busy (f->pictures));
  draw_pear (f, MANY - 13);
  g_assert_true (hw_motif_pictures_is_busy (f->pictures));
  wait_for_pictures (f);
  hw_motif_pictures_motifs_changed (f->pictures, none);
  draw_pear (f, MANY - 11); /* drawn longest ago of the fourteen */
  g_assert_true (hw_motif_pictures_is_busy (f->pictures));
  wait_for_pictures (f);
}

static void
test_motifs_go_while_they_are_painted (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();

  for (guint round = 0; round < 3; round++)
    {
      for (guint i = 0; i < MANY; i++)
        draw_pear (f, i);
      hw_motif_pictures_motifs_changed (f->pictures, none);
      draw_pear (f, 0); /* comes back at once */
      if (round == 1)
        wait_for_pictures (f);
    }
  wait_for_pictures (f);
  draw_pear (f, 0);
  g_assert_false (hw_motif_pictures_is_busy (f->pictures));
}

static void
test_end_while_painting (Fixture *f, gconstpointer data)
{
  draw (f);
  g_clear_pointer (&f->pictures, hw_motif_pictures_free);
  /* The painted picture comes back to no one. */
  for (int i = 0; i < 50; i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (2000);
    }
  g_assert_cmpuint (f->told, ==, 0);
}

#define ADD(name, function) g_test_add ("/motif-pictures/" name, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("something-shows-at-once", test_something_shows_at_once);
  ADD ("thread-shows-when-ready", test_thread_shows_when_ready);
  ADD ("moving-needs-no-new-picture", test_moving_needs_no_new_picture);
  ADD ("turning-shows-at-once-and-sharpens", test_turning_shows_at_once_and_sharpens);
  ADD ("bounds-hold-what-is-drawn", test_bounds_hold_what_is_drawn);
  ADD ("unused-pictures-are-dropped", test_unused_pictures_are_dropped);
  ADD ("motifs-that-went-are-forgotten", test_motifs_that_went_are_forgotten);
  ADD ("motifs-go-while-they-are-painted", test_motifs_go_while_they_are_painted);
  ADD ("end-while-painting", test_end_while_painting);
  return g_test_run ();
}
