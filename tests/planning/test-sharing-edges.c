/* The sharing question at its edges: nothing to hoop, no usable field, angles that are no angles, hoops alike, hoops that were changed, common hoops. */
#include "little-scenes.h"

#include <math.h>

#include "../../src/planning/common-hoops.h"
#include "../../src/planning/hoop-choice.h"
#include "../../src/planning/placings.h"
#include "../../src/planning/set-fit.h"
#include "../../src/planning/sharing.h"

static const HwPoint square[] = { { -20, -20 }, { 20, -20 }, { 20, 20 }, { -20, 20 } };

static void
assert_takes_nothing (const HwSnapshot *scene, const HwPoint *hull, guint n)
{
  const HwHoop *hoop = hw_snapshot_hoop (scene, 0);
  const double liked[] = { 0 };
  g_autoptr (GArray) angles = hw_sharing_angles (hull, n, hoop, &scene->fabric);
  HwPose pose;

  g_assert_false (hw_sharing_fits (hull, n, hoop, &scene->fabric));
  g_assert_cmpuint (angles->len, ==, 0);
  g_assert_false (hw_sharing_pose (hull, n, hoop, &scene->fabric, NULL, 0, 1, &pose));
  g_assert_false (hw_sharing_pose (hull, n, hoop, &scene->fabric, liked, 1, 0, &pose));
  g_assert_false (hw_sharing_pose_at (hull, n, hoop, &scene->fabric, 0, &pose));
  g_assert_true (isinf (hw_sharing_nearest (hull, n, scene).miss));
}

static void
nothing_fits_where_there_is_nothing (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  HwHoop *hoop = little_hoop (scene, 100, 100, 2, HW_TURN_ANY);

  assert_takes_nothing (scene, NULL, 0);
  hoop->field_width = 4; /* less clearance on both sides nothing is left */
  assert_takes_nothing (scene, square, 4);
  hoop->field_width = 100;
  hoop->field_height = 4;
  assert_takes_nothing (scene, square, 4);
  scene->fabric.hold = HW_HOLD_CLAMPED;
  assert_takes_nothing (scene, square, 4);
  hoop->field_height = 100;
  g_assert_true (
      hw_sharing_fits ((HwPoint[]){ { 300, 300 }, { 320, 300 }, { 320, 320 } }, 3, hoop, &scene->fabric));
}

static void
angles_that_are_none_are_refused (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  HwHoop *hoop = little_hoop (scene, 100, 60, 2, HW_TURN_ANY);
  const double liked[] = { NAN, INFINITY, 12 };
  HwPose pose;

  g_assert_false (hw_sharing_pose_at (square, 4, hoop, &scene->fabric, NAN, &pose));
  g_assert_false (hw_sharing_pose_at (square, 4, hoop, &scene->fabric, INFINITY, &pose));
  g_assert_true (hw_sharing_pose (square, 4, hoop, &scene->fabric, liked, 3, 1, &pose));
  g_assert_cmpfloat (pose.angle, ==, 12);
  g_assert_true (
      hw_sharing_pose (square, 4, hoop, &scene->fabric, liked, 2, 0, &pose)); /* then where most room is */
  g_assert_true (isfinite (pose.angle));
  hoop->turn = HW_TURN_QUARTER;
  g_assert_false (hw_sharing_pose_at (square, 4, hoop, &scene->fabric, 12, &pose));
  g_assert_true (hw_sharing_pose (square, 4, hoop, &scene->fabric, liked, 3, 1, &pose));
  g_assert_cmpfloat (remainder (pose.angle, 90), ==, 0);
}

