/* The linear program behind the weights, against programs whose answer is known: "Fractional Graph Theory" (Scheinerman and Ullman 1997) gives the most
 * weight of a cycle's vertices, no two neighbours more than 1, as half of them. */
#include "../../src/planning/search-dictionary.h"

#include <math.h>

typedef struct
{
  guint n, n_sets;
  guint set[400][24], size[400];
} Program;

static void
add (Program *program, guint n, const guint *set)
{
  memcpy (program->set[program->n_sets], set, n * sizeof (guint));
  program->size[program->n_sets++] = n;
}

/* Adds the sets a few at a time, as the search does, and looks at the weights: no set over 1, none below 0. Returns their sum. */
static double
solve (const Program *program, guint at_a_time, gboolean drop)
{
  HwSearch search = { .deadline = G_MAXINT64 };
  HwDictionary dict;
  double sum = 0;

  hw_dictionary_init (&dict, program->n);
  for (guint s = 0; s < program->n_sets; s += at_a_time)
    {
      for (guint k = s; k < MIN (s + at_a_time, program->n_sets); k++)
        hw_dictionary_add (&dict, program->set[k], program->size[k]);
      g_assert_true (hw_dictionary_solve (&dict, &search));
      if (drop && s + at_a_time < program->n_sets)
        hw_dictionary_drop_slack (&dict);
    }
  for (guint i = 0; i < program->n; i++)
    {
      g_assert_cmpfloat (hw_dictionary_weight (&dict, i), >=, -1e-7);
      g_assert_cmpfloat (hw_dictionary_weight (&dict, i), <=, 1 + 1e-7);
      sum += hw_dictionary_weight (&dict, i);
    }
  for (guint s = 0; s < program->n_sets && !drop; s++)
    {
      double weight = 0;

      for (guint k = 0; k < program->size[s]; k++)
        weight += hw_dictionary_weight (&dict, program->set[s][k]);
      g_assert_cmpfloat (weight, <=, 1 + 1e-7);
    }
  hw_dictionary_clear (&dict);
  return sum;
}

/* The weights are set apart a little against going round in circles, so the sum is not to the last digit. */
#define assert_sum(program, wanted)                                                                          \
  for (guint at_a_time = 1; at_a_time < 8; at_a_time += 3)                                                   \
  g_assert_cmpfloat_with_epsilon (solve (program, at_a_time, FALSE), wanted, 1e-3)

static void
half_of_a_cycle (void)
{
  for (guint n = 3; n <= 21; n += 2)
    {
      Program program = { .n = n };

      for (guint i = 0; i < n; i++)
        add (&program, 2, (guint[]){ i, (i + 1) % n });
      assert_sum (&program, n / 2.0);
    }
}

/* Any three of seven share: 7/3. Any four of eight that follow one another in a ring: 2. */
static void
sets_of_a_size (void)
{
  Program triples = { .n = 7 }, ring = { .n = 8 };

  for (guint a = 0; a < 7; a++)
    for (guint b = 0; b < a; b++)
      for (guint c = 0; c < b; c++)
        add (&triples, 3, (guint[]){ a, b, c });
  assert_sum (&triples, 7 / 3.0);
  for (guint i = 0; i < 8; i++)
    add (&ring, 4, (guint[]){ i, (i + 1) % 8, (i + 2) % 8, (i + 3) % 8 });
  assert_sum (&ring, 2);
}

/* The seven lines of the Fano plane: each point in three lines of three, so a third each: 7/3. */
static void
the_fano_plane (void)
{
  static const guint lines[][3]
      = { { 0, 1, 2 }, { 0, 3, 4 }, { 0, 5, 6 }, { 1, 3, 5 }, { 1, 4, 6 }, { 2, 3, 6 }, { 2, 4, 5 } };
  Program plane = { .n = 7 };

  for (guint l = 0; l < 7; l++)
    add (&plane, 3, lines[l]);
  assert_sum (&plane, 7 / 3.0);
}

/* More sets than there was room for in the beginning, and rows with room to spare forgotten on the way: never more weight than with all of them
 * is lost. */
static void
rows_are_made_room_for_and_forgotten (void)
{
  for (guint round = 0; round < 40; round++)
    {
      Program program = { .n = 10 };
      double all;

      for (guint s = 0; s < 300; s++)
        {
          guint set[4], first = g_test_rand_int_range (0, 10);

          for (guint k = 0; k < 4; k++)
            set[k] = (first + k * g_test_rand_int_range (1, 3)) % 10;
          if (set[1] != set[2] && set[2] != set[3] && set[1] != set[3] && set[0] != set[2] && set[0] != set[3]
              && set[0] != set[1])
            add (&program, 4, set);
        }
      all = solve (&program, 1, FALSE);
      g_assert_cmpfloat_with_epsilon (solve (&program, 37, FALSE), all, 1e-3);
      g_assert_cmpfloat (solve (&program, 7, TRUE), >=, all - 1e-3);
    }
}

static void
time_ends_it (void)
{
  HwSearch search = { .deadline = 0 };
  HwDictionary dict;

  hw_dictionary_init (&dict, 3);
  hw_dictionary_add (&dict, (guint[]){ 0, 1 }, 2);
  g_assert_false (hw_dictionary_solve (&dict, &search));
  hw_dictionary_clear (&dict);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/search-dictionary/cycle", half_of_a_cycle);
  g_test_add_func ("/search-dictionary/sizes", sets_of_a_size);
  g_test_add_func ("/search-dictionary/fano", the_fano_plane);
  g_test_add_func ("/search-dictionary/rows", rows_are_made_room_for_and_forgotten);
  g_test_add_func ("/search-dictionary/time", time_ends_it);
  return g_test_run ();
}
