/* At the machine: the needle is read over the marks, and what has to be entered is told while it is typed. Readings that cannot be meant as they stand are asked
 * about and not used before the person has said that they are right, or mended them. */
#include <glib/gi18n.h>
#include <math.h>

#include "machine-private.h"

static const HwWork *
work_of (HwMachineView *view)
{
  return view->work->pin->work;
}

static void
read_cb (HwReadingsFields *fields, const char *letter, double u, double v, HwMachineView *view)
{
  hw_bench_set_reading (view->bench, letter, (HwPoint){ u, v });
}

static void
forgotten_cb (HwReadingsFields *fields, const char *letter, HwMachineView *view)
{
  hw_bench_forget_reading (view->bench, letter);
}

static void
left_out_cb (HwReadingsFields *fields, const char *letter, gboolean left_out, HwMachineView *view)
{
  hw_bench_leave_out_reading (view->bench, letter, left_out);
}

static void
at_mark_cb (HwReadingsFields *fields, const char *letter, HwMachineView *view)
{
  if (g_strcmp0 (letter, view->mark) == 0)
    return;
  g_free (view->mark);
  view->mark = g_strdup (letter);
  hw_machine_picture_show (HW_MACHINE_PICTURE (view->picture), view->work, view->mark);
}

/* Out of the fields: to the answer to a question, where one is asked, else to the button that goes on. */
static void
finished_cb (HwReadingsFields *fields, HwMachineView *view)
{
  if (!hw_machine_readings_are_doubtful (view))
    gtk_widget_grab_focus (view->next);
  else if (view->question != NULL)
    gtk_widget_child_focus (view->question, GTK_DIR_TAB_FORWARD);
}

/* What the readings say, letter by letter, to know them again. */
static char *
fingerprint (const HwWork *work)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < work->n_readings; i++)
    {
      const HwReading *r = &work->readings[i];
      g_string_append_printf (text, "%s %.4f %.4f %d;", r->letter, r->at.x, r->at.y, r->left_out);
    }
  return g_string_free (text, FALSE);
}

/* Those that are used. Returns: (transfer full) */
static HwReading *
used_readings (const HwWork *work, guint *n)
{
  HwReading *used = g_new0 (HwReading, work->n_readings + 1);

  *n = 0;
  for (guint i = 0; i < work->n_readings; i++)
    if (!work->readings[i].left_out)
      used[(*n)++] = work->readings[i];
  return used;
}

static HwDoubt
doubt_of (const HwWork *work)
{
  guint n;
  g_autofree HwReading *used = used_readings (work, &n);

  if (n == 0)
    return (HwDoubt){ .kind = HW_DOUBT_NONE, .first = -1, .second = -1 };
  return hw_readings_doubt (used, n, HW_MARKS_SIGMA);
}

gboolean
hw_machine_readings_are_doubtful (HwMachineView *view)
{
  const HwWork *work = work_of (view);
  g_autofree char *now = fingerprint (work);

  return g_strcmp0 (now, view->accepted) != 0 && doubt_of (work).kind != HW_DOUBT_NONE;
}

void
hw_machine_accept_readings (HwMachineView *view)
{
  g_free (view->accepted);
  view->accepted = fingerprint (work_of (view));
  hw_machine_update_answer (view);
  gtk_widget_grab_focus (view->next);
}

/* The readings as the doubt would have them. FALSE when it knows no better ones. */
static gboolean
mend (const HwDoubt *doubt, HwReading *readings, guint n)
{
  for (guint i = 0; i < n; i++)
    switch (doubt->kind)
      {
      case HW_DOUBT_INCHES:
        readings[i].at.x *= HW_MM_PER_INCH;
        readings[i].at.y *= HW_MM_PER_INCH;
        break;
      case HW_DOUBT_MILLIMETRES:
        readings[i].at.x /= HW_MM_PER_INCH;
        readings[i].at.y /= HW_MM_PER_INCH;
        break;
      case HW_DOUBT_MIRRORED_U:
        readings[i].at.x = -readings[i].at.x;
        break;
      case HW_DOUBT_MIRRORED_V:
        readings[i].at.y = -readings[i].at.y;
        break;
      case HW_DOUBT_SWAPPED:
        break;
      case HW_DOUBT_NONE:
      case HW_DOUBT_FAR:
      default:
        return FALSE;
      }
  if (doubt->kind == HW_DOUBT_SWAPPED && doubt->first >= 0 && doubt->second >= 0)
    {
      HwPoint kept = readings[doubt->first].at;

      readings[doubt->first].at = readings[doubt->second].at;
      readings[doubt->second].at = kept;
    }
  return TRUE;
}

