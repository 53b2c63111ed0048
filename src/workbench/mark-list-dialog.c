/* The list of marks, hooping by hooping, measured from the edge line's corner: to draw from, to copy as text, and to move, hold or let go each mark without
 * the pointer. A plan may come many times a second, so rows stay and only what they say is changed. */
#include "mark-list-dialog.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../planning/mark-list.h"
#include "../planning/marks.h"
#include "dialog.h"
#include "help-place.h"
#include "measure-field.h"

#define FARTHEST 5000 /* mm from the corner */
#define SAME_PLACE 0.05

typedef enum
{
  LINE_HOOPING,
  LINE_CENTRE,
  LINE_MARK,
  LINE_REFUSED /* a held mark that cannot serve */
} LineKind;

/* What one row says. */
typedef struct
{
  LineKind kind;
  guint hooping, mark; /* indices in the plan */
  HwPoint at;
  char *name, *right, *down, *state;
  char *hold; /* what the button does, or NULL for none */
  gboolean let_go, can_move;
} Line;

typedef struct
{
  HwBench *bench;
  GtkWidget *from, *right, *down; /* the sentence and the headings */
  GtkSizeGroup *columns[5];       /* the headings stand over what they name */
  GtkWidget *list;
  GtkWidget *hold_all, *let_go_all;
  GPtrArray *rows; /* Row, owned */
} Marks;

typedef struct
{
  Marks *marks;
  GtkWidget *row, *name, *right, *down, *state, *more, *move, *hold;
  GtkWidget *right_field, *down_field, *trouble;
  LineKind kind;
  guint hooping, mark;
  HwPoint at;
  gboolean let_go;
} Row;

static void
line_clear (gpointer data)
{
  Line *line = data;

  g_free (line->name);
  g_free (line->right);
  g_free (line->down);
  g_free (line->state);
  g_free (line->hold);
}

static int
find_mark (const HwHooping *hooping, HwPoint at)
{
  for (guint i = 0; i < hooping->n_marks; i++)
    if (hw_point_distance (hooping->marks[i].at, at) < SAME_PLACE)
      return (int)i;
  return -1;
}

static void
add_heading (Marks *marks, GArray *lines, const HwPlan *plan, guint hooping)
{
  const HwHooping *of = &plan->hoopings[hooping];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, of->hoop);
  g_autofree char *error = NULL;
  double worst = 0;
  Line line = { .kind = LINE_HOOPING, .hooping = hooping };

  /* Translators: a heading: "Hooping 3, hoop 130 × 180" */
  line.name = g_strdup_printf (_ ("Hooping %u, hoop %s"), hooping + 1, hoop->name);
  for (guint i = 0; i < of->n_motifs; i++)
    worst = MAX (worst, of->predicted_error[i]);
  error = hw_mark_error_text (of->n_marks >= 2 ? worst : INFINITY, hw_bench_get_unit (marks->bench));
  /* Translators: the largest error to be expected with these marks: "error up to 0.42 mm" */
  line.state = g_strdup_printf (_ ("error up to %s"), error);
  g_array_append_val (lines, line);
}

static void
add_mark (Marks *marks, GArray *lines, const HwPlan *plan, const HwListedMark *mark)
{
  HwUnit unit = hw_bench_get_unit (marks->bench);
  const HwHooping *hooping = &plan->hoopings[mark->hooping];
  int index = find_mark (hooping, mark->at);
  Line line = { .kind = index >= 0 ? LINE_MARK : LINE_CENTRE,
                .hooping = mark->hooping,
                .mark = (guint)MAX (index, 0),
                .at = mark->at,
                .name = g_strdup (mark->name),
                .right = hw_length_figure (mark->right, unit),
                .down = hw_length_figure (mark->down, unit) };
  guint wished = CLAMP (plan->snapshot->wishes.marks, 2, 4);
  gboolean drawn = hw_bench_is_mark_of_pin (marks->bench, mark->hooping);

  line.state = g_strdup (index < 0       ? ""
                         : drawn         ? _ ("drawn")
                         : mark->is_held ? _ ("held")
                                         : _ ("by the plan"));
  line.can_move = index >= 0 && hw_bench_may_change_marks (marks->bench, mark->hooping);
  line.let_go = drawn || mark->is_held;
  if (line.can_move && drawn)
    line.hold = g_strdup (_ ("Take away"));
  else if (line.can_move && mark->is_held)
    line.hold = g_strdup (hooping->n_marks > wished ? _ ("Take away") : _ ("Let go"));
  else if (line.can_move)
    line.hold = g_strdup (_ ("Hold"));
  g_array_append_val (lines, line);
}

