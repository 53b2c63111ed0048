/* The facts of the scene itself, shown while no motif is selected: its name, and in a few lines the cloth, its edge line and the hoops. What they
 * are made of is changed in dialogs of their own. */
#include "scene-pane.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "decisions-list.h"
#include "edge-fields.h"

struct _HwScenePane
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *name;
  GtkWidget *swatch;
  GtkWidget *cloth;
  GtkWidget *edge;
  GtkWidget *hoops;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwScenePane, hw_scene_pane, GTK_TYPE_BOX)

static void
name_cb (GtkEditable *editable, HwScenePane *pane)
{
  if (pane->updating)
    return;
  hw_bench_begin_edit (pane->bench, _ ("rename the scene"), TRUE);
  g_object_set (hw_bench_get_scene (pane->bench), "name", gtk_editable_get_text (editable), NULL);
  hw_bench_end_edit (pane->bench);
}

static void
draw_swatch_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwScenePane *pane = user_data;
  HwColour colour = hw_scene_get_fabric (hw_bench_get_scene (pane->bench))->colour;

  cairo_rectangle (cr, 0.5, 0.5, width - 1, height - 1);
  cairo_set_source_rgb (cr, colour.red, colour.green, colour.blue);
  cairo_fill_preserve (cr);
  cairo_set_source_rgba (cr, 0.4, 0.38, 0.35, 0.8);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

static char *
cloth_text (HwScenePane *pane)
{
  const HwFabric *fabric = hw_scene_get_fabric (hw_bench_get_scene (pane->bench));
  g_autofree char *size = hw_size_text (fabric->width, fabric->height, hw_bench_get_unit (pane->bench));

  /* Translators: "700 × 540 mm, floated" */
  return g_strdup_printf (fabric->hold == HW_HOLD_CLAMPED ? _ ("%s, clamped") : _ ("%s, floated"), size);
}

static char *
edge_text (HwScenePane *pane)
{
  const HwEdgeLine *edge = hw_scene_get_edge_line (hw_bench_get_scene (pane->bench));
  HwUnit unit = hw_bench_get_unit (pane->bench);

  if (edge == NULL || edge->outline == NULL)
    return g_strdup (_ ("No edge line drawn"));
  HwBox box = edge->outline->box;
  g_autofree char *size = hw_size_text (box.x1 - box.x0, box.y1 - box.y0, unit);
  g_autofree char *margin = hw_length_text (edge->margin, unit);
  /* Translators: "Rectangle, 580 × 460 mm; stitching stays 2.0 mm inside" */
  return g_strdup_printf (_ ("%s, %s; stitching stays %s inside"), hw_edge_shape_words (edge->shape), size,
                          margin);
}

static GtkWidget *
hoop_row (HwScenePane *pane, const HwHoop *hoop)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *name = gtk_label_new (hoop->name);
  g_autofree char *size
      = hw_size_text (hoop->field_width, hoop->field_height, hw_bench_get_unit (pane->bench));
  g_autofree char *aside = hoop->set_aside ? g_strdup_printf (_ ("%s, set aside"), size) : g_strdup (size);
  GtkWidget *field = gtk_label_new (aside);

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_add_css_class (field, "quiet");
  gtk_box_append (GTK_BOX (row), name);
  gtk_box_append (GTK_BOX (row), field);
  return row;
}

static void
update_hoops (HwScenePane *pane)
{
  GListModel *hoops = hw_scene_get_hoops (hw_bench_get_scene (pane->bench));
  guint n = g_list_model_get_n_items (hoops);

  for (GtkWidget *child = gtk_widget_get_first_child (pane->hoops); child != NULL;)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (child);
      gtk_box_remove (GTK_BOX (pane->hoops), child);
      child = next;
    }
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hoops, i);
      gtk_box_append (GTK_BOX (pane->hoops), hoop_row (pane, hw_scene_hoop_get_record (hoop)));
    }
  if (n == 0)
    {
      GtkWidget *none = gtk_label_new (_ ("No hoop yet: add the ones you own."));

      gtk_label_set_xalign (GTK_LABEL (none), 0);
      hw_wrap_words (none);
      gtk_box_append (GTK_BOX (pane->hoops), none);
    }
}

