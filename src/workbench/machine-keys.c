/* At the machine: what the keys do. Keys of the table must not reach the scene from here. */
#include "machine-private.h"

/* The extra button that bears this letter in brackets. */
static gboolean
do_extra (GtkWidget *among, const char *letter)
{
  g_autofree char *ending = g_strdup_printf ("(%s)", letter);

  for (GtkWidget *child = gtk_widget_get_first_child (among); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_BUTTON (child) && gtk_widget_get_sensitive (child)
        && g_str_has_suffix (gtk_label_get_label (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (child)))),
                             ending))
      {
        g_signal_emit_by_name (child, "clicked");
        return TRUE;
      }
  return FALSE;
}

static gboolean
do_letter (HwMachineView *view, guint keyval)
{
  gunichar letter = g_unichar_toupper (gdk_keyval_to_unicode (keyval));
  char text[7] = { 0 };

  if (letter == 0 || !g_unichar_isalpha (letter))
    return FALSE;
  g_unichar_to_utf8 (letter, text);
  if (letter == 'N' && view->note != NULL)
    {
      gtk_widget_grab_focus (view->note);
      return TRUE;
    }
  if (view->answer != NULL && view->work != NULL && hw_machine_readings_are_doubtful (view))
    {
      if (letter == 'Y')
        hw_machine_accept_readings (view);
      else if (letter == 'X')
        hw_machine_mend_readings (view);
    }
  do_extra (view->extras, text);
  return TRUE;
}

gboolean
hw_machine_key_cb (
    GtkEventControllerKey *controller, guint keyval, guint code, GdkModifierType state, HwMachineView *view)
{
  gboolean plain = (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_META_MASK)) == 0;

  if (!plain)
    return FALSE;
  switch (keyval)
    {
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
    case GDK_KEY_space:
      hw_machine_go_on (view);
      return TRUE;
    case GDK_KEY_BackSpace:
      hw_machine_go_back (view);
      return TRUE;
    case GDK_KEY_Escape:
      hw_machine_leave (view);
      return TRUE;
    case GDK_KEY_Delete:
    case GDK_KEY_Page_Up:
    case GDK_KEY_Page_Down:
      return TRUE;
    default:
      return do_letter (view, keyval);
    }
}
