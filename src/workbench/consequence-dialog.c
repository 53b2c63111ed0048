/* Joining and splitting hoopings by hand, and keeping one along the grain. The changed scene is planned in the background while the dialog is open; the edit can be taken once it is
 * known what comes of it, and only when it can be done. */
#include "consequence-dialog.h"

#include <glib/gi18n.h>

#include "consequence.h"
#include "dialog.h"
#include "help-place.h"
#include "hooping-words.h"

#define WIDTH 460 /* px */

/* In place of another hooping. */
#define SPLIT G_MAXUINT
#define GRAIN (G_MAXUINT - 1)

/* Freed with its window. */
typedef struct
{
  HwBench *bench;
  HwPlan *plan; /* the one the dialog speaks of */
  GtkWindow *window;
  GtkWidget *told;
  GtkWidget *take;
  guint hooping;
  guint other;       /* to join with, or SPLIT or GRAIN */
  GPtrArray *checks; /* GtkCheckButton of a split, one a motif, not owned */
  GCancellable *cancellable;
  HwSnapshot *changed;
} Dialog;

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  g_cancellable_cancel (dialog->cancellable);
  g_clear_object (&dialog->cancellable);
  g_clear_pointer (&dialog->changed, hw_snapshot_unref);
  g_clear_pointer (&dialog->checks, g_ptr_array_unref);
  hw_plan_unref (dialog->plan);
  g_object_unref (dialog->bench);
  g_free (dialog);
}

static void
tell (Dialog *dialog, const char *text, gboolean takeable)
{
  gtk_label_set_label (GTK_LABEL (dialog->told), text);
  gtk_widget_set_sensitive (dialog->take, takeable);
}

static void
weighed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwConsequence) consequence = hw_consequence_weigh_finish (result, &error);

  /* Cancelled: the dialog may be gone. */
  if (consequence == NULL)
    return;
  Dialog *dialog = data;
  if (consequence->instead != NULL)
    {
      hw_snapshot_unref (dialog->changed);
      dialog->changed = g_steal_pointer (&consequence->instead);
      tell (dialog, consequence->text, TRUE);
    }
  else if (consequence->possible)
    tell (dialog, consequence->text, TRUE);
  else
    {
      g_autofree char *text = g_strdup_printf (_ ("This cannot be done. %s"), consequence->text);
      tell (dialog, text, FALSE);
    }
}

static char **
ids_of (const HwPlan *plan, guint hooping)
{
  const HwHooping *h = &plan->hoopings[hooping];
  char **ids = g_new0 (char *, h->n_motifs + 1);

  for (guint i = 0; i < h->n_motifs; i++)
    ids[i] = g_strdup (hw_snapshot_motif (plan->snapshot, h->motifs[i])->id);
  return ids;
}

/* Plans the changed scene anew; what was being planned before is let go. */
static void
weigh (Dialog *dialog, HwSnapshot *changed, char **together)
{
  g_cancellable_cancel (dialog->cancellable);
  g_clear_object (&dialog->cancellable);
  g_clear_pointer (&dialog->changed, hw_snapshot_unref);
  dialog->changed = changed;
  if (changed == NULL)
    {
      tell (dialog, _ ("Choose which motifs to take out; at least one has to stay."), FALSE);
      return;
    }
  tell (dialog, _ ("Working out what comes of it"), FALSE);
  dialog->cancellable = g_cancellable_new ();
  hw_consequence_weigh_async (dialog->bench, dialog->plan, changed, (const char *const *)together,
                              dialog->cancellable, weighed_cb, dialog);
}

static void
weigh_join (Dialog *dialog)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();
  g_auto (GStrv) first = ids_of (dialog->plan, dialog->hooping);
  g_auto (GStrv) second = ids_of (dialog->plan, dialog->other);

  g_strv_builder_addv (ids, (const char **)first);
  g_strv_builder_addv (ids, (const char **)second);
  g_auto (GStrv) together = g_strv_builder_end (ids);
  weigh (dialog, hw_consequence_joined (dialog->bench, dialog->plan, dialog->hooping, dialog->other),
         together);
}

static void
chosen_cb (GtkCheckButton *check, Dialog *dialog)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) all = ids_of (dialog->plan, dialog->hooping);

  for (guint i = 0; i < dialog->checks->len; i++)
    if (gtk_check_button_get_active (g_ptr_array_index (dialog->checks, i)))
      g_strv_builder_add (builder, all[i]);
  g_auto (GStrv) out = g_strv_builder_end (builder);
  weigh (dialog,
         hw_consequence_split (dialog->bench, dialog->plan, dialog->hooping, (const char *const *)out), NULL);
}

static char *
step_name (const Dialog *dialog)
{
  guint number = dialog->hooping + 1;

  if (dialog->other == GRAIN)
    return g_strdup_printf (_ ("keep hooping %u along the grain"), number);
  if (dialog->other == SPLIT)
    return g_strdup_printf (_ ("split hooping %u"), number);
  return g_strdup_printf (_ ("join hoopings %u and %u"), number, dialog->other + 1);
}

static void
take_cb (GtkButton *button, Dialog *dialog)
{
  g_autofree char *name = step_name (dialog);

  if (dialog->changed != NULL)
    hw_bench_take_snapshot (dialog->bench, name, dialog->changed);
  gtk_window_close (dialog->window);
}

static void
leave_cb (GtkButton *button, Dialog *dialog)
{
  gtk_window_close (dialog->window);
}

