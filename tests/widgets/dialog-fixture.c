/* A bench with the orchard, and a window over which its dialogs open. */
#include "dialog-fixture.h"

#include "../workbench/bench-fixture.h"

void
desk_set_up (Desk *desk, gconstpointer data)
{
  desk->bench = bench_with_orchard ();
  wait_for_plan (desk->bench);
  desk->parent = hands_show (gtk_label_new ("orchard"), 300, 200);
}

void
desk_tear_down (Desk *desk, gconstpointer data)
{
  gtk_window_destroy (desk->parent);
  hands_settle ();
  g_object_unref (desk->bench);
}

void
desk_open (Desk *desk, void (*show) (GtkWindow *parent, HwBench *bench), const char *title)
{
  show (desk->parent, desk->bench);
  desk->dialog = hands_window (title);
  g_assert_nonnull (desk->dialog);
}

gboolean
desk_is_closed (Desk *desk, const char *title)
{
  hands_settle ();
  return hands_window (title) == NULL;
}

void
desk_measure (Desk *desk, const char *name, const char *text)
{
  hands_type (hands_find (desk->dialog, GTK_TYPE_SPIN_BUTTON, name), text);
}

void
desk_choose (Desk *desk, const char *name, guint choice)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hands_find (desk->dialog, GTK_TYPE_DROP_DOWN, name)), choice);
  hands_settle ();
}

void
desk_says (Desk *desk, const char *sentence)
{
  g_autofree char *said = desk_sentence (desk, sentence);

  g_assert_cmpstr (said, ==, sentence);
}

static char *
plain (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);

  return g_strjoinv (" ", parts);
}

static char *
look_for (GtkWidget *widget, const char *beginning)
{
  if (!gtk_widget_get_visible (widget))
    return NULL;
  if (GTK_IS_LABEL (widget))
    {
      g_autofree char *text = plain (gtk_label_get_text (GTK_LABEL (widget)));

      if (g_str_has_prefix (text, beginning))
        return g_steal_pointer (&text);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      char *found = look_for (child, beginning);

      if (found != NULL)
        return found;
    }
  return NULL;
}

char *
desk_sentence (Desk *desk, const char *beginning)
{
  return look_for (GTK_WIDGET (desk->dialog), beginning);
}
