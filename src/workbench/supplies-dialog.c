/* What the plan takes: a few figures to be seen at once, then what each hooping does; on a second page the workroom it is reckoned for. A plan may come
 * many times a second, so it is told when it has come to rest. */
#include "supplies-dialog.h"

#include <glib/gi18n.h>

#include "../paper/needs-words.h"
#include "../paper/thread-words.h"
#include "bead.h"
#include "dialog.h"
#include "help-place.h"
#include "hooping-words.h"
#include "supplies-fields.h"

#define WIDTH 760
#define HEIGHT 640
#define COLUMNS 3
#define BEAD 26
#define REST 120 /* ms after the last plan */

typedef struct
{
  HwBench *bench;
  GtkWidget *needs;    /* a grid */
  GtkWidget *hoopings; /* a grid */
  GtkWidget *basis;
  gulong plan_id, unit_id;
  guint rest;
} Dialog;

static GtkWidget *
label_new (const char *text, const char *style, gboolean wrap)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  if (wrap)
    {
      hw_wrap_words (label);
      gtk_label_set_max_width_chars (GTK_LABEL (label), 26);
    }
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

static void
clear_grid (GtkWidget *grid)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (grid)) != NULL;)
    gtk_grid_remove (GTK_GRID (grid), child);
}

static GtkWidget *
need_new (const HwNeed *need)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_box_append (GTK_BOX (box), label_new (need->label, "caption", TRUE));
  gtk_box_append (GTK_BOX (box), label_new (need->value, "big-figure", FALSE));
  if (need->reason != NULL)
    gtk_box_append (GTK_BOX (box), label_new (need->reason, "quiet", TRUE));
  return box;
}

static void
show_needs (Dialog *dialog, const HwSupplies *supplies)
{
  HwNeed *needs = hw_needs_new (supplies, hw_bench_get_unit (dialog->bench));

  clear_grid (dialog->needs);
  for (int i = 0; i < HW_N_NEEDS; i++)
    gtk_grid_attach (GTK_GRID (dialog->needs), need_new (&needs[i]), i % COLUMNS, i / COLUMNS, 1, 1);
  hw_needs_free (needs);
}

static void
show_hooping (Dialog *dialog, const HwSupplies *supplies, const HwHoopingSupplies *taken, int row)
{
  HwUnit unit = hw_bench_get_unit (dialog->bench);
  char *cells[] = { g_strdup (hw_hooping_hoop_name (supplies->plan, taken->hooping)),
                    hw_words_thread (taken->needle_metres, unit),
                    hw_words_thread (taken->bobbin_metres, unit),
                    hw_needs_bobbin_text (taken),
                    hw_needs_piece_text (taken, unit),
                    hw_minutes_text (taken->minutes) };
  g_autofree char *name = g_strdup_printf (_ ("Hooping %u"), taken->hooping + 1);
  GtkWidget *bead = hw_bead_new (BEAD);

  hw_bead_set_hooping (HW_BEAD (bead), (int)taken->hooping);
  gtk_accessible_update_property (GTK_ACCESSIBLE (bead), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_grid_attach (GTK_GRID (dialog->hoopings), bead, 0, row, 1, 1);
  for (guint i = 0; i < G_N_ELEMENTS (cells); i++)
    {
      GtkWidget *cell = label_new (cells[i], NULL, i == 0 || i == 3);

      gtk_widget_set_valign (cell, GTK_ALIGN_CENTER);
      gtk_grid_attach (GTK_GRID (dialog->hoopings), cell, (int)i + 1, row, 1, 1);
      g_free (cells[i]);
    }
}

static void
show_hoopings (Dialog *dialog, const HwSupplies *supplies)
{
  const char *heads[]
      = { "",        _ ("Hoop"), _ ("Needle"), _ ("Bobbin"), _ ("Bobbin in the machine"), _ ("Stabiliser"),
          _ ("Time") };

  clear_grid (dialog->hoopings);
  for (int i = 0; i < (int)G_N_ELEMENTS (heads) && supplies->n_hoopings > 0; i++)
    gtk_grid_attach (GTK_GRID (dialog->hoopings), label_new (heads[i], "caption", FALSE), i, 0, 1, 1);
  for (guint h = 0; h < supplies->n_hoopings; h++)
    show_hooping (dialog, supplies, &supplies->hoopings[h], (int)h + 1);
}

static void
update (Dialog *dialog)
{
  const HwPlan *plan = hw_bench_get_plan (dialog->bench);
  g_autoptr (HwSupplies) supplies = plan != NULL ? hw_supplies_new (plan, 0) : NULL;

  if (supplies == NULL)
    return;
  show_needs (dialog, supplies);
  show_hoopings (dialog, supplies);
  gtk_label_set_label (GTK_LABEL (dialog->basis), supplies->assumptions);
}

static gboolean
rest_cb (gpointer data)
{
  Dialog *dialog = data;

  dialog->rest = 0;
  update (dialog);
  return G_SOURCE_REMOVE;
}

static void
plan_cb (HwBench *bench, Dialog *dialog)
{
  g_clear_handle_id (&dialog->rest, g_source_remove);
  dialog->rest = g_timeout_add (REST, rest_cb, dialog);
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, Dialog *dialog)
{
  update (dialog);
}

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  g_clear_handle_id (&dialog->rest, g_source_remove);
  g_clear_signal_handler (&dialog->plan_id, dialog->bench);
  g_clear_signal_handler (&dialog->unit_id, dialog->bench);
  g_object_unref (dialog->bench);
  g_free (dialog);
}

