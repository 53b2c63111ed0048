/* What no hoop takes: the hoop and the turn that come nearest, by how much, and the scale that would do. And what hoops take: the
 * candidates. */
#include "sharing-cases.h"

static HwSnapshot *
scene_with_hoops (HwHold hold, guint n, ...)
{
  HwSnapshot *snapshot = hw_snapshot_new ();
  va_list sizes;

  snapshot->fabric.hold = hold;
  va_start (sizes, n);
  for (guint i = 0; i < n; i++)
    {
      double width = va_arg (sizes, double), height = va_arg (sizes, double);

      g_ptr_array_add (snapshot->hoops, case_hoop (width, height, 2, HW_TURN_ANY));
    }
  va_end (sizes);
  return snapshot;
}

static guint
placed_rectangle (double x, double y, double width, double height, double angle, HwPoint hull[4])
{
  g_autoptr (HwOutline) rectangle = hw_outline_new_rectangle (width, height);
  HwPlacement placement = { { x, y }, angle, 1, FALSE };
  g_autoptr (HwOutline) placed = hw_outline_place (rectangle, &placement);

  for (guint i = 0; i < placed->n_hull; i++)
    hull[i] = placed->hull[i];
  return placed->n_hull;
}

static void
scale_hull (const HwPoint *hull, guint n, double scale, HwPoint *scaled)
{
  for (guint i = 0; i < n; i++)
    scaled[i] = (HwPoint){ 300 + (hull[i].x - 300) * scale, 200 + (hull[i].y - 200) * scale };
}

static void
test_a_little_too_wide (void)
{
  g_autoptr (HwSnapshot) snapshot = scene_with_hoops (HW_HOLD_FLOATED, 2, 100.0, 100.0, 130.0, 180.0);
  HwPoint hull[4];
  guint n = placed_rectangle (300, 200, 132, 150, 25, hull);
  HwNearMiss near_miss = hw_sharing_nearest (hull, n, snapshot);

  g_assert_cmpuint (near_miss.hoop, ==, 1);
  g_assert_cmpfloat_with_epsilon (near_miss.miss, 6, 1e-6);
  g_assert_cmpfloat_with_epsilon (near_miss.angle, 25, 1e-6);
  g_assert_true (near_miss.too_wide);
  g_assert_cmpfloat_with_epsilon (near_miss.scale, 126.0 / 132, 1e-6);
}

static void
test_too_long (void)
{
  g_autoptr (HwSnapshot) snapshot = scene_with_hoops (HW_HOLD_FLOATED, 1, 130.0, 180.0);
  HwPoint hull[4];
  guint n = placed_rectangle (300, 200, 200, 120, 0, hull);
  HwNearMiss near_miss = hw_sharing_nearest (hull, n, snapshot);

  g_assert_false (near_miss.too_wide);
  g_assert_cmpfloat (near_miss.miss, >, 5);
  g_assert_cmpfloat (near_miss.miss, <=, 24);
}

static void
test_no_hoop_at_all (void)
{
  g_autoptr (HwSnapshot) snapshot = scene_with_hoops (HW_HOLD_FLOATED, 0);
  HwPoint hull[] = { { 0, 0 }, { 5, 0 }, { 0, 5 } };

  g_assert_true (isinf (hw_sharing_nearest (hull, 3, snapshot).miss));
}

/* The miss is the least over all angles, and the scale is the greatest that fits. */
static void
test_against_sampling (void)
{
  for (guint i = 0; i < 500; i++)
    {
      g_autoptr (HwSnapshot) snapshot = scene_with_hoops (
          HW_HOLD_FLOATED, 1, g_test_rand_double_range (50, 120), g_test_rand_double_range (50, 120));
      const HwHoop *hoop = hw_snapshot_hoop (snapshot, 0);
      HwPoint hull[64], scaled[64];
      guint n = case_random_hull (300, 200, 200, 20, hull);
      HwNearMiss near_miss;
      double least = INFINITY;

      if (hw_sharing_fits (hull, n, hoop, &snapshot->fabric))
        continue;
      near_miss = hw_sharing_nearest (hull, n, snapshot);
      for (double degrees = 0; degrees < 180; degrees += 0.31)
        least = MIN (least, case_excess (hull, n, hoop, degrees));
      g_assert_cmpfloat (near_miss.miss, <=, least + 1e-6);
      g_assert_cmpfloat_with_epsilon (case_excess (hull, n, hoop, near_miss.angle), near_miss.miss, 1e-6);
      scale_hull (hull, n, near_miss.scale, scaled);
      g_assert_true (hw_sharing_fits (scaled, n, hoop, &snapshot->fabric));
      scale_hull (hull, n, near_miss.scale * 1.0001, scaled);
      g_assert_false (hw_sharing_fits (scaled, n, hoop, &snapshot->fabric));
    }
}

