/* The cloth is measured between the marks of the last hooping; the change is told in a sentence, before and after are shown, and what is not stitched can follow. Below that,
 * what stitching is expected to draw in, and placing with allowance for it. */
#include "draw-in-dialog.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../planning/follow.h"
#include "../planning/forecast.h"
#include "change-picture.h"
#include "dialog.h"
#include "help-place.h"
#include "measure-field.h"
#include "photo-menu.h"
#include "photo-reader.h"

#define WIDTH 640        /* px */
#define MOST_HEIGHT 540  /* px, of what scrolls: a small laptop has room for that */
#define LEAST_APART 10.0 /* mm: marks nearer to each other tell nothing */
#define MOST_PAIRS 6

typedef struct
{
  HwPoint from, to;       /* fabric mm */
  const HwMark *marks[2]; /* of the pin, from and to */
  GtkWidget *entry;
  gboolean typed;
  double measured;
} Pair;

typedef struct
{
  HwBench *bench;
  GtkWindow *window;
  HwSnapshot *before, *after;
  const HwPin *pin; /* whose marks are measured; or NULL */
  Pair pairs[MOST_PAIRS];
  guint n_pairs;
  HwStretch stretch;
  gboolean found;
  GtkWidget *told, *picture, *take, *forecast, *allow;
} Dialog;

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  if (dialog->after != NULL && hw_bench_get_beside (dialog->bench) == dialog->after)
    hw_bench_show_beside (dialog->bench, NULL);
  g_clear_pointer (&dialog->before, hw_snapshot_unref);
  g_clear_pointer (&dialog->after, hw_snapshot_unref);
  g_object_unref (dialog->bench);
  g_free (dialog);
}

static void
forget_stretch (Dialog *dialog, const char *text)
{
  dialog->found = FALSE;
  g_clear_pointer (&dialog->after, hw_snapshot_unref);
  gtk_label_set_label (GTK_LABEL (dialog->told), text);
  gtk_widget_set_sensitive (dialog->take, FALSE);
  hw_change_picture_show (HW_CHANGE_PICTURE (dialog->picture), dialog->before, NULL);
  hw_bench_show_beside (dialog->bench, NULL);
}

static void
show_stretch (Dialog *dialog)
{
  g_autofree char *text = hw_stretch_text (&dialog->stretch);

  dialog->found = TRUE;
  g_clear_pointer (&dialog->after, hw_snapshot_unref);
  dialog->after = hw_follow_cloth (dialog->before, &dialog->stretch, hw_follow_still_point (dialog->before));
  gtk_label_set_label (GTK_LABEL (dialog->told), text);
  gtk_widget_set_sensitive (dialog->take, TRUE);
  hw_change_picture_show (HW_CHANGE_PICTURE (dialog->picture), dialog->before, dialog->after);
  hw_bench_show_beside (dialog->bench, dialog->after);
}

static void
take_distances (Dialog *dialog)
{
  g_autoptr (GError) error = NULL;
  HwDistance distances[MOST_PAIRS];
  guint n = 0;

  for (guint i = 0; i < dialog->n_pairs; i++)
    if (dialog->pairs[i].typed)
      distances[n++] = (HwDistance){ dialog->pairs[i].from, dialog->pairs[i].to, dialog->pairs[i].measured };
  if (n == 0)
    forget_stretch (dialog, _ ("Type what you measure; one distance is enough, two directions tell more."));
  else if (hw_stretch_from_distances (distances, n, &dialog->stretch, &error))
    {
      g_clear_pointer (&dialog->stretch.residuals, g_free);
      show_stretch (dialog);
    }
  else
    forget_stretch (dialog, error->message);
}

static gboolean
take_entry (Dialog *dialog, Pair *pair)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (pair->entry));
  HwUnit unit = hw_bench_get_unit (dialog->bench);
  g_autofree char *shown = pair->typed ? hw_length_text (pair->measured, unit) : g_strdup ("");
  double measured;

  if (g_str_equal (text, shown))
    return TRUE;
  pair->typed = FALSE;
  gtk_widget_remove_css_class (pair->entry, "error");
  if (*text != '\0')
    {
      if (!hw_length_parse (text, unit, &measured) || !(measured > 0) || measured > HW_LARGEST_MM)
        {
          gtk_widget_add_css_class (pair->entry, "error");
          forget_stretch (dialog,
                          _ ("That is no length. Type a figure such as 120.5, with mm or in if you like."));
          return FALSE;
        }
      g_autofree char *clean = hw_length_text (measured, unit);
      pair->measured = measured;
      pair->typed = TRUE;
      gtk_editable_set_text (GTK_EDITABLE (pair->entry), clean);
    }
  take_distances (dialog);
  return TRUE;
}

