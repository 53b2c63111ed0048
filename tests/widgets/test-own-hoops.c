/* The hoops a person owns: remembered from one scene to the next, and whatever else stands in the settings is not taken for one. */
#include "hands.h"
#include "workbench/own-hoops.h"
#include "workbench/settings.h"

static HwHoop *
hoop (const char *name,
      double field_width,
      double field_height,
      double frame_width,
      double frame_height,
      double clearance)
{
  HwHoop *made = hw_hoop_new ();

  made->name = g_strdup (name);
  made->field_width = field_width;
  made->field_height = field_height;
  made->frame_width = frame_width;
  made->frame_height = frame_height;
  made->clearance = clearance;
  return made;
}

static GPtrArray *
list (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);
}

static void
they_are_remembered_as_they_were (void)
{
  g_autoptr (GPtrArray) mine = list ();
  g_autoptr (GPtrArray) again = NULL;

  g_ptr_array_add (mine, hoop ("Oak", 130, 180, 170, 240, 2));
  g_ptr_array_add (mine, hoop (NULL, 100, 100, 130, 150, 0));
  ((HwHoop *)mine->pdata[1])->turn = HW_TURN_QUARTER;
  hw_own_hoops_set (mine);
  again = hw_own_hoops_get ();
  g_assert_cmpuint (again->len, ==, 2);
  const HwHoop *oak = again->pdata[0], *other = again->pdata[1];
  g_assert_cmpstr (oak->name, ==, "Oak");
  g_assert_cmpfloat (oak->field_height, ==, 180);
  g_assert_cmpfloat (oak->frame_width, ==, 170);
  g_assert_cmpfloat (oak->clearance, ==, 2);
  g_assert_cmpint (oak->turn, ==, HW_TURN_ANY);
  g_assert_cmpstr (other->name, ==, "");
  g_assert_cmpint (other->turn, ==, HW_TURN_QUARTER);
}

/* A settings editor may have put anything there. */
static void
what_is_no_hoop_is_not_offered (void)
{
  g_autoptr (GPtrArray) strange = list ();
  g_autoptr (GPtrArray) kept = NULL;

  g_ptr_array_add (strange, hoop ("narrow", 9, 100, 130, 150, 0));
  g_ptr_array_add (strange, hoop ("vast", 20000, 100, 20000, 150, 0));
  g_ptr_array_add (strange, hoop ("low", 100, 5, 130, 150, 0));
  g_ptr_array_add (strange, hoop ("tall", 100, 20000, 130, 20000, 0));
  g_ptr_array_add (strange, hoop ("frame within its field", 100, 100, 90, 150, 0));
  g_ptr_array_add (strange, hoop ("frame lower than its field", 100, 100, 130, 90, 0));
  g_ptr_array_add (strange, hoop ("vast frame", 100, 100, 20000, 150, 0));
  g_ptr_array_add (strange, hoop ("tall frame", 100, 100, 130, 20000, 0));
  g_ptr_array_add (strange, hoop ("less than nothing free", 100, 100, 130, 150, -1));
  g_ptr_array_add (strange, hoop ("all kept free", 100, 60, 130, 150, 30));
  g_ptr_array_add (strange, hoop ("no number", G_MAXDOUBLE * 10, 100, 130, 150, 0));
  g_ptr_array_add (strange, hoop ("good", 100, 60, 130, 150, 29));
  hw_own_hoops_set (strange);
  kept = hw_own_hoops_get ();
  g_assert_cmpuint (kept->len, ==, 1);
  g_assert_cmpstr (((const HwHoop *)kept->pdata[0])->name, ==, "good");
}

/* Measured more exactly in a scene, a hoop is remembered so; only that one, and none is added. */
static void
measures_are_taken_over_by_name_and_field (void)
{
  g_autoptr (GPtrArray) mine = list ();
  g_autoptr (HwHoop) measured = hoop ("Oak", 130, 180, 172, 244, 3);
  g_autoptr (HwHoop) namesake = hoop ("Oak", 130, 170, 150, 200, 9);
  g_autoptr (HwHoop) wider = hoop ("Oak", 140, 180, 150, 200, 9);
  g_autoptr (HwHoop) stranger = hoop ("Ash", 130, 180, 150, 200, 9);

  g_ptr_array_add (mine, hoop ("Elm", 130, 180, 170, 240, 2));
  g_ptr_array_add (mine, hoop ("Oak", 130, 180, 170, 240, 2));
  hw_own_hoops_set (mine);
  hw_own_hoops_take_measures (namesake);
  hw_own_hoops_take_measures (wider);
  hw_own_hoops_take_measures (stranger);
  measured->turn = HW_TURN_QUARTER;
  hw_own_hoops_take_measures (measured);
  g_autoptr (GPtrArray) kept = hw_own_hoops_get ();
  g_assert_cmpuint (kept->len, ==, 2);
  const HwHoop *elm = kept->pdata[0], *oak = kept->pdata[1];
  g_assert_cmpfloat (elm->frame_width, ==, 170);
  g_assert_cmpint (elm->turn, ==, HW_TURN_ANY);
  g_assert_cmpfloat (oak->frame_width, ==, 172);
  g_assert_cmpfloat (oak->frame_height, ==, 244);
  g_assert_cmpfloat (oak->clearance, ==, 3);
  g_assert_cmpint (oak->turn, ==, HW_TURN_QUARTER);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add_func ("/own-hoops/" #test, test)
  ADD (they_are_remembered_as_they_were);
  ADD (what_is_no_hoop_is_not_offered);
  ADD (measures_are_taken_over_by_name_and_field);
  return g_test_run ();
}
