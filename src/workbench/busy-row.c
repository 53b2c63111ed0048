/* Shown at the foot of a dialog while something takes its time. Quick things never flash it. */
#include "busy-row.h"

#include <glib/gi18n.h>

#define PATIENCE 500 /* ms */
#define PULSE 120    /* ms */

struct _HwBusyRow
{
  GtkBox parent_instance;

  GtkWidget *words;
  GtkWidget *bar;
  guint patience; /* source until the row shows */
  guint pulse;
  gboolean counted;
};

G_DEFINE_FINAL_TYPE (HwBusyRow, hw_busy_row, GTK_TYPE_BOX)

enum
{
  STOP,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static gboolean
pulse_cb (gpointer data)
{
  HwBusyRow *row = data;

  if (!row->counted)
    gtk_progress_bar_pulse (GTK_PROGRESS_BAR (row->bar));
  return G_SOURCE_CONTINUE;
}

static gboolean
patience_cb (gpointer data)
{
  HwBusyRow *row = data;

  row->patience = 0;
  gtk_widget_set_visible (GTK_WIDGET (row), TRUE);
  row->pulse = g_timeout_add (PULSE, pulse_cb, row);
  return G_SOURCE_REMOVE;
}

static void
stop_cb (GtkButton *button, HwBusyRow *row)
{
  g_signal_emit (row, signals[STOP], 0);
}

static void
hw_busy_row_dispose (GObject *object)
{
  HwBusyRow *row = HW_BUSY_ROW (object);

  g_clear_handle_id (&row->patience, g_source_remove);
  g_clear_handle_id (&row->pulse, g_source_remove);
  G_OBJECT_CLASS (hw_busy_row_parent_class)->dispose (object);
}

static void
hw_busy_row_class_init (HwBusyRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_busy_row_dispose;
  signals[STOP] = g_signal_new ("stop", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}

static void
hw_busy_row_init (HwBusyRow *row)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkWidget *stop = gtk_button_new_with_label (_ ("Stop"));

  gtk_box_set_spacing (GTK_BOX (row), 12);
  row->words = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (row->words), 0);
  gtk_label_set_ellipsize (GTK_LABEL (row->words), PANGO_ELLIPSIZE_END);
  row->bar = gtk_progress_bar_new ();
  gtk_box_append (GTK_BOX (column), row->words);
  gtk_box_append (GTK_BOX (column), row->bar);
  gtk_widget_set_hexpand (column, TRUE);
  gtk_widget_set_valign (column, GTK_ALIGN_CENTER);
  g_signal_connect (stop, "clicked", G_CALLBACK (stop_cb), row);
  gtk_box_append (GTK_BOX (row), column);
  gtk_box_append (GTK_BOX (row), stop);
  gtk_widget_set_visible (GTK_WIDGET (row), FALSE);
}

GtkWidget *
hw_busy_row_new (void)
{
  return g_object_new (HW_TYPE_BUSY_ROW, NULL);
}

void
hw_busy_row_begin (HwBusyRow *row, const char *words)
{
  g_return_if_fail (HW_IS_BUSY_ROW (row) && words != NULL);

  gtk_label_set_label (GTK_LABEL (row->words), words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->bar), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  row->counted = FALSE;
  if (row->patience == 0 && row->pulse == 0)
    row->patience = g_timeout_add (PATIENCE, patience_cb, row);
}

void
hw_busy_row_set_done (HwBusyRow *row, guint done, guint n)
{
  g_return_if_fail (HW_IS_BUSY_ROW (row));

  row->counted = n > 0;
  if (row->counted)
    gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (row->bar), (double)MIN (done, n) / n);
}

void
hw_busy_row_end (HwBusyRow *row)
{
  g_return_if_fail (HW_IS_BUSY_ROW (row));

  g_clear_handle_id (&row->patience, g_source_remove);
  g_clear_handle_id (&row->pulse, g_source_remove);
  gtk_widget_set_visible (GTK_WIDGET (row), FALSE);
}
