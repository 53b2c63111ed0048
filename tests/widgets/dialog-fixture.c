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
  hands_close (desk->parent);
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

char *
desk_sentence (Desk *desk, const char *beginning)
{
  return hands_sentence (desk->dialog, beginning);
}