static Pair *
pair_of (Dialog *dialog, GtkWidget *entry)
{
  for (guint i = 0; i < dialog->n_pairs; i++)
    if (dialog->pairs[i].entry == entry)
      return &dialog->pairs[i];
  g_assert_not_reached ();
}

static void
activate_cb (GtkEntry *entry, Dialog *dialog)
{
  Pair *pair = pair_of (dialog, GTK_WIDGET (entry));

  if (!take_entry (dialog, pair))
    return;
  if (pair + 1 < dialog->pairs + dialog->n_pairs)
    gtk_widget_grab_focus (pair[1].entry);
  else
    gtk_widget_grab_focus (dialog->take);
}

static void
leave_entry_cb (GtkEventControllerFocus *focus, Dialog *dialog)
{
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus));

  if (gtk_widget_get_mapped (entry))
    take_entry (dialog, pair_of (dialog, entry));
}

static void
from_readings_cb (GtkButton *button, Dialog *dialog)
{
  const HwWork *work = dialog->pin->work;
  g_autoptr (GError) error = NULL;
  g_autofree HwPoint *scene = g_new0 (HwPoint, work->n_readings), *found = g_new0 (HwPoint, work->n_readings);
  guint n = 0;

  for (guint i = 0; i < work->n_readings; i++)
    if (!work->readings[i].left_out)
      {
        HwPoint turned = hw_point_turn (work->readings[i].design, dialog->pin->angle);

        scene[n] = (HwPoint){ turned.x + dialog->pin->centre.x, turned.y + dialog->pin->centre.y };
        found[n++] = work->readings[i].at;
      }
  if (hw_stretch_from_points (scene, found, n, &dialog->stretch, &error))
    show_stretch (dialog);
  else
    forget_stretch (dialog, error->message);
}

static const HwReading *
reading_of (const HwReading *readings, guint n, const char *letter)
{
  for (guint i = 0; i < n; i++)
    if (g_str_equal (readings[i].letter, letter))
      return &readings[i];
  return NULL;
}

/* Fills the fields, as though it had been measured between the marks. */
static void
read_in_photo (const HwReading *readings, guint n, gpointer window)
{
  Dialog *dialog = g_object_get_data (window, "dialog");

  for (guint i = 0; i < dialog->n_pairs; i++)
    {
      Pair *pair = &dialog->pairs[i];
      const HwReading *from = reading_of (readings, n, pair->marks[0]->letter);
      const HwReading *to = reading_of (readings, n, pair->marks[1]->letter);

      if (from == NULL || to == NULL)
        continue;
      pair->measured = hw_point_distance (from->at, to->at);
      pair->typed = TRUE;
      g_autofree char *text = hw_length_text (pair->measured, hw_bench_get_unit (dialog->bench));
      gtk_editable_set_text (GTK_EDITABLE (pair->entry), text);
      gtk_widget_remove_css_class (pair->entry, "error");
    }
  take_distances (dialog);
}

static void
photo_picked (const HwPhoto *photo, const char *folder, gpointer window)
{
  Dialog *dialog = g_object_get_data (window, "dialog");
  const HwPin *pin = dialog->pin;
  g_autofree HwReading *marks = g_new0 (HwReading, pin->n_marks);

  for (guint i = 0; i < pin->n_marks; i++)
    {
      g_strlcpy (marks[i].letter, pin->marks[i].letter, sizeof marks[i].letter);
      marks[i].design = pin->marks[i].at;
    }
  hw_photo_reader_show_beside_sheet (GTK_WINDOW (window), dialog->bench, photo, folder, marks, pin->n_marks,
                                     read_in_photo, window);
}

static void
take_cb (GtkButton *button, Dialog *dialog)
{
  if (dialog->found)
    hw_bench_follow_cloth (dialog->bench, &dialog->stretch);
  gtk_window_close (dialog->window);
}

static void
close_cb (GtkButton *button, Dialog *dialog)
{
  gtk_window_close (dialog->window);
}

/* The hooping in the machine as long as nothing of it is stitched, else the last one stitched, that has marks to measure between. */
static const HwPin *
pin_with_marks (HwBench *bench, const HwSnapshot *snapshot)
{
  for (guint i = 0; i < snapshot->pins->len; i++)
    {
      const HwPin *pin = g_ptr_array_index (snapshot->pins, i);
      if (pin->work != NULL && pin->work->step < HW_WORK_STITCH && pin->n_marks >= 2)
        return pin;
    }
  for (guint i = snapshot->frozen->len; i > 0; i--)
    {
      const HwPin *pin = g_ptr_array_index (snapshot->frozen, i - 1);
      if (pin->n_marks >= 2)
        return pin;
    }
  return NULL;
}

