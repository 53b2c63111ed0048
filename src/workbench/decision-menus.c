/* The menus for what a person decides about hoopings and motifs. They are made when they are opened, for what is chosen then. */
#include "decision-menus.h"

#include <glib/gi18n.h>

#include "hooping-words.h"

#define MOST_TO_JOIN 12
#define MOST_CHARS 32

static char *
shortened (const char *text)
{
  if (g_utf8_strlen (text, -1) <= MOST_CHARS)
    return g_strdup (text);
  g_autofree char *start = g_utf8_substring (text, 0, MOST_CHARS - 1);
  return g_strconcat (start, "…", NULL);
}

/* The other hoopings, those next in line first: they are the likelier to share. */
static GMenuModel *
join_menu (const HwPlan *plan, guint chosen)
{
  GMenu *menu = g_menu_new ();
  guint listed = 0;

  for (guint away = 1; away < plan->n_hoopings && listed < MOST_TO_JOIN; away++)
    for (int side = -1; side <= 1; side += 2)
      {
        int other = (int)chosen + side * (int)away;

        if (other < 0 || other >= (int)plan->n_hoopings || plan->hoopings[other].hold == HW_PLACE_FROZEN)
          continue;
        g_autofree char *motifs = hw_hooping_motifs_text (plan, (guint)other);
        g_autofree char *few = shortened (motifs);
        /* Translators: a menu item: "Hooping 3: Pear, Plum" */
        g_autofree char *label = g_strdup_printf (_ ("Hooping %d: %s"), other + 1, few);
        g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

        g_menu_item_set_action_and_target (item, "win.join-hooping", "i", other);
        g_menu_append_item (menu, item);
        listed++;
      }
  return G_MENU_MODEL (menu);
}

GMenuModel *
hw_hooping_menu_new (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  const HwPlan *plan = hw_bench_get_plan (bench);
  int chosen = hw_bench_get_chosen_hooping (bench);
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) keep = g_menu_new ();
  g_autoptr (GMenu) change = g_menu_new ();
  g_autoptr (GMenu) machine = g_menu_new ();
  g_autoptr (GMenu) file = g_menu_new ();

  g_menu_append (keep, _ ("Hold as it is"), "win.keep-hooping::all");
  g_menu_append (keep, _ ("Keep these motifs together"), "win.keep-hooping::motifs");
  g_menu_append (keep, _ ("Keep along the grain (0° or 90°)…"), "win.keep-hooping::grain");
  g_menu_append (keep, _ ("Let go"), "win.unpin-hooping");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (keep));
  if (plan != NULL && chosen >= 0 && chosen < (int)plan->n_hoopings
      && plan->hoopings[chosen].hold != HW_PLACE_FROZEN)
    {
      g_autoptr (GMenuModel) join = join_menu (plan, (guint)chosen);

      if (g_menu_model_get_n_items (join) > 0)
        g_menu_append_submenu (change, _ ("Join with"), join);
      g_menu_append (change, _ ("Split…"), "win.split-hooping");
      g_menu_append_section (menu, NULL, G_MENU_MODEL (change));
      g_menu_append (machine, _ ("Stitch it now, at the machine"), "win.begin-hooping");
      g_menu_append (machine, _ ("It is stitched already"), "win.mark-stitched");
      g_menu_append (machine, _ ("This hoop cannot be used any more"), "win.no-hoop");
    }
  else
    g_menu_append (machine, _ ("It was stitched elsewhere…"), "win.chosen-landed");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (machine));
  g_menu_append (file, _ ("Save needle list…"), "win.save-needles");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (file));
  return G_MENU_MODEL (menu);
}

static void
append_tie (GMenu *menu, const HwMotif *first, const HwMotif *second)
{
  g_autofree char *label = g_strdup_printf (_ ("Stitch %s before %s"), first->name, second->name);
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_item_set_action_and_target (item, "win.tie", "(ss)", first->id, second->id);
  g_menu_append_item (menu, item);
}

void
hw_append_motif_decisions (GMenu *menu, HwBench *bench)
{
  g_return_if_fail (G_IS_MENU (menu));
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  g_autoptr (GMenu) section = g_menu_new ();

  if (selection->len < 2)
    return;
  if (!hw_bench_all_apart (bench))
    g_menu_append (section, _ ("Keep apart"), "win.keep-apart");
  if (hw_bench_some_apart (bench))
    g_menu_append (section, _ ("May share again"), "win.let-share");
  if (selection->len == 2)
    {
      const HwMotif *back = hw_scene_motif_get_record (g_ptr_array_index (selection, 0));
      const HwMotif *front = hw_scene_motif_get_record (g_ptr_array_index (selection, 1));

      append_tie (section, back, front);
      append_tie (section, front, back);
    }
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}
