/* The bench at the machine: one hooping is begun, gone through step by step and, once stitched, frozen. All of it is kept in the scene (HwWork of the
 * hooping's pin, and the log), so that the work can be left at any step and gone on with on another day. */
#include "bench.h"

#include <glib/gi18n.h>

#include "../planning/turns.h"
#include "../registration/correction.h"
#include "bench-private.h"

typedef struct
{
  HwBenchClock clock;
  gpointer user_data;
} Clock;

static GQuark
clock_quark (void)
{
  return g_quark_from_static_string ("hw-bench-clock");
}

void
hw_bench_set_clock (HwBench *bench, HwBenchClock clock, gpointer user_data)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Clock *kept = clock != NULL ? g_new0 (Clock, 1) : NULL;

  if (kept != NULL)
    *kept = (Clock){ clock, user_data };
  g_object_set_qdata_full (G_OBJECT (bench), clock_quark (), kept, g_free);
}

static gint64
now (HwBench *bench)
{
  const Clock *clock = g_object_get_qdata (G_OBJECT (bench), clock_quark ());

  return clock != NULL ? clock->clock (clock->user_data) : g_get_real_time () / G_USEC_PER_SEC;
}

const HwPin *
hw_bench_get_begun (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  GPtrArray *pins = hw_scene_get_pins (bench->scene);

  for (guint i = 0; i < pins->len; i++)
    {
      const HwPin *pin = g_ptr_array_index (pins, i);
      if (pin->work != NULL && pin->motifs != NULL && pin->motifs[0] != NULL)
        return pin;
    }
  return NULL;
}

/* Whether the plan's hooping stitches just the pin's motifs. */
static gboolean
holds_the_same (const HwPlan *plan, const HwHooping *hooping, const HwPin *pin)
{
  if (g_strv_length (pin->motifs) != hooping->n_motifs)
    return FALSE;
  for (guint i = 0; i < hooping->n_motifs; i++)
    if (!g_strv_contains ((const char *const *)pin->motifs,
                          hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->id))
      return FALSE;
  return TRUE;
}

int
hw_bench_get_begun_hooping (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), -1);

  const HwPin *pin = hw_bench_get_begun (bench);

  for (guint i = 0; pin != NULL && bench->plan != NULL && i < bench->plan->n_hoopings; i++)
    if (bench->plan->hoopings[i].hold != HW_PLACE_FROZEN
        && holds_the_same (bench->plan, &bench->plan->hoopings[i], pin))
      return (int)i;
  return -1;
}

void
hw_bench_log (HwBench *bench, HwLogKind kind, const char *motif, const char *text)
{
  g_autoptr (HwLogLine) line = hw_log_line_new (now (bench), kind, motif, text);

  hw_scene_add_log_line (bench->scene, line);
}

/* The pins, with one put in another's place; with NULL the old one is left out. Returns: (transfer full) */
static GPtrArray *
pins_with (HwBench *bench, const HwPin *old, HwPin *replacement)
{
  GPtrArray *pins = hw_scene_get_pins (bench->scene);
  GPtrArray *changed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  for (guint i = 0; i < pins->len; i++)
    {
      HwPin *pin = g_ptr_array_index (pins, i);
      if (pin != old)
        g_ptr_array_add (changed, hw_pin_ref (pin));
      else if (replacement != NULL)
        g_ptr_array_add (changed, hw_pin_ref (replacement));
    }
  return changed;
}

/* The pin with other work. Returns: (transfer full) */
static HwPin *
pin_with_work (const HwPin *pin, HwWork *work)
{
  HwPin *copy = hw_pin_copy (pin);

  g_clear_pointer (&copy->work, hw_work_unref);
  copy->work = work != NULL ? hw_work_ref (work) : NULL;
  if (work == NULL)
    hw_pin_set_turns (copy, NULL, 0);
  return copy;
}

