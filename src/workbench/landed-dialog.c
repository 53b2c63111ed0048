/* "It was stitched elsewhere." The person types how far it lies from its place, or, while it is still hooped, where the needle stands over the marks. Before and after are
 * shown, and what comes of it for the rest is worked out before it is taken. */
#include "landed-dialog.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../planning/follow.h"
#include "change-picture.h"
#include "consequence.h"
#include "dialog.h"
#include "help-place.h"
#include "machine-work.h"
#include "measure-field.h"
#include "readings-fields.h"

#define WIDTH 620        /* px */
#define MOST_SHIFT 100.0 /* mm */

typedef struct
{
  HwBench *bench;
  HwPlan *plan;
  GtkWindow *window;
  guint frozen;
  HwSnapshot *before, *after;
  HwCorrection landed;
  gboolean by_readings;
  HwReading *marks; /* letter and design */
  guint n_marks;
  HwWork *read;                   /* the readings typed here */
  GtkWidget *measured, *readings; /* the two ways to say it */
  GtkWidget *across, *along, *turn, *left, *away, *anticlockwise;
  GtkWidget *told, *consequence, *picture, *take;
  GCancellable *cancellable;
} Dialog;

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  g_cancellable_cancel (dialog->cancellable);
  g_clear_object (&dialog->cancellable);
  g_clear_pointer (&dialog->before, hw_snapshot_unref);
  g_clear_pointer (&dialog->after, hw_snapshot_unref);
  g_clear_pointer (&dialog->plan, hw_plan_unref);
  g_clear_pointer (&dialog->read, hw_work_unref);
  g_free (dialog->marks);
  g_object_unref (dialog->bench);
  g_free (dialog);
}

static const HwPin *
pin_of (Dialog *dialog)
{
  return g_ptr_array_index (dialog->before->frozen, dialog->frozen);
}

static void
weighed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwConsequence) consequence = hw_consequence_weigh_finish (result, &error);

  /* Cancelled: the dialog may be gone. */
  if (consequence == NULL)
    return;
  Dialog *dialog = data;
  gtk_label_set_label (GTK_LABEL (dialog->consequence), consequence->text);
}

static void
forget_weighing (Dialog *dialog)
{
  g_cancellable_cancel (dialog->cancellable);
  g_clear_object (&dialog->cancellable);
  g_clear_pointer (&dialog->after, hw_snapshot_unref);
  gtk_label_set_label (GTK_LABEL (dialog->consequence), NULL);
  gtk_widget_set_sensitive (dialog->take, FALSE);
}

static void
show_landed (Dialog *dialog)
{
  HwUnit unit = hw_bench_get_unit (dialog->bench);
  g_autofree char *way = hw_way_text (dialog->landed.shift, unit);
  g_autofree char *turn = hw_machine_turn_text (dialog->landed.turn);
  g_autofree char *text = g_strdup_printf (_ ("It lies %s of its place, %s."), way, turn);

  forget_weighing (dialog);
  if (hypot (dialog->landed.shift.x, dialog->landed.shift.y) < 0.005 && fabs (dialog->landed.turn) < 0.005)
    {
      gtk_label_set_label (GTK_LABEL (dialog->told), _ ("It lies where the plan has it."));
      hw_change_picture_show (HW_CHANGE_PICTURE (dialog->picture), dialog->before, NULL);
      return;
    }
  gtk_label_set_label (GTK_LABEL (dialog->told), text);
  dialog->after = hw_land_hooping (dialog->before, dialog->frozen, &dialog->landed);
  hw_change_picture_show (HW_CHANGE_PICTURE (dialog->picture), dialog->before, dialog->after);
  gtk_widget_set_sensitive (dialog->take, TRUE);
  if (dialog->plan == NULL)
    return;
  gtk_label_set_label (GTK_LABEL (dialog->consequence), _ ("Working out what comes of it for the rest"));
  dialog->cancellable = g_cancellable_new ();
  hw_consequence_weigh_async (dialog->bench, dialog->plan, dialog->after, NULL, dialog->cancellable,
                              weighed_cb, dialog);
}

