/* The slip on an empty cloth. */
#include "bare-cloth.h"

#include <glib/gi18n.h>

#include "dialog.h"

struct _HwBareCloth
{
  GtkBox parent_instance;
};

G_DEFINE_FINAL_TYPE (HwBareCloth, hw_bare_cloth, GTK_TYPE_BOX)

static void
show (HwBench *bench, GtkWidget *slip)
{
  gtk_widget_set_visible (slip,
                          g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (bench))) == 0);
}

static void
scene_changed_cb (HwBench *bench, guint flags, GtkWidget *slip)
{
  show (bench, slip);
}

static void
hw_bare_cloth_class_init (HwBareClothClass *klass)
{
}

static void
hw_bare_cloth_init (HwBareCloth *slip)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (slip), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (slip), 14);
  gtk_widget_set_halign (GTK_WIDGET (slip), GTK_ALIGN_CENTER);
  gtk_widget_set_valign (GTK_WIDGET (slip), GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (GTK_WIDGET (slip), "bare-cloth");
}

static GtkWidget *
button (const char *label, const char *action)
{
  GtkWidget *made = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (made), action);
  return made;
}

GtkWidget *
hw_bare_cloth_new (HwBench *bench, gboolean borrow)
{
  GtkWidget *slip = g_object_new (HW_TYPE_BARE_CLOTH, NULL);
  GtkWidget *heading = hw_dialog_words (_ ("The cloth is bare"));
  GtkWidget *words = hw_dialog_words (
      _ ("Bring in the first motif: a needle list (CSV), or a drawing as SVG, PNG, JPEG or "
         "PDF. Or drop such files here."));
  GtkWidget *add = button (_ ("Add motifs…"), "win.add-motif");

  g_return_val_if_fail (HW_IS_BENCH (bench), slip);
  gtk_label_set_max_width_chars (GTK_LABEL (words), 40);
  gtk_widget_add_css_class (heading, "start-heading");
  gtk_widget_add_css_class (add, "suggested-action");
  gtk_box_append (GTK_BOX (slip), heading);
  gtk_box_append (GTK_BOX (slip), words);
  gtk_box_append (GTK_BOX (slip), add);
  gtk_box_append (GTK_BOX (slip), button (_ ("Draw an outline…"), "win.draw-outline"));
  if (borrow)
    gtk_box_append (GTK_BOX (slip), button (_ ("Borrow the wren of the walled garden"), "win.borrow-motif"));
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), slip, 0);
  show (bench, slip);
  return slip;
}
