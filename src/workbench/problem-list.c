/* What to look at. Choosing a problem selects its motif, chooses its hooping and asks for its place to be shown; one that speaks of the whole scene
 * shows the whole cloth. */
#include "problem-list.h"

#include <glib/gi18n.h>
#include "dialog.h"

struct _HwProblemList
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *none;
  GPtrArray *rows; /* Row, owned */
  gboolean pointing;
};

G_DEFINE_FINAL_TYPE (HwProblemList, hw_problem_list, GTK_TYPE_BOX)

enum
{
  SHOW_PLACE,
  N_SIGNALS
};

#define MOST_ROWS 100

static guint signals[N_SIGNALS];

typedef struct
{
  HwProblemList *list;
  guint index;
  GtkWidget *outer;
  GtkWidget *button;
  GtkWidget *take_back; /* of a wish that is not kept */
  GtkWidget *label;
  guint idle;
} Row;

/* Of a problem between two motifs, both; until something else is selected or changed. */
static void
point_out_both (HwProblemList *list, const HwPlan *plan, const HwProblem *problem)
{
  guint n = plan->snapshot->motifs->len;

  list->pointing
      = problem->motif >= 0 && problem->motif < (int)n && problem->other >= 0 && problem->other < (int)n;
  if (!list->pointing)
    return;
  const char *ids[] = { hw_snapshot_motif (plan->snapshot, problem->motif)->id,
                        hw_snapshot_motif (plan->snapshot, problem->other)->id, NULL };
  hw_bench_point_out (list->bench, ids);
}

static void
stop_pointing (HwProblemList *list)
{
  if (list->pointing)
    hw_bench_point_out (list->bench, NULL);
  list->pointing = FALSE;
}

static void
selection_cb (HwBench *bench, HwProblemList *list)
{
  stop_pointing (list);
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwProblemList *list)
{
  stop_pointing (list);
}

static void
clicked_cb (GtkButton *button, Row *row)
{
  HwProblemList *list = row->list;
  const HwPlan *plan = hw_bench_get_plan (list->bench);

  if (plan == NULL || row->index >= plan->problems->len)
    return;
  const HwProblem *problem = g_ptr_array_index (plan->problems, row->index);
  HwPoint where = problem->where;
  gboolean has_place = problem->motif >= 0 || problem->hooping >= 0;
  gboolean of_cloth = problem->kind == HW_PROBLEM_CLOTH_TOO_SMALL;

  if (problem->hooping >= 0)
    hw_bench_choose_hooping (list->bench, problem->hooping);
  if (problem->motif >= 0 && problem->motif < (int)plan->snapshot->motifs->len)
    hw_bench_select_only (list->bench, hw_snapshot_motif (plan->snapshot, problem->motif)->id);
  point_out_both (list, plan, problem);
  if (!has_place)
    gtk_widget_activate_action (GTK_WIDGET (list), "win.zoom-fit", NULL);
  if (has_place || of_cloth)
    g_signal_emit (list, signals[SHOW_PLACE], 0, where.x, where.y);
}

static gboolean
take_back_idle_cb (gpointer data)
{
  Row *row = data;
  const HwPlan *plan = hw_bench_get_plan (row->list->bench);
  const HwPin *pin
      = plan != NULL && row->index < plan->problems->len
            ? hw_bench_pin_behind (row->list->bench, g_ptr_array_index (plan->problems, row->index))
            : NULL;

  row->idle = 0;
  if (pin != NULL)
    hw_bench_let_pin_go (row->list->bench, pin);
  return G_SOURCE_REMOVE;
}

/* The row goes away with the problem: the button is let finish first. */
static void
take_back_cb (GtkButton *button, Row *row)
{
  if (row->idle == 0)
    row->idle = g_idle_add (take_back_idle_cb, row);
}

