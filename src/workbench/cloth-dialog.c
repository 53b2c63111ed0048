/* The dialog for the cloth and its edge line. */
#include "cloth-dialog.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"
#include "edge-fields.h"
#include "fabric-fields.h"

static void
fabric_cb (HwFabricFields *fields, HwBench *bench)
{
  HwScene *scene = hw_bench_get_scene (bench);
  HwFabric fabric = *hw_scene_get_fabric (scene);

  hw_fabric_fields_get (fields, &fabric);
  hw_bench_begin_edit (bench, _ ("change the cloth"), TRUE);
  hw_scene_set_fabric (scene, &fabric);
  hw_bench_end_edit (bench);
}

static void
edge_cb (HwEdgeFields *fields, HwBench *bench)
{
  g_autoptr (HwEdgeLine) edge = hw_edge_fields_get (fields);

  if (edge == NULL)
    return;
  hw_bench_begin_edit (bench, _ ("change the edge line"), TRUE);
  hw_scene_set_edge_line (hw_bench_get_scene (bench), edge);
  hw_bench_end_edit (bench);
}

static void
close_cb (GtkButton *button, GtkWindow *dialog)
{
  gtk_window_close (dialog);
}

static GtkWidget *
heading (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dialog-heading");
  return label;
}

void
hw_cloth_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *inner = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *close = gtk_button_new_with_label (_ ("Close"));
  GtkWidget *fabric = hw_fabric_fields_new (bench);
  GtkWidget *edge = hw_edge_fields_new (bench);
  HwScene *scene = hw_bench_get_scene (bench);

  hw_fabric_fields_set (HW_FABRIC_FIELDS (fabric), hw_scene_get_fabric (scene));
  hw_edge_fields_set (HW_EDGE_FIELDS (edge), hw_scene_get_edge_line (scene));
  g_signal_connect_object (fabric, "edited", G_CALLBACK (fabric_cb), bench, 0);
  g_signal_connect_object (edge, "edited", G_CALLBACK (edge_cb), bench, 0);

  gtk_box_append (GTK_BOX (inner), heading (_ ("Cloth")));
  gtk_box_append (GTK_BOX (inner), fabric);
  gtk_box_append (GTK_BOX (inner), heading (_ ("Edge line")));
  gtk_box_append (GTK_BOX (inner), edge);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), inner);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (content), scroller);
  gtk_box_append (GTK_BOX (foot), close);
  gtk_box_append (GTK_BOX (content), foot);

  GtkWindow *dialog = hw_dialog_new (parent, _ ("Cloth and edge line"), content, 460, 660);
  hw_help_mark (dialog, "own-scene");
  g_signal_connect (close, "clicked", G_CALLBACK (close_cb), dialog);
  gtk_window_present (dialog);
}