/* A submenu that the dialog was chosen from keeps the window's focus though it is gone; the keys would go nowhere. */
static gboolean
close_request_cb (GtkWindow *window, gpointer data)
{
  GtkWindow *parent = gtk_window_get_transient_for (window);
  GtkWidget *focus = parent != NULL ? gtk_window_get_focus (parent) : NULL;

  if (focus != NULL && !gtk_widget_get_mapped (focus))
    gtk_window_set_focus (parent, NULL);
  return FALSE;
}

static Dialog *
dialog_new (
    GtkWindow *parent, HwBench *bench, const char *title, guint hooping, guint other, GtkWidget *above)
{
  Dialog *dialog = g_new0 (Dialog, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *leave = gtk_button_new_with_label (_ ("Leave"));

  dialog->bench = g_object_ref (bench);
  dialog->plan = hw_plan_ref (hw_bench_get_plan (bench));
  dialog->hooping = hooping;
  dialog->other = other;
  dialog->told = hw_dialog_words (NULL);
  gtk_widget_add_css_class (dialog->told, "told");
  gtk_widget_set_vexpand (dialog->told, TRUE);
  gtk_widget_set_valign (dialog->told, GTK_ALIGN_START);
  /* The sentence is one line or three: the dialog keeps its height. */
  gtk_widget_set_size_request (dialog->told, -1, 72);
  gtk_label_set_yalign (GTK_LABEL (dialog->told), 0);
  dialog->take = gtk_button_new_with_label (_ ("Take"));
  gtk_widget_add_css_class (dialog->take, "suggested-action");
  g_signal_connect (dialog->take, "clicked", G_CALLBACK (take_cb), dialog);
  g_signal_connect (leave, "clicked", G_CALLBACK (leave_cb), dialog);
  gtk_box_append (GTK_BOX (foot), leave);
  gtk_box_append (GTK_BOX (foot), dialog->take);
  gtk_box_append (GTK_BOX (content), above);
  gtk_box_append (GTK_BOX (content), dialog->told);
  gtk_box_append (GTK_BOX (content), foot);
  dialog->window = hw_dialog_new (parent, title, content, WIDTH, -1);
  hw_help_mark (dialog->window, "decisions");
  g_signal_connect (dialog->window, "close-request", G_CALLBACK (close_request_cb), NULL);
  g_object_set_data_full (G_OBJECT (dialog->window), "dialog", dialog, dialog_free);
  return dialog;
}

void
hw_join_dialog_show (GtkWindow *parent, HwBench *bench, guint first, guint second)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwPlan *plan = hw_bench_get_plan (bench);
  if (plan == NULL || first >= plan->n_hoopings || second >= plan->n_hoopings || first == second)
    return;

  g_autofree char *title = g_strdup_printf (_ ("Join hoopings %u and %u"), first + 1, second + 1);
  g_autofree char *of_first = hw_hooping_motifs_text (plan, first);
  g_autofree char *of_second = hw_hooping_motifs_text (plan, second);
  g_autofree char *words = g_strdup_printf (_ ("Together in one hooping: %s, %s."), of_first, of_second);
  Dialog *dialog = dialog_new (parent, bench, title, first, second, hw_dialog_words (words));

  weigh_join (dialog);
  gtk_window_present (dialog->window);
}

void
hw_grain_dialog_show (GtkWindow *parent, HwBench *bench, guint hooping)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwPlan *plan = hw_bench_get_plan (bench);
  if (plan == NULL || hooping >= plan->n_hoopings)
    return;

  g_autofree char *title = g_strdup_printf (_ ("Keep hooping %u along the grain"), hooping + 1);
  g_autofree char *motifs = hw_hooping_motifs_text (plan, hooping);
  g_autofree char *words = g_strdup_printf (_ ("With the hoop at 0° or 90° on the cloth: %s."), motifs);
  Dialog *dialog = dialog_new (parent, bench, title, hooping, GRAIN, hw_dialog_words (words));
  g_auto (GStrv) together = ids_of (plan, hooping);

  weigh (dialog, hw_consequence_along_grain (bench, plan, hooping), together);
  gtk_window_present (dialog->window);
}

void
hw_split_dialog_show (GtkWindow *parent, HwBench *bench, guint hooping)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwPlan *plan = hw_bench_get_plan (bench);
  if (plan == NULL || hooping >= plan->n_hoopings)
    return;

  g_autofree char *title = g_strdup_printf (_ ("Split hooping %u"), hooping + 1);
  GtkWidget *above = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  Dialog *dialog = dialog_new (parent, bench, title, hooping, SPLIT, above);
  const HwHooping *h = &plan->hoopings[hooping];

  gtk_box_append (GTK_BOX (above), hw_dialog_words (_ ("Take out of this hooping:")));
  dialog->checks = g_ptr_array_new ();
  for (guint i = 0; i < h->n_motifs; i++)
    {
      GtkWidget *check
          = gtk_check_button_new_with_label (hw_snapshot_motif (plan->snapshot, h->motifs[i])->name);

      gtk_widget_add_css_class (check, "choice");
      g_signal_connect (check, "toggled", G_CALLBACK (chosen_cb), dialog);
      gtk_box_append (GTK_BOX (above), check);
      g_ptr_array_add (dialog->checks, check);
    }
  weigh (dialog, NULL, NULL);
  gtk_window_present (dialog->window);
}