static void
update (HwScenePane *pane)
{
  HwScene *scene = hw_bench_get_scene (pane->bench);
  g_autofree char *name = NULL;
  g_autofree char *cloth = cloth_text (pane);
  g_autofree char *edge = edge_text (pane);

  pane->updating = TRUE;
  g_object_get (scene, "name", &name, NULL);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (pane->name)), name) != 0)
    gtk_editable_set_text (GTK_EDITABLE (pane->name), name != NULL ? name : "");
  gtk_label_set_label (GTK_LABEL (pane->cloth), cloth);
  gtk_widget_queue_draw (pane->swatch);
  gtk_label_set_label (GTK_LABEL (pane->edge), edge);
  pane->updating = FALSE;
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwScenePane *pane)
{
  if (flags & (HW_SCENE_CHANGE_FABRIC | HW_SCENE_CHANGE_EDGE_LINE | HW_SCENE_CHANGE_WORDS))
    update (pane);
  if (flags & (HW_SCENE_CHANGE_HOOPS | HW_SCENE_CHANGE_WORDS))
    update_hoops (pane);
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, HwScenePane *pane)
{
  update (pane);
  update_hoops (pane);
}

static void
hw_scene_pane_dispose (GObject *object)
{
  g_clear_object (&HW_SCENE_PANE (object)->bench);
  G_OBJECT_CLASS (hw_scene_pane_parent_class)->dispose (object);
}

static void
hw_scene_pane_class_init (HwScenePaneClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_scene_pane_dispose;
}

static void
hw_scene_pane_init (HwScenePane *pane)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (pane), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (pane), 14);
  gtk_widget_add_css_class (GTK_WIDGET (pane), "facts");
}

/* What there is, with a caption above it and a button beside that that opens the dialog for it. */
static GtkWidget *
fact (const char *caption, const char *button_name, const char *action, GtkWidget *content)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = gtk_label_new (caption);
  GtkWidget *button = gtk_button_new_with_label (_ ("Change…"));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, "caption");
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "fact-button");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, button_name, -1);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), content);
  return box;
}

static GtkWidget *
wrapped (void)
{
  GtkWidget *label = gtk_label_new (NULL);

  hw_wrap_words (label);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

/* The cloth's colour and what it is, and below them the line its stitching stays within. */
static GtkWidget *
cloth_lines (HwScenePane *pane)
{
  GtkWidget *lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);

  pane->swatch
      = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (pane->swatch), draw_swatch_cb, pane, NULL);
  gtk_widget_set_size_request (pane->swatch, 34, 22);
  gtk_widget_set_valign (pane->swatch, GTK_ALIGN_CENTER);
  pane->cloth = wrapped ();
  pane->edge = wrapped ();
  gtk_box_append (GTK_BOX (row), pane->swatch);
  gtk_box_append (GTK_BOX (row), pane->cloth);
  gtk_box_append (GTK_BOX (lines), row);
  gtk_box_append (GTK_BOX (lines), pane->edge);
  return lines;
}

GtkWidget *
hw_scene_pane_new (HwBench *bench)
{
  HwScenePane *pane = g_object_new (HW_TYPE_SCENE_PANE, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (pane));
  pane->bench = g_object_ref (bench);

  pane->name = gtk_entry_new ();
  gtk_widget_add_css_class (pane->name, "name-entry");
  gtk_accessible_update_property (GTK_ACCESSIBLE (pane->name), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the scene"), -1);
  g_signal_connect (pane->name, "changed", G_CALLBACK (name_cb), pane);
  pane->hoops = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  gtk_box_append (GTK_BOX (pane), pane->name);
  gtk_box_append (GTK_BOX (pane), fact (_ ("Cloth and edge line"), _ ("Change the cloth and the edge line"),
                                        "win.edit-cloth", cloth_lines (pane)));
  gtk_box_append (GTK_BOX (pane), fact (_ ("Hoops"), _ ("Change the hoops"), "win.edit-hoops", pane->hoops));
  gtk_box_append (GTK_BOX (pane), hw_decisions_list_new (bench, TRUE));

  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), pane, 0);
  g_signal_connect_object (bench, "notify::unit", G_CALLBACK (unit_cb), pane, 0);
  update (pane);
  update_hoops (pane);
  return GTK_WIDGET (pane);
}
