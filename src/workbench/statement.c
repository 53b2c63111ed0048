/* The plan in one sentence: the most important text of the window. Below it, smaller, why fewer hoopings cannot be; beside it, how many
 * things there are to look at.
 *
 * To a screen reader it is a status whose name is that sentence: GTK 4.8 has no call to announce a text (gtk_accessible_announce() comes with 4.14),
 * but it reports every new name of a status, and every alert that comes into view, and readers speak both. */
#include "statement.h"

#include <glib/gi18n.h>

#include "../planning/explain.h"
#include "dialog.h"
#include "why-button.h"

struct _HwStatement
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *sentence;
  GtkWidget *reason;
  GtkWidget *why;
  GtkWidget *
      stack; /* holds the button's place while there is nothing to look at, so that the foot keeps its height */
  GtkWidget *nothing;
  GtkWidget *problems;
  GtkWidget *problems_label;
  char *told; /* what a screen reader was told last */
};

G_DEFINE_FINAL_TYPE (HwStatement, hw_statement, GTK_TYPE_BOX)

enum
{
  PROBLEMS_WANTED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
set_label (GtkWidget *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_label (GTK_LABEL (label)), text) != 0)
    gtk_label_set_label (GTK_LABEL (label), text);
}

/* Told once the plan has settled: nothing is said of a plan in the making. */
static void
tell (HwStatement *statement, const char *sentence, guint n_problems)
{
  g_autofree char *count
      = n_problems > 0 ? g_strdup_printf (
            ngettext ("%u thing to look at", "%u things to look at", n_problems), n_problems)
                       : NULL;
  g_autofree char *words = count != NULL ? g_strdup_printf ("%s · %s", sentence, count) : g_strdup (sentence);

  if (g_strcmp0 (words, statement->told) == 0)
    return;
  gtk_accessible_update_property (GTK_ACCESSIBLE (statement), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  g_free (statement->told);
  statement->told = g_steal_pointer (&words);
}

static char *
count_text (HwBench *bench, gpointer user_data)
{
  const HwPlan *plan = hw_bench_get_plan (bench);

  if (plan == NULL)
    return NULL;
  g_autofree char *count = hw_explain_count (plan, hw_bench_get_unit (bench));
  g_autofree char *threads = hw_explain_threads (plan);
  return g_strconcat (count, threads, NULL);
}

static char **
proof_motifs (HwBench *bench, gpointer user_data)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  if (plan != NULL && plan->snapshot->wishes.best == HW_BEST_LEAST_TIME
      && plan->n_hoopings > plan->lower_bound)
    plan = NULL; /* the reason is another */
  for (guint i = 0; plan != NULL && i < plan->n_proof_motifs; i++)
    g_strv_builder_add (ids, hw_snapshot_motif (plan->snapshot, plan->proof_motifs[i])->id);
  return g_strv_builder_end (ids);
}

/* What the plan saves; then why not fewer, or where the time goes. */
static char *
saving_for (const HwPlan *plan)
{
  if (plan->one_by_one_changes <= plan->thread_changes)
    return NULL;
  return g_strdup_printf (ngettext ("Stitched one by one it would be %u thread change.",
                                    "Stitched one by one it would be %u thread changes.",
                                    plan->one_by_one_changes),
                          plan->one_by_one_changes);
}

static char *
reason_for (HwStatement *statement, const HwPlan *plan)
{
  gboolean planning, quickest = plan->snapshot->wishes.best == HW_BEST_LEAST_TIME;

  if (quickest && plan->status != HW_PLAN_UNPLANNABLE && plan->n_hoopings > 0)
    return hw_explain_time (plan);
  if (plan->proof != NULL && *plan->proof != '\0')
    return g_strdup (plan->proof);
  g_object_get (statement->bench, "planning", &planning, NULL);
  if (planning && plan->status == HW_PLAN_FEASIBLE)
    return g_strdup (_ ("Still looking for a way with fewer hoopings."));
  return g_strdup ("");
}

static void
update (HwStatement *statement)
{
  const HwPlan *plan = hw_bench_get_plan (statement->bench);
  guint n_problems = plan != NULL ? plan->problems->len : 0;

  if (plan == NULL)
    {
      set_label (statement->sentence, _ ("Planning"));
      set_label (statement->reason, "");
    }
  else if (plan->snapshot->motifs->len == 0)
    {
      set_label (statement->sentence, _ ("The cloth is bare: add a motif to begin"));
      set_label (statement->reason, "");
    }
  else
    {
      g_autofree char *sentence = hw_plan_sentence (plan);
      g_autofree char *reason = reason_for (statement, plan);
      g_autofree char *saving = saving_for (plan);
      g_autofree char *both = saving != NULL ? g_strdup_printf ("%s %s", saving, reason) : g_strdup (reason);

      set_label (statement->sentence, sentence);
      set_label (statement->reason, g_strchomp (both));
    }
  gboolean planning;
  g_object_get (statement->bench, "planning", &planning, NULL);
  if (plan != NULL && !planning)
    tell (statement, gtk_label_get_label (GTK_LABEL (statement->sentence)), n_problems);
  const char *text = gtk_label_get_label (GTK_LABEL (statement->reason));
  gtk_widget_set_tooltip_text (statement->reason, *text != '\0' ? text : NULL);

  const char *why = plan != NULL && plan->snapshot->wishes.best == HW_BEST_LEAST_TIME ? _ ("Why not quicker?")
                                                                                      : _ ("Why not fewer?");
  hw_why_button_set_words (statement->why, why, why);
  gtk_widget_set_visible (statement->why, plan != NULL && plan->n_hoopings > 0);
  gtk_widget_set_visible (statement->problems, n_problems > 0);
  gtk_stack_set_visible_child (GTK_STACK (statement->stack),
                               n_problems > 0 ? statement->problems : statement->nothing);
  g_autofree char *count
      = g_strdup_printf (ngettext ("%u thing to look at", "%u things to look at", n_problems), n_problems);
  if (g_strcmp0 (gtk_label_get_label (GTK_LABEL (statement->problems_label)), count) == 0)
    return;
  set_label (statement->problems_label, count);
  gtk_accessible_update_property (GTK_ACCESSIBLE (statement->problems), GTK_ACCESSIBLE_PROPERTY_LABEL, count,
                                  -1);
}

