/* What breaks a rule, shown while dragging; and the other hoops that would do. */
#include "workbench/canvas-ghosts.h"
#include "workbench/canvas-rules.h"

#include <math.h>

typedef struct
{
  HwSnapshot *snapshot;
  HwRules *rules;
  GPtrArray *placed;
} Fixture;

static HwHoop *
hoop (const char *name, double width, double height)
{
  HwHoop *record = hw_hoop_new ();

  record->id = g_strdup (name);
  record->name = g_strdup (name);
  record->field_width = width;
  record->field_height = height;
  record->frame_width = width + 40;
  record->frame_height = height + 60;
  record->clearance = 2;
  return record;
}

static void
add_motif (HwSnapshot *snapshot, double x, double y, double width, double height)
{
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup_printf ("m%u", snapshot->motifs->len + 1);
  motif->name = g_strdup ("Pear");
  motif->outline = hw_outline_new_rectangle (width, height);
  motif->placement = (HwPlacement){ { x, y }, 0, 1, FALSE };
  g_ptr_array_add (snapshot->motifs, motif);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  f->snapshot = hw_snapshot_new ();
  g_clear_pointer (&f->snapshot->edge_line, hw_edge_line_unref);
  f->snapshot->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 50, 50, 650, 490 }, 0, 3);
  g_ptr_array_add (f->snapshot->hoops, hoop ("small", 100, 100));
  g_ptr_array_add (f->snapshot->hoops, hoop ("long", 130, 180));
  f->rules = hw_rules_new ();
  f->placed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  hw_rules_free (f->rules);
  g_ptr_array_unref (f->placed);
  hw_snapshot_unref (f->snapshot);
}

/* The first motif is in the air, the others lie still. */
static gboolean
look (Fixture *f, gboolean partners)
{
  guint n = f->snapshot->motifs->len;
  g_autofree guint8 *looks = g_new0 (guint8, n);

  for (guint i = f->placed->len; i < n; i++)
    g_ptr_array_add (f->placed, hw_outline_place (hw_snapshot_motif (f->snapshot, i)->outline,
                                                  &hw_snapshot_motif (f->snapshot, i)->placement));
  for (guint i = 0; i < n; i++)
    looks[i] = i == 0 ? HW_LOOK_AIR : HW_LOOK_STILL;
  return hw_rules_look (f->rules, f->snapshot, (HwOutline *const *)f->placed->pdata, looks, partners,
                        HW_UNIT_MM);
}

static gboolean
all_kept (Fixture *f)
{
  return hw_rules_are_kept (f->rules, HW_LOOK_AIR | HW_LOOK_STILL);
}

/* How much of the sheet is painted in madder, in pixels (1 px = 1 mm). */
static guint
madder_pixels (Fixture *f)
{
  cairo_surface_t *sheet = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 700, 540);
  cairo_t *cr = cairo_create (sheet);
  HwView view = { 1, 0, 0 };
  guint n = 0;

  hw_rules_draw (cr, f->rules, HW_LOOK_AIR, &view);
  cairo_surface_flush (sheet);
  for (int y = 0; y < 540; y++)
    for (int x = 0; x < 700; x++)
      {
        guint32 pixel = ((guint32 *)(cairo_image_surface_get_data (sheet)
                                     + y * cairo_image_surface_get_stride (sheet)))[x];
        if ((pixel >> 16 & 0xff) > 80 && (pixel & 0xff) < (pixel >> 16 & 0xff) / 2)
          n++;
      }
  cairo_destroy (cr);
  cairo_surface_destroy (sheet);
  return n;
}

static void
test_inside_all_is_well (Fixture *f, gconstpointer data)
{
  add_motif (f->snapshot, 200, 200, 90, 90);
  look (f, TRUE);
  g_assert_true (all_kept (f));
}

static void
test_margin_belongs_to_the_edge_line (Fixture *f, gconstpointer data)
{
  add_motif (f->snapshot, 50 + 45 + 2.5, 200, 90, 90); /* 2.5 mm from the edge line, 3 are asked for */
  look (f, TRUE);
  g_assert_false (all_kept (f));
}

static void
test_part_past_the_edge_line_is_filled (Fixture *f, gconstpointer data)
{
  guint n;

  add_motif (f->snapshot, 53, 200, 90,
             90); /* 45 of its 90 mm lie outside: 45 x 90 = 4050 mm^2, less its pale seam */
  look (f, TRUE);
  n = madder_pixels (f);
  g_assert_cmpuint (n, >, 3600);
  g_assert_cmpuint (n, <, 4500);
}

