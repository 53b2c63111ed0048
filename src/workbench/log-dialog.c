/* What happened at the machine, day by day: to be read, and copied as text. */
#include "log-dialog.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"

static GDateTime *
time_of (const HwLogLine *line)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (line->at);

  return utc != NULL ? g_date_time_to_local (utc) : NULL;
}

static char *
format_time (const HwLogLine *line, const char *format)
{
  g_autoptr (GDateTime) when = time_of (line);

  return when != NULL ? g_date_time_format (when, format) : g_strdup ("");
}

char *
hw_log_text (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  GPtrArray *log = hw_scene_get_log (hw_bench_get_scene (bench));
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < log->len; i++)
    {
      const HwLogLine *line = g_ptr_array_index (log, i);
      g_autofree char *when = format_time (line, "%Y-%m-%d %H:%M");

      g_string_append_printf (text, "%s  %s\n", when, line->text != NULL ? line->text : "");
    }
  return g_string_free (text, FALSE);
}

static void
copy_cb (GtkButton *button, HwBench *bench)
{
  g_autofree char *text = hw_log_text (bench);

  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (button)), text);
}

static void
close_cb (GtkButton *button, GtkWindow *dialog)
{
  gtk_window_close (dialog);
}

static GtkWidget *
make_lines (HwBench *bench)
{
  GPtrArray *log = hw_scene_get_log (hw_bench_get_scene (bench));
  GtkWidget *grid = gtk_grid_new ();
  g_autofree char *day = NULL;
  int row = 0;

  gtk_grid_set_column_spacing (GTK_GRID (grid), 18);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  for (guint i = 0; i < log->len; i++)
    {
      const HwLogLine *line = g_ptr_array_index (log, i);
      g_autofree char *its_day = format_time (line, "%A, %e %B %Y");
      g_autofree char *its_time = format_time (line, "%H:%M");

      if (g_strcmp0 (day, its_day) != 0)
        {
          GtkWidget *heading = hw_dialog_words (its_day);

          gtk_widget_add_css_class (heading, "dialog-heading");
          gtk_grid_attach (GTK_GRID (grid), heading, 0, row++, 2, 1);
          g_free (day);
          day = g_steal_pointer (&its_day);
        }
      GtkWidget *at = gtk_label_new (its_time);
      GtkWidget *words = hw_dialog_words (line->text);
      gtk_widget_add_css_class (at, "quiet");
      gtk_widget_set_valign (at, GTK_ALIGN_START);
      gtk_widget_set_hexpand (words, TRUE);
      gtk_label_set_max_width_chars (GTK_LABEL (words), 60);
      gtk_grid_attach (GTK_GRID (grid), at, 0, row, 1, 1);
      gtk_grid_attach (GTK_GRID (grid), words, 1, row++, 1, 1);
    }
  if (log->len == 0)
    gtk_grid_attach (GTK_GRID (grid),
                     hw_dialog_words (_ (
                         "Nothing was written down yet. What is done at the machine comes here by itself.")),
                     0, 0, 1, 1);
  return grid;
}

void
hw_log_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *copy = gtk_button_new_with_label (_ ("Copy as text"));
  GtkWidget *close = gtk_button_new_with_label (_ ("Close"));

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), make_lines (bench));
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (content), scroller);
  gtk_widget_set_sensitive (copy, hw_scene_get_log (hw_bench_get_scene (bench))->len > 0);
  g_signal_connect_object (copy, "clicked", G_CALLBACK (copy_cb), bench, 0);
  gtk_box_append (GTK_BOX (foot), copy);
  gtk_box_append (GTK_BOX (foot), close);
  gtk_box_append (GTK_BOX (content), foot);

  GtkWindow *dialog = hw_dialog_new (parent, _ ("Log of the days"), content, 620, 560);
  hw_help_mark (dialog, "at-the-machine");
  g_signal_connect (close, "clicked", G_CALLBACK (close_cb), dialog);
  gtk_window_present (dialog);
  gtk_widget_grab_focus (close);
}
