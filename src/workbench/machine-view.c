/* "At the machine". One hooping fills the window: to the left the hoop as it stands there, to the right what to do now. All can be done with four keys: Enter
 * goes on, Backspace goes back, Escape leaves, a letter does what its button says. Nothing is kept here: every step is a verb of the bench, so
 * that leaving, or the light going out, loses nothing. */
#include "machine-view.h"

#include <glib/gi18n.h>

#include "bead.h"
#include "help-place.h"
#include "machine-private.h"

#define BEAD 44 /* px */

G_DEFINE_FINAL_TYPE (HwMachineView, hw_machine_view, GTK_TYPE_BOX)

enum
{
  LEAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static HwWorkStep
step_of (HwMachineView *view)
{
  return view->work->pin->work->step;
}

void
hw_machine_view_commit (HwMachineView *view)
{
  g_return_if_fail (HW_IS_MACHINE_VIEW (view));

  if (view->work == NULL)
    return;
  if (view->note != NULL)
    hw_bench_note_step (view->bench, view->note_step, gtk_editable_get_text (GTK_EDITABLE (view->note)));
  if (view->readings != NULL)
    hw_readings_fields_commit (view->readings);
}

void
hw_machine_leave (HwMachineView *view)
{
  hw_machine_view_commit (view);
  g_signal_emit (view, signals[LEAVE], 0);
}

static void
begin_next (HwMachineView *view)
{
  int next = hw_machine_next_hooping (view->bench);

  if (next >= 0)
    hw_bench_begin_hooping (view->bench, (guint)next);
  else
    hw_machine_leave (view);
}

static void
enter_correction (HwMachineView *view)
{
  HwCorrectionAnswer answer = { 0 };

  if (view->work->pin->work->n_readings > 0 && hw_machine_work_correction (view->work, &answer, NULL))
    {
      hw_bench_enter_correction (view->bench, &answer.chosen);
      hw_correction_answer_clear (&answer);
    }
  else
    hw_bench_enter_correction (view->bench, NULL);
}

static void
thread_done (HwMachineView *view)
{
  const HwMotif *motif;
  const HwThreadBlock *thread
      = hw_machine_work_thread (view->work, view->work->pin->work->threads_done, &motif);

  if (thread != NULL)
    hw_bench_thread_done (view->bench, view->work->steps->len, motif->id, thread->name);
  else
    hw_bench_go_to_step (view->bench, HW_WORK_DONE);
}

void
hw_machine_go_on (HwMachineView *view)
{
  if (view->work == NULL)
    {
      if (gtk_widget_get_sensitive (view->next))
        begin_next (view);
      return;
    }
  hw_machine_view_commit (view);
  /* Committing may have brought news: the work is looked at afresh. */
  if (view->work == NULL)
    return;
  switch (step_of (view))
    {
    case HW_WORK_READ:
      if (view->readings != NULL
          && (!hw_readings_fields_commit (view->readings) || hw_machine_readings_are_doubtful (view)))
        return;
      hw_bench_go_to_step (view->bench, HW_WORK_ENTER);
      break;
    case HW_WORK_ENTER:
      enter_correction (view);
      break;
    case HW_WORK_TEMPLATE_OFF:
      if (!gtk_check_button_get_active (GTK_CHECK_BUTTON (view->taken_off)))
        {
          gtk_widget_set_visible (view->taken_off_hint, TRUE);
          gtk_widget_grab_focus (view->taken_off);
          return;
        }
      hw_bench_go_to_step (view->bench, HW_WORK_STITCH);
      break;
    case HW_WORK_STITCH:
      thread_done (view);
      break;
    case HW_WORK_DONE:
      hw_bench_stitched (view->bench);
      break;
    case HW_WORK_MARK:
    case HW_WORK_HOOP:
    case HW_WORK_STICK:
    case HW_WORK_CENTRE:
    default:
      hw_bench_go_to_step (view->bench, step_of (view) + 1);
    }
}

void
hw_machine_go_back (HwMachineView *view)
{
  if (view->work == NULL)
    return;
  hw_machine_view_commit (view);
  HwWorkStep step = step_of (view);
  if ((step == HW_WORK_STITCH || step == HW_WORK_DONE) && view->work->pin->work->threads_done > 0)
    hw_bench_thread_back (view->bench);
  else if (step > HW_WORK_MARK)
    hw_bench_go_to_step (view->bench, step - 1);
}

static void
next_cb (GtkButton *button, HwMachineView *view)
{
  hw_machine_go_on (view);
}

static void
back_cb (GtkButton *button, HwMachineView *view)
{
  hw_machine_go_back (view);
}

static void
leave_cb (GtkButton *button, HwMachineView *view)
{
  hw_machine_leave (view);
}

static void
show_strip (HwMachineView *view)
{
  gtk_widget_set_visible (view->strip, view->work != NULL);
  for (guint i = 0; view->work != NULL && i < HW_N_WORK_STEPS; i++)
    {
      GtkWidget *word = view->strip_words[i];

      gtk_widget_remove_css_class (word, "past");
      gtk_widget_remove_css_class (word, "now");
      if (i < step_of (view))
        gtk_widget_add_css_class (word, "past");
      else if (i == step_of (view))
        gtk_widget_add_css_class (word, "now");
    }
}

static void
show_head (HwMachineView *view)
{
  g_autofree char *title = NULL;

  gtk_widget_set_visible (view->bead, view->work != NULL);
  if (view->work == NULL)
    title = g_strdup (_ ("At the machine"));
  else if (view->work->n_all > 0)
    title = g_strdup_printf (_ ("Hooping %u of %u · hoop %s"), view->work->number, view->work->n_all,
                             hw_machine_work_hoop (view->work)->name);
  else
    title = g_strdup_printf (_ ("Hooping %u · hoop %s"), view->work->number,
                             hw_machine_work_hoop (view->work)->name);
  gtk_label_set_label (GTK_LABEL (view->title), title);
  if (view->work != NULL)
    hw_bead_set_hooping (HW_BEAD (view->bead), (int)view->work->number - 1);
  show_strip (view);
}

/* What the page was made for: another text, another page. What is being typed on it stays. */
static char *
page_key (HwMachineView *view)
{
  const HwPlan *plan = hw_bench_get_plan (view->bench);

  if (view->work == NULL)
    {
      int next = hw_machine_next_hooping (view->bench);
      g_autofree char *motifs = next >= 0 && plan != NULL ? g_strdup_printf ("%u %u", plan->n_hoopings,
                                                                             plan->hoopings[next].motifs[0])
                                                          : g_strdup ("");

      return g_strdup_printf (
          "between %u %d %s %d %d", hw_scene_get_frozen (hw_bench_get_scene (view->bench))->len, next, motifs,
          plan != NULL ? (int)plan->status : -1, hw_machine_plan_is_of_today (view->bench));
    }
  const HwWork *work = view->work->pin->work;
  GString *key = g_string_new (NULL);
  g_string_printf (key, "%d %u %s %d %u", (int)work->step, work->threads_done, view->work->pin->motifs[0],
                   (int)hw_bench_get_unit (view->bench), view->work->steps->len);
  if (work->step == HW_WORK_ENTER)
    for (guint i = 0; i < work->n_readings; i++)
      g_string_append_printf (key, " %.3f %.3f %d", work->readings[i].at.x, work->readings[i].at.y,
                              work->readings[i].left_out);
  if (work->step == HW_WORK_STITCH)
    g_string_append_printf (key, " %u", view->work->snapshot->log->len);
  return g_string_free (key, FALSE);
}

static void
clear_box (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

void
hw_machine_view_focus (HwMachineView *view)
{
  g_return_if_fail (HW_IS_MACHINE_VIEW (view));

  if (view->readings != NULL)
    hw_readings_fields_focus (view->readings);
  else if (view->taken_off != NULL)
    gtk_widget_grab_focus (view->taken_off);
  else
    gtk_widget_grab_focus (view->next);
}

/* With very large type the box to tick may lie below what is seen. */
static gboolean
show_check_cb (gpointer data)
{
  HwMachineView *view = data;
  graphene_rect_t bounds;

  view->show_idle = 0;
  if (view->taken_off != NULL && gtk_widget_compute_bounds (view->taken_off, view->page, &bounds))
    gtk_adjustment_clamp_page (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (view->scroller)),
                               bounds.origin.y - 12, bounds.origin.y + bounds.size.height + 12);
  return G_SOURCE_REMOVE;
}

static void
make_page (HwMachineView *view)
{
  GtkAdjustment *place = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (view->scroller));
  HwWorkStep step = view->work != NULL ? step_of (view) : HW_WORK_MARK;

