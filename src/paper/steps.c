/* How one hooping is done. The order is common practice, no source: the marks are on the cloth before it is
 * hooped, the needle is brought to the cross while the template is still on, the template is off before the
 * first stitch, and what lies behind is stitched before what lies over it. */
#include "steps.h"

#include "page.h"
#include "words.h"
#include "../geometry/language.h"

HwPoint
hw_point_in_hoop (const HwHooping *hooping, HwPoint p)
{
  return hw_point_turn ((HwPoint){ p.x - hooping->centre.x, p.y - hooping->centre.y }, -hooping->angle);
}

HwMotifInHoop
hw_motif_in_hoop (const HwPlan *plan, guint hooping, guint motif)
{
  const HwHooping *h = &plan->hoopings[hooping];
  const HwPlacement *placement = &hw_snapshot_motif (plan->snapshot, motif)->placement;

  return (HwMotifInHoop){
    .shift = hw_point_in_hoop (h, placement->position),
    .turn = hw_angle_normal (placement->angle - h->angle),
  };
}

static void
step_free (gpointer data)
{
  HwStep *step = data;

  g_free (step->text);
  g_free (step);
}

/* Takes text over. */
static void
add_step (GPtrArray *steps, HwStepKind kind, int motif, char *text)
{
  HwStep *step = g_new0 (HwStep, 1);

  step->kind = kind;
  step->motif = motif;
  step->strong = kind == HW_STEP_TEMPLATE_OFF;
  step->text = text;
  g_ptr_array_add (steps, step);
}

/* "A and B", "A, B and C". */
static char *
mark_letters (const HwHooping *hooping)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint n = hooping->n_marks;

  for (guint i = 0; i < MAX (n, 1) - 1; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? _ (", ") : "", hooping->marks[i].letter);
  if (n < 2)
    return g_strdup (n > 0 ? hooping->marks[0].letter : "");

  /* Translators: a list of the letters of marks, and its last one: "A, B and C" */
  return g_strdup_printf (_ ("%s and %s"), text->str, hooping->marks[n - 1].letter);
}

static void
add_marking (GPtrArray *steps, const HwHooping *hooping)
{
  g_autofree char *marks = mark_letters (hooping);
  char *text;

  if (hooping->n_marks == 0)
    text = g_strdup (_ ("Draw or check the centre cross."));
  else
    text = g_strdup_printf (ngettext ("Draw or check the cross and mark %s.",
                                      "Draw or check the cross, marks %s.", hooping->n_marks),
                            marks);
  add_step (steps, HW_STEP_DRAW_MARKS, -1, text);
}

static void
add_hooping (GPtrArray *steps, HwHold hold)
{
  gboolean clamped = hold == HW_HOLD_CLAMPED;

  add_step (steps, HW_STEP_HOOP, -1,
            g_strdup (clamped ? _ ("Lay the stabiliser on the ring's outer part.")
                              : _ ("Hoop the stabiliser; bare its adhesive.")));
  add_step (steps, HW_STEP_LAY_CLOTH, -1, g_strdup (_ ("Lay the cloth: cross to the marks, arrow up.")));
  add_step (steps, HW_STEP_PRESS, -1,
            g_strdup (clamped ? _ ("Press the inner ring in, firm, unstretched.")
                              : _ ("Press it on from the middle, unstretched.")));
}

static void
add_alignment (GPtrArray *steps, const HwHooping *hooping)
{
  g_autofree char *marks = mark_letters (hooping);

  add_step (steps, HW_STEP_TEMPLATE_ON, -1,
            g_strdup (hooping->n_motifs == 1 ? _ ("Template on, arrow to the motif's top.")
                                             : _ ("Templates on, arrows to the motifs' tops.")));
  add_step (steps, HW_STEP_NEEDLE_CENTRE, -1, g_strdup (_ ("Bring the needle to the centre cross by hand.")));
  if (hooping->n_marks > 0)
    add_step (steps, HW_STEP_NEEDLE_MARKS, -1,
              g_strdup_printf (_ ("Needle to %s; write down where it is."), marks));
  add_step (steps, HW_STEP_CORRECT, -1, g_strdup (_ ("Shift and turn until needle and marks meet.")));
}

gboolean
hw_steps_take_turns (const HwPlan *plan, guint hooping)
{
  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, FALSE);

  return plan->hoopings[hooping].steps != NULL;
}

