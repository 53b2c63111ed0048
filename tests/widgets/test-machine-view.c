/* At the machine: a hooping is gone through with a few keys, nothing is passed over that would spoil cloth or hurt a hand, and what cannot be meant is asked about. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/machine-private.h"
#include "workbench/machine-view.h"

typedef struct
{
  Desk desk;
  HwMachineView *view;
  guint left;
} Fixture;

static void
leave_cb (HwMachineView *view, guint *left)
{
  (*left)++;
}

static void
show (Fixture *f)
{
  GtkWidget *view = hw_machine_view_new (f->desk.bench);

  g_signal_connect (view, "leave", G_CALLBACK (leave_cb), &f->left);
  gtk_widget_set_size_request (view, 1180, 740);
  gtk_window_set_child (f->desk.parent, view);
  f->desk.dialog = f->desk.parent;
  f->view = HW_MACHINE_VIEW (view);
  hands_settle ();
}

static void
set_up (Fixture *f, gconstpointer data)
{
  desk_set_up (&f->desk, NULL);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  desk_tear_down (&f->desk, NULL);
}

/* With three marks, so that one of them may be doubted. */
static void
begin (Fixture *f)
{
  g_assert_true (hw_bench_one_more_mark (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  g_assert_true (hw_bench_begin_hooping (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  show (f);
}

static const HwWork *
work (Fixture *f)
{
  const HwPin *pin = hw_bench_get_begun (f->desk.bench);

  return pin != NULL ? pin->work : NULL;
}

static gboolean
key (Fixture *f, guint keyval)
{
  return hands_key (GTK_WIDGET (f->view), keyval, 0);
}

static void
assert_step (Fixture *f, HwWorkStep step)
{
  g_assert_nonnull (work (f));
  g_assert_cmpint (work (f)->step, ==, step);
}

static void
says (Fixture *f, const char *beginning)
{
  hands_says (f->desk.dialog, beginning);
}

static void
says_not (Fixture *f, const char *beginning)
{
  g_autofree char *said = desk_sentence (&f->desk, beginning);

  g_assert_cmpstr (said, ==, NULL);
}

/* Each step has its sentence, and where hands come near needle, iron or adhesive its caution. */
static void
enter_goes_from_the_marks_to_the_end (Fixture *f, gconstpointer data)
{
  begin (f);
  assert_step (f, HW_WORK_MARK);
  says (f, "Draw or check on the cloth: the centre cross, its arrow to the top of the hoop, and the marks ");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_HOOP);
  says (f, "Spray adhesive: only where the air is changed");
  key (f, GDK_KEY_KP_Enter);
  assert_step (f, HW_WORK_STICK);
  says (f, "A hot iron: not over adhesive or paper");
  key (f, GDK_KEY_space);
  assert_step (f, HW_WORK_CENTRE);
  says (f, "The frame moves by itself");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_READ);
  says (f, "The frame moves by itself");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_ENTER);
  says (f, "Nothing to enter");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_TEMPLATE_OFF);
  /* Not before it is said that the template is off. */
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_TEMPLATE_OFF);
  g_assert_true (gtk_widget_get_visible (f->view->taken_off_hint));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->view->taken_off), TRUE);
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_STITCH);
  says (f, "Switch off before you thread.");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_STITCH);
  g_assert_cmpuint (work (f)->threads_done, ==, 1);
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_DONE);
  says (f, "Wait until the needle stands still.");
  key (f, GDK_KEY_Return);
  g_assert_null (work (f));
  g_assert_cmpuint (hw_scene_get_frozen (hw_bench_get_scene (f->desk.bench))->len, ==, 1);
  g_assert_cmpuint (f->left, ==, 0);
}

/* The same for cloth that is clamped: other words, other cautions. */
static void
clamped_cloth_is_told_of_its_ring (Fixture *f, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (f->desk.bench);
  HwFabric fabric = *hw_scene_get_fabric (scene);

  fabric.hold = HW_HOLD_CLAMPED;
  hw_scene_set_fabric (scene, &fabric);
  wait_for_plan (f->desk.bench);
  begin (f);
  key (f, GDK_KEY_Return);
  says (f, "Make the hoop ready");
  says (f, "Mind your fingers when the ring closes.");
  says_not (f, "Spray adhesive");
  key (f, GDK_KEY_Return);
  says (f, "Close the cloth in");
}

