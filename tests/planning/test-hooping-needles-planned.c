/* The needle lists of all hoopings of planned scenes against the plans: what is stitched, where, in which threads, with how many changes. */
#include "random-scenes.h"

#include "../../src/planning/hooping-needles.h"

#define WITHIN 0.001 /* mm */

/* A place within the outline's hull, which the hoop holds. */
static HwNeedlePoint
random_point (GRand *rand, const HwMotif *motif, guint thread)
{
  const HwOutline *outline = motif->outline;
  double x = 0, y = 0, left = 1;

  for (guint k = 0; k < 3; k++)
    {
      const HwPoint *corner = &outline->hull[g_rand_int_range (rand, 0, (int)outline->n_hull)];
      double share = k == 2 ? left : scene_between (rand, 0, left);

      x += share * corner->x;
      y += share * corner->y;
      left -= share;
    }
  return (HwNeedlePoint){ (float)x, (float)y, (guint16)thread, HW_NEEDLE_STITCH };
}

/* A needle list of as many stitches as the motif's blocks are said to have, with cuts and jumps here and there. */
static void
give_needles (HwMotif *motif, GRand *rand)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (HwNeedlePoint));
  GPtrArray *names = g_ptr_array_new ();
  guint n_points;

  for (guint b = 0; b < motif->n_threads; b++)
    {
      HwThreadBlock *block = &motif->threads[b];
      guint thread;

      if (!g_ptr_array_find_with_equal_func (names, block->name, g_str_equal, &thread))
        {
          thread = names->len;
          g_ptr_array_add (names, g_strdup (block->name));
        }
      block->stitches = (guint)g_rand_int_range (rand, 2, 12);
      for (guint i = 0; i < block->stitches; i++)
        {
          HwNeedlePoint point = random_point (rand, motif, thread);

          if (i == 0 || g_rand_int_range (rand, 0, 5) == 0)
            {
              HwNeedlePoint jump = random_point (rand, motif, thread);

              jump.action = g_rand_boolean (rand) ? HW_NEEDLE_JUMP : HW_NEEDLE_TRIM;
              g_array_append_val (points, jump);
            }
          g_array_append_val (points, point);
        }
    }
  g_ptr_array_add (names, NULL);
  n_points = points->len;
  motif->needles = hw_needle_list_new ((HwNeedlePoint *)(gpointer)g_array_free (points, FALSE), n_points,
                                       (char **)g_ptr_array_free (names, FALSE));
}

static const HwNeedlePoint *
next_stitch (const HwNeedleList *list, guint *at)
{
  while (list->points[*at].action != HW_NEEDLE_STITCH)
    g_assert_cmpuint (++*at, <, list->n_points);
  return &list->points[(*at)++];
}

/* The formulas of the axes, backwards: hoop, cloth, motif. */
static void
assert_maps_back (const HwNeedlePoint *in_hoop,
                  const HwNeedlePoint *own,
                  const HwHooping *hooping,
                  const HwPlacement *p)
{
  double t = hooping->angle * G_PI / 180, a = p->angle * G_PI / 180;
  double x = hooping->centre.x + in_hoop->x * cos (t) - in_hoop->y * sin (t) - p->position.x;
  double y = hooping->centre.y + in_hoop->x * sin (t) + in_hoop->y * cos (t) - p->position.y;
  double mx = (x * cos (a) + y * sin (a)) / p->scale, my = (-x * sin (a) + y * cos (a)) / p->scale;

  g_assert_cmpfloat (hypot ((p->mirrored ? -mx : mx) - own->x, my - own->y), <, WITHIN);
}

/* What the list holds of a motif is all of its stitches, in their order. */
static void
assert_motif_is_whole (const HwHoopingNeedles *needles, guint motif_index)
{
  const HwMotif *motif = hw_snapshot_motif (needles->plan->snapshot, motif_index);
  const HwHooping *hooping = &needles->plan->hoopings[needles->hooping];
  guint at = 0, n = 0;

  for (guint b = 0; b < needles->n_blocks; b++)
    for (guint i = needles->blocks[b].first; i < needles->blocks[b].end; i++)
      {
        const HwNeedlePoint *point = &needles->needles->points[i], *own;

        if (needles->blocks[b].motif != motif_index || point->action != HW_NEEDLE_STITCH)
          continue;
        own = next_stitch (motif->needles, &at);
        assert_maps_back (point, own, hooping, &motif->placement);
        g_assert_cmpstr (needles->needles->threads[point->thread], ==, motif->needles->threads[own->thread]);
        n++;
      }
  g_assert_cmpuint (n, ==, motif->needles->n_stitches);
  g_assert_cmpuint (n, ==, hw_motif_stitches (motif));
}