static void
add_refused (GArray *lines, const HwPlan *plan)
{
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);
      Line line = { .kind = LINE_REFUSED, .at = problem->where, .let_go = TRUE };

      if (problem->kind != HW_PROBLEM_MARKS || problem->motif < 0)
        continue;
      line.name = g_strdup (problem->text);
      line.hold = g_strdup (_ ("Let go"));
      line.hooping = (guint)MAX (problem->hooping, 0);
      g_array_append_val (lines, line);
    }
}

static GArray *
find_lines (Marks *marks, const HwPlan *plan, const HwMarkList *list)
{
  GArray *lines = g_array_new (FALSE, TRUE, sizeof (Line));
  int hooping = -1;

  g_array_set_clear_func (lines, line_clear);
  add_refused (lines, plan);
  for (guint i = 0; i < list->marks->len; i++)
    {
      const HwListedMark *mark = g_ptr_array_index (list->marks, i);

      if ((int)mark->hooping != hooping)
        add_heading (marks, lines, plan, mark->hooping);
      hooping = (int)mark->hooping;
      add_mark (marks, lines, plan, mark);
    }
  return lines;
}

static void
hold_cb (GtkButton *button, Row *row)
{
  HwBench *bench = row->marks->bench;

  if (!row->let_go)
    hw_bench_hold_mark (bench, row->hooping, row->mark);
  else if (row->kind == LINE_MARK)
    hw_bench_take_mark_away (bench, row->hooping, row->mark);
  else
    hw_bench_let_go_mark_at (bench, row->at);
}

static void
more_cb (GtkButton *button, Row *row)
{
  if (!hw_bench_one_more_mark (row->marks->bench, row->hooping))
    gtk_widget_error_bell (GTK_WIDGET (button));
}

static HwPoint
corner_of (const HwPlan *plan)
{
  g_autoptr (HwMarkList) list = hw_mark_list_new (plan);

  return list->corner;
}

static void
move_shown_cb (GtkPopover *popover, Row *row)
{
  const HwPlan *plan = hw_bench_get_plan (row->marks->bench);
  HwPoint corner;

  if (plan == NULL)
    return;
  corner = corner_of (plan);
  hw_measure_field_set_value (HW_MEASURE_FIELD (row->right_field), row->at.x - corner.x);
  hw_measure_field_set_value (HW_MEASURE_FIELD (row->down_field), row->at.y - corner.y);
  gtk_widget_set_visible (row->trouble, FALSE);
}

static void
move_cb (GtkButton *button, Row *row)
{
  const HwPlan *plan = hw_bench_get_plan (row->marks->bench);
  g_autofree char *why = NULL, *text = NULL;
  HwPoint to;

  if (plan == NULL || row->hooping >= plan->n_hoopings)
    return;
  to = corner_of (plan);
  to.x += hw_measure_field_get_value (HW_MEASURE_FIELD (row->right_field));
  to.y += hw_measure_field_get_value (HW_MEASURE_FIELD (row->down_field));
  why = hw_marks_why_not (plan, row->hooping, to, hw_bench_get_unit (row->marks->bench));
  if (why == NULL)
    {
      gtk_menu_button_popdown (GTK_MENU_BUTTON (row->move));
      hw_bench_move_mark (row->marks->bench, row->hooping, row->mark, to);
      return;
    }
  text = g_strdup_printf (_ ("It cannot serve there because %s."), why);
  gtk_label_set_label (GTK_LABEL (row->trouble), text);
  gtk_widget_set_visible (row->trouble, TRUE);
}