static double
signed_value (GtkWidget *field, GtkWidget *other_way)
{
  double value = hw_measure_field_get_value (HW_MEASURE_FIELD (field));

  return gtk_drop_down_get_selected (GTK_DROP_DOWN (other_way)) == 1 ? -value : value;
}

static void
take_measured (Dialog *dialog)
{
  dialog->landed.shift.x = signed_value (dialog->across, dialog->left);
  dialog->landed.shift.y = signed_value (dialog->along, dialog->away);
  dialog->landed.turn = signed_value (dialog->turn, dialog->anticlockwise);
  show_landed (dialog);
}

static void
take_readings (Dialog *dialog)
{
  g_autoptr (GError) error = NULL;
  const HwWork *work = pin_of (dialog)->work;
  HwRigidFit fit;
  guint n = dialog->read->n_readings;
  g_autofree HwPoint *design = g_new0 (HwPoint, n + 1), *at = g_new0 (HwPoint, n + 1);
  HwDoubt doubt = { .kind = HW_DOUBT_NONE };

  for (guint i = 0; i < n; i++)
    {
      design[i] = dialog->read->readings[i].design;
      at[i] = dialog->read->readings[i].at;
    }
  if (n > 0)
    doubt = hw_readings_doubt (dialog->read->readings, n, 0.35);
  if (n == 0 || doubt.kind != HW_DOUBT_NONE || !hw_rigid_fit (design, at, n, &fit, &error))
    {
      g_autofree char *text = n > 0 && error == NULL ? hw_doubt_text (&doubt, dialog->read->readings, n,
                                                                      hw_bench_get_unit (dialog->bench))
                                                     : NULL;

      forget_weighing (dialog);
      hw_change_picture_show (HW_CHANGE_PICTURE (dialog->picture), dialog->before, NULL);
      gtk_label_set_label (GTK_LABEL (dialog->told),
                           n == 0         ? _ ("Bring the needle over each mark and type where it stands.")
                           : text != NULL ? text
                                          : error->message);
      return;
    }
  dialog->landed = hw_landed_from_readings (&fit, work != NULL && work->corrected ? &work->correction : NULL);
  show_landed (dialog);
}

static void
edited_cb (HwMeasureField *field, double value, Dialog *dialog)
{
  take_measured (dialog);
}

static void
way_cb (GtkDropDown *way, GParamSpec *pspec, Dialog *dialog)
{
  take_measured (dialog);
}

static void
read_cb (HwReadingsFields *fields, const char *letter, double u, double v, Dialog *dialog)
{
  HwReading reading = { .at = { u, v } };

  for (guint i = 0; i < dialog->n_marks; i++)
    if (g_str_equal (dialog->marks[i].letter, letter))
      {
        reading.design = dialog->marks[i].design;
        g_strlcpy (reading.letter, letter, sizeof reading.letter);
        hw_work_set_reading (dialog->read, &reading);
      }
  take_readings (dialog);
}

static void
forgotten_cb (HwReadingsFields *fields, const char *letter, Dialog *dialog)
{
  g_autoptr (HwWork) old = dialog->read;

  dialog->read = hw_work_new ();
  for (guint i = 0; i < old->n_readings; i++)
    if (!g_str_equal (old->readings[i].letter, letter))
      hw_work_set_reading (dialog->read, &old->readings[i]);
  take_readings (dialog);
}

static void
finished_cb (HwReadingsFields *fields, Dialog *dialog)
{
  gtk_widget_grab_focus (dialog->take);
}

static void
by_readings_cb (GtkCheckButton *check, Dialog *dialog)
{
  dialog->by_readings = gtk_check_button_get_active (check);
  gtk_widget_set_visible (dialog->readings, dialog->by_readings);
  gtk_widget_set_visible (dialog->measured, !dialog->by_readings);
  if (dialog->by_readings)
    take_readings (dialog);
  else
    take_measured (dialog);
}

