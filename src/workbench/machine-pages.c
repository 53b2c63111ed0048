/* At the machine: the page of each step. What to do in a sentence, what the step needs, the caution that belongs there, a note. */
#include <glib/gi18n.h>

#include "../planning/mark-list.h"
#include "help-place.h"
#include "dialog.h"
#include "machine-private.h"

GtkWidget *
hw_machine_words (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  hw_wrap_words (label);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

GtkWidget *
hw_machine_add_words (HwMachineView *view, const char *text, const char *css_class)
{
  GtkWidget *label = hw_machine_words (text, css_class);

  gtk_box_append (GTK_BOX (view->page), label);
  return label;
}

GtkWidget *
hw_machine_button (const char *words)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  return button;
}

GtkWidget *
hw_machine_add_extra (HwMachineView *view, const char *label, const char *key, GCallback clicked)
{
  /* Translators: a button and its key: "The thread broke (B)" */
  g_autofree char *words = g_strdup_printf (_ ("%s (%s)"), label, key);
  GtkWidget *button = hw_machine_button (words);

  if (clicked != NULL)
    g_signal_connect (button, "clicked", clicked, view);
  gtk_widget_add_css_class (button, "machine-extra");
  gtk_box_append (GTK_BOX (view->extras), button);
  return button;
}

void
hw_machine_name_next (HwMachineView *view, const char *label)
{
  gtk_label_set_label (GTK_LABEL (view->next_words), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->next), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static void
add_caution (HwMachineView *view, HwWorkStep step)
{
  g_autofree char *text = hw_machine_step_caution (view->work, step);
  GtkWidget *box, *sign;

  if (text == NULL)
    return;
  box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  sign = gtk_image_new_from_icon_name ("hw-heed-symbolic");
  gtk_widget_set_valign (sign, GTK_ALIGN_START);
  gtk_widget_add_css_class (box, "machine-caution");
  gtk_box_append (GTK_BOX (box), sign);
  GtkWidget *words = hw_machine_words (text, "machine-small");
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (view->page), box);
}

static void
take_note (HwMachineView *view)
{
  if (view->note != NULL && view->work != NULL)
    hw_bench_note_step (view->bench, view->note_step, gtk_editable_get_text (GTK_EDITABLE (view->note)));
}

static void
note_activate_cb (GtkEntry *entry, HwMachineView *view)
{
  take_note (view);
  gtk_widget_grab_focus (view->next);
}

static void
note_leave_cb (GtkEventControllerFocus *focus, HwMachineView *view)
{
  if (view->note != NULL && gtk_widget_get_mapped (view->note))
    take_note (view);
}

static void
add_note (HwMachineView *view, HwWorkStep step)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  const char *text = view->work->pin->work->notes[step];

  view->note = gtk_entry_new ();
  view->note_step = step;
  gtk_entry_set_placeholder_text (GTK_ENTRY (view->note), _ ("A note for this step (N)"));
  if (text != NULL)
    gtk_editable_set_text (GTK_EDITABLE (view->note), text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->note), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("A note for this step"), -1);
  g_signal_connect (view->note, "activate", G_CALLBACK (note_activate_cb), view);
  g_signal_connect (focus, "leave", G_CALLBACK (note_leave_cb), view);
  gtk_widget_add_controller (view->note, focus);
  gtk_widget_add_css_class (view->note, "machine-note");
  gtk_box_append (GTK_BOX (view->page), view->note);
}

/* "1 B, 2 B": of the view's own plan only this hooping is left, so a name is its number and its letter. */
static const char *
bare_name (const HwListedMark *mark)
{
  const char *space = strchr (mark->name, ' ');

  return mark->is_centre ? _ ("Centre") : space != NULL ? space + 1 : mark->name;
}

static void
add_marks (HwMachineView *view)
{
  g_autoptr (HwMarkList) list = hw_mark_list_new (view->work->plan);
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 24);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 10);
  gtk_widget_add_css_class (grid, "machine-marks");
  for (guint i = 0; i < list->marks->len; i++)
    {
      const HwListedMark *mark = g_ptr_array_index (list->marks, i);
      g_autofree char *text = hw_listed_mark_text (mark, hw_bench_get_unit (view->bench));
      GtkWidget *name = gtk_label_new (bare_name (mark));
      GtkWidget *place = hw_machine_words (text, "machine-place");

      gtk_label_set_xalign (GTK_LABEL (name), 0);
      gtk_widget_add_css_class (name, mark->is_centre ? "machine-place" : "mark-letter");
      gtk_grid_attach (GTK_GRID (grid), name, 0, (int)i, 1, 1);
      gtk_grid_attach (GTK_GRID (grid), place, 1, (int)i, 1, 1);
    }
  gtk_box_append (GTK_BOX (view->page), grid);
  hw_machine_add_words (view, list->from, "machine-small");
}

static void
taken_off_cb (GtkCheckButton *check, HwMachineView *view)
{
  gboolean off = gtk_check_button_get_active (check);

  gtk_widget_set_sensitive (view->next, off);
  gtk_widget_set_visible (view->taken_off_hint, FALSE);
  if (off)
    gtk_widget_grab_focus (view->next);
}

/* Enter goes on everywhere else; here it must not tick unseen. */
static gboolean
check_key_cb (
    GtkEventControllerKey *controller, guint keyval, guint code, GdkModifierType state, HwMachineView *view)
{
  if (keyval != GDK_KEY_Return && keyval != GDK_KEY_KP_Enter)
    return FALSE;
  hw_machine_go_on (view);
  return TRUE;
}