static GtkWidget *
grid_new (int column_gap, int row_gap)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), (guint)column_gap);
  gtk_grid_set_row_spacing (GTK_GRID (grid), (guint)row_gap);
  return grid;
}

static GtkWidget *
scrolled (GtkWidget *page)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page);
  gtk_widget_set_vexpand (scroller, TRUE);
  return scroller;
}

static GtkWidget *
make_sums (Dialog *dialog)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 20);

  dialog->needs = grid_new (28, 18);
  gtk_grid_set_column_homogeneous (GTK_GRID (dialog->needs), TRUE);
  dialog->hoopings = grid_new (18, 8);
  dialog->basis = hw_dialog_words (NULL);
  gtk_widget_add_css_class (dialog->basis, "quiet");
  gtk_box_append (GTK_BOX (page), dialog->needs);
  gtk_box_append (GTK_BOX (page), dialog->hoopings);
  gtk_box_append (GTK_BOX (page), dialog->basis);
  return scrolled (page);
}

static GtkWidget *
make_workroom (Dialog *dialog)
{
  GtkWidget *page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);

  gtk_box_append (GTK_BOX (page),
                  hw_dialog_words (_ (
                      "The figures to begin with are common practice. Put in those of your own workroom; the "
                      "scene keeps them, and each change can be undone.")));
  gtk_box_append (GTK_BOX (page), hw_supplies_fields_new (dialog->bench));
  return scrolled (page);
}

static void
close_cb (GtkButton *button, GtkWindow *window)
{
  gtk_window_close (window);
}

void
hw_supplies_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Dialog *dialog = g_new0 (Dialog, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  GtkWidget *stack = gtk_stack_new (), *pages = gtk_stack_switcher_new (), *foot = hw_dialog_foot ();
  GtkWidget *close = gtk_button_new_with_label (_ ("Close"));
  GtkWindow *window;

  dialog->bench = g_object_ref (bench);
  gtk_stack_add_titled (GTK_STACK (stack), make_sums (dialog), "sums", _ ("What the plan takes"));
  gtk_stack_add_titled (GTK_STACK (stack), make_workroom (dialog), "workroom", _ ("My workroom"));
  gtk_stack_switcher_set_stack (GTK_STACK_SWITCHER (pages), GTK_STACK (stack));
  gtk_widget_set_halign (pages, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (foot), close);
  gtk_box_append (GTK_BOX (content), pages);
  gtk_box_append (GTK_BOX (content), stack);
  gtk_box_append (GTK_BOX (content), foot);
  window = hw_dialog_new (parent, _ ("What it takes"), content, WIDTH, HEIGHT);
  hw_help_mark (window, "supplies");
  g_object_set_data_full (G_OBJECT (window), "dialog", dialog, dialog_free);
  g_signal_connect (close, "clicked", G_CALLBACK (close_cb), window);
  dialog->plan_id = g_signal_connect (bench, "plan-changed", G_CALLBACK (plan_cb), dialog);
  dialog->unit_id = g_signal_connect (bench, "notify::unit", G_CALLBACK (unit_cb), dialog);
  update (dialog);
  gtk_window_present (window);
}