  view->readings = NULL;
  view->answer = NULL;
  view->question = NULL;
  view->taken_off = NULL;
  view->taken_off_hint = NULL;
  view->note = NULL;
  g_clear_pointer (&view->mark, g_free);
  clear_box (view->page);
  clear_box (view->extras);
  gtk_widget_set_sensitive (view->next, TRUE);
  gtk_widget_set_visible (view->back, view->work != NULL);
  gtk_widget_set_sensitive (view->back, step > HW_WORK_MARK);
  hw_machine_fill_page (view);
  gtk_adjustment_set_value (place, 0);
  if (gtk_widget_get_mapped (GTK_WIDGET (view)))
    hw_machine_view_focus (view);
  if (view->taken_off != NULL && view->show_idle == 0)
    view->show_idle = g_idle_add_full (G_PRIORITY_LOW, show_check_cb, view, NULL);
}

static void
update (HwMachineView *view)
{
  HwMachineWork *old = view->work;

  view->work = hw_machine_work_new (view->bench);
  g_autofree char *key = page_key (view);
  show_head (view);
  if (g_strcmp0 (key, view->shown) != 0)
    {
      g_free (view->shown);
      view->shown = g_steal_pointer (&key);
      make_page (view);
    }
  else
    hw_machine_update_readings (view);
  hw_machine_update_answer (view);
  if (view->work != NULL)
    hw_machine_picture_show (HW_MACHINE_PICTURE (view->picture), view->work, view->mark);
  else
    hw_machine_picture_show_plan (HW_MACHINE_PICTURE (view->picture), hw_bench_get_plan (view->bench),
                                  hw_machine_next_hooping (view->bench));
  g_clear_pointer (&old, hw_machine_work_unref);
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwMachineView *view)
{
  /* An edit of several parts is told of when it is whole. */
  update (view);
}

