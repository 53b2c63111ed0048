/* A sentence across the top of the window with a few answers. */
#include "notice-bar.h"

#include "dialog.h"

#define MOST_ANSWERS 4

struct _HwNoticeBar
{
  GtkWidget parent_instance;

  GtkWidget *revealer;
  GtkLabel *sentence;
  GtkWidget *answers;
  HwNoticeChosen chosen[MOST_ANSWERS];
  gpointer user_data;
};

G_DEFINE_FINAL_TYPE (HwNoticeBar, hw_notice_bar, GTK_TYPE_WIDGET)

void
hw_notice_bar_withdraw (HwNoticeBar *bar)
{
  g_return_if_fail (HW_IS_NOTICE_BAR (bar));
  gtk_revealer_set_reveal_child (GTK_REVEALER (bar->revealer), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (bar), FALSE);
}

static void
clicked_cb (GtkButton *button, HwNoticeBar *bar)
{
  guint answer = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "answer"));
  HwNoticeChosen chosen = bar->chosen[answer];

  hw_notice_bar_withdraw (bar);
  if (chosen != NULL)
    chosen (bar->user_data);
}

void
hw_notice_bar_ask (HwNoticeBar *bar, const char *sentence, const HwNoticeAnswer *answers, gpointer user_data)
{
  GtkWidget *old;

  g_return_if_fail (HW_IS_NOTICE_BAR (bar));
  g_return_if_fail (sentence != NULL && answers != NULL);

  gtk_label_set_label (bar->sentence, sentence);
  gtk_accessible_update_property (GTK_ACCESSIBLE (bar), GTK_ACCESSIBLE_PROPERTY_LABEL, sentence, -1);
  while ((old = gtk_widget_get_first_child (bar->answers)) != NULL)
    gtk_box_remove (GTK_BOX (bar->answers), old);
  bar->user_data = user_data;
  for (guint i = 0; answers[i].label != NULL && i < MOST_ANSWERS; i++)
    {
      GtkWidget *button = gtk_button_new_with_label (answers[i].label);

      bar->chosen[i] = answers[i].chosen;
      g_object_set_data (G_OBJECT (button), "answer", GUINT_TO_POINTER (i));
      if (answers[i].suggested)
        gtk_widget_add_css_class (button, "suggested-action");
      g_signal_connect (button, "clicked", G_CALLBACK (clicked_cb), bar);
      gtk_box_append (GTK_BOX (bar->answers), button);
    }
  gtk_widget_set_visible (GTK_WIDGET (bar), TRUE);
  gtk_revealer_set_reveal_child (GTK_REVEALER (bar->revealer), TRUE);
}

static void
hw_notice_bar_dispose (GObject *object)
{
  g_clear_pointer (&HW_NOTICE_BAR (object)->revealer, gtk_widget_unparent);
  G_OBJECT_CLASS (hw_notice_bar_parent_class)->dispose (object);
}

static void
hw_notice_bar_class_init (HwNoticeBarClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_notice_bar_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_ALERT);
}

static void
hw_notice_bar_init (HwNoticeBar *bar)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *sentence = gtk_label_new (NULL);

  bar->sentence = GTK_LABEL (sentence);
  hw_wrap_words (GTK_WIDGET (bar->sentence));
  gtk_label_set_xalign (bar->sentence, 0);
  gtk_widget_set_hexpand (sentence, TRUE);
  bar->answers = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  gtk_widget_set_valign (bar->answers, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (row, "resume-bar");
  gtk_box_append (GTK_BOX (row), sentence);
  gtk_box_append (GTK_BOX (row), bar->answers);
  bar->revealer = gtk_revealer_new ();
  gtk_revealer_set_child (GTK_REVEALER (bar->revealer), row);
  gtk_widget_set_parent (bar->revealer, GTK_WIDGET (bar));
  gtk_widget_set_visible (GTK_WIDGET (bar), FALSE);
}

GtkWidget *
hw_notice_bar_new (void)
{
  return g_object_new (HW_TYPE_NOTICE_BAR, NULL);
}