static void
set_work (HwBench *bench, const HwPin *pin, HwWork *work)
{
  g_autoptr (HwPin) changed = pin_with_work (pin, work);
  g_autoptr (GPtrArray) pins = pins_with (bench, pin, changed);

  hw_scene_set_pins (bench->scene, pins);
}

gboolean
hw_work_edit_begin (HwWorkEdit *edit, HwBench *bench, const char *name)
{
  const HwPin *pin = hw_bench_get_begun (bench);

  if (pin == NULL)
    return FALSE;
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_hold (bench->scene);
  *edit = (HwWorkEdit){ bench, pin, hw_work_copy (pin->work) };
  return TRUE;
}

void
hw_work_edit_end (HwWorkEdit *edit)
{
  set_work (edit->bench, edit->pin, edit->work);
  hw_scene_release (edit->bench->scene);
  hw_bench_end_edit (edit->bench);
  g_clear_pointer (&edit->work, hw_work_unref);
}

void
hw_work_edit_say (HwWorkEdit *edit, HwLogKind kind, const char *text)
{
  hw_bench_log (edit->bench, kind, edit->pin->motifs[0], text);
}

/* Marks as the plan has them for a hooping. */
static void
take_marks (HwPin *pin, const HwHooping *hooping)
{
  g_clear_pointer (&pin->marks, g_free);
  pin->n_marks = hooping->n_marks;
  if (hooping->n_marks > 0)
    pin->marks = g_memdup2 (hooping->marks, hooping->n_marks * sizeof *hooping->marks);
}

static gboolean
same_pose (const HwPlan *plan, const HwHooping *hooping, const HwPin *pin)
{
  return pin->keep == HW_KEEP_ALL
         && g_strcmp0 (pin->hoop, hw_snapshot_hoop (plan->snapshot, hooping->hoop)->id) == 0
         && holds_the_same (plan, hooping, pin);
}

/* Lays aside what is in the machine, inside an edit. */
static void
lay_aside (HwBench *bench, const HwPin *pin)
{
  set_work (bench, pin, NULL);
  hw_bench_log (bench, HW_LOG_LAID_ASIDE, pin->motifs[0],
                _ ("Taken out of the machine before it was finished."));
}

/* A pin that holds the plan's hooping with its marks, other pins of its motifs gone. NULL when it cannot be held. Returns: (transfer full) */
static HwPin *
hold_hooping (HwBench *bench, guint hooping, GPtrArray **others)
{
  const HwHooping *held = &bench->plan->hoopings[hooping];
  g_auto (GStrv) ids = hw_bench_ids_of (bench, bench->plan, held->motifs, held->n_motifs);

  if (held->hold == HW_PLACE_FROZEN || ids[0] == NULL || g_strv_length (ids) != held->n_motifs)
    return NULL;

  const HwPin *before = hw_bench_pin_of (bench, hooping);
  HwPin *pin = before != NULL && same_pose (bench->plan, held, before)
                   ? hw_pin_copy (before)
                   : hw_bench_pin_for (bench->plan, hooping, ids, HW_KEEP_ALL);
  hw_turns_settle (pin, bench->plan->snapshot, held);
  if (pin->n_marks == 0)
    take_marks (pin, held);
  *others = hw_bench_pins_without (bench, ids);
  return pin;
}