static void
assert_in_field (const HwHoopingNeedles *needles)
{
  const HwHoop *hoop
      = hw_snapshot_hoop (needles->plan->snapshot, needles->plan->hoopings[needles->hooping].hoop);

  for (guint i = 0; i < needles->needles->n_points; i++)
    {
      const HwNeedlePoint *point = &needles->needles->points[i];

      g_assert_cmpfloat (fabs (round (point->x * 1000) / 1000), <=, hoop->field_width / 2);
      g_assert_cmpfloat (fabs (round (point->y * 1000) / 1000), <=, hoop->field_height / 2);
    }
}

static void
assert_at_centre (const HwNeedlePoint *point, HwNeedleAction action)
{
  g_assert_cmpuint (point->action, ==, action);
  g_assert_cmpfloat (point->x, ==, 0);
  g_assert_cmpfloat (point->y, ==, 0);
}

/* Between stitches of two motifs the thread is cut. */
static void
assert_cut_between_motifs (const HwHoopingNeedles *needles)
{
  for (guint b = 1; b < needles->n_blocks; b++)
    {
      const HwNeedleBlock *before = &needles->blocks[b - 1], *block = &needles->blocks[b];
      gboolean cut = before->motif == block->motif;
      guint i = block->first;

      while (needles->needles->points[i - 1].action != HW_NEEDLE_STITCH)
        cut |= needles->needles->points[--i].action == HW_NEEDLE_TRIM;
      g_assert_true (cut);
    }
}

/* A colour stands just where the thread changes; as often as the plan says, which counts the change on entering the hooping too. *thread:
 * what the hooping before ended with. */
static void
assert_changes (const HwHoopingNeedles *needles, const char **thread)
{
  const HwNeedleList *list = needles->needles;
  const char *first = list->threads[list->points[0].thread];
  guint changes = *thread != NULL && !g_str_equal (*thread, first);

  for (guint i = 1; i < list->n_points; i++)
    {
      gboolean differs = list->points[i].thread != list->points[i - 1].thread;

      g_assert_cmpint (list->points[i].action == HW_NEEDLE_COLOUR, ==, differs);
      changes += differs;
    }
  g_assert_cmpuint (changes, ==, needles->plan->hoopings[needles->hooping].thread_changes);
  *thread = list->threads[list->points[list->n_points - 1].thread];
}

/* Returns how many hoopings mix the blocks of their motifs. */
static guint
check_plan (const HwPlan *plan)
{
  const char *thread = NULL;
  guint mixed = 0;
  /* The thread named last must outlive its list. */
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hooping_needles_free);

  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &plan->hoopings[h];
      g_autoptr (GError) error = NULL;
      HwHoopingNeedles *needles = hw_hooping_needles_new (plan, h, NULL, &error);

      g_assert_no_error (error);
      g_ptr_array_add (all, needles);
      for (guint k = 0; k < hooping->n_motifs; k++)
        assert_motif_is_whole (needles, hooping->motifs[k]);
      g_assert_cmpuint (needles->needles->n_stitches, ==, hooping->stitches);
      assert_in_field (needles);
      assert_at_centre (&needles->needles->points[0], HW_NEEDLE_JUMP);
      assert_at_centre (&needles->needles->points[needles->needles->n_points - 2], HW_NEEDLE_JUMP);
      assert_at_centre (&needles->needles->points[needles->needles->n_points - 1], HW_NEEDLE_END);
      assert_cut_between_motifs (needles);
      assert_changes (needles, &thread);
      mixed += hooping->steps != NULL;
    }
  return mixed;
}

static void
check_scenes (gconstpointer data)
{
  gboolean interleave = GPOINTER_TO_INT (data);
  g_autoptr (GRand) rand = g_rand_new_with_seed ((guint32)g_test_rand_int ());
  guint hoopings = 0, mixed = 0;

  for (guint round = 0; round < 45; round++)
    {
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, (SceneKind)(round % SCENE_KINDS),
                          (guint)g_rand_int_range (rand, 4, interleave ? 9 : 14), 1.0);
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      g_autoptr (HwPlan) plan = NULL;

      scene->wishes.interleave = interleave;
      for (guint m = 0; m < scene->motifs->len; m++)
        give_needles (scene->motifs->pdata[m], rand);
      plan = hw_planner_plan (planner, scene, &(HwPlanOptions){ .seconds = interleave ? 2 : 0 }, NULL, NULL,
                              NULL);
      hoopings += plan->n_hoopings;
      mixed += check_plan (plan);
    }
  g_test_message ("%u hoopings, %u mixed", hoopings, mixed);
  g_assert_cmpuint (hoopings, >, 45);
  g_assert_cmpint (mixed > 0, ==, interleave);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/hooping-needles-planned/motif_by_motif", GINT_TO_POINTER (FALSE), check_scenes);
  g_test_add_data_func ("/hooping-needles-planned/blocks_mixed", GINT_TO_POINTER (TRUE), check_scenes);
  return g_test_run ();
}