static void
take_cb (GtkButton *button, Dialog *dialog)
{
  hw_bench_landed (dialog->bench, dialog->frozen, &dialog->landed);
  gtk_window_close (dialog->window);
}

static void
leave_cb (GtkButton *button, Dialog *dialog)
{
  gtk_window_close (dialog->window);
}

static GtkWidget *
way_choice (Dialog *dialog, const char *first, const char *second, const char *label)
{
  const char *ways[] = { first, second, NULL };
  GtkWidget *choice = gtk_drop_down_new_from_strings (ways);

  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (way_cb), dialog);
  return choice;
}

static GtkWidget *
measure_row (Dialog *dialog,
             GtkWidget *grid,
             int row,
             HwMeasure measure,
             const char *label,
             double most,
             GtkWidget *choice)
{
  GtkWidget *field = hw_measure_field_new (dialog->bench, measure, label, 0, most);
  GtkWidget *words = gtk_label_new (label);

  gtk_label_set_xalign (GTK_LABEL (words), 0);
  g_signal_connect (field, "edited", G_CALLBACK (edited_cb), dialog);
  gtk_grid_attach (GTK_GRID (grid), words, 0, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), field, 1, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), choice, 2, row, 1, 1);
  return field;
}

static GtkWidget *
make_measured (Dialog *dialog)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 14);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  dialog->left = way_choice (dialog, _ ("right"), _ ("left"), _ ("Right or left"));
  dialog->away = way_choice (dialog, _ ("towards you"), _ ("away from you"), _ ("Towards or away from you"));
  dialog->anticlockwise
      = way_choice (dialog, _ ("clockwise"), _ ("anticlockwise"), _ ("Clockwise or anticlockwise"));
  dialog->across
      = measure_row (dialog, grid, 0, HW_MEASURE_LENGTH, _ ("Shifted across"), MOST_SHIFT, dialog->left);
  dialog->along
      = measure_row (dialog, grid, 1, HW_MEASURE_LENGTH, _ ("Shifted along"), MOST_SHIFT, dialog->away);
  dialog->turn = measure_row (dialog, grid, 2, HW_MEASURE_ANGLE, _ ("Turned"), 180, dialog->anticlockwise);
  return grid;
}

static void
collect_marks (Dialog *dialog)
{
  const HwPin *pin = pin_of (dialog);

  dialog->n_marks = pin->n_marks;
  dialog->marks = g_new0 (HwReading, pin->n_marks + 1);
  for (guint i = 0; i < pin->n_marks; i++)
    {
      HwPoint p = { pin->marks[i].at.x - pin->centre.x, pin->marks[i].at.y - pin->centre.y };

      g_strlcpy (dialog->marks[i].letter, pin->marks[i].letter, sizeof dialog->marks[i].letter);
      dialog->marks[i].design = hw_point_turn (p, -pin->angle);
    }
}

static GtkWidget *
make_readings (Dialog *dialog)
{
  GtkWidget *fields = hw_readings_fields_new (dialog->bench);

  hw_readings_fields_set (HW_READINGS_FIELDS (fields), dialog->marks, dialog->n_marks, NULL, 0);
  g_signal_connect (fields, "read", G_CALLBACK (read_cb), dialog);
  g_signal_connect (fields, "forgotten", G_CALLBACK (forgotten_cb), dialog);
  g_signal_connect (fields, "finished", G_CALLBACK (finished_cb), dialog);
  gtk_widget_set_visible (fields, FALSE);
  return fields;
}