static Row *
row_new (HwProblemList *list, guint index)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *sign = gtk_image_new_from_icon_name ("hw-heed-symbolic");

  row->list = list;
  row->index = index;
  row->label = gtk_label_new (NULL);
  hw_wrap_words (row->label);
  gtk_label_set_xalign (GTK_LABEL (row->label), 0);
  gtk_widget_set_hexpand (row->label, TRUE);
  gtk_widget_set_valign (sign, GTK_ALIGN_START);
  gtk_widget_add_css_class (sign, "sign");
  gtk_box_append (GTK_BOX (box), sign);
  gtk_box_append (GTK_BOX (box), row->label);
  row->button = gtk_button_new ();
  gtk_button_set_child (GTK_BUTTON (row->button), box);
  gtk_widget_add_css_class (row->button, "card");
  g_signal_connect (row->button, "clicked", G_CALLBACK (clicked_cb), row);
  gtk_widget_set_hexpand (row->button, TRUE);
  row->take_back = gtk_button_new_from_icon_name ("hw-away-symbolic");
  gtk_widget_add_css_class (row->take_back, "flat");
  gtk_widget_set_valign (row->take_back, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (row->take_back, _ ("Take the wish back"));
  g_signal_connect (row->take_back, "clicked", G_CALLBACK (take_back_cb), row);
  row->outer = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  gtk_box_append (GTK_BOX (row->outer), row->button);
  gtk_box_append (GTK_BOX (row->outer), row->take_back);
  gtk_box_append (GTK_BOX (list), row->outer);
  return row;
}

static void
row_free (gpointer data)
{
  Row *row = data;

  g_clear_handle_id (&row->idle, g_source_remove);
  gtk_box_remove (GTK_BOX (row->list), row->outer);
  g_free (row);
}

static void
show_take_back (Row *row, const HwProblem *problem)
{
  const HwPin *pin = hw_bench_pin_behind (row->list->bench, problem);

  gtk_widget_set_visible (row->take_back, pin != NULL);
  if (pin == NULL)
    return;
  g_autofree char *held = hw_bench_pin_text (row->list->bench, pin);
  g_autofree char *name = g_strdup_printf (_ ("Take the wish back: %s"), held);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->take_back), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
update (HwProblemList *list)
{
  const HwPlan *plan = hw_bench_get_plan (list->bench);
  guint n = plan != NULL ? MIN (plan->problems->len, MOST_ROWS) : 0;

  gtk_widget_set_visible (list->none, n == 0);
  g_ptr_array_set_size (list->rows, (int)MIN (list->rows->len, n));
  while (list->rows->len < n)
    g_ptr_array_add (list->rows, row_new (list, list->rows->len));
  for (guint i = 0; i < n; i++)
    {
      Row *row = g_ptr_array_index (list->rows, i);
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);

      show_take_back (row, problem);
      if (g_strcmp0 (gtk_label_get_label (GTK_LABEL (row->label)), problem->text) == 0)
        continue;
      gtk_label_set_label (GTK_LABEL (row->label), problem->text);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      problem->text, -1);
    }
}

static void
plan_changed_cb (HwBench *bench, HwProblemList *list)
{
  update (list);
}

static void
hw_problem_list_dispose (GObject *object)
{
  HwProblemList *list = HW_PROBLEM_LIST (object);

  g_ptr_array_set_size (list->rows, 0);
  g_clear_object (&list->bench);
  G_OBJECT_CLASS (hw_problem_list_parent_class)->dispose (object);
}

static void
hw_problem_list_finalize (GObject *object)
{
  g_ptr_array_unref (HW_PROBLEM_LIST (object)->rows);
  G_OBJECT_CLASS (hw_problem_list_parent_class)->finalize (object);
}

static void
hw_problem_list_class_init (HwProblemListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_problem_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_problem_list_finalize;
  signals[SHOW_PLACE] = g_signal_new ("show-place", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 2, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
}

static void
hw_problem_list_init (HwProblemList *list)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (list), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (list), 8);
  gtk_widget_add_css_class (GTK_WIDGET (list), "problem-list");
  list->rows = g_ptr_array_new_with_free_func (row_free);
  list->none = gtk_label_new (_ ("Everything lies as it should."));
  gtk_label_set_xalign (GTK_LABEL (list->none), 0);
  hw_wrap_words (list->none);
  gtk_widget_add_css_class (list->none, "quiet");
  gtk_box_append (GTK_BOX (list), list->none);
}

GtkWidget *
hw_problem_list_new (HwBench *bench)
{
  HwProblemList *list = g_object_new (HW_TYPE_PROBLEM_LIST, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (list));
  list->bench = g_object_ref (bench);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), list, 0);
  g_signal_connect_object (bench, "selection-changed", G_CALLBACK (selection_cb), list, 0);
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), list, 0);
  update (list);
  return GTK_WIDGET (list);
}