gboolean
hw_bench_begin_hooping (HwBench *bench, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  if (bench->plan == NULL || hooping >= bench->plan->n_hoopings)
    return FALSE;
  if (hw_bench_get_begun_hooping (bench) == (int)hooping)
    return TRUE;

  g_autoptr (GPtrArray) others = NULL;
  g_autoptr (HwPin) pin = NULL;
  g_autofree char *name = g_strdup_printf (_ ("begin hooping %u"), hooping + 1);

  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_hold (bench->scene);
  const HwPin *begun = hw_bench_get_begun (bench);
  if (begun != NULL && bench->plan->hoopings[hooping].hold != HW_PLACE_FROZEN)
    lay_aside (bench, begun);
  pin = hold_hooping (bench, hooping, &others);
  if (pin != NULL)
    {
      g_autofree char *hoop = g_strdup_printf (
          _ ("Hooping %u begun, hoop %s."), hooping + 1,
          hw_snapshot_hoop (bench->plan->snapshot, bench->plan->hoopings[hooping].hoop)->name);

      g_clear_pointer (&pin->work, hw_work_unref);
      pin->work = hw_work_new ();
      pin->work->begun = now (bench);
      g_ptr_array_add (others, hw_pin_ref (pin));
      hw_scene_set_pins (bench->scene, others);
      hw_bench_log (bench, HW_LOG_BEGUN, pin->motifs[0], hoop);
    }
  hw_scene_release (bench->scene);
  if (pin != NULL)
    hw_bench_end_edit (bench);
  else
    hw_bench_cancel_edit (bench);
  return pin != NULL;
}

void
hw_bench_lay_aside (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwPin *pin = hw_bench_get_begun (bench);

  if (pin == NULL)
    return;
  hw_bench_begin_edit (bench, _ ("lay the hooping aside"), FALSE);
  hw_scene_hold (bench->scene);
  lay_aside (bench, pin);
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
}

/* "A 40.2 mm right, 61.0 mm towards you; B ..." */
static char *
readings_text (const HwWork *work, HwUnit unit)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < work->n_readings; i++)
    {
      g_autofree char *way = hw_way_text (work->readings[i].at, unit);

      g_string_append_printf (text, "%s%s %s", i > 0 ? "; " : "", work->readings[i].letter, way);
      if (work->readings[i].left_out)
        g_string_append (text, _ (" (left out)"));
      if (work->readings[i].by_photo)
        g_string_append (text, _ (" (from a photo)"));
    }
  g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}

void
hw_bench_go_to_step (HwBench *bench, HwWorkStep step)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (step < HW_N_WORK_STEPS);

  HwWorkEdit edit;
  const HwPin *pin = hw_bench_get_begun (bench);

  if (pin == NULL || pin->work->step == step
      || !hw_work_edit_begin (&edit, bench, step > pin->work->step ? _ ("go on") : _ ("go back")))
    return;
  if (edit.work->step == HW_WORK_READ && step > HW_WORK_READ && edit.work->n_readings > 0)
    {
      g_autofree char *text = readings_text (edit.work, bench->unit);
      hw_work_edit_say (&edit, HW_LOG_READINGS, text);
    }
  if (edit.work->step == HW_WORK_TEMPLATE_OFF && step > HW_WORK_TEMPLATE_OFF)
    hw_work_edit_say (&edit, HW_LOG_TEMPLATE_OFF, _ ("The template is off."));
  edit.work->step = step;
  hw_work_edit_end (&edit);
}

/* "moss, Fig branch" */
static char *
thread_words (HwBench *bench, const char *motif, const char *thread)
{
  HwSceneMotif *found = motif != NULL ? hw_scene_find_motif (bench->scene, motif) : NULL;

  if (found == NULL)
    return g_strdup (thread);
  return g_strdup_printf (_ ("%s, %s"), thread, hw_scene_motif_get_record (found)->name);
}

void
hw_bench_thread_done (HwBench *bench, guint n, const char *motif, const char *thread)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (thread != NULL);

  HwWorkEdit edit;
  g_autofree char *words = thread_words (bench, motif, thread);
  g_autofree char *name = g_strdup_printf (_ ("stitch %s"), words);
  g_autofree char *text = g_strdup_printf (_ ("Stitched: %s."), words);

  if (!hw_work_edit_begin (&edit, bench, name))
    return;
  edit.work->threads_done = MIN (edit.work->threads_done + 1, n);
  if (edit.work->threads_done >= n)
    edit.work->step = HW_WORK_DONE;
  hw_work_edit_say (&edit, HW_LOG_THREAD, text);
  hw_work_edit_end (&edit);
}

