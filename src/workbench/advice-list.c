/* What would help: moves and sizes that save a hooping as cards, hoops that would as a quiet list below them. Each was planned before it is told. */
#include "advice-list.h"

#include <glib/gi18n.h>
#include "dialog.h"

struct _HwAdviceList
{
  GtkBox parent_instance;

  HwAdviser *adviser;
};

G_DEFINE_FINAL_TYPE (HwAdviceList, hw_advice_list, GTK_TYPE_BOX)

static void
take_cb (GtkButton *button, HwAdviceList *list)
{
  hw_adviser_take (list->adviser, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "advice")));
}

static GtkWidget *
words (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  hw_wrap_words (label);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
add_row (HwAdviceList *list, const HwAdvice *advice, guint index)
{
  gboolean hoop = advice->kind == HW_ADVICE_HOOP;
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *button = gtk_button_new_with_label (hoop ? _ ("Add it") : _ ("Do it"));
  /* Translators: what a button is called aloud: "Do it: If Quince moved 4 mm left, one hooping less." */
  g_autofree char *name = g_strdup_printf (hoop ? _ ("Add it: %s") : _ ("Do it: %s"), advice->text);

  gtk_box_append (GTK_BOX (row), words (advice->text, hoop ? "quiet" : NULL));
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  if (hoop)
    gtk_widget_add_css_class (button, "flat");
  else
    gtk_widget_add_css_class (row, "advice-card");
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data (G_OBJECT (button), "advice", GUINT_TO_POINTER (index));
  g_signal_connect (button, "clicked", G_CALLBACK (take_cb), list);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (GTK_BOX (list), row);
}

static void
update (HwAdviceList *list)
{
  GPtrArray *advice = hw_adviser_get_advice (list->adviser);
  gboolean hoops = FALSE;

  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (list))) != NULL;)
    gtk_box_remove (GTK_BOX (list), child);
  if (advice == NULL || advice->len == 0)
    {
      gtk_box_append (GTK_BOX (list),
                      words (advice == NULL ? _ ("Looked for when the plan is made and nothing moves.")
                                            : _ ("No small move and no common hoop would save a hooping."),
                             "quiet"));
      return;
    }
  for (guint i = 0; i < advice->len; i++)
    {
      const HwAdvice *one = g_ptr_array_index (advice, i);

      if (one->kind == HW_ADVICE_HOOP && !hoops)
        {
          hoops = TRUE;
          gtk_box_append (GTK_BOX (list), words (_ ("Hoops of common sizes you do not have"), "caption"));
        }
      add_row (list, one, i);
    }
}

static void
changed_cb (HwAdviser *adviser, HwAdviceList *list)
{
  update (list);
}

static void
hw_advice_list_dispose (GObject *object)
{
  g_clear_object (&HW_ADVICE_LIST (object)->adviser);
  G_OBJECT_CLASS (hw_advice_list_parent_class)->dispose (object);
}

static void
hw_advice_list_class_init (HwAdviceListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_advice_list_dispose;
}

static void
hw_advice_list_init (HwAdviceList *list)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (list), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (list), 8);
  gtk_widget_add_css_class (GTK_WIDGET (list), "advice");
}

GtkWidget *
hw_advice_list_new (HwAdviser *adviser)
{
  HwAdviceList *list = g_object_new (HW_TYPE_ADVICE_LIST, NULL);

  g_return_val_if_fail (HW_IS_ADVISER (adviser), GTK_WIDGET (list));
  list->adviser = g_object_ref (adviser);
  g_signal_connect_object (adviser, "changed", G_CALLBACK (changed_cb), list, 0);
  update (list);
  return GTK_WIDGET (list);
}
