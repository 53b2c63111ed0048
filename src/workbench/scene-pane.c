/* The facts of the scene itself, shown while no motif is selected. */
#include "scene-pane.h"

#include <glib/gi18n.h>

#include "edge-fields.h"
#include "fabric-fields.h"
#include "wishes-fields.h"

struct _HwScenePane
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *name;
  GtkWidget *fabric;
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
fabric_cb (HwFabricFields *fields, HwScenePane *pane)
{
  HwScene *scene = hw_bench_get_scene (pane->bench);
  HwFabric fabric = *hw_scene_get_fabric (scene);

  hw_fabric_fields_get (fields, &fabric);
  hw_bench_begin_edit (pane->bench, _ ("change the cloth"), TRUE);
  hw_scene_set_fabric (scene, &fabric);
  hw_bench_end_edit (pane->bench);
}

static char *
edge_text (HwScenePane *pane)
{
  const HwEdgeLine *edge = hw_scene_get_edge_line (hw_bench_get_scene (pane->bench));
  HwUnit unit = hw_bench_get_unit (pane->bench);

  if (edge == NULL || edge->outline == NULL)
    return g_strdup (_ ("None drawn"));
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
      gtk_label_set_wrap (GTK_LABEL (none), TRUE);
      gtk_box_append (GTK_BOX (pane->hoops), none);
    }
}

static void
update (HwScenePane *pane)
{
  HwScene *scene = hw_bench_get_scene (pane->bench);
  g_autofree char *name = NULL;
  g_autofree char *edge = edge_text (pane);

  pane->updating = TRUE;
  g_object_get (scene, "name", &name, NULL);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (pane->name)), name) != 0)
    gtk_editable_set_text (GTK_EDITABLE (pane->name), name != NULL ? name : "");
  hw_fabric_fields_set (HW_FABRIC_FIELDS (pane->fabric), hw_scene_get_fabric (scene));
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

/* A caption with a button at its end that opens the dialog for what stands below it. */
static GtkWidget *
heading (const char *caption, const char *button_label, const char *action)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = gtk_label_new (caption);
  GtkWidget *button = gtk_button_new_with_label (button_label);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, "caption");
  gtk_widget_add_css_class (button, "flat");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), button);
  return row;
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
  pane->fabric = hw_fabric_fields_new (bench);
  g_signal_connect (pane->fabric, "edited", G_CALLBACK (fabric_cb), pane);
  pane->edge = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (pane->edge), TRUE);
  gtk_label_set_xalign (GTK_LABEL (pane->edge), 0);
  pane->hoops = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  gtk_box_append (GTK_BOX (pane), pane->name);
  gtk_box_append (GTK_BOX (pane), pane->fabric);
  gtk_box_append (GTK_BOX (pane), heading (_ ("Edge line"), _ ("Change…"), "win.edit-cloth"));
  gtk_box_append (GTK_BOX (pane), pane->edge);
  gtk_box_append (GTK_BOX (pane), heading (_ ("Hoops"), _ ("Change…"), "win.edit-hoops"));
  gtk_box_append (GTK_BOX (pane), pane->hoops);
  gtk_box_append (GTK_BOX (pane), hw_wishes_fields_new (bench));

  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), pane, 0);
  g_signal_connect_object (bench, "notify::unit", G_CALLBACK (unit_cb), pane, 0);
  update (pane);
  update_hoops (pane);
  return GTK_WIDGET (pane);
}