const HwThreadBlock *
hw_step_block (const HwPlan *plan, const HwBlockStep *step)
{
  const HwMotif *motif = hw_snapshot_motif (plan->snapshot, step->motif);

  g_assert (step->block < motif->n_threads);
  return &motif->threads[step->block];
}

/* A lead and, below it, each motif to tick, in stitching order. */
static void
add_motifs (GPtrArray *steps, const HwPlan *plan, const HwHooping *hooping, HwStepKind kind, const char *lead)
{
  add_step (steps, kind, -1, g_strdup (lead));
  for (guint i = 0; i < hooping->n_motifs; i++)
    {
      guint m = hooping->motifs[i];

      add_step (steps, kind, (int)m,
                g_strdup_printf ("%u %s", hw_order_number (m), hw_snapshot_motif (plan->snapshot, m)->name));
    }
}

/* A bobbin that would end within the hooping is taken out before it; where a full one does not suffice, it is said when to look. */
static void
add_bobbin (GPtrArray *steps, const HwPlan *plan, const HwHoopingSupplies *taken)
{
  if (taken == NULL || (!taken->bobbin_runs_out && taken->n_changes == 0))
    return;
  add_step (steps, HW_STEP_BOBBIN, -1, g_strdup (_ ("Put a full bobbin in.")));
  for (guint i = 0; i < taken->n_changes; i++)
    {
      const HwBobbinChange *change = &taken->changes[i];
      guint motif = hw_order_number (change->block.motif);
      const char *thread = hw_step_block (plan, &change->block)->name;

      add_step (steps, HW_STEP_BOBBIN, -1,
                /* Translators: a motif's number, a thread */
                g_strdup_printf (change->within ? _ ("It ends within motif %u, %s: another full one then.")
                                                : _ ("Another full one after motif %u, %s."),
                                 motif, thread));
    }
}

GPtrArray *
hw_steps_new (const HwPlan *plan, guint hooping, const HwSupplies *supplies)
{
  GPtrArray *steps;
  const HwHooping *h;

  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, NULL);

  steps = g_ptr_array_new_with_free_func (step_free);
  h = &plan->hoopings[hooping];

  add_marking (steps, h);
  add_hooping (steps, plan->snapshot->fabric.hold);
  add_alignment (steps, h);
  add_motifs (steps, plan, h, HW_STEP_MOTIF_CROSS,
              h->n_motifs == 1 ? _ ("Needle to the motif's cross:") : _ ("Needle to each cross:"));
  add_step (steps, HW_STEP_TEMPLATE_OFF, -1,
            g_strdup (h->n_motifs == 1 ? _ ("TAKE THE TEMPLATE OFF.") : _ ("TAKE ALL TEMPLATES OFF.")));
  if (supplies != NULL)
    add_bobbin (steps, plan, hw_supplies_of_hooping (supplies, hooping));
  add_step (steps, HW_STEP_THREAD, -1, g_strdup (_ ("Lay the threads out; thread the first.")));
  if (hw_steps_take_turns (plan, hooping))
    add_step (steps, HW_STEP_STITCH, -1, g_strdup (_ ("Stitch the threads as listed; motifs take turns.")));
  else
    add_motifs (steps, plan, h, HW_STEP_STITCH,
                h->n_motifs == 1 ? _ ("Stitch:") : _ ("Stitch in this order:"));
  add_step (steps, HW_STEP_LOOK_OVER, -1, g_strdup (_ ("Look it over in the hoop: gaps, loops, ends.")));
  add_step (steps, HW_STEP_TAKE_OUT, -1, g_strdup (_ ("Take it out; ease the stabiliser off.")));
  add_step (steps, HW_STEP_MEASURE, -1, g_strdup (_ ("Measure between the marks: drawn in?")));

  return steps;
}

const char **
hw_cautions_new (void)
{
  static const char *const cautions[] = {
    N_ ("The machine's manual and your local rules come first; if a step is new to you, ask someone "
        "qualified."),
    N_ ("Keep fingers, hair and sleeves away from the needle and the moving hoop."),
    N_ ("Machine off before you thread it or change the needle."),
    N_ ("Spray adhesive: in moving air, away from the machine and any flame."),
    N_ ("Scissors and blades: cut away from your hand, lay them down closed."),
    N_ ("A hot iron: not over adhesive or paper, never left standing on."),
  };
  const char **list = g_new0 (const char *, G_N_ELEMENTS (cautions) + 1);

  for (gsize i = 0; i < G_N_ELEMENTS (cautions); i++)
    list[i] = _ (cautions[i]);

  return list;
}