static void
plan_changed_cb (HwBench *bench, HwStatement *statement)
{
  update (statement);
}

static void
planning_cb (HwBench *bench, GParamSpec *pspec, HwStatement *statement)
{
  update (statement);
}

static void
clicked_cb (GtkButton *button, HwStatement *statement)
{
  g_signal_emit (statement, signals[PROBLEMS_WANTED], 0);
}

/* A hidden button has no size: its place is kept by the size it would have. */
static void
map_cb (GtkWidget *widget, HwStatement *statement)
{
  gboolean visible = gtk_widget_get_visible (statement->problems);
  int width, height;

  gtk_widget_set_visible (statement->problems, TRUE);
  gtk_widget_measure (statement->problems, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  gtk_widget_measure (statement->problems, GTK_ORIENTATION_VERTICAL, -1, NULL, &height, NULL, NULL);
  gtk_widget_set_visible (statement->problems, visible);
  gtk_widget_set_size_request (statement->nothing, width, height);
}

static void
hw_statement_dispose (GObject *object)
{
  g_clear_object (&HW_STATEMENT (object)->bench);
  G_OBJECT_CLASS (hw_statement_parent_class)->dispose (object);
}

static void
hw_statement_finalize (GObject *object)
{
  g_free (HW_STATEMENT (object)->told);
  G_OBJECT_CLASS (hw_statement_parent_class)->finalize (object);
}

static void
hw_statement_class_init (HwStatementClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_statement_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_statement_finalize;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_STATUS);
  signals[PROBLEMS_WANTED] = g_signal_new ("problems-wanted", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                           NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static GtkWidget *
line (const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
hw_statement_init (HwStatement *statement)
{
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *in_button = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *sign = gtk_image_new_from_icon_name ("hw-heed-symbolic");

  gtk_widget_add_css_class (GTK_WIDGET (statement), "statement");
  gtk_box_set_spacing (GTK_BOX (statement), 16);

  statement->sentence = line ("sentence");
  hw_wrap_words (statement->sentence);
  statement->reason = line ("reason");
  gtk_label_set_ellipsize (GTK_LABEL (statement->reason), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (words), statement->sentence);
  gtk_box_append (GTK_BOX (words), statement->reason);
  gtk_box_append (GTK_BOX (statement), words);

  statement->problems = gtk_button_new ();
  statement->problems_label = gtk_label_new (NULL);
  gtk_box_append (GTK_BOX (in_button), sign);
  gtk_box_append (GTK_BOX (in_button), statement->problems_label);
  gtk_button_set_child (GTK_BUTTON (statement->problems), in_button);
  gtk_widget_add_css_class (statement->problems, "problems-button");
  gtk_widget_set_valign (statement->problems, GTK_ALIGN_CENTER);
  g_signal_connect (statement->problems, "clicked", G_CALLBACK (clicked_cb), statement);
  statement->nothing = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  statement->stack = gtk_stack_new ();
  g_signal_connect (statement, "map", G_CALLBACK (map_cb), statement);
  gtk_stack_set_vhomogeneous (GTK_STACK (statement->stack), TRUE);
  gtk_stack_set_hhomogeneous (GTK_STACK (statement->stack), TRUE);
  gtk_widget_set_valign (statement->stack, GTK_ALIGN_CENTER);
  gtk_stack_add_child (GTK_STACK (statement->stack), statement->nothing);
  gtk_stack_add_child (GTK_STACK (statement->stack), statement->problems);
  gtk_box_append (GTK_BOX (statement), statement->stack);
}

GtkWidget *
hw_statement_new (HwBench *bench)
{
  HwStatement *statement = g_object_new (HW_TYPE_STATEMENT, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (statement));
  statement->bench = g_object_ref (bench);
  statement->why
      = hw_why_button_new (bench, _ ("Why not fewer?"), _ ("Why not fewer?"), count_text, proof_motifs, NULL);
  gtk_widget_set_valign (statement->why, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (statement), statement->why);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), statement, 0);
  g_signal_connect_object (bench, "notify::planning", G_CALLBACK (planning_cb), statement, 0);
  update (statement);
  return GTK_WIDGET (statement);
}