static void
test_motif_no_hoop_takes_is_outlined (Fixture *f, gconstpointer data)
{
  add_motif (f->snapshot, 350, 250, 200, 150);
  look (f, TRUE);
  g_assert_false (all_kept (f));
  /* two lines of 2 px about 700 px of outline, and nothing filled */
  g_assert_cmpuint (madder_pixels (f), >, 1000);
  g_assert_cmpuint (madder_pixels (f), <, 4000);
}

static void
test_partners_only_when_they_overlap (Fixture *f, gconstpointer data)
{
  add_motif (f->snapshot, 200, 200, 80, 80);
  add_motif (f->snapshot, 280, 200, 80, 80); /* touches along a side */
  look (f, TRUE);
  g_assert_true (all_kept (f));
  add_motif (f->snapshot, 230, 230, 80, 80);
  look (f, TRUE);
  g_assert_false (all_kept (f));
  look (f, FALSE);
  g_assert_true (all_kept (f));
}

static void
place_anew (Fixture *f, guint motif, double x)
{
  HwMotif *copy = hw_motif_copy (hw_snapshot_motif (f->snapshot, motif));

  copy->placement.position.x = x;
  hw_motif_unref (f->snapshot->motifs->pdata[motif]);
  f->snapshot->motifs->pdata[motif] = copy;
  hw_outline_unref (f->placed->pdata[motif]);
  f->placed->pdata[motif] = hw_outline_place (copy->outline, &copy->placement);
}

/* While the first is dragged about, what lies still past the edge line is drawn once. */
static void
test_what_lies_still_is_told_when_it_changes (Fixture *f, gconstpointer data)
{
  add_motif (f->snapshot, 200, 200, 40, 40);
  add_motif (f->snapshot, 50, 300, 40, 40);
  g_assert_true (look (f, TRUE));
  g_assert_false (hw_rules_are_kept (f->rules, HW_LOOK_STILL));
  g_assert_true (hw_rules_are_kept (f->rules, HW_LOOK_AIR));
  place_anew (f, 0, 60);
  g_assert_false (look (f, TRUE));
  g_assert_false (hw_rules_are_kept (f->rules, HW_LOOK_AIR));
  place_anew (f, 1, 300);
  g_assert_true (look (f, TRUE));
  g_assert_true (hw_rules_are_kept (f->rules, HW_LOOK_STILL));
  g_assert_false (look (f, TRUE));
}

/* A new edge line or a larger hoop makes every verdict anew. */
static void
test_new_ground_brings_new_verdicts (Fixture *f, gconstpointer data)
{
  add_motif (f->snapshot, 350, 250, 200, 150);
  look (f, TRUE);
  g_assert_false (all_kept (f));
  g_ptr_array_add (f->snapshot->hoops, hoop ("great", 240, 300));
  look (f, TRUE);
  g_assert_true (all_kept (f));
  hw_edge_line_unref (f->snapshot->edge_line);
  f->snapshot->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 300, 50, 650, 490 }, 0, 3);
  look (f, TRUE);
  g_assert_false (all_kept (f));
}

/* The long hoop would take it; set aside it does not count. */
static void
test_a_hoop_set_aside_takes_no_motif (Fixture *f, gconstpointer data)
{
  HwHoop *copy = hw_hoop_copy (hw_snapshot_hoop (f->snapshot, 1));

  add_motif (f->snapshot, 300, 250, 100, 150);
  look (f, TRUE);
  g_assert_true (all_kept (f));
  copy->set_aside = TRUE;
  hw_hoop_unref (f->snapshot->hoops->pdata[1]);
  f->snapshot->hoops->pdata[1] = copy;
  look (f, TRUE);
  g_assert_false (all_kept (f));
}

static void
test_words_stay_on_the_table (Fixture *f, gconstpointer data)
{
  HwBox area = { 26, 26, 400, 300 };
  g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  const guint8 told = 0;

  add_motif (f->snapshot, 660, 200, 90, 90);
  look (f, TRUE);
  for (int i = 0; i < 100; i++)
    {
      HwView view = { g_test_rand_double_range (0.3, 5), g_test_rand_double_range (-900, 900),
                      g_test_rand_double_range (-900, 900) };
      HwBox box = hw_rules_words_bounds (f->rules, &told, &view, area, avoid);

      g_assert_true (box.x0 >= area.x0 && box.y0 >= area.y0 && box.x1 <= area.x1 && box.y1 <= area.y1);
    }
}

