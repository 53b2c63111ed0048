/* The dialog that puts the selected motifs into a part: one that is there, a new one, or none. */
#include "parts-dialog.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"

typedef struct
{
  HwBench *bench;
  GtkWidget *none, *fresh, *name, *trouble;
  GPtrArray *checks; /* GtkWidget of each part, not owned */
} Choice;

static void
choice_free (gpointer data)
{
  Choice *choice = data;

  g_object_unref (choice->bench);
  g_ptr_array_unref (choice->checks);
  g_free (choice);
}

static gboolean
is_chosen (GtkWidget *check)
{
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (check));
}

/* Parts may have changed meanwhile, as by undo from elsewhere: a part that is gone is made again under its name. */
static gboolean
take (Choice *choice)
{
  for (guint i = 0; i < choice->checks->len; i++)
    if (is_chosen (choice->checks->pdata[i]))
      return hw_bench_put_in_part (choice->bench,
                                   gtk_check_button_get_label (GTK_CHECK_BUTTON (choice->checks->pdata[i])));
  if (is_chosen (choice->none))
    {
      hw_bench_take_out_of_parts (choice->bench);
      return TRUE;
    }
  return hw_bench_put_in_part (choice->bench, gtk_editable_get_text (GTK_EDITABLE (choice->name)));
}

static void
take_cb (GtkWidget *widget, Choice *choice)
{
  if (take (choice))
    {
      gtk_window_close (GTK_WINDOW (gtk_widget_get_root (choice->name)));
      return;
    }
  gtk_label_set_label (GTK_LABEL (choice->trouble),
                       hw_scene_get_parts (hw_bench_get_scene (choice->bench))->len >= HW_MOST_PARTS
                           ? _ ("The scene has as many parts as it can have.")
                           : _ ("Please give the new part a name."));
  gtk_widget_set_visible (choice->trouble, TRUE);
  gtk_widget_grab_focus (choice->name);
}

static void
typed_cb (GtkEditable *editable, Choice *choice)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choice->fresh), TRUE);
  gtk_widget_set_visible (choice->trouble, FALSE);
}

static void
close_cb (GtkButton *button, GtkWindow *dialog)
{
  gtk_window_close (dialog);
}

static GtkWidget *
add_check (Choice *choice, GtkWidget *box, const char *label)
{
  GtkWidget *check = gtk_check_button_new_with_label (label);

  gtk_label_set_ellipsize (GTK_LABEL (gtk_widget_get_last_child (check)), PANGO_ELLIPSIZE_END);
  gtk_widget_set_tooltip_text (check, label);
  if (choice->fresh != NULL)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (check), GTK_CHECK_BUTTON (choice->fresh));
  gtk_box_append (GTK_BOX (box), check);
  return check;
}

static GtkWidget *
make_choices (Choice *choice)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GPtrArray *parts = hw_scene_get_parts (hw_bench_get_scene (choice->bench));
  int now = hw_bench_part_of_selection (choice->bench);
  g_autofree char *free_name = hw_bench_free_part_name (choice->bench);

  choice->fresh = add_check (choice, line, _ ("A new part:"));
  choice->name = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (choice->name), free_name);
  gtk_widget_set_hexpand (choice->name, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice->name), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the new part"), -1);
  gtk_box_append (GTK_BOX (line), choice->name);
  for (guint i = 0; i < parts->len; i++)
    g_ptr_array_add (choice->checks, add_check (choice, box, ((const HwPart *)parts->pdata[i])->name));
  gtk_box_append (GTK_BOX (box), line);
  choice->none = add_check (choice, box, _ ("In no part"));
  gtk_widget_set_sensitive (choice->none, hw_bench_some_in_parts (choice->bench));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (now >= 0 ? choice->checks->pdata[now] : choice->fresh),
                               TRUE);
  g_signal_connect (choice->name, "changed", G_CALLBACK (typed_cb), choice);
  g_signal_connect (choice->name, "activate", G_CALLBACK (take_cb), choice);
  return box;
}

void
hw_parts_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  if (hw_bench_get_n_selected (bench) == 0)
    return;
  Choice *choice = g_new0 (Choice, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *leave = gtk_button_new_with_label (_ ("Cancel"));
  GtkWidget *put = gtk_button_new_with_label (_ ("Put"));

  choice->bench = g_object_ref (bench);
  choice->checks = g_ptr_array_new ();
  choice->trouble = hw_dialog_words (NULL);
  gtk_widget_add_css_class (choice->trouble, "trouble");
  gtk_widget_set_visible (choice->trouble, FALSE);
  gtk_widget_add_css_class (put, "suggested-action");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), make_choices (choice));
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (content),
                  hw_dialog_words (_ ("Every motif of an earlier part is stitched before every "
                                      "motif of a later one, and no hooping holds motifs of two.")));
  gtk_box_append (GTK_BOX (content), scroller);
  gtk_box_append (GTK_BOX (content), choice->trouble);
  gtk_box_append (GTK_BOX (foot), leave);
  gtk_box_append (GTK_BOX (foot), put);
  gtk_box_append (GTK_BOX (content), foot);

  GtkWindow *dialog = hw_dialog_new (parent, _ ("Put into a part"), content, 420, 420);
  hw_help_mark (dialog, "parts");
  g_object_set_data_full (G_OBJECT (dialog), "choice", choice, choice_free);
  g_signal_connect (put, "clicked", G_CALLBACK (take_cb), choice);
  g_signal_connect (leave, "clicked", G_CALLBACK (close_cb), dialog);
  gtk_window_present (dialog);
  gtk_widget_grab_focus (choice->name);
}