void
hw_bench_thread_back (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  HwWorkEdit edit;
  const HwPin *pin = hw_bench_get_begun (bench);

  if (pin == NULL || pin->work->threads_done == 0
      || !hw_work_edit_begin (&edit, bench, _ ("go back a thread")))
    return;
  edit.work->threads_done--;
  edit.work->bobbin_at = MIN (edit.work->bobbin_at, edit.work->threads_done);
  edit.work->step = HW_WORK_STITCH;
  hw_work_edit_end (&edit);
}

void
hw_bench_thread_broke (HwBench *bench, const char *motif, const char *thread)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (thread != NULL);

  HwWorkEdit edit;
  g_autofree char *words = thread_words (bench, motif, thread);
  g_autofree char *text = g_strdup_printf (_ ("The thread broke: %s."), words);

  if (!hw_work_edit_begin (&edit, bench, _ ("write down that the thread broke")))
    return;
  hw_work_edit_say (&edit, HW_LOG_THREAD_BROKE, text);
  hw_work_edit_end (&edit);
}

void
hw_bench_full_bobbin (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  HwWorkEdit edit;

  if (!hw_work_edit_begin (&edit, bench, _ ("write down that a full bobbin is in")))
    return;
  edit.work->new_bobbin = TRUE;
  edit.work->bobbin_at = edit.work->threads_done;
  hw_work_edit_say (&edit, HW_LOG_BOBBIN, _ ("A full bobbin is in."));
  hw_work_edit_end (&edit);
}

void
hw_bench_note_step (HwBench *bench, HwWorkStep step, const char *text)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (step < HW_N_WORK_STEPS);

  HwWorkEdit edit;
  const HwPin *pin = hw_bench_get_begun (bench);

  if (text != NULL && *text == '\0')
    text = NULL;
  if (pin == NULL || g_strcmp0 (pin->work->notes[step], text) == 0
      || !hw_work_edit_begin (&edit, bench, _ ("write a note")))
    return;
  hw_work_set_note (edit.work, step, text);
  if (text != NULL)
    hw_work_edit_say (&edit, HW_LOG_NOTE, text);
  hw_work_edit_end (&edit);
}

static GPtrArray *
frozen_with (HwBench *bench, HwPin *pin)
{
  GPtrArray *frozen = hw_scene_get_frozen (bench->scene);
  GPtrArray *changed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  for (guint i = 0; i < frozen->len; i++)
    g_ptr_array_add (changed, hw_pin_ref (g_ptr_array_index (frozen, i)));
  if (pin != NULL)
    g_ptr_array_add (changed, hw_pin_ref (pin));
  return changed;
}

/* Moves a pin to the hoopings stitched, inside an edit. */
static void
freeze (HwBench *bench, HwPin *pin, GPtrArray *pins_left)
{
  g_autoptr (GPtrArray) frozen = frozen_with (bench, pin);
  guint n = frozen->len;
  g_autofree char *text = g_strdup_printf (
      ngettext ("Stitched. %u hooping is finished.", "Stitched. %u hoopings are finished.", n), n);

  hw_scene_set_pins (bench->scene, pins_left);
  hw_scene_set_frozen (bench->scene, frozen);
  hw_bench_log (bench, HW_LOG_STITCHED, pin->motifs[0], text);
}

gboolean
hw_bench_stitched (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  HwWorkEdit edit;

  if (!hw_work_edit_begin (&edit, bench, _ ("mark the hooping stitched")))
    return FALSE;
  edit.work->step = HW_WORK_DONE;
  edit.work->ended = now (bench);
  g_autoptr (HwPin) pin = pin_with_work (edit.pin, edit.work);
  g_autoptr (GPtrArray) left = pins_with (bench, edit.pin, NULL);
  pin->keep = HW_KEEP_ALL;
  freeze (bench, pin, left);
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
  hw_work_unref (edit.work);
  return TRUE;
}