void
hw_machine_mend_readings (HwMachineView *view)
{
  const HwWork *work = work_of (view);
  HwDoubt doubt = doubt_of (work);
  guint n;
  g_autofree HwReading *readings = used_readings (work, &n);

  if (!mend (&doubt, readings, n))
    return;
  /* Those left out stay as they are. */
  g_autofree HwReading *all = g_new0 (HwReading, work->n_readings);
  guint used = 0;
  for (guint i = 0; i < work->n_readings; i++)
    all[i] = work->readings[i].left_out ? work->readings[i] : readings[used++];
  hw_bench_set_readings (view->bench, _ ("mend the readings"), all, work->n_readings);
  gtk_widget_grab_focus (view->next);
}

static const char *
mend_label (HwDoubtKind kind)
{
  switch (kind)
    {
    case HW_DOUBT_INCHES:
      return _ ("They are inches");
    case HW_DOUBT_MILLIMETRES:
      return _ ("They are millimetres");
    case HW_DOUBT_SWAPPED:
      return _ ("Exchange the two");
    case HW_DOUBT_MIRRORED_U:
      return _ ("Exchange right and left");
    case HW_DOUBT_MIRRORED_V:
      return _ ("Exchange away and towards");
    case HW_DOUBT_NONE:
    case HW_DOUBT_FAR:
    default:
      return NULL;
    }
}

static void
mend_cb (GtkButton *button, HwMachineView *view)
{
  hw_machine_mend_readings (view);
}

static void
accept_cb (GtkButton *button, HwMachineView *view)
{
  hw_machine_accept_readings (view);
}

static void
ask_about (HwMachineView *view, const HwDoubt *doubt)
{
  const HwWork *work = work_of (view);
  guint n;
  g_autofree HwReading *used = used_readings (work, &n);
  g_autofree char *text = hw_doubt_text (doubt, used, n, hw_bench_get_unit (view->bench));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  const char *label = mend_label (doubt->kind);

  gtk_widget_add_css_class (box, "machine-doubt");
  gtk_box_append (GTK_BOX (box), hw_machine_words (text, "machine-advice"));
  if (label != NULL)
    {
      g_autofree char *keyed = g_strdup_printf ("%s (X)", label);
      GtkWidget *button = gtk_button_new_with_label (keyed);
      g_signal_connect (button, "clicked", G_CALLBACK (mend_cb), view);
      gtk_box_append (GTK_BOX (buttons), button);
    }
  GtkWidget *right = gtk_button_new_with_label (_ ("They are right (Y)"));
  g_signal_connect (right, "clicked", G_CALLBACK (accept_cb), view);
  gtk_box_append (GTK_BOX (buttons), right);
  gtk_box_append (GTK_BOX (box), buttons);
  gtk_box_append (GTK_BOX (view->answer), box);
  view->question = buttons;
}

/* "Quince 0.2 mm, Pear 0.3 mm": what remains at each motif. */
static char *
remaining_text (HwMachineView *view, const HwCorrectionAnswer *answer)
{
  const HwHooping *hooping = hw_machine_work_hooping (view->work);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < MIN (hooping->n_motifs, answer->n_targets); i++)
    {
      g_autofree char *length = hw_length_text (answer->remaining[i], hw_bench_get_unit (view->bench));
      g_string_append_printf (text, "%s%s %s", i > 0 ? _ (", ") : "",
                              hw_snapshot_motif (view->work->snapshot, hooping->motifs[i])->name, length);
    }
  return g_string_free (text, FALSE);
}

/* The advice without the figures, where these stand above it already. */
static const char *
rest_of (const char *advice, const char *figures)
{
  if (g_str_has_prefix (advice, figures))
    advice += strlen (figures);
  while (*advice == ' ')
    advice++;
  return advice;
}