static void
test_frame_passes_clamped_cloth (void)
{
  g_autoptr (HwSnapshot) snapshot = scene_with_hoops (HW_HOLD_CLAMPED, 1, 130.0, 180.0);
  HwPoint hull[4];
  guint n = placed_rectangle (30, 300, 40, 40, 0, hull); /* its left side at 10; the field begins 15 mm in */
  HwNearMiss near_miss = hw_sharing_nearest (hull, n, snapshot);

  g_assert_false (hw_sharing_fits (hull, n, hw_snapshot_hoop (snapshot, 0), &snapshot->fabric));
  g_assert_true (near_miss.by_frame);
  g_assert_cmpfloat_with_epsilon (near_miss.miss, 7, 0.01); /* 15 + 2 clearance - 10, upright */
  g_assert_cmpfloat (near_miss.scale, <, 0.7);
  g_assert_cmpfloat (near_miss.scale, >, 0.6);
}

/* The cloth made wider by the miss on all sides takes the frame, and by less does not. */
static void
test_frame_miss_is_the_least (void)
{
  guint asked = 0;

  for (guint i = 0; i < 1500; i++)
    {
      g_autoptr (HwSnapshot) snapshot = scene_with_hoops (HW_HOLD_CLAMPED, 1, 130.0, 180.0);
      const HwHoop *hoop = hw_snapshot_hoop (snapshot, 0);
      HwFabric *fabric = &snapshot->fabric;
      HwPoint hull[64], moved[64];
      double width = g_test_rand_double_range (150, 400), height = g_test_rand_double_range (150, 400);
      guint n = case_random_hull (g_test_rand_double_range (0, width), g_test_rand_double_range (0, height),
                                  40, 20, hull);
      HwNearMiss near_miss;

      fabric->width = width;
      fabric->height = height;
      if (hw_sharing_fits (hull, n, hoop, fabric))
        continue;
      near_miss = hw_sharing_nearest (hull, n, snapshot);
      g_assert_true (near_miss.by_frame);
      for (int more = -1; more <= 1; more += 2)
        {
          double by = near_miss.miss + more * 0.03;

          for (guint k = 0; k < n; k++)
            moved[k] = (HwPoint){ hull[k].x + by, hull[k].y + by };
          fabric->width = width + 2 * by;
          fabric->height = height + 2 * by;
          if (by > 0)
            g_assert_cmpint (hw_sharing_fits (moved, n, hoop, fabric), ==, more > 0);
        }
      asked++;
    }
  g_assert_cmpuint (asked, >, 300);
}

/* Turned so that the frame just fits the cloth, it does not reach the motif: that turn is not the nearest. */
static void
test_frame_that_fits_askew_only (void)
{
  g_autoptr (HwSnapshot) snapshot = scene_with_hoops (HW_HOLD_CLAMPED, 1, 160.0, 160.0);
  HwPoint hull[4];
  guint n = placed_rectangle (30, 120, 40, 40, 0, hull);
  HwNearMiss near_miss;

  ((HwHoop *)snapshot->hoops->pdata[0])->frame_width = 200;
  ((HwHoop *)snapshot->hoops->pdata[0])->frame_height = 200;
  snapshot->fabric.width = 260;
  snapshot->fabric.height = 240;
  near_miss = hw_sharing_nearest (hull, n, snapshot);
  g_assert_true (near_miss.by_frame);
  g_assert_cmpfloat_with_epsilon (near_miss.miss, 12, 0.03); /* 10 - 2 - (200 - 160) / 2, upright */
}

static void
add_motif (HwSnapshot *snapshot, double x, double y, double width, double height, double angle)
{
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup_printf ("m%u", snapshot->motifs->len + 1);
  motif->outline = hw_outline_new_rectangle (width, height);
  motif->placement = (HwPlacement){ { x, y }, angle, 1, FALSE };
  g_ptr_array_add (snapshot->motifs, motif);
}

