/* The menu at a mark, and what a hooping's menu says of its marks. */
#include <glib/gi18n.h>

#include "canvas-marks.h"

static HwBench *
bench_at_rest (HwCanvas *canvas)
{
  return canvas->bench == NULL || hw_bench_is_editing (canvas->bench) ? NULL : canvas->bench;
}

static void
hold_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);
  int hooping = bench != NULL ? hw_canvas_marked_hooping (user_data) : -1;

  if (hooping >= 0)
    hw_bench_hold_mark (bench, (guint)hooping, g_variant_get_uint32 (parameter));
}

static void
let_go_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);
  g_autoptr (GArray) marks = bench != NULL ? hw_canvas_marks (user_data) : NULL;
  guint mark = g_variant_get_uint32 (parameter);

  if (marks != NULL && mark < marks->len)
    hw_bench_let_go_mark_at (bench, g_array_index (marks, HwCanvasMark, mark).at);
}

static void
take_away_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);
  int hooping = bench != NULL ? hw_canvas_marked_hooping (user_data) : -1;

  if (hooping >= 0)
    hw_bench_take_mark_away (bench, (guint)hooping, g_variant_get_uint32 (parameter));
}

static void
one_more_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);
  int hooping = bench != NULL ? hw_canvas_marked_hooping (user_data) : -1;

  if (hooping >= 0)
    hw_bench_one_more_mark (bench, (guint)hooping);
}

static void
hold_all_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_hold_all_marks (bench);
}

static const GActionEntry entries[] = {
  { "hold", hold_cb, "u" },    { "let-go", let_go_cb, "u" }, { "take-away", take_away_cb, "u" },
  { "one-more", one_more_cb }, { "hold-all", hold_all_cb },
};

void
hw_canvas_add_mark_actions (HwCanvas *canvas)
{
  g_autoptr (GSimpleActionGroup) group = g_simple_action_group_new ();

  g_action_map_add_action_entries (G_ACTION_MAP (group), entries, G_N_ELEMENTS (entries), canvas);
  gtk_widget_insert_action_group (GTK_WIDGET (canvas), "marks", G_ACTION_GROUP (group));
}

static void
append (GMenu *menu, const char *label, const char *action, guint mark)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);

  g_menu_item_set_action_and_target (item, action, "u", mark);
  g_menu_append_item (menu, item);
}

void
hw_append_mark_decisions (HwCanvas *canvas, GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();
  int hooping = hw_canvas_marked_hooping (canvas);

  if (hooping >= 0 && hw_bench_may_change_marks (canvas->bench, (guint)hooping))
    g_menu_append (section, _ ("One more mark"), "marks.one-more");
  g_menu_append (section, _ ("All marks are on the cloth"), "marks.hold-all");
  g_menu_append (section, _ ("Marks to draw…"), "win.mark-list");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

GMenuModel *
hw_mark_menu_new (HwCanvas *canvas, guint index)
{
  g_autoptr (GArray) marks = hw_canvas_marks (canvas);
  g_autoptr (GMenu) section = g_menu_new ();
  int hooping = hw_canvas_marked_hooping (canvas);
  GMenu *menu = g_menu_new ();

  g_return_val_if_fail (index < marks->len, G_MENU_MODEL (menu));

  const HwCanvasMark *mark = &g_array_index (marks, HwCanvasMark, index);
  g_autofree char *hold = g_strdup_printf (_ ("Hold mark %s here"), mark->letter);
  g_autofree char *let_go = g_strdup_printf (_ ("Let mark %s go"), mark->letter);
  g_autofree char *take_away = g_strdup_printf (_ ("Take mark %s away"), mark->letter);

  if (hw_bench_may_change_marks (canvas->bench, (guint)hooping))
    {
      if (!mark->serves)
        append (section, _ ("Let this mark go"), "marks.let-go", index);
      else if (hw_bench_is_mark_of_pin (canvas->bench, (guint)hooping))
        append (section, take_away, "marks.take-away", index);
      else if (mark->held)
        append (section, let_go, "marks.let-go", index);
      else
        append (section, hold, "marks.hold", index);
      g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
    }
  hw_append_mark_decisions (canvas, menu);
  return G_MENU_MODEL (menu);
}