static void
backspace_goes_back_thread_by_thread (Fixture *f, gconstpointer data)
{
  begin (f);
  g_assert_false (gtk_widget_is_sensitive (f->view->back));
  key (f, GDK_KEY_BackSpace);
  assert_step (f, HW_WORK_MARK);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_STITCH);
  hands_settle ();
  key (f, GDK_KEY_Return);
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_DONE);
  key (f, GDK_KEY_BackSpace);
  assert_step (f, HW_WORK_STITCH);
  g_assert_cmpuint (work (f)->threads_done, ==, 1);
  key (f, GDK_KEY_BackSpace);
  g_assert_cmpuint (work (f)->threads_done, ==, 0);
  key (f, GDK_KEY_BackSpace);
  assert_step (f, HW_WORK_TEMPLATE_OFF);
  hands_click (f->view, "Back (Backspace)");
  assert_step (f, HW_WORK_ENTER);
}

/* The table's keys do nothing here; with Ctrl they are the window's. */
static void
keys_of_the_table_stay_away (Fixture *f, gconstpointer data)
{
  begin (f);
  g_assert_true (key (f, GDK_KEY_Delete));
  g_assert_true (key (f, GDK_KEY_Page_Down));
  g_assert_false (key (f, GDK_KEY_F5));
  g_assert_false (hands_key (GTK_WIDGET (f->view), GDK_KEY_Return, GDK_CONTROL_MASK));
  assert_step (f, HW_WORK_MARK);
  g_assert_cmpuint (f->left, ==, 0);
  g_assert_true (key (f, GDK_KEY_Escape));
  g_assert_cmpuint (f->left, ==, 1);
  assert_step (f, HW_WORK_MARK);
}

/* A note that is still being typed is kept when one goes on, and when one leaves. */
static void
a_note_is_kept_on_the_way (Fixture *f, gconstpointer data)
{
  begin (f);
  g_assert_true (key (f, GDK_KEY_n));
  gtk_editable_set_text (GTK_EDITABLE (f->view->note), "chalk on wet linen");
  key (f, GDK_KEY_Return);
  g_assert_cmpstr (work (f)->notes[HW_WORK_MARK], ==, "chalk on wet linen");
  gtk_editable_set_text (GTK_EDITABLE (f->view->note), "ring sits tight");
  key (f, GDK_KEY_Escape);
  g_assert_cmpstr (work (f)->notes[HW_WORK_HOOP], ==, "ring sits tight");
}

typedef HwPoint (*Spoil) (HwPoint);

/* All marks read as they lie, but for what the hand or the machine makes of it. */
static void
read_all (Fixture *f, Spoil spoil)
{
  g_autoptr (HwMachineWork) now = hw_machine_work_new (f->desk.bench);

  for (guint i = 0; i < now->pin->n_marks; i++)
    hw_bench_set_reading (f->desk.bench, now->pin->marks[i].letter, spoil (hw_machine_work_mark (now, i)));
  hands_settle ();
}

static HwPoint
as_it_lies (HwPoint p)
{
  return (HwPoint){ p.x + 1, p.y - 0.5 };
}

static HwPoint
in_inches (HwPoint p)
{
  return (HwPoint){ p.x / 25.4, p.y / 25.4 };
}

static HwPoint
mirrored (HwPoint p)
{
  return (HwPoint){ -p.x, p.y };
}

static HwPoint
upside_down (HwPoint p)
{
  return (HwPoint){ p.x, -p.y };
}

static void
good_readings_give_what_to_enter (Fixture *f, gconstpointer data)
{
  begin (f);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_READ);
  hands_settle ();
  says (f, "What to enter at the machine appears here as you type.");
  read_all (f, as_it_lies);
  says (f, "What remains: ");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_ENTER);
  says (f, "1.0 mm right");
  says (f, "0.5 mm away from you");
  key (f, GDK_KEY_Return);
  g_assert_true (work (f)->corrected);
  g_assert_cmpfloat_with_epsilon (work (f)->correction.shift.x, 1, 1e-6);
}

/* They are not used before the person has said that they are right; what they are taken for is put right by one key. */
static void
readings_that_cannot_be_meant_are_asked_about (Fixture *f, gconstpointer data)
{
  static const struct
  {
    Spoil spoil;
    const char *button;
  } all[] = { { in_inches, "They are inches (X)" },
              { mirrored, "Exchange right and left (X)" },
              { upside_down, "Exchange away and towards (X)" } };

  begin (f);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_READ);
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      read_all (f, all[i].spoil);
      g_assert_false (gtk_widget_is_sensitive (f->view->next));
      key (f, GDK_KEY_Return);
      assert_step (f, HW_WORK_READ);
      hands_find (f->view, GTK_TYPE_BUTTON, all[i].button);
      key (f, GDK_KEY_x);
      g_assert_true (gtk_widget_is_sensitive (f->view->next));
      says (f, "What remains: ");
    }
  read_all (f, mirrored);
  hands_click (f->view, "They are right (Y)");
  g_assert_true (gtk_widget_is_sensitive (f->view->next));
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_ENTER);
}