/* With equal area and room the hoop that comes first in the list; one that is set aside is no candidate. */
static void
candidates_among_hoops_alike (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (GArray) all = NULL, rest = NULL;
  const guint motifs[] = { 0 };

  little_hoop (scene, 100, 100, 2, HW_TURN_QUARTER);
  little_hoop (scene, 100, 100, 2, HW_TURN_QUARTER);
  little_hoop (scene, 90, 90, 2, HW_TURN_QUARTER);
  little_hoop (scene, 125, 80, 2, HW_TURN_QUARTER); /* as large, with less room */
  little_motif (scene, "Gate", 40, 40, 300, 300);
  all = hw_sharing_candidates (scene, motifs, 1);
  g_assert_cmpuint (all->len, >=, 4);
  g_assert_cmpuint (g_array_index (all, HwCandidate, 0).hoop, ==, 2);
  g_assert_cmpuint (g_array_index (all, HwCandidate, 1).hoop, ==, 0);
  g_assert_cmpuint (g_array_index (all, HwCandidate, 2).hoop, ==, 1);
  g_assert_cmpuint (g_array_index (all, HwCandidate, 3).hoop, ==, 3);
  for (guint h = 0; h < 3; h++)
    ((HwHoop *)hw_snapshot_hoop (scene, h))->set_aside = TRUE;
  rest = hw_sharing_candidates (scene, motifs, 1);
  for (guint i = 0; i < rest->len; i++)
    g_assert_cmpuint (g_array_index (rest, HwCandidate, i).hoop, ==, 3);
}

/* Whether the change of the scene is noticed, so that answers of before are forgotten. */
static gboolean
is_noticed (void (*change) (HwSnapshot *scene, HwHoop *hoop))
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  HwPlacings *placings = hw_placings_new ();
  HwSetFit *fit = hw_set_fit_new ();
  HwHoop *changed;
  gboolean noticed;

  little_hoop (scene, 100, 100, 2, HW_TURN_ANY);
  little_motif (scene, "Gate", 40, 40, 300, 300);
  hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1);
  changed = hw_hoop_copy (hw_snapshot_hoop (scene, 0));
  hw_hoop_unref (scene->hoops->pdata[0]);
  scene->hoops->pdata[0] = changed;
  change (scene, changed);
  noticed = hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1);
  hw_set_fit_free (fit);
  hw_placings_free (placings);
  return noticed;
}

#define CHANGE(name, what)                                                                                   \
  static void name (HwSnapshot *scene, HwHoop *hoop) { what; }
CHANGE (nothing, (void)scene)
CHANGE (its_name, g_free (hoop->name); hoop->name = g_strdup ("Another"))
CHANGE (field_width, hoop->field_width = 101)
CHANGE (field_height, hoop->field_height = 101)
CHANGE (frame_width, hoop->frame_width += 1)
CHANGE (frame_height, hoop->frame_height += 1)
CHANGE (clearance, hoop->clearance = 3)
CHANGE (turn, hoop->turn = HW_TURN_QUARTER)
CHANGE (set_aside, hoop->set_aside = TRUE)
CHANGE (cloth_width, scene->fabric.width += 1)
CHANGE (cloth_height, scene->fabric.height += 1)
CHANGE (cloth_hold, scene->fabric.hold = HW_HOLD_CLAMPED)
CHANGE (one_more, little_hoop (scene, 100, 100, 2, HW_TURN_ANY))

static void
every_change_that_matters_is_noticed (void)
{
  g_assert_false (is_noticed (nothing));
  g_assert_false (is_noticed (its_name));
  g_assert_true (is_noticed (field_width));
  g_assert_true (is_noticed (field_height));
  g_assert_true (is_noticed (frame_width));
  g_assert_true (is_noticed (frame_height));
  g_assert_true (is_noticed (clearance));
  g_assert_true (is_noticed (turn));
  g_assert_true (is_noticed (set_aside));
  g_assert_true (is_noticed (cloth_width));
  g_assert_true (is_noticed (cloth_height));
  g_assert_true (is_noticed (cloth_hold));
  g_assert_true (is_noticed (one_more));
}

/* Every pair of hoops, one of which may make the other superfluous: what fits in one of them fits in the set. */
static void
no_hoop_is_left_out_that_takes_more (void)
{
  const struct
  {
    double width, height, motif_width, motif_height, angle;
    HwTurn turn;
  } cases[] = {
    { 60, 200, 190, 50, 0, HW_TURN_ANY },  { 200, 60, 50, 190, 0, HW_TURN_ANY },
    { 60, 200, 50, 190, 20, HW_TURN_ANY }, { 60, 200, 190, 50, 0, HW_TURN_QUARTER },
    { 4, 200, 1, 1, 0, HW_TURN_ANY },      { 200, 4, 1, 1, 0, HW_TURN_ANY },
  };
  HwPlacings *placings = hw_placings_new ();
  HwSetFit *fit = hw_set_fit_new ();
  guint set[] = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    for (guint order = 0; order < 2; order++)
      {
        g_autoptr (HwSnapshot) scene = little_scene (800, 600);

        if (order == 0)
          little_hoop (scene, 100, 100, 2, HW_TURN_ANY);
        little_hoop (scene, cases[i].width, cases[i].height, 2, cases[i].turn);
        if (order == 1)
          little_hoop (scene, 100, 100, 2, HW_TURN_ANY);
        little_motif (scene, "Gate", cases[i].motif_width, cases[i].motif_height, 300, 300)->placement.angle
            = cases[i].angle;
        hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1);
        g_assert_true (hw_set_fit_ask (fit, set, 1));
      }
  hw_set_fit_free (fit);
  hw_placings_free (placings);
}