static GtkWidget *
move_popover (Row *row)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *button = gtk_button_new_with_label (_ ("Move it there"));

  row->right_field = hw_measure_field_new (row->marks->bench, HW_MEASURE_LENGTH,
                                           _ ("To the right of the corner"), -FARTHEST, FARTHEST);
  row->down_field = hw_measure_field_new (row->marks->bench, HW_MEASURE_LENGTH, _ ("Down from the corner"),
                                          -FARTHEST, FARTHEST);
  row->trouble = hw_dialog_words ("");
  gtk_label_set_max_width_chars (GTK_LABEL (row->trouble), 34);
  gtk_widget_add_css_class (row->trouble, "mark-trouble");
  gtk_box_append (GTK_BOX (box), hw_captioned (_ ("To the right of the corner"), row->right_field));
  gtk_box_append (GTK_BOX (box), hw_captioned (_ ("Down from the corner"), row->down_field));
  gtk_box_append (GTK_BOX (box), row->trouble);
  gtk_box_append (GTK_BOX (box), button);
  gtk_widget_add_css_class (box, "dialog-content");
  g_signal_connect (button, "clicked", G_CALLBACK (move_cb), row);
  g_signal_connect (popover, "show", G_CALLBACK (move_shown_cb), row);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  return popover;
}

static GtkWidget *
label_in (GtkWidget *box, int chars, double xalign)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), (float)xalign);
  if (chars > 0)
    gtk_label_set_width_chars (GTK_LABEL (label), chars);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

static Row *
row_new (Marks *marks)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  row->marks = marks;
  row->row = gtk_list_box_row_new ();
  row->name = label_in (box, 9, 0); /* "12 centre" stays on one line */
  gtk_widget_set_hexpand (row->name, TRUE);
  hw_wrap_words (row->name);
  row->right = label_in (box, 8, 1);
  row->down = label_in (box, 8, 1);
  row->state = label_in (box, 10, 0);
  gtk_widget_add_css_class (row->state, "quiet");
  gtk_size_group_add_widget (marks->columns[0], row->right);
  gtk_size_group_add_widget (marks->columns[1], row->down);
  gtk_size_group_add_widget (marks->columns[2], row->state);
  row->more = gtk_button_new_with_label (_ ("One more mark"));
  row->move = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (row->move), _ ("Move…"));
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (row->move), move_popover (row));
  row->hold = gtk_button_new ();
  gtk_widget_set_size_request (row->hold, 96, -1);
  gtk_size_group_add_widget (marks->columns[3], row->move);
  gtk_size_group_add_widget (marks->columns[4], row->hold);
  g_signal_connect (row->more, "clicked", G_CALLBACK (more_cb), row);
  g_signal_connect (row->hold, "clicked", G_CALLBACK (hold_cb), row);
  gtk_box_append (GTK_BOX (box), row->more);
  gtk_box_append (GTK_BOX (box), row->move);
  gtk_box_append (GTK_BOX (box), row->hold);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row->row), box);
  gtk_list_box_append (GTK_LIST_BOX (marks->list), row->row);
  g_object_set_data (G_OBJECT (row->row), "row", row);
  return row;
}

static void
row_free (gpointer data)
{
  Row *row = data;

  if (row->marks->list != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (row->marks->list), row->row);
  g_free (row);
}

static void
set_label (GtkWidget *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_label (GTK_LABEL (label)), text) != 0)
    gtk_label_set_label (GTK_LABEL (label), text != NULL ? text : "");
}