static void
tell_answer (HwMachineView *view)
{
  HwUnit unit = hw_bench_get_unit (view->bench);
  g_autoptr (GError) error = NULL;
  HwCorrectionAnswer answer = { 0 };

  if (!hw_machine_work_correction (view->work, &answer, &error))
    {
      gtk_box_append (GTK_BOX (view->answer), hw_machine_words (error->message, "machine-advice"));
      return;
    }
  g_autofree char *enter = hw_correction_text (&answer.chosen, unit);
  g_autofree char *advice = hw_machine_work_advice (view->work, &answer, unit);
  g_autofree char *remaining = remaining_text (view, &answer);
  g_autofree char *left = g_strdup_printf (_ ("What remains: %s."), remaining);
  gtk_box_append (GTK_BOX (view->answer), hw_machine_words (enter, "machine-answer"));
  gtk_box_append (GTK_BOX (view->answer), hw_machine_words (rest_of (advice, enter), "machine-advice"));
  gtk_box_append (GTK_BOX (view->answer), hw_machine_words (left, "quiet"));
  hw_correction_answer_clear (&answer);
}

void
hw_machine_update_answer (HwMachineView *view)
{
  GtkWidget *child;

  if (view->answer == NULL)
    return;
  const HwWork *work = work_of (view);
  HwDoubt doubt = doubt_of (work);
  gboolean doubtful = hw_machine_readings_are_doubtful (view);

  view->question = NULL;
  while ((child = gtk_widget_get_first_child (view->answer)) != NULL)
    gtk_box_remove (GTK_BOX (view->answer), child);
  gtk_widget_set_sensitive (view->next, !doubtful);
  if (doubtful)
    ask_about (view, &doubt);
  else if (work->n_readings > 0)
    tell_answer (view);
  else if (view->work->pin->n_marks > 0)
    gtk_box_append (GTK_BOX (view->answer),
                    hw_machine_words (_ ("What to enter at the machine appears here as you type."), "quiet"));
}

HwReading *
hw_machine_marks (HwMachineView *view, guint *n)
{
  const HwPin *pin = view->work->pin;
  HwReading *marks = g_new0 (HwReading, pin->n_marks + 1);

  for (guint i = 0; i < pin->n_marks; i++)
    {
      g_strlcpy (marks[i].letter, pin->marks[i].letter, sizeof marks[i].letter);
      marks[i].design = hw_machine_work_mark (view->work, i);
    }
  *n = pin->n_marks;
  return marks;
}

void
hw_machine_fill_readings (HwMachineView *view)
{
  guint n;
  g_autofree HwReading *marks = hw_machine_marks (view, &n);
  const HwWork *work = work_of (view);

  view->readings = HW_READINGS_FIELDS (hw_readings_fields_new (view->bench));
  hw_readings_fields_set (view->readings, marks, n, work->readings, work->n_readings);
  g_signal_connect (view->readings, "read", G_CALLBACK (read_cb), view);
  g_signal_connect (view->readings, "forgotten", G_CALLBACK (forgotten_cb), view);
  g_signal_connect (view->readings, "left-out", G_CALLBACK (left_out_cb), view);
  g_signal_connect (view->readings, "at-mark", G_CALLBACK (at_mark_cb), view);
  g_signal_connect (view->readings, "finished", G_CALLBACK (finished_cb), view);
  gtk_box_append (GTK_BOX (view->page), GTK_WIDGET (view->readings));
  view->answer = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_widget_add_css_class (view->answer, "machine-answers");
  hw_machine_add_extra (view, _ ("Read the marks from a photo…"), "P", G_CALLBACK (hw_machine_read_photo_cb));
  gtk_box_append (GTK_BOX (view->page), view->answer);
}

void
hw_machine_update_readings (HwMachineView *view)
{
  g_autofree HwReading *marks = NULL;
  guint n;

  if (view->readings == NULL)
    return;
  marks = hw_machine_marks (view, &n);
  hw_readings_fields_set (view->readings, marks, n, work_of (view)->readings, work_of (view)->n_readings);
}