/* A plan of one hooping that holds the first motif in the given hoop. */
static HwPlan *
plan_with (HwSnapshot *snapshot, guint hoop_index, double angle)
{
  HwPlan *plan = hw_plan_new (snapshot);

  plan->hoopings = g_new0 (HwHooping, 1);
  plan->n_hoopings = 1;
  plan->hoopings[0].hoop = hoop_index;
  plan->hoopings[0].angle = angle;
  plan->hoopings[0].centre = hw_snapshot_motif (snapshot, 0)->placement.position;
  plan->hoopings[0].motifs = g_new0 (guint, 1);
  plan->hoopings[0].predicted_error = g_new0 (double, 1);
  plan->hoopings[0].n_motifs = 1;
  return plan;
}

static void
test_ghosts_are_the_other_ways (Fixture *f, gconstpointer data)
{
  const guint motif = 0;

  add_motif (f->snapshot, 300, 250, 60, 40);
  g_autoptr (HwPlan) plan = plan_with (f->snapshot, 0, 0);
  g_autoptr (GArray) ghosts = hw_ghosts_find (plan, &motif, 1, 0);

  /* The hooping lies in the small hoop: the long one is the other way. */
  g_assert_cmpuint (ghosts->len, ==, 1);
  g_assert_cmpstr (g_array_index (ghosts, HwGhost, 0).hoop->name, ==, "long");

  plan->hoopings[0].hold = HW_PLACE_FROZEN;
  g_autoptr (GArray) none = hw_ghosts_find (plan, &motif, 1, 0);
  g_assert_cmpuint (none->len, ==, 0);
}

static void
test_ghost_is_felt_at_its_line_and_label (Fixture *f, gconstpointer data)
{
  const guint motif = 0;
  HwView view = { 2, 0, 0 };
  HwBox area = { 26, 26, 1400, 1000 };
  g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  add_motif (f->snapshot, 300, 250, 60, 40);
  g_autoptr (HwPlan) plan = plan_with (f->snapshot, 0, 0);
  g_autoptr (GArray) ghosts = hw_ghosts_find (plan, &motif, 1, 0);
  const HwGhost *ghost = &g_array_index (ghosts, HwGhost, 0);
  HwPoint centre = hw_view_to_pixels (&view, ghost->candidate.pose.centre);
  HwPoint side = hw_point_turn ((HwPoint){ -130, -60 }, ghost->candidate.pose.angle);
  HwPoint low = hw_point_turn ((HwPoint){ 0, 180 }, ghost->candidate.pose.angle);

  side = (HwPoint){ centre.x + side.x, centre.y + side.y };
  low = (HwPoint){ centre.x + low.x, centre.y + low.y };
  g_assert_cmpint (hw_ghosts_hit (ghosts, &view, area, avoid, centre, FALSE), ==, -1);
  g_assert_cmpint (hw_ghosts_hit (ghosts, &view, area, avoid, side, FALSE), ==, 0);
  g_assert_cmpint (hw_ghosts_hit (ghosts, &view, area, avoid, side, TRUE), ==, -1);
  g_assert_cmpint (hw_ghosts_hit (ghosts, &view, area, avoid, low, TRUE), ==, 0);
}

#define ADD(name, function) g_test_add (name, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/canvas-rules/inside-all-is-well", test_inside_all_is_well);
  ADD ("/canvas-rules/margin-belongs-to-the-edge-line", test_margin_belongs_to_the_edge_line);
  ADD ("/canvas-rules/part-past-the-edge-line-is-filled", test_part_past_the_edge_line_is_filled);
  ADD ("/canvas-rules/motif-no-hoop-takes-is-outlined", test_motif_no_hoop_takes_is_outlined);
  ADD ("/canvas-rules/partners-only-when-they-overlap", test_partners_only_when_they_overlap);
  ADD ("/canvas-rules/what-lies-still-is-told-when-it-changes", test_what_lies_still_is_told_when_it_changes);
  ADD ("/canvas-rules/new-ground-brings-new-verdicts", test_new_ground_brings_new_verdicts);
  ADD ("/canvas-rules/a-hoop-set-aside-takes-no-motif", test_a_hoop_set_aside_takes_no_motif);
  ADD ("/canvas-rules/words-stay-on-the-table", test_words_stay_on_the_table);
  ADD ("/canvas-ghosts/ghosts-are-the-other-ways", test_ghosts_are_the_other_ways);
  ADD ("/canvas-ghosts/ghost-is-felt-at-its-line-and-label", test_ghost_is_felt_at_its_line_and_label);
  return g_test_run ();
}