static void
plan_changed_cb (HwBench *bench, HwMachineView *view)
{
  update (view);
}

static void
notify_cb (HwBench *bench, GParamSpec *pspec, HwMachineView *view)
{
  update (view);
}

void
hw_machine_view_tell_save (HwMachineView *view, const char *trouble)
{
  g_return_if_fail (HW_IS_MACHINE_VIEW (view));

  const char *path = hw_bench_get_path (view->bench);

  if (trouble != NULL)
    gtk_label_set_label (GTK_LABEL (view->saved), trouble);
  else
    gtk_label_set_label (GTK_LABEL (view->saved),
                         path != NULL ? _ ("Every step is saved by itself.")
                                      : _ ("Save the scene once (Ctrl+S): then every step is kept."));
  if (trouble != NULL)
    gtk_widget_add_css_class (view->saved, "trouble");
  else
    gtk_widget_remove_css_class (view->saved, "trouble");
}

static GtkWidget *
make_head (HwMachineView *view)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *leave_button = gtk_button_new_with_label (_ ("Leave (Esc)"));

  view->bead = hw_bead_new (BEAD);
  gtk_widget_set_valign (view->bead, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (head), view->bead);
  view->title = hw_machine_words (NULL, "machine-head");
  gtk_box_append (GTK_BOX (words), view->title);
  view->saved = hw_machine_words (NULL, "quiet");
  gtk_box_append (GTK_BOX (words), view->saved);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (head), words);
  gtk_widget_add_css_class (leave_button, "machine-extra");
  gtk_widget_set_valign (leave_button, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (leave_button, _ ("Back to the table; the work stays where it is"));
  g_signal_connect (leave_button, "clicked", G_CALLBACK (leave_cb), view);
  gtk_box_append (GTK_BOX (head), leave_button);
  gtk_widget_add_css_class (head, "machine-head-row");
  return head;
}

static GtkWidget *
make_strip (HwMachineView *view)
{
  view->strip = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 5);
  gtk_box_set_homogeneous (GTK_BOX (view->strip), TRUE);
  gtk_widget_add_css_class (view->strip, "machine-strip");
  for (guint i = 0; i < HW_N_WORK_STEPS; i++)
    {
      GtkWidget *label = gtk_label_new (hw_machine_step_word (i));

      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_box_append (GTK_BOX (view->strip), label);
      view->strip_words[i] = label;
    }
  return view->strip;
}