/* 0 first, then what most motifs lie at. */
static void
angles_are_liked_by_how_many_lie_so (void)
{
  const double angles[] = { 20, -30, 20, 50, -30, 20 };
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (GArray) liked = NULL;
  guint motifs[6];
  gboolean seen = FALSE;

  for (guint i = 0; i < 6; i++)
    {
      little_motif (scene, "Leaf", 40, 20, 300, 300)->placement.angle = angles[i];
      motifs[i] = i;
    }
  liked = hw_liked_angles (scene, motifs, 6);
  for (guint i = 0; i + 2 < liked->len && !seen; i++)
    seen = g_array_index (liked, double, i) == 20 && g_array_index (liked, double, i + 1) == -30
           && g_array_index (liked, double, i + 2) == 50;
  g_assert_true (seen);
}

static void
common_hoops_are_like_those_of_the_scene (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwHoop) first = hw_common_hoop_new (1, scene);
  g_autoptr (HwHoop) like = NULL;
  HwHoop *own;

  g_assert_cmpstr (first->id, ==, "h1");
  g_assert_cmpfloat (first->field_width, ==, 130);
  g_assert_cmpfloat (first->frame_width, ==, 170);
  g_assert_cmpfloat (first->frame_height, ==, 240);
  g_assert_cmpfloat (first->clearance, ==, 2);
  g_assert_cmpint (first->turn, ==, HW_TURN_ANY);
  g_assert_false (hw_common_hoop_is_there (1, scene));
  own = little_hoop (scene, 180, 130, 3, HW_TURN_QUARTER);
  own->frame_width = 185;
  g_free (own->id);
  own->id = g_strdup ("h2"); /* the next number is taken */
  like = hw_common_hoop_new (1, scene);
  g_assert_cmpstr (like->id, ==, "h3");
  g_assert_cmpfloat (like->frame_width, ==, 135);
  g_assert_cmpfloat (like->frame_height, ==, 240);
  g_assert_cmpfloat (like->clearance, ==, 3);
  g_assert_cmpint (like->turn, ==, HW_TURN_QUARTER);
  g_assert_true (hw_common_hoop_is_there (1, scene)); /* turned */
  g_assert_true (hw_common_hoop_is_there (0, scene));
  g_assert_false (hw_common_hoop_is_there (2, scene)); /* 150 x 240 */
  own->field_width = 120;
  g_assert_false (hw_common_hoop_is_there (1, scene));
  own->field_width = 300;
  g_assert_true (hw_common_hoop_is_there (1, scene));
  own->field_height = 100;
  g_assert_false (hw_common_hoop_is_there (1, scene)); /* long enough, but not wide enough */
  own->field_height = 130;
  own->set_aside = TRUE;
  g_assert_false (hw_common_hoop_is_there (1, scene));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sharing-edges/nothing", nothing_fits_where_there_is_nothing);
  g_test_add_func ("/sharing-edges/angles", angles_that_are_none_are_refused);
  g_test_add_func ("/sharing-edges/candidates", candidates_among_hoops_alike);
  g_test_add_func ("/sharing-edges/noticed", every_change_that_matters_is_noticed);
  g_test_add_func ("/sharing-edges/left-out", no_hoop_is_left_out_that_takes_more);
  g_test_add_func ("/sharing-edges/liked", angles_are_liked_by_how_many_lie_so);
  g_test_add_func ("/sharing-edges/common", common_hoops_are_like_those_of_the_scene);
  return g_test_run ();
}