static void
test_candidates_handiest_first (void)
{
  g_autoptr (HwSnapshot) snapshot
      = scene_with_hoops (HW_HOLD_FLOATED, 3, 160.0, 260.0, 130.0, 180.0, 60.0, 60.0);
  g_autoptr (GArray) candidates = NULL;
  guint motifs[] = { 0, 1 };
  HwCandidate first, second;

  add_motif (snapshot, 200, 200, 60, 60, 0);
  add_motif (snapshot, 220, 260, 40, 40, 0);
  candidates = hw_sharing_candidates (snapshot, motifs, 2);
  g_assert_cmpuint (candidates->len, >=, 2);
  first = g_array_index (candidates, HwCandidate, 0);
  second = g_array_index (candidates, HwCandidate, 1);
  g_assert_cmpuint (first.hoop, ==, 1); /* both unturned: the smaller hoop */
  g_assert_cmpfloat (first.pose.angle, ==, 0);
  g_assert_cmpuint (second.hoop, ==, 0);
}

/* One candidate for each interval; the one cut at half a turn counts once; each pose holds. */
static void
test_candidates_cover_the_intervals (void)
{
  guint cut = 0;

  for (guint i = 0; i < 500; i++)
    {
      g_autoptr (HwSnapshot) snapshot
          = scene_with_hoops (i % 2 ? HW_HOLD_FLOATED : HW_HOLD_CLAMPED, 2, 130.0, 180.0,
                              g_test_rand_double_range (90, 200), g_test_rand_double_range (90, 200));
      g_autoptr (GArray) candidates = NULL;
      g_autoptr (GArray) hull = NULL;
      guint motifs[] = { 0, 1 }, expected = 0;

      add_motif (snapshot, 300, 200, g_test_rand_double_range (10, 100), 60,
                 g_test_rand_double_range (-180, 180));
      add_motif (snapshot, 300 + g_test_rand_double_range (-70, 70), 230, 40, 40,
                 g_test_rand_double_range (-180, 180));
      hull = hw_sharing_hull (snapshot, motifs, 2);
      candidates = hw_sharing_candidates (snapshot, motifs, 2);
      for (guint h = 0; h < 2; h++)
        {
          g_autoptr (GArray) angles = hw_sharing_angles ((const HwPoint *)hull->data, hull->len,
                                                         hw_snapshot_hoop (snapshot, h), &snapshot->fabric);
          gboolean is_cut = angles->len > 1 && g_array_index (angles, HwAngleInterval, 0).from == 0
                            && g_array_index (angles, HwAngleInterval, angles->len - 1).to == 180;

          expected += angles->len - is_cut;
          cut += is_cut;
        }
      g_assert_cmpuint (candidates->len, ==, expected);
      for (guint k = 0; k < candidates->len; k++)
        {
          HwCandidate candidate = g_array_index (candidates, HwCandidate, k);

          g_assert_true (case_pose_holds ((const HwPoint *)hull->data, hull->len,
                                          hw_snapshot_hoop (snapshot, candidate.hoop), &snapshot->fabric,
                                          candidate.pose.centre, candidate.pose.angle, 1e-6));
        }
    }
  g_assert_cmpuint (cut, >, 50);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/sharing-nearest/a-little-too-wide", test_a_little_too_wide);
  g_test_add_func ("/planning/sharing-nearest/too-long", test_too_long);
  g_test_add_func ("/planning/sharing-nearest/no-hoop-at-all", test_no_hoop_at_all);
  g_test_add_func ("/planning/sharing-nearest/against-sampling", test_against_sampling);
  g_test_add_func ("/planning/sharing-nearest/frame-passes-clamped-cloth", test_frame_passes_clamped_cloth);
  g_test_add_func ("/planning/sharing-nearest/frame-miss-is-the-least", test_frame_miss_is_the_least);
  g_test_add_func ("/planning/sharing-nearest/frame-that-fits-askew-only", test_frame_that_fits_askew_only);
  g_test_add_func ("/planning/sharing-nearest/candidates-handiest-first", test_candidates_handiest_first);
  g_test_add_func ("/planning/sharing-nearest/candidates-cover-the-intervals",
                   test_candidates_cover_the_intervals);
  return g_test_run ();
}
