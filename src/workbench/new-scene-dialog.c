/* The dialog that starts a new scene: a name, a cloth, an edge line at some distance from the cloth's own edge, and the hoops at hand. */
#include "new-scene-dialog.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"
#include "edge-fields.h"
#include "fabric-fields.h"
#include "measure-field.h"
#include "new-scene.h"

typedef struct
{
  HwBench *bench;
  GtkWidget *name;
  GtkWidget *fabric;
  GtkWidget *shape;
  GtkWidget *inset;
  GtkWidget *keep_hoops;
} NewScene;

static const HwEdgeShape shapes[] = { HW_EDGE_RECTANGLE, HW_EDGE_ROUNDED, HW_EDGE_ELLIPSE };

static void
new_scene_free (gpointer data)
{
  NewScene *form = data;

  g_object_unref (form->bench);
  g_free (form);
}

/* Returns: (transfer full) (element-type HwHoop): those of the scene there is, if they are to be kept */
static GPtrArray *
hoops_for (NewScene *form)
{
  GListModel *hoops = hw_scene_get_hoops (hw_bench_get_scene (form->bench));
  GPtrArray *kept = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);

  if (gtk_check_button_get_active (GTK_CHECK_BUTTON (form->keep_hoops)))
    for (guint i = 0; i < g_list_model_get_n_items (hoops); i++)
      {
        g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hoops, i);
        g_ptr_array_add (kept, hw_hoop_ref (hw_scene_hoop_get_record (hoop)));
      }
  return kept;
}

static void
start_cb (GtkButton *button, NewScene *form)
{
  const char *name = gtk_editable_get_text (GTK_EDITABLE (form->name));
  guint shape = MIN (gtk_drop_down_get_selected (GTK_DROP_DOWN (form->shape)), G_N_ELEMENTS (shapes) - 1);
  g_autoptr (GPtrArray) hoops = hoops_for (form);
  HwFabric fabric = { 0 };

  hw_fabric_fields_get (HW_FABRIC_FIELDS (form->fabric), &fabric);
  g_autoptr (HwSnapshot) snapshot
      = hw_new_scene (*name != '\0' ? name : _ ("New scene"), &fabric, shapes[shape],
                      hw_measure_field_get_value (HW_MEASURE_FIELD (form->inset)), hoops);
  hw_bench_start_new (form->bench, snapshot);
  gtk_window_close (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (button))));
}

static void
cancel_cb (GtkButton *button, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (button))));
}

static void
make_fields (NewScene *form, GtkBox *content)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_autoptr (HwSnapshot) blank = hw_snapshot_new ();

  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    g_strv_builder_add (builder, hw_edge_shape_words (shapes[i]));
  g_auto (GStrv) names = g_strv_builder_end (builder);

  form->name = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (form->name), _ ("New scene"));
  gtk_entry_set_activates_default (GTK_ENTRY (form->name), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (form->name), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the scene"), -1);
  form->fabric = hw_fabric_fields_new (form->bench);
  hw_fabric_fields_set (HW_FABRIC_FIELDS (form->fabric), &blank->fabric);
  form->shape = gtk_drop_down_new_from_strings ((const char *const *)names);
  gtk_accessible_update_property (GTK_ACCESSIBLE (form->shape), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Shape of the edge line"), -1);
  form->inset
      = hw_measure_field_new (form->bench, HW_MEASURE_LENGTH, _ ("Edge line inside the cloth by"), 0, 2000);
  hw_measure_field_set_value (HW_MEASURE_FIELD (form->inset), HW_NEW_SCENE_INSET);
  form->keep_hoops = gtk_check_button_new_with_label (_ ("With the hoops of this scene"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (form->keep_hoops), TRUE);

  gtk_box_append (content, hw_captioned (_ ("Name"), form->name));
  gtk_box_append (content, form->fabric);
  gtk_box_append (content, hw_dialog_pair (hw_captioned (_ ("Edge line"), form->shape),
                                           hw_captioned (_ ("Inside the cloth by"), form->inset)));
  gtk_box_append (content, form->keep_hoops);
}

void
hw_new_scene_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  NewScene *form = g_new0 (NewScene, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *cancel = gtk_button_new_with_label (_ ("Cancel"));
  GtkWidget *start = gtk_button_new_with_label (_ ("Start"));

  form->bench = g_object_ref (bench);
  make_fields (form, GTK_BOX (content));
  gtk_widget_set_vexpand (foot, TRUE);
  gtk_widget_set_valign (foot, GTK_ALIGN_END);
  gtk_widget_add_css_class (start, "suggested-action");
  g_signal_connect (cancel, "clicked", G_CALLBACK (cancel_cb), NULL);
  g_signal_connect (start, "clicked", G_CALLBACK (start_cb), form);
  gtk_box_append (GTK_BOX (foot), cancel);
  gtk_box_append (GTK_BOX (foot), start);
  gtk_box_append (GTK_BOX (content), foot);

  GtkWindow *dialog = hw_dialog_new (parent, _ ("New scene"), content, 460, -1);
  hw_help_mark (dialog, "own-scene");
  g_object_set_data_full (G_OBJECT (dialog), "form", form, new_scene_free);
  gtk_window_set_default_widget (dialog, start);
  gtk_window_present (dialog);
}