static GtkWidget *
make_foot (HwMachineView *view)
{
  GtkWidget *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14);
  GtkWidget *inner = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14);
  GtkWidget *key = gtk_label_new (C_ ("key", "Enter"));

  view->back = hw_machine_button (_ ("Back (Backspace)"));
  gtk_widget_add_css_class (view->back, "machine-extra");
  g_signal_connect (view->back, "clicked", G_CALLBACK (back_cb), view);
  gtk_box_append (GTK_BOX (foot), view->back);
  view->extras = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  gtk_widget_set_hexpand (view->extras, TRUE);
  gtk_widget_set_halign (view->extras, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (foot), view->extras);

  view->next = gtk_button_new ();
  view->next_words = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (view->next_words), TRUE);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (view->next_words), GTK_NATURAL_WRAP_NONE);
  gtk_widget_set_valign (key, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (key, "machine-key");
  gtk_box_append (GTK_BOX (inner), view->next_words);
  gtk_box_append (GTK_BOX (inner), key);
  gtk_widget_set_halign (inner, GTK_ALIGN_CENTER);
  gtk_button_set_child (GTK_BUTTON (view->next), inner);
  gtk_widget_add_css_class (view->next, "suggested-action");
  gtk_widget_add_css_class (view->next, "machine-next");
  g_signal_connect (view->next, "clicked", G_CALLBACK (next_cb), view);
  gtk_box_append (GTK_BOX (foot), view->next);
  gtk_widget_add_css_class (foot, "machine-foot");
  return foot;
}

static GtkWidget *
make_middle (HwMachineView *view)
{
  GtkWidget *middle = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_layout_manager (middle, hw_machine_layout_new ());
  view->picture = hw_machine_picture_new ();
  gtk_box_append (GTK_BOX (middle), view->picture);
  view->page = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gtk_widget_add_css_class (view->page, "machine-page");
  view->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (view->scroller), view->page);
  gtk_box_append (GTK_BOX (middle), view->scroller);
  gtk_widget_set_vexpand (middle, TRUE);
  return middle;
}

static void
hw_machine_view_dispose (GObject *object)
{
  HwMachineView *view = HW_MACHINE_VIEW (object);

  g_clear_handle_id (&view->roomy_idle, g_source_remove);
  g_clear_handle_id (&view->show_idle, g_source_remove);
  view->note = NULL;
  if (view->bench != NULL)
    g_signal_handlers_disconnect_by_data (view->bench, view);
  g_clear_object (&view->bench);
  G_OBJECT_CLASS (hw_machine_view_parent_class)->dispose (object);
}

static void
hw_machine_view_finalize (GObject *object)
{
  HwMachineView *view = HW_MACHINE_VIEW (object);

  g_clear_pointer (&view->work, hw_machine_work_unref);
  g_free (view->shown);
  g_free (view->mark);
  g_free (view->accepted);
  G_OBJECT_CLASS (hw_machine_view_parent_class)->finalize (object);
}

static void
hw_machine_view_class_init (HwMachineViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_machine_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_machine_view_finalize;
  signals[LEAVE] = g_signal_new ("leave", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
hw_machine_view_init (HwMachineView *view)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (view), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (view), "machine-view");
  gtk_box_append (GTK_BOX (view), make_head (view));
  gtk_box_append (GTK_BOX (view), make_strip (view));
  gtk_box_append (GTK_BOX (view), make_middle (view));
  gtk_box_append (GTK_BOX (view), make_foot (view));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (hw_machine_key_cb), view);
  gtk_widget_add_controller (GTK_WIDGET (view), keys);
}

GtkWidget *
hw_machine_view_new (HwBench *bench)
{
  HwMachineView *view = g_object_new (HW_TYPE_MACHINE_VIEW, NULL);
  hw_help_mark (view, "at-the-machine");

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (view));
  view->bench = g_object_ref (bench);
  g_signal_connect (bench, "scene-changed", G_CALLBACK (scene_changed_cb), view);
  g_signal_connect (bench, "plan-changed", G_CALLBACK (plan_changed_cb), view);
  g_signal_connect (bench, "notify::unit", G_CALLBACK (notify_cb), view);
  g_signal_connect (bench, "notify::planning", G_CALLBACK (notify_cb), view);
  hw_machine_view_tell_save (view, NULL);
  update (view);
  return GTK_WIDGET (view);
}
