#include "scene/history.h"

#include "scene-pieces.h"

#define SECOND G_USEC_PER_SEC

/* The orchard with its first pear somewhere else. */
static HwSnapshot *
moved (const HwSnapshot *from, double x)
{
  HwSnapshot *snapshot = hw_snapshot_copy (from);
  HwMotif *motif = hw_motif_copy (hw_snapshot_motif (from, 0));

  motif->placement.position.x = x;
  hw_motif_unref (snapshot->motifs->pdata[0]);
  snapshot->motifs->pdata[0] = motif;
  return snapshot;
}

typedef struct
{
  HwSnapshot *a, *b, *c;
  HwHistory *history;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->a = make_orchard (2);
  f->b = moved (f->a, 10);
  f->c = moved (f->a, 20);
  f->history = hw_history_new (f->a);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  hw_history_free (f->history);
  hw_snapshot_unref (f->a);
  hw_snapshot_unref (f->b);
  hw_snapshot_unref (f->c);
}

static void
names_steps_both_ways (Fixture *f, gconstpointer data)
{
  g_assert_null (hw_history_undo_name (f->history));
  g_assert_null (hw_history_undo (f->history));
  hw_history_push (f->history, "move Pear", f->b, FALSE, 1 * SECOND);
  hw_history_push (f->history, "turn Pear", f->c, FALSE, 2 * SECOND);
  g_assert_cmpstr (hw_history_undo_name (f->history), ==, "turn Pear");
  g_assert_true (hw_history_undo (f->history) == f->b);
  g_assert_cmpstr (hw_history_undo_name (f->history), ==, "move Pear");
  g_assert_cmpstr (hw_history_redo_name (f->history), ==, "turn Pear");
  g_assert_true (hw_history_undo (f->history) == f->a);
  g_assert_true (hw_history_redo (f->history) == f->b);
  g_assert_true (hw_history_redo (f->history) == f->c);
  g_assert_null (hw_history_redo (f->history));
  g_assert_null (hw_history_redo_name (f->history));
}

static void
a_new_step_drops_what_was_undone (Fixture *f, gconstpointer data)
{
  hw_history_push (f->history, "move Pear", f->b, FALSE, 1 * SECOND);
  hw_history_undo (f->history);
  hw_history_push (f->history, "turn Pear", f->c, FALSE, 2 * SECOND);
  g_assert_null (hw_history_redo (f->history));
  g_assert_true (hw_history_undo (f->history) == f->a);
}

static void
nothing_changed_is_no_step (Fixture *f, gconstpointer data)
{
  g_autoptr (HwSnapshot) same = make_orchard (2);

  hw_history_push (f->history, "move Pear", same, FALSE, 1 * SECOND);
  g_assert_null (hw_history_undo_name (f->history));
}

static void
quick_steps_of_one_name_join (Fixture *f, gconstpointer data)
{
  g_autoptr (HwSnapshot) d = moved (f->a, 30);

  hw_history_push (f->history, "move Pear", f->b, TRUE, 10 * SECOND);
  hw_history_mark_saved (f->history);
  hw_history_undo (f->history);
  hw_history_push (f->history, "move Pear", f->b, TRUE, 20 * SECOND);
  hw_history_mark_saved (f->history);
  /* A saved state is kept apart. */
  hw_history_push (f->history, "move Pear", f->c, TRUE, 20 * SECOND + 1);
  /* Joined, 799 ms after it. */
  hw_history_push (f->history, "move Pear", d, TRUE, 20 * SECOND + 799000);
  g_assert_true (hw_history_undo (f->history) == f->b);
  g_assert_true (hw_history_is_saved (f->history));
  g_assert_true (hw_history_redo (f->history) == d);
}

static void
slow_or_differently_named_steps_stay_apart (Fixture *f, gconstpointer data)
{
  g_autoptr (HwSnapshot) d = moved (f->a, 30);

  hw_history_push (f->history, "move Pear", f->b, TRUE, 1 * SECOND);
  hw_history_push (f->history, "move Pear", f->c, TRUE, 1 * SECOND + 800000);
  hw_history_push (f->history, "turn Pear", d, TRUE, 1 * SECOND + 800001);
  g_assert_true (hw_history_undo (f->history) == f->c);
  g_assert_true (hw_history_undo (f->history) == f->b);
  g_assert_true (hw_history_undo (f->history) == f->a);
}

static void
joined_steps_that_lead_back_vanish (Fixture *f, gconstpointer data)
{
  hw_history_push (f->history, "move Pear", f->b, TRUE, 1 * SECOND);
  hw_history_push (f->history, "move Pear", f->a, TRUE, 1 * SECOND + 1);
  g_assert_null (hw_history_undo_name (f->history));
  g_assert_true (hw_history_is_saved (f->history));
}

static void
no_step_joins_after_an_undo (Fixture *f, gconstpointer data)
{
  hw_history_push (f->history, "move Pear", f->b, TRUE, 1 * SECOND);
  hw_history_push (f->history, "turn Pear", f->c, TRUE, 1 * SECOND + 1);
  hw_history_undo (f->history);
  hw_history_push (f->history, "move Pear", f->c, TRUE, 1 * SECOND + 2);
  g_assert_true (hw_history_undo (f->history) == f->b);
}

static void
knows_the_saved_state (Fixture *f, gconstpointer data)
{
  g_assert_true (hw_history_is_saved (f->history));
  hw_history_push (f->history, "move Pear", f->b, FALSE, 1 * SECOND);
  g_assert_false (hw_history_is_saved (f->history));
  hw_history_mark_saved (f->history);
  g_assert_true (hw_history_is_saved (f->history));
  hw_history_undo (f->history);
  g_assert_false (hw_history_is_saved (f->history));
  hw_history_redo (f->history);
  g_assert_true (hw_history_is_saved (f->history));
}

static void
very_long_histories_forget_their_start (Fixture *f, gconstpointer data)
{
  guint undone = 0;

  for (guint i = 1; i <= 2000; i++)
    {
      g_autoptr (HwSnapshot) next = moved (f->a, 1000 + i);

      hw_history_push (f->history, "move Pear", next, FALSE, i * SECOND);
    }
  g_assert_false (hw_history_is_saved (f->history));
  while (hw_history_undo (f->history) != NULL)
    undone++;
  g_assert_cmpuint (undone, ==, 500);
  g_assert_null (hw_history_undo_name (f->history));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add ("/history/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("names-steps-both-ways", names_steps_both_ways);
  ADD ("a-new-step-drops-what-was-undone", a_new_step_drops_what_was_undone);
  ADD ("nothing-changed-is-no-step", nothing_changed_is_no_step);
  ADD ("quick-steps-of-one-name-join", quick_steps_of_one_name_join);
  ADD ("slow-or-differently-named-stay-apart", slow_or_differently_named_steps_stay_apart);
  ADD ("joined-steps-that-lead-back-vanish", joined_steps_that_lead_back_vanish);
  ADD ("no-step-joins-after-an-undo", no_step_joins_after_an_undo);
  ADD ("knows-the-saved-state", knows_the_saved_state);
  ADD ("very-long-histories-forget-their-start", very_long_histories_forget_their_start);
  return g_test_run ();
}