gboolean
hw_bench_mark_stitched (HwBench *bench, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  if (bench->plan == NULL || hooping >= bench->plan->n_hoopings)
    return FALSE;
  if (hw_bench_get_begun_hooping (bench) == (int)hooping)
    return hw_bench_stitched (bench);

  g_autoptr (GPtrArray) others = NULL;
  g_autoptr (HwPin) pin = hold_hooping (bench, hooping, &others);
  g_autofree char *name = g_strdup_printf (_ ("mark hooping %u stitched"), hooping + 1);

  if (pin == NULL)
    return FALSE;
  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_hold (bench->scene);
  freeze (bench, pin, others);
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
  return TRUE;
}

gboolean
hw_bench_take_back (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  GPtrArray *frozen = hw_scene_get_frozen (bench->scene);

  if (frozen->len == 0)
    return FALSE;
  g_autoptr (HwPin) last = hw_pin_copy (g_ptr_array_index (frozen, frozen->len - 1));
  g_autoptr (GPtrArray) left = frozen_with (bench, NULL);

  hw_bench_begin_edit (bench, _ ("take the last hooping back into the machine"), FALSE);
  hw_scene_hold (bench->scene);
  const HwPin *begun = hw_bench_get_begun (bench);
  if (begun != NULL)
    lay_aside (bench, begun);
  g_ptr_array_set_size (left, (int)left->len - 1);
  hw_scene_set_frozen (bench->scene, left);
  HwWork *work = last->work != NULL ? hw_work_copy (last->work) : hw_work_new ();
  work->step = HW_WORK_DONE;
  work->ended = 0;
  if (work->begun == 0)
    work->begun = now (bench);
  g_clear_pointer (&last->work, hw_work_unref);
  last->work = work;
  g_autoptr (GPtrArray) pins = hw_bench_pins_without (bench, last->motifs);
  g_ptr_array_add (pins, hw_pin_ref (last));
  hw_scene_set_pins (bench->scene, pins);
  hw_bench_log (bench, HW_LOG_NOTE, last->motifs[0], _ ("Not finished after all: back in the machine."));
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
  return TRUE;
}

static HwSceneHoop *
find_hoop (HwBench *bench, const char *id)
{
  GListModel *hoops = hw_scene_get_hoops (bench->scene);
  guint n = g_list_model_get_n_items (hoops);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hoops, i);
      if (g_str_equal (hw_scene_hoop_get_record (hoop)->id, id))
        return hoop;
    }
  return NULL;
}

void
hw_bench_hoop_unavailable (HwBench *bench, const char *hoop_id)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (hoop_id != NULL);

  HwSceneHoop *hoop = find_hoop (bench, hoop_id);

  if (hoop == NULL)
    return;
  const char *hoop_name = hw_scene_hoop_get_record (hoop)->name;
  g_autofree char *name = g_strdup_printf (_ ("do without the hoop %s"), hoop_name);
  g_autofree char *text = g_strdup_printf (_ ("The hoop %s can no longer be used."), hoop_name);
  GPtrArray *pins = hw_scene_get_pins (bench->scene);
  g_autoptr (GPtrArray) kept = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  hw_bench_begin_edit (bench, name, FALSE);
  hw_scene_hold (bench->scene);
  for (guint i = 0; i < pins->len; i++)
    {
      HwPin *pin = g_ptr_array_index (pins, i);
      /* What is kept of the others is not this hoop. */
      if (pin->keep != HW_KEEP_ALL || g_strcmp0 (pin->hoop, hoop_id) != 0)
        g_ptr_array_add (kept, hw_pin_ref (pin));
    }
  if (kept->len != pins->len)
    hw_scene_set_pins (bench->scene, kept);
  g_object_set (hoop, "set-aside", TRUE, NULL);
  hw_bench_log (bench, HW_LOG_NOTE, NULL, text);
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
}