/* One that was left out is neither asked about nor changed by what mends the others. */
static void
what_is_left_out_is_not_mended (Fixture *f, gconstpointer data)
{
  begin (f);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_READ);
  read_all (f, in_inches);
  g_autofree char *letter = g_strdup (work (f)->readings[2].letter);
  HwPoint before = work (f)->readings[2].at;
  hw_bench_leave_out_reading (f->desk.bench, letter, TRUE);
  hands_settle ();
  key (f, GDK_KEY_x);
  g_assert_cmpfloat_with_epsilon (hw_point_distance (hw_work_get_reading (work (f), letter)->at, before), 0,
                                  1e-9);
  g_assert_true (hw_work_get_reading (work (f), letter)->left_out);
  g_assert_cmpfloat (hw_point_distance (work (f)->readings[0].at, (HwPoint){ 0, 0 }), >, 10);
}

static void
what_is_typed_is_taken_before_one_goes_on (Fixture *f, gconstpointer data)
{
  begin (f);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_READ);
  hands_settle ();
  g_autofree char *name
      = g_strdup_printf ("Mark %s, right or left", hw_bench_get_begun (f->desk.bench)->marks[0].letter);
  GtkWidget *entry = hands_find (f->view, GTK_TYPE_ENTRY, name);
  gtk_editable_set_text (GTK_EDITABLE (entry), "fig");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_READ);
  g_assert_true (gtk_widget_has_css_class (entry, "error"));
  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_ENTER);
}

/* Readings far from where the cloth can be corrected to: hoop again, and they are gone. */
static HwPoint
far_off (HwPoint p)
{
  return (HwPoint){ p.x + 21, p.y };
}

static void
cloth_that_lies_too_far_off_is_hooped_again (Fixture *f, gconstpointer data)
{
  begin (f);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_READ);
  read_all (f, far_off);
  if (!gtk_widget_is_sensitive (f->view->next))
    key (f, GDK_KEY_y);
  key (f, GDK_KEY_Return);
  assert_step (f, HW_WORK_ENTER);
  says (f, "Hoop again");
  key (f, GDK_KEY_h);
  assert_step (f, HW_WORK_HOOP);
  g_assert_cmpuint (work (f)->n_readings, ==, 0);
}

static void
a_thread_that_breaks_is_written_down (Fixture *f, gconstpointer data)
{
  GPtrArray *log;

  begin (f);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_STITCH);
  hands_settle ();
  says_not (f, "The thread broke.");
  key (f, GDK_KEY_b);
  log = hw_scene_get_log (hw_bench_get_scene (f->desk.bench));
  g_assert_cmpint (((const HwLogLine *)g_ptr_array_index (log, log->len - 1))->kind, ==, HW_LOG_THREAD_BROKE);
  says (f, "The thread broke. It is written down.");
  key (f, GDK_KEY_f);
  log = hw_scene_get_log (hw_bench_get_scene (f->desk.bench));
  g_assert_cmpint (((const HwLogLine *)g_ptr_array_index (log, log->len - 1))->kind, ==, HW_LOG_BOBBIN);
  says_not (f, "The thread broke.");
}

/* Between hoopings Enter takes the next; after the last it leads back to the table. */
static void
after_the_last_hooping_one_leaves (Fixture *f, gconstpointer data)
{
  show (f);
  for (guint i = 0; i < 2; i++)
    {
      key (f, GDK_KEY_Return);
      g_assert_nonnull (work (f));
      g_assert_true (hw_bench_stitched (f->desk.bench));
      wait_for_plan (f->desk.bench);
      hands_settle ();
    }
  key (f, GDK_KEY_Return);
  g_assert_null (work (f));
  g_assert_cmpuint (f->left, ==, 1);
}

static void
whether_steps_are_saved_is_said (Fixture *f, gconstpointer data)
{
  begin (f);
  says (f, "Save the scene once (Ctrl+S): then every step is kept.");
  hw_machine_view_tell_save (f->view, "The disk is full.");
  says (f, "The disk is full.");
  hw_machine_view_tell_save (f->view, NULL);
  says_not (f, "The disk is full.");
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/machine-view/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (enter_goes_from_the_marks_to_the_end);
  ADD (clamped_cloth_is_told_of_its_ring);
  ADD (backspace_goes_back_thread_by_thread);
  ADD (keys_of_the_table_stay_away);
  ADD (a_note_is_kept_on_the_way);
  ADD (good_readings_give_what_to_enter);
  ADD (readings_that_cannot_be_meant_are_asked_about);
  ADD (what_is_left_out_is_not_mended);
  ADD (what_is_typed_is_taken_before_one_goes_on);
  ADD (cloth_that_lies_too_far_off_is_hooped_again);
  ADD (a_thread_that_breaks_is_written_down);
  ADD (after_the_last_hooping_one_leaves);
  ADD (whether_steps_are_saved_is_said);
  return g_test_run ();
}
