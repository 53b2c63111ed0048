/* At the machine, between two hoopings: what was finished, what comes next. */
#include <glib/gi18n.h>

#include "hooping-words.h"
#include "machine-private.h"

/* The plan is the scene's when it counts the same hoopings as stitched and holds no pin that is not there. */
gboolean
hw_machine_plan_is_of_today (HwBench *bench)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  g_autoptr (HwSnapshot) scene = hw_scene_snapshot (hw_bench_get_scene (bench));
  gboolean planning;

  g_object_get (bench, "planning", &planning, NULL);
  return plan != NULL && (!planning || hw_snapshot_equal (plan->snapshot, scene))
         && plan->snapshot->frozen->len == scene->frozen->len;
}

int
hw_machine_next_hooping (HwBench *bench)
{
  const HwPlan *plan = hw_bench_get_plan (bench);

  if (plan == NULL || !hw_machine_plan_is_of_today (bench))
    return -1;
  for (guint i = 0; i < plan->n_hoopings; i++)
    if (plan->hoopings[i].hold != HW_PLACE_FROZEN)
      return (int)i;
  return -1;
}

static void
measure_cb (GtkButton *button, HwMachineView *view)
{
  gtk_widget_activate_action (GTK_WIDGET (view), "win.measure-cloth", NULL);
}

static void
landed_cb (GtkButton *button, HwMachineView *view)
{
  guint n = hw_scene_get_frozen (hw_bench_get_scene (view->bench))->len;

  if (n > 0)
    gtk_widget_activate_action (GTK_WIDGET (view), "win.landed", "u", n - 1);
}

static void
take_back_cb (GtkButton *button, HwMachineView *view)
{
  hw_bench_take_back (view->bench);
}

static void
add_next_hooping (HwMachineView *view, int next)
{
  const HwPlan *plan = hw_bench_get_plan (view->bench);
  guint left = 0;

  for (guint i = 0; i < plan->n_hoopings; i++)
    left += plan->hoopings[i].hold != HW_PLACE_FROZEN;
  g_autofree char *title = g_strdup_printf (_ ("Next: hooping %d of %u"), next + 1, plan->n_hoopings);
  g_autofree char *hoop = g_strdup_printf (_ ("Hoop %s"), hw_hooping_hoop_name (plan, (guint)next));
  g_autofree char *motifs = hw_hooping_motifs_text (plan, (guint)next);
  g_autofree char *work = hw_hooping_work_text (plan, (guint)next);
  g_autofree char *begin = g_strdup_printf (_ ("Begin hooping %d"), next + 1);

  hw_machine_add_words (view, title, "machine-title");
  hw_machine_add_words (view, hoop, "machine-figure");
  hw_machine_add_words (view, motifs, "machine-sentence");
  hw_machine_add_words (view, work, "machine-advice");
  hw_machine_name_next (view, begin);
}

void
hw_machine_fill_between (HwMachineView *view)
{
  guint stitched = hw_scene_get_frozen (hw_bench_get_scene (view->bench))->len;
  const HwPlan *plan = hw_bench_get_plan (view->bench);
  int next = hw_machine_next_hooping (view->bench);

  gtk_widget_set_sensitive (view->next, TRUE);
  if (stitched > 0)
    {
      g_autofree char *text = g_strdup_printf (
          ngettext ("%u hooping is stitched.", "%u hoopings are stitched.", stitched), stitched);
      hw_machine_add_words (view, text, "machine-sentence");
    }
  if (stitched > 0)
    hw_machine_add_words (view, _ ("Once the cloth lies flat, measure between the marks: has it drawn in?"),
                          "machine-small");
  if (next >= 0)
    add_next_hooping (view, next);
  else if (!hw_machine_plan_is_of_today (view->bench))
    {
      hw_machine_add_words (view, _ ("Working out what comes next"), "machine-title");
      hw_machine_name_next (view, _ ("A moment"));
      gtk_widget_set_sensitive (view->next, FALSE);
    }
  else if (plan->status == HW_PLAN_UNPLANNABLE)
    {
      hw_machine_add_words (view, _ ("What is left cannot be stitched as it is"), "machine-title");
      hw_machine_add_words (view, _ ("Back at the table, the list of things to look at says why."),
                            "machine-sentence");
      hw_machine_name_next (view, _ ("Back to the table"));
    }
  else
    {
      hw_machine_add_words (
          view, stitched > 0 ? _ ("The whole picture is stitched") : _ ("There is nothing to stitch yet"),
          "machine-title");
      hw_machine_name_next (view, _ ("Back to the table"));
    }
  if (stitched == 0)
    return;
  hw_machine_add_extra (view, _ ("Measure the cloth"), "M", G_CALLBACK (measure_cb));
  hw_machine_add_extra (view, _ ("It landed elsewhere"), "L", G_CALLBACK (landed_cb));
  hw_machine_add_extra (view, _ ("Not finished after all"), "T", G_CALLBACK (take_back_cb));
}