/* The one step that must not be missed: nothing goes on before it is ticked. */
static void
fill_template_off (HwMachineView *view)
{
  gboolean several = hw_machine_work_hooping (view->work)->n_motifs > 1;
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  g_autofree char *sentence = hw_machine_step_sentence (view->work, HW_WORK_TEMPLATE_OFF);

  gtk_widget_add_css_class (card, "machine-template-off");
  gtk_box_append (GTK_BOX (card),
                  hw_machine_words (several ? _ ("TAKE ALL TEMPLATES OFF") : _ ("TAKE THE TEMPLATE OFF"),
                                    "machine-figure"));
  gtk_box_append (GTK_BOX (card), hw_machine_words (sentence, "machine-advice"));
  view->taken_off = gtk_check_button_new_with_label (several ? _ ("They are all off the cloth")
                                                             : _ ("It is off the cloth"));
  g_signal_connect (view->taken_off, "toggled", G_CALLBACK (taken_off_cb), view);
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (check_key_cb), view);
  gtk_widget_add_controller (view->taken_off, keys);
  gtk_widget_add_css_class (view->taken_off, "machine-check");
  gtk_box_append (GTK_BOX (card), view->taken_off);
  view->taken_off_hint = hw_machine_words (
      _ ("Tick this first, with the space bar or the pointer, once you have looked."), "machine-advice");
  gtk_widget_set_visible (view->taken_off_hint, FALSE);
  gtk_box_append (GTK_BOX (card), view->taken_off_hint);
  gtk_box_append (GTK_BOX (view->page), card);
  gtk_widget_set_sensitive (view->next, FALSE);
}

/* What the hands are at, as a picture. */
static const char *
step_icon (HwWorkStep step)
{
  switch (step)
    {
    case HW_WORK_MARK:
      return "hw-mark-symbolic";
    case HW_WORK_HOOP:
      return "hw-hoop-symbolic";
    case HW_WORK_STICK:
      return "hw-template-symbolic";
    case HW_WORK_CENTRE:
      return "hw-needle-symbolic";
    case HW_WORK_READ:
    case HW_WORK_ENTER:
      return "hw-glass-symbolic";
    case HW_WORK_TEMPLATE_OFF:
    case HW_WORK_STITCH:
    case HW_WORK_DONE:
    default:
      return "hw-reel-symbolic";
    }
}

static void
add_title (HwMachineView *view, HwWorkStep step)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14);
  GtkWidget *icon = g_object_new (GTK_TYPE_IMAGE, "icon-name", step_icon (step), "accessible-role",
                                  GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  GtkWidget *title
      = hw_machine_words (hw_machine_step_title (step, view->work->snapshot->fabric.hold), "machine-title");

  gtk_widget_add_css_class (icon, "machine-step-icon");
  gtk_widget_set_valign (icon, GTK_ALIGN_START);
  gtk_widget_set_hexpand (title, TRUE);
  gtk_box_append (GTK_BOX (row), icon);
  gtk_box_append (GTK_BOX (row), title);
  gtk_box_append (GTK_BOX (view->page), row);
}

static const char *
next_label (const HwMachineWork *work, HwWorkStep step)
{
  gboolean several = hw_machine_work_hooping (work)->n_motifs > 1;

  switch (step)
    {
    case HW_WORK_MARK:
      return _ ("The marks are there");
    case HW_WORK_HOOP:
      return _ ("It is hooped");
    case HW_WORK_STICK:
      return several ? _ ("Cloth and templates lie well") : _ ("Cloth and template lie well");
    case HW_WORK_CENTRE:
      return _ ("The needle is on the cross");
    case HW_WORK_READ:
      return _ ("Go on");
    case HW_WORK_ENTER:
      return _ ("It is entered");
    case HW_WORK_TEMPLATE_OFF:
      return _ ("Go on to stitching");
    case HW_WORK_STITCH:
      return _ ("This thread is stitched");
    case HW_WORK_DONE:
    default:
      return _ ("The hooping is finished");
    }
}

void
hw_machine_fill_page (HwMachineView *view)
{
  if (view->work == NULL)
    {
      hw_machine_fill_between (view);
      return;
    }

  HwWorkStep step = view->work->pin->work->step;
  g_autofree char *sentence = hw_machine_step_sentence (view->work, step);

  hw_machine_name_next (view, next_label (view->work, step));
  hw_help_mark (view, step == HW_WORK_READ || step == HW_WORK_ENTER ? "corrections" : "at-the-machine");
  if (step == HW_WORK_TEMPLATE_OFF)
    fill_template_off (view);
  else if (step == HW_WORK_STITCH)
    {
      /* The thread comes first here: it is what is looked for from across the room. */
      hw_machine_fill_threads (view);
      hw_machine_add_words (view, sentence, "machine-advice");
    }
  else
    {
      add_title (view, step);
      hw_machine_add_words (view, sentence, "machine-sentence");
    }
  if (step == HW_WORK_MARK)
    add_marks (view);
  else if (step == HW_WORK_READ && view->work->pin->n_marks > 0)
    hw_machine_fill_readings (view);
  else if (step == HW_WORK_ENTER)
    hw_machine_fill_correction (view);
  add_caution (view, step);
  add_note (view, step);
}
