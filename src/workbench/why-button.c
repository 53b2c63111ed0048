/* A button that opens a slip of paper with an explanation of the plan. It is worked out when it is asked for, and again when a better plan comes
 * while it is being read. */
#include "why-button.h"

#include "dialog.h"
#include "help-place.h"

#define SLIP_CHARS 46
#define MOST_HEIGHT 380 /* px */

/* Freed with the button. */
typedef struct
{
  HwBench *bench;
  GtkWidget *popover;
  GtkWidget *lines;
  HwWhyText text;
  HwWhyMotifs motifs;
  gpointer user_data;
  gulong plan_id;
} Why;

static void
add_line (Why *why, const char *text, gboolean first)
{
  GtkWidget *label = gtk_label_new (text);

  hw_wrap_words (label);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), SLIP_CHARS);
  gtk_label_set_max_width_chars (GTK_LABEL (label), SLIP_CHARS);
  if (first)
    gtk_widget_add_css_class (label, "slip-title");
  else if (*text == '(') /* a remark */
    gtk_widget_add_css_class (label, "quiet");
  gtk_box_append (GTK_BOX (why->lines), label);
}

static void
write_slip (Why *why)
{
  g_autofree char *text = why->text (why->bench, why->user_data);
  g_auto (GStrv) lines = g_strsplit (text != NULL ? text : "", "\n", -1);
  gboolean first = TRUE;

  for (GtkWidget *line; (line = gtk_widget_get_first_child (why->lines)) != NULL;)
    gtk_box_remove (GTK_BOX (why->lines), line);
  for (guint i = 0; lines[i] != NULL; i++)
    if (*lines[i] != '\0')
      {
        add_line (why, lines[i], first);
        first = FALSE;
      }
  if (why->motifs == NULL)
    return;
  g_auto (GStrv) ids = why->motifs (why->bench, why->user_data);
  hw_bench_point_out (why->bench, (const char *const *)ids);
}

static void
plan_changed_cb (HwBench *bench, Why *why)
{
  if (gtk_widget_get_visible (why->popover))
    write_slip (why);
}

static void
show_cb (GtkWidget *popover, Why *why)
{
  write_slip (why);
}

static void
closed_cb (GtkPopover *popover, Why *why)
{
  if (why->motifs != NULL)
    hw_bench_point_out (why->bench, NULL);
}

static void
why_free (gpointer data)
{
  Why *why = data;

  g_clear_signal_handler (&why->plan_id, why->bench);
  g_object_unref (why->bench);
  g_free (why);
}

/* The window's keys do not reach into a slip. */
static void
add_help (GtkWidget *popover)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_F1, 0), gtk_named_action_new ("win.help")));
  gtk_widget_add_controller (popover, keys);
}

GtkWidget *
hw_why_button_new (HwBench *bench,
                   const char *label,
                   const char *name,
                   HwWhyText text,
                   HwWhyMotifs motifs,
                   gpointer user_data)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  g_return_val_if_fail (text != NULL, NULL);

  GtkWidget *button = gtk_menu_button_new ();
  GtkWidget *scroller = gtk_scrolled_window_new ();
  Why *why = g_new0 (Why, 1);

  why->bench = g_object_ref (bench);
  why->text = text;
  why->motifs = motifs;
  why->user_data = user_data;
  why->lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (why->lines, "slip");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), why->lines);

  why->popover = gtk_popover_new ();
  gtk_popover_set_child (GTK_POPOVER (why->popover), scroller);
  hw_help_mark (why->popover, "why");
  add_help (why->popover);
  g_signal_connect (why->popover, "show", G_CALLBACK (show_cb), why);
  g_signal_connect (why->popover, "closed", G_CALLBACK (closed_cb), why);
  why->plan_id = g_signal_connect (bench, "plan-changed", G_CALLBACK (plan_changed_cb), why);

  gtk_menu_button_set_child (GTK_MENU_BUTTON (button), gtk_label_new (label));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), why->popover);
  gtk_widget_add_css_class (button, "why");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (button), "why", why, why_free);
  return button;
}

void
hw_why_button_set_words (GtkWidget *button, const char *label, const char *name)
{
  g_return_if_fail (GTK_IS_MENU_BUTTON (button));

  GtkWidget *words = gtk_menu_button_get_child (GTK_MENU_BUTTON (button));

  if (g_str_equal (gtk_label_get_label (GTK_LABEL (words)), label))
    return;
  gtk_label_set_label (GTK_LABEL (words), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}