/* A line for each two marks that are worth measuring between; n_pairs counts them. */
static GtkWidget *
make_pairs (Dialog *dialog)
{
  const HwPin *pin = dialog->pin;
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_spacing (GTK_GRID (grid), 16);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  for (guint i = 0; pin != NULL && i < pin->n_marks; i++)
    for (guint k = i + 1; k < pin->n_marks && dialog->n_pairs < MOST_PAIRS; k++)
      {
        double planned = hw_point_distance (pin->marks[i].at, pin->marks[k].at);
        Pair *pair = &dialog->pairs[dialog->n_pairs];

        if (planned < LEAST_APART)
          continue;
        GtkEventController *focus = gtk_event_controller_focus_new ();
        g_autofree char *length = hw_length_text (planned, hw_bench_get_unit (dialog->bench));
        g_autofree char *name
            = g_strdup_printf (_ ("From %s to %s"), pin->marks[i].letter, pin->marks[k].letter);
        g_autofree char *was = g_strdup_printf (_ ("%s when it was drawn, now"), length);
        GtkWidget *words = gtk_label_new (name), *before = gtk_label_new (was);
        pair->from = pin->marks[i].at;
        pair->to = pin->marks[k].at;
        pair->marks[0] = &pin->marks[i];
        pair->marks[1] = &pin->marks[k];
        pair->entry = gtk_entry_new ();
        gtk_editable_set_width_chars (GTK_EDITABLE (pair->entry), 10);
        gtk_entry_set_alignment (GTK_ENTRY (pair->entry), 1);
        gtk_accessible_update_property (GTK_ACCESSIBLE (pair->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                        -1);
        g_signal_connect (pair->entry, "activate", G_CALLBACK (activate_cb), dialog);
        g_signal_connect (focus, "leave", G_CALLBACK (leave_entry_cb), dialog);
        gtk_widget_add_controller (pair->entry, focus);
        gtk_label_set_xalign (GTK_LABEL (words), 0);
        gtk_widget_add_css_class (before, "quiet");
        gtk_grid_attach (GTK_GRID (grid), words, 0, (int)dialog->n_pairs, 1, 1);
        gtk_grid_attach (GTK_GRID (grid), before, 1, (int)dialog->n_pairs, 1, 1);
        gtk_grid_attach (GTK_GRID (grid), pair->entry, 2, (int)dialog->n_pairs, 1, 1);
        dialog->n_pairs++;
      }
  return grid;
}

static guint
usable_readings (const HwPin *pin)
{
  guint n = 0;

  for (guint i = 0; pin != NULL && pin->work != NULL && i < pin->work->n_readings; i++)
    n += !pin->work->readings[i].left_out;
  return n;
}

static GtkWidget *
heading (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dialog-heading");
  return label;
}

/* What the plan's forecast says. */
static void
show_forecast (Dialog *dialog)
{
  const HwPlan *plan = hw_bench_get_plan (dialog->bench);
  double across = 0, along = 0;

  if (plan != NULL)
    hw_forecast_whole (plan, &across, &along);
  gtk_widget_set_sensitive (dialog->allow, fabs (across) >= 0.05 || fabs (along) >= 0.05);
  if (fabs (across) < 0.05 && fabs (along) < 0.05)
    {
      gtk_label_set_label (GTK_LABEL (dialog->forecast),
                           _ ("Stitched as planned the cloth is expected to keep its size."));
      return;
    }
  g_autofree char *text = g_strdup_printf (
      _ ("Stitched as planned the cloth is expected to draw in %.1f %% across, %.1f %% along the grain."),
      across, along);
  gtk_label_set_label (GTK_LABEL (dialog->forecast), text);
}

static void
plan_changed_cb (HwBench *bench, GtkWindow *window)
{
  show_forecast (g_object_get_data (G_OBJECT (window), "dialog"));
}

static void
rule_cb (HwMeasureField *field, double value, HwBench *bench)
{
  hw_bench_set_draw_in (bench, value);
}

static void
allow_cb (GtkButton *button, Dialog *dialog)
{
  if (hw_bench_place_with_allowance (dialog->bench))
    gtk_window_close (dialog->window);
  else
    gtk_label_set_label (GTK_LABEL (dialog->forecast),
                         _ ("No motif is free to be moved, or none would move by as much as a pen line."));
}

static GtkWidget *
make_forecast (Dialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *rule = hw_measure_field_new (dialog->bench, HW_MEASURE_PERCENT,
                                          _ ("Draws in for each stitch per square millimetre"), 0, 10);

  hw_measure_field_set_value (HW_MEASURE_FIELD (rule),
                              hw_scene_get_wishes (hw_bench_get_scene (dialog->bench))->draw_in);
  g_signal_connect_object (rule, "edited", G_CALLBACK (rule_cb), dialog->bench, 0);
  dialog->forecast = hw_dialog_words (NULL);
  dialog->allow = gtk_button_new_with_label (_ ("Place with allowance"));
  gtk_widget_set_tooltip_text (dialog->allow,
                               _ ("Moves what is not stitched against the way it is expected to go"));
  gtk_widget_set_valign (dialog->allow, GTK_ALIGN_END);
  g_signal_connect (dialog->allow, "clicked", G_CALLBACK (allow_cb), dialog);
  gtk_box_append (GTK_BOX (box), heading (_ ("What it is expected to draw in")));
  gtk_box_append (GTK_BOX (box), dialog->forecast);
  gtk_box_append (GTK_BOX (row), hw_captioned (_ ("Rule of thumb: for each stitch per square mm"), rule));
  gtk_box_append (GTK_BOX (row), dialog->allow);
  gtk_box_append (GTK_BOX (box), row);
  return box;
}

static GtkWidget *
make_measuring (Dialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *pairs = make_pairs (dialog);
  const char *words
      = dialog->n_pairs == 0
            ? _ ("No hooping with two marks or more was stitched or begun yet, so that there is nothing to "
                 "measure between.")
            : _ ("Lay the cloth flat, not stretched, and measure between the marks of the last hooping.");

  gtk_box_append (GTK_BOX (box), heading (_ ("What the cloth drew in")));
  gtk_box_append (GTK_BOX (box), hw_dialog_words (words));
  gtk_box_append (GTK_BOX (box), pairs);
  gtk_widget_set_visible (pairs, dialog->n_pairs > 0);
  if (dialog->n_pairs == 0)
    return box;
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  if (usable_readings (dialog->pin) >= 2)
    {
      GtkWidget *button = gtk_button_new_with_label (_ ("Take it from the needle readings"));

      g_signal_connect (button, "clicked", G_CALLBACK (from_readings_cb), dialog);
      gtk_box_append (GTK_BOX (row), button);
    }
  GtkWidget *photo = hw_photo_menu_button_new (dialog->bench, _ ("From a photo…"), photo_picked,
                                               G_OBJECT (dialog->window));
  gtk_widget_set_tooltip_text (photo, _ ("Taken from above, with a sheet of paper laid beside the marks"));
  gtk_box_append (GTK_BOX (row), photo);
  gtk_box_append (GTK_BOX (box), row);
  return box;
}

void
hw_draw_in_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Dialog *dialog = g_new0 (Dialog, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  GtkWidget *inner = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *close = gtk_button_new_with_label (_ ("Close"));

  dialog->window = hw_dialog_new (parent, _ ("Measure the cloth"), content, WIDTH, -1);
  hw_help_mark (dialog->window, "draw-in");
  g_object_set_data_full (G_OBJECT (dialog->window), "dialog", dialog, dialog_free);
  dialog->bench = g_object_ref (bench);
  dialog->before = hw_scene_snapshot (hw_bench_get_scene (bench));
  dialog->pin = pin_with_marks (bench, dialog->before);
  dialog->told = hw_dialog_words (NULL);
  gtk_widget_add_css_class (dialog->told, "told");
  dialog->picture = hw_change_picture_new (WIDTH - 80, 190);
  dialog->take = gtk_button_new_with_label (_ ("Let the rest follow the cloth"));
  gtk_widget_set_tooltip_text (dialog->take, _ ("Motifs that are not stitched, marks and the edge line move "
                                                "with the cloth, so that the picture stays whole"));
  gtk_widget_add_css_class (dialog->take, "suggested-action");
  g_signal_connect (dialog->take, "clicked", G_CALLBACK (take_cb), dialog);
  g_signal_connect (close, "clicked", G_CALLBACK (close_cb), dialog);
  gtk_widget_set_margin_end (inner, 14);
  gtk_box_append (GTK_BOX (inner), make_measuring (dialog));
  gtk_box_append (GTK_BOX (inner), dialog->told);
  gtk_box_append (GTK_BOX (inner), dialog->picture);
  gtk_widget_set_visible (dialog->told, dialog->n_pairs > 0);
  gtk_widget_set_visible (dialog->picture, dialog->n_pairs > 0);
  gtk_box_append (GTK_BOX (inner), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_box_append (GTK_BOX (inner), make_forecast (dialog));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), inner);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (content), scroller);
  gtk_box_append (GTK_BOX (foot), close);
  gtk_box_append (GTK_BOX (foot), dialog->take);
  gtk_widget_set_visible (dialog->take, dialog->n_pairs > 0);
  gtk_box_append (GTK_BOX (content), foot);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), dialog->window, 0);
  take_distances (dialog);
  show_forecast (dialog);
  gtk_window_present (dialog->window);
}