static GtkWidget *
make_choice (Dialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *measured
      = gtk_check_button_new_with_label (_ ("I measured it, seen with the hoop's top away from me"));
  GtkWidget *read
      = gtk_check_button_new_with_label (_ ("It is still hooped: I read the needle over the marks"));

  gtk_check_button_set_group (GTK_CHECK_BUTTON (read), GTK_CHECK_BUTTON (measured));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (measured), TRUE);
  g_signal_connect (read, "toggled", G_CALLBACK (by_readings_cb), dialog);
  gtk_widget_add_css_class (measured, "choice");
  gtk_widget_add_css_class (read, "choice");
  gtk_box_append (GTK_BOX (box), measured);
  gtk_box_append (GTK_BOX (box), read);
  gtk_widget_set_visible (box, dialog->n_marks > 0);
  return box;
}

static char *
motif_names (const HwSnapshot *snapshot, const HwPin *pin)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; pin->motifs[i] != NULL; i++)
    {
      int at = hw_snapshot_find_motif (snapshot, pin->motifs[i]);
      if (at >= 0)
        g_string_append_printf (text, "%s%s", text->len > 0 ? _ (", ") : "",
                                hw_snapshot_motif (snapshot, (guint)at)->name);
    }
  return g_string_free (text, FALSE);
}

void
hw_landed_dialog_show (GtkWindow *parent, HwBench *bench, guint frozen)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (HwSnapshot) now = hw_scene_snapshot (hw_bench_get_scene (bench));

  if (frozen >= now->frozen->len)
    return;
  Dialog *dialog = g_new0 (Dialog, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *leave = gtk_button_new_with_label (_ ("Leave"));
  const HwPlan *plan = hw_bench_get_plan (bench);

  dialog->bench = g_object_ref (bench);
  dialog->plan = plan != NULL ? hw_plan_ref (plan) : NULL;
  dialog->frozen = frozen;
  dialog->before = g_steal_pointer (&now);
  dialog->read = hw_work_new ();
  collect_marks (dialog);
  g_autofree char *names = motif_names (dialog->before, pin_of (dialog));
  g_autofree char *words = g_strdup_printf (
      _ ("Hooping %u: %s. Where does it lie now, against its place in the plan?"), frozen + 1, names);
  dialog->told = hw_dialog_words (NULL);
  gtk_widget_add_css_class (dialog->told, "told");
  dialog->consequence = hw_dialog_words (NULL);
  /* One line or two: the dialog keeps its height. */
  gtk_widget_set_size_request (dialog->consequence, -1, 44);
  gtk_label_set_yalign (GTK_LABEL (dialog->consequence), 0);
  dialog->picture = hw_change_picture_new (WIDTH - 60, 250);
  dialog->take = gtk_button_new_with_label (_ ("That is where it lies"));
  gtk_widget_add_css_class (dialog->take, "suggested-action");
  g_signal_connect (dialog->take, "clicked", G_CALLBACK (take_cb), dialog);
  g_signal_connect (leave, "clicked", G_CALLBACK (leave_cb), dialog);
  gtk_box_append (GTK_BOX (content), hw_dialog_words (words));
  gtk_box_append (GTK_BOX (content), make_choice (dialog));
  dialog->measured = make_measured (dialog);
  dialog->readings = make_readings (dialog);
  gtk_box_append (GTK_BOX (content), dialog->measured);
  gtk_box_append (GTK_BOX (content), dialog->readings);
  gtk_box_append (GTK_BOX (content), dialog->told);
  gtk_box_append (GTK_BOX (content), dialog->picture);
  gtk_box_append (GTK_BOX (content), dialog->consequence);
  gtk_box_append (GTK_BOX (foot), leave);
  gtk_box_append (GTK_BOX (foot), dialog->take);
  gtk_box_append (GTK_BOX (content), foot);
  dialog->window = hw_dialog_new (parent, _ ("It was stitched elsewhere"), content, WIDTH, -1);
  hw_help_mark (dialog->window, "corrections");
  g_object_set_data_full (G_OBJECT (dialog->window), "dialog", dialog, dialog_free);
  take_measured (dialog);
  gtk_window_present (dialog->window);
}