static void
name_button (GtkWidget *button, const char *what, const char *mark)
{
  g_autofree char *name = g_strdup_printf ("%s: %s", what, mark);

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
row_show (Row *row, const Line *line)
{
  gboolean is_mark = line->kind == LINE_MARK, has_place = is_mark || line->kind == LINE_CENTRE;

  row->kind = line->kind;
  row->hooping = line->hooping;
  row->mark = line->mark;
  row->at = line->at;
  row->let_go = line->let_go;
  set_label (row->name, line->name);
  set_label (row->right, line->right);
  set_label (row->down, line->down);
  set_label (row->state, line->state);
  gtk_widget_set_visible (row->right, has_place);
  gtk_widget_set_visible (row->down, has_place);
  gtk_widget_set_visible (row->state, has_place || line->kind == LINE_HOOPING);
  gtk_widget_set_visible (row->more, line->kind == LINE_HOOPING);
  gtk_widget_set_visible (row->move, has_place);
  gtk_widget_set_visible (row->hold, has_place || line->kind == LINE_REFUSED);
  /* What a centre cross lacks leaves its room, so that the figures stand under each other. */
  gtk_widget_set_opacity (row->move, line->can_move ? 1 : 0);
  gtk_widget_set_sensitive (row->move, line->can_move);
  gtk_widget_set_opacity (row->hold, line->hold != NULL ? 1 : 0);
  gtk_widget_set_sensitive (row->hold, line->hold != NULL);
  if (g_strcmp0 (gtk_button_get_label (GTK_BUTTON (row->hold)), line->hold) != 0)
    gtk_button_set_label (GTK_BUTTON (row->hold), line->hold != NULL ? line->hold : "");
  name_button (row->hold, line->hold != NULL ? line->hold : "", line->name);
  name_button (row->move, _ ("Move…"), line->name);
  name_button (row->more, _ ("One more mark"), line->name);
  if (line->kind == LINE_HOOPING)
    {
      gtk_widget_add_css_class (row->name, "card-title");
      gtk_widget_set_sensitive (row->more, hw_bench_may_change_marks (row->marks->bench, line->hooping));
    }
  else
    gtk_widget_remove_css_class (row->name, "card-title");
  if (line->kind == LINE_REFUSED)
    gtk_widget_add_css_class (row->name, "mark-trouble");
  else
    gtk_widget_remove_css_class (row->name, "mark-trouble");
}

static void
update (Marks *marks)
{
  const HwPlan *plan = hw_bench_get_plan (marks->bench);
  HwUnit unit = hw_bench_get_unit (marks->bench);
  g_autoptr (HwMarkList) list = plan != NULL ? hw_mark_list_new (plan) : NULL;
  g_autoptr (GArray) lines = list != NULL ? find_lines (marks, plan, list) : NULL;
  guint n = lines != NULL ? lines->len : 0;

  set_label (marks->from, n > 0 ? list->from : _ ("There is nothing left to mark."));
  set_label (marks->right, unit == HW_UNIT_MM ? _ ("Right (mm)") : _ ("Right (in)"));
  set_label (marks->down, unit == HW_UNIT_MM ? _ ("Down (mm)") : _ ("Down (in)"));
  if (marks->rows->len > n)
    g_ptr_array_set_size (marks->rows, (int)n);
  while (marks->rows->len < n)
    g_ptr_array_add (marks->rows, row_new (marks));
  for (guint i = 0; i < n; i++)
    row_show (g_ptr_array_index (marks->rows, i), &g_array_index (lines, Line, i));
  gtk_widget_set_sensitive (marks->let_go_all,
                            hw_scene_get_held_marks (hw_bench_get_scene (marks->bench))->len > 0);
  gtk_widget_set_sensitive (marks->hold_all, n > 0);
}

/* A row taken shows its hooping on the table. */
static void
row_activated_cb (GtkListBox *list, GtkListBoxRow *widget, Marks *marks)
{
  const Row *row = g_object_get_data (G_OBJECT (widget), "row");

  hw_bench_choose_hooping (marks->bench, (int)row->hooping);
}

static void
hold_all_cb (GtkButton *button, Marks *marks)
{
  hw_bench_hold_all_marks (marks->bench);
}

static void
let_go_all_cb (GtkButton *button, Marks *marks)
{
  hw_bench_let_go_all_marks (marks->bench);
}

static void
copy_cb (GtkButton *button, Marks *marks)
{
  const HwPlan *plan = hw_bench_get_plan (marks->bench);
  g_autoptr (HwMarkList) list = plan != NULL ? hw_mark_list_new (plan) : NULL;
  g_autofree char *text = list != NULL ? hw_mark_list_text (list, hw_bench_get_unit (marks->bench)) : NULL;

  if (text != NULL)
    gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (button)), text);
}

static void
close_cb (GtkButton *button, GtkWindow *dialog)
{
  gtk_window_close (dialog);
}

