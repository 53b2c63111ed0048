/* The menu at a motif or a hooping. What lies under the pointer is selected first, so that the menu speaks of what one sees. */

#include <glib/gi18n.h>

#include "arrange-menu.h"
#include "canvas-marks.h"
#include "decision-menus.h"
#include "main-menu.h"

static GMenuModel *
motif_menu (HwBench *bench)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) order = g_menu_new ();
  g_autoptr (GMenu) change = g_menu_new ();
  g_autoptr (GMenu) hold = g_menu_new ();
  g_autoptr (GMenu) arrange = g_menu_new ();

  g_menu_append (order, _ ("Bring forward"), "win.bring-forward");
  g_menu_append (order, _ ("Send back"), "win.send-back");
  g_menu_append (change, _ ("Mirror"), "win.mirror");
  g_menu_append (change, _ ("Duplicate"), "win.duplicate");
  g_menu_append (change, _ ("Delete"), "win.delete");
  hw_arrange_menu_fill (arrange);
  g_menu_append_submenu (change, _ ("Arrange"), G_MENU_MODEL (arrange));
  g_menu_append (change, _ ("Edit the outline…"), "win.edit-outline");
  g_menu_append (hold, _ ("Lock in place"), "win.lock");
  g_menu_append (hold, _ ("Put into a part…"), "win.put-in-part");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (order));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (change));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (hold));
  hw_append_motif_decisions (menu, bench);
  return G_MENU_MODEL (menu);
}

static GMenuModel *
cloth_menu (void)
{
  static const char *const motifs[] = { "win.add-motif", "win.draw-outline", "win.select-all", NULL };
  static const char *const looking[] = { "win.show-hoopings", "win.show-marks", "win.show-order", NULL };
  static const char *const cloth[] = { "win.edit-cloth", "win.edit-hoops", "win.add-photo", NULL };
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) whole = g_menu_new ();

  hw_menu_append_commands (menu, motifs);
  g_menu_append (whole, _ ("Show the whole cloth"), "win.zoom-fit");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (whole));
  hw_menu_append_commands (menu, looking);
  hw_menu_append_commands (menu, cloth);
  return G_MENU_MODEL (menu);
}

/* From the keyboard marks are reached through the menu of their hooping. */
static void
append_marks (HwCanvas *canvas, GMenu *menu)
{
  g_autoptr (GArray) marks = hw_canvas_marks (canvas);
  g_autoptr (GMenu) section = g_menu_new ();

  for (guint i = 0; i < marks->len; i++)
    {
      const HwCanvasMark *mark = &g_array_index (marks, HwCanvasMark, i);
      g_autofree char *name = g_strdup_printf (_ ("Mark %s"), mark->letter);
      g_autoptr (GMenuModel) its_menu = NULL;

      if (mark->letter[0] == '\0')
        continue;
      its_menu = hw_mark_menu_new (canvas, i);
      g_menu_append_submenu (section, name, its_menu);
    }
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static GMenuModel *
hooping_menu (HwCanvas *canvas)
{
  GMenuModel *menu = hw_hooping_menu_new (canvas->bench);

  hw_append_mark_decisions (canvas, G_MENU (menu));
  return menu;
}

/* Selects what the pixel means. Returns: (transfer full): the menu for it */
static GMenuModel *
menu_under (HwCanvas *canvas, HwPoint pixel)
{
  g_autoptr (GArray) stack = hw_canvas_stack_at (canvas, pixel);
  int hooping = hw_canvas_disc_under (canvas, pixel), mark = hw_canvas_mark_under (canvas, pixel);

  if (mark >= 0)
    return hw_mark_menu_new (canvas, (guint)mark);
  if (hooping >= 0)
    {
      hw_bench_choose_hooping (canvas->bench, hooping);
      return hooping_menu (canvas);
    }
  for (guint i = 0; i < stack->len; i++)
    if (hw_canvas_is_selected (canvas, g_array_index (stack, guint, i)))
      return motif_menu (canvas->bench);
  if (stack->len > 0)
    {
      hw_bench_select_only (canvas->bench, hw_canvas_record (canvas, g_array_index (stack, guint, 0))->id);
      return motif_menu (canvas->bench);
    }
  return cloth_menu ();
}

static gboolean
drop_menu_cb (gpointer user_data)
{
  gtk_widget_unparent (GTK_WIDGET (user_data));
  return G_SOURCE_REMOVE;
}

/* The chosen item's action runs after the menu has closed, so the menu is taken away a turn later. */
static void
menu_closed_cb (GtkPopover *menu, HwCanvas *canvas)
{
  if (canvas->menu != GTK_WIDGET (menu))
    return;
  canvas->menu = NULL;
  g_idle_add_full (G_PRIORITY_LOW, drop_menu_cb, g_object_ref (menu), g_object_unref);
}

void
hw_canvas_popup (HwCanvas *canvas, const HwPoint *at)
{
  g_autoptr (GMenuModel) model = NULL;
  HwBox area = hw_canvas_area (canvas);
  HwPoint where;

  if (canvas->bench == NULL)
    return;
  if (at != NULL)
    {
      where = *at;
      model = menu_under (canvas, where);
    }
  else
    {
      HwBox box = hw_canvas_selection_box (canvas);
      gboolean nothing = hw_box_is_empty (box);

      where = (HwPoint){ (area.x0 + area.x1) / 2, (area.y0 + area.y1) / 2 };
      if (!nothing)
        where = hw_view_to_pixels (&canvas->view, (HwPoint){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 });
      model = !nothing                                           ? motif_menu (canvas->bench)
              : hw_bench_get_chosen_hooping (canvas->bench) >= 0 ? hooping_menu (canvas)
                                                                 : cloth_menu ();
      if (nothing && hw_bench_get_chosen_hooping (canvas->bench) >= 0)
        append_marks (canvas, G_MENU (model));
    }
  g_clear_pointer (&canvas->menu, gtk_widget_unparent);
  canvas->menu = gtk_popover_menu_new_from_model (model);
  gtk_widget_set_parent (canvas->menu, GTK_WIDGET (canvas));
  gtk_popover_set_has_arrow (GTK_POPOVER (canvas->menu), FALSE);
  gtk_widget_set_halign (canvas->menu, GTK_ALIGN_START);
  gtk_popover_set_pointing_to (GTK_POPOVER (canvas->menu),
                               &(GdkRectangle){ (int)CLAMP (where.x, area.x0, area.x1),
                                                (int)CLAMP (where.y, area.y0, area.y1), 1, 1 });
  g_signal_connect (canvas->menu, "closed", G_CALLBACK (menu_closed_cb), canvas);
  gtk_popover_popup (GTK_POPOVER (canvas->menu));
}