/* A table: where each motif lies from the hoop's centre once corrected, for machines that take one motif at a time. */
static void
add_places (HwMachineView *view, const HwCorrection *correction)
{
  const HwHooping *hooping = hw_machine_work_hooping (view->work);
  HwUnit unit = hw_bench_get_unit (view->bench);
  GtkWidget *grid = gtk_grid_new ();

  hw_machine_add_words (
      view,
      hooping->n_motifs > 1
          ? _ ("If your machine takes the motifs one by one, each goes here, from the centre of the hoop:")
          : _ ("From the centre of the hoop the motif then lies:"),
      "machine-small");
  gtk_grid_set_column_spacing (GTK_GRID (grid), 22);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 2);
  gtk_widget_add_css_class (grid, "machine-places");
  for (guint i = 0; i < hooping->n_motifs; i++)
    {
      double turn;
      HwPoint at = hw_machine_work_place (view->work, i, correction, &turn);
      g_autofree char *across = hw_machine_across_text (at.x, unit);
      g_autofree char *along = hw_machine_along_text (at.y, unit);
      g_autofree char *turned = hw_machine_turn_text (turn);
      const char *cells[] = { across, along, turned };
      GtkWidget *name = hw_machine_words (hw_snapshot_motif (view->work->snapshot, hooping->motifs[i])->name,
                                          "machine-small");

      gtk_widget_add_css_class (name, "name");
      gtk_grid_attach (GTK_GRID (grid), name, 0, 2 * (int)i, G_N_ELEMENTS (cells), 1);
      for (guint c = 0; c < G_N_ELEMENTS (cells); c++)
        {
          GtkWidget *label = hw_machine_words (cells[c], "machine-advice");

          gtk_widget_set_hexpand (label, TRUE);
          gtk_grid_attach (GTK_GRID (grid), label, (int)c, 2 * (int)i + 1, 1, 1);
        }
    }
  gtk_box_append (GTK_BOX (view->page), grid);
}

/* The figures to enter, each on a line of its own, to be read from where the person stands. */
static void
add_figures (HwMachineView *view, const HwCorrection *correction)
{
  HwUnit unit = hw_bench_get_unit (view->bench);
  g_autofree char *across = hw_machine_across_text (correction->shift.x, unit);
  g_autofree char *along = hw_machine_along_text (correction->shift.y, unit);
  g_autofree char *turn = hw_machine_turn_text (correction->turn);
  g_autofree char *turned = g_strdup_printf (_ ("turn %s"), turn);
  gboolean shifted = FALSE;

  if (fabs (correction->shift.x) >= 0.005)
    {
      hw_machine_add_words (view, across, "machine-figure");
      shifted = TRUE;
    }
  if (fabs (correction->shift.y) >= 0.005)
    {
      hw_machine_add_words (view, along, "machine-figure");
      shifted = TRUE;
    }
  if (fabs (correction->turn) >= 0.005)
    hw_machine_add_words (view, turned, "machine-figure");
  else if (!shifted)
    hw_machine_add_words (view, _ ("Nothing to enter"), "machine-figure");
}

static void
hoop_again_cb (GtkButton *button, HwMachineView *view)
{
  hw_bench_hoop_again (view->bench);
}

void
hw_machine_fill_correction (HwMachineView *view)
{
  HwUnit unit = hw_bench_get_unit (view->bench);
  g_autoptr (GError) error = NULL;
  HwCorrectionAnswer answer = { 0 };

  if (work_of (view)->n_readings == 0)
    {
      hw_machine_add_words (view, _ ("Nothing to enter"), "machine-figure");
      hw_machine_add_words (view, _ ("No mark was read, so it is stitched where the plan has it."),
                            "machine-advice");
      add_places (view, NULL);
      return;
    }
  if (!hw_machine_work_correction (view->work, &answer, &error))
    {
      hw_machine_add_words (view, error->message, "machine-advice");
      add_places (view, NULL);
      return;
    }
  g_autofree char *enter = hw_correction_text (&answer.chosen, unit);
  g_autofree char *advice = hw_machine_work_advice (view->work, &answer, unit);
  g_autofree char *remaining = remaining_text (view, &answer);
  g_autofree char *left = g_strdup_printf (_ ("What remains: %s."), remaining);
  if (answer.advice == HW_ADVICE_HOOP_AGAIN)
    {
      hw_machine_add_words (view, _ ("Hoop again"), "machine-figure");
      hw_machine_add_extra (view, _ ("Hoop again"), "H", G_CALLBACK (hoop_again_cb));
    }
  else
    add_figures (view, &answer.chosen);
  hw_machine_add_words (view, rest_of (advice, enter), "machine-advice");
  hw_machine_add_words (view, left, "quiet");
  add_places (view, &answer.chosen);
  hw_correction_answer_clear (&answer);
}