static void
plan_changed_cb (HwBench *bench, Marks *marks)
{
  update (marks);
}

/* Once marks are read at the machine they stay: that brings no plan. */
static void
scene_changed_cb (HwBench *bench, guint flags, Marks *marks)
{
  if (flags & HW_SCENE_CHANGE_WORK)
    update (marks);
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, Marks *marks)
{
  update (marks);
}

static void
marks_free (gpointer data)
{
  Marks *marks = data;

  marks->list = NULL;
  g_signal_handlers_disconnect_by_data (marks->bench, marks);
  g_ptr_array_unref (marks->rows);
  for (guint i = 0; i < G_N_ELEMENTS (marks->columns); i++)
    g_object_unref (marks->columns[i]);
  g_object_unref (marks->bench);
  g_free (marks);
}

static GtkWidget *
make_headings (Marks *marks)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *name = label_in (box, 0, 0), *columns[5];

  gtk_label_set_label (GTK_LABEL (name), _ ("Mark"));
  gtk_widget_set_hexpand (name, TRUE);
  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      columns[i] = label_in (box, 0, 1);
      gtk_size_group_add_widget (marks->columns[i], columns[i]);
      gtk_widget_add_css_class (columns[i], "caption");
    }
  marks->right = columns[0];
  marks->down = columns[1];
  gtk_widget_add_css_class (name, "caption");
  gtk_widget_add_css_class (box, "mark-headings");
  return box;
}

static GtkWidget *
foot_button (GtkWidget *foot, const char *label, GCallback clicked, gpointer data)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  g_signal_connect (button, "clicked", clicked, data);
  gtk_box_append (GTK_BOX (foot), button);
  return button;
}

static GtkWidget *
make_list (Marks *marks)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  marks->list = gtk_list_box_new ();
  gtk_list_box_set_activate_on_single_click (GTK_LIST_BOX (marks->list), TRUE);
  gtk_widget_add_css_class (marks->list, "plain-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (marks->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Marks to draw"), -1);
  g_signal_connect (marks->list, "row-activated", G_CALLBACK (row_activated_cb), marks);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), marks->list);
  gtk_widget_set_vexpand (scroller, TRUE);
  return scroller;
}

void
hw_mark_list_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Marks *marks = g_new0 (Marks, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *foot = hw_dialog_foot ();
  GtkWindow *dialog = hw_dialog_new (parent, _ ("Marks to draw"), content, 720, 620);
  hw_help_mark (dialog, "marks");

  gtk_window_set_modal (dialog, FALSE);
  marks->bench = g_object_ref (bench);
  marks->rows = g_ptr_array_new_with_free_func (row_free);
  for (guint i = 0; i < G_N_ELEMENTS (marks->columns); i++)
    marks->columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  marks->from = hw_dialog_words ("");
  gtk_box_append (GTK_BOX (content), marks->from);
  gtk_box_append (GTK_BOX (content), make_headings (marks));
  gtk_box_append (GTK_BOX (content), make_list (marks));
  foot_button (foot, _ ("Copy as text"), G_CALLBACK (copy_cb), marks);
  marks->let_go_all = foot_button (foot, _ ("Let all go"), G_CALLBACK (let_go_all_cb), marks);
  marks->hold_all = foot_button (foot, _ ("All are on the cloth"), G_CALLBACK (hold_all_cb), marks);
  gtk_widget_set_tooltip_text (marks->hold_all,
                               _ ("Holds every mark where it is, whatever is planned next."));
  foot_button (foot, _ ("Close"), G_CALLBACK (close_cb), dialog);
  gtk_box_append (GTK_BOX (content), foot);
  g_signal_connect (bench, "plan-changed", G_CALLBACK (plan_changed_cb), marks);
  g_signal_connect (bench, "scene-changed", G_CALLBACK (scene_changed_cb), marks);
  g_signal_connect (bench, "notify::unit", G_CALLBACK (unit_cb), marks);
  g_object_set_data_full (G_OBJECT (dialog), "marks", marks, marks_free);
  update (marks);
  gtk_window_present (dialog);
}
