/* What a person has decided about the selected motifs: kept apart, tied before another, their hooping held; with nothing selected, of all hoopings which are
 * held, whether the plan can keep them or not. Each decision can be taken back here. */
#include "decisions-list.h"

#include <glib/gi18n.h>
#include "dialog.h"

struct _HwDecisionsList
{
  GtkBox parent_instance;

  HwBench *bench;
  gboolean whole; /* of the whole scene: shown while nothing is selected */
  char *pins;     /* what is said of pins */
};

G_DEFINE_FINAL_TYPE (HwDecisionsList, hw_decisions_list, GTK_TYPE_BOX)

/* A decision as a row; freed with its button. */
typedef struct
{
  HwBench *bench;
  gboolean tie;
  char *first, *second;
  HwPin *pin; /* or NULL */
} Decision;

static void
decision_free (gpointer data, GClosure *closure)
{
  Decision *decision = data;

  g_free (decision->first);
  g_free (decision->second);
  g_clear_pointer (&decision->pin, hw_pin_unref);
  g_free (decision);
}

static gboolean
take_back_idle_cb (gpointer data)
{
  const Decision *decision = data;

  if (decision->pin != NULL)
    hw_bench_let_pin_go (decision->bench, decision->pin);
  else if (decision->tie)
    hw_bench_untie (decision->bench, decision->first, decision->second);
  else
    hw_bench_let_share_pair (decision->bench, decision->first, decision->second);
  return G_SOURCE_REMOVE;
}

static void
idle_free (gpointer data)
{
  g_object_unref (((Decision *)data)->bench);
  decision_free (data, NULL);
}

/* The row goes away with the decision: it is let finish first. */
static void
take_back_cb (GtkButton *button, const Decision *decision)
{
  Decision *copy = g_new0 (Decision, 1);

  *copy
      = (Decision){ g_object_ref (decision->bench), decision->tie, g_strdup (decision->first),
                    g_strdup (decision->second), decision->pin != NULL ? hw_pin_ref (decision->pin) : NULL };
  g_idle_add_full (G_PRIORITY_DEFAULT, take_back_idle_cb, copy, idle_free);
}

static void
add_row (HwDecisionsList *list, const char *text, Decision told)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = gtk_label_new (text);
  GtkWidget *button = gtk_button_new_from_icon_name ("hw-away-symbolic");
  g_autofree char *name = g_strdup_printf (_ ("Take back: %s"), text);
  Decision *decision = g_new0 (Decision, 1);

  *decision = (Decision){ list->bench, told.tie, g_strdup (told.first), g_strdup (told.second),
                          told.pin != NULL ? hw_pin_ref (told.pin) : NULL };
  hw_wrap_words (label);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, _ ("Take back"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_data (button, "clicked", G_CALLBACK (take_back_cb), decision, decision_free, 0);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), button);
  gtk_box_append (GTK_BOX (list), row);
}

static const char *
name_of (HwDecisionsList *list, const char *id)
{
  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (list->bench), id);

  return motif != NULL ? hw_scene_motif_get_record (motif)->name : NULL;
}

/* With one motif selected, all decisions that name it; with several, those among them. */
static gboolean
concerns (HwDecisionsList *list, const char *first, const char *second)
{
  gboolean a = hw_bench_is_selected (list->bench, first), b = hw_bench_is_selected (list->bench, second);

  if (name_of (list, first) == NULL || name_of (list, second) == NULL)
    return FALSE;
  return hw_bench_get_n_selected (list->bench) == 1 ? a || b : a && b;
}

static void
add_apart (HwDecisionsList *list)
{
  GPtrArray *apart = hw_scene_get_apart (hw_bench_get_scene (list->bench));
  gboolean one = hw_bench_get_n_selected (list->bench) == 1;

  for (guint i = 0; i < apart->len; i++)
    {
      const HwApart *pair = g_ptr_array_index (apart, i);

      if (!concerns (list, pair->first, pair->second))
        continue;
      gboolean first = hw_bench_is_selected (list->bench, pair->first);
      g_autofree char *text
          = one ? g_strdup_printf (_ ("Kept apart from %s"),
                                   name_of (list, first ? pair->second : pair->first))
                : g_strdup_printf (_ ("%s and %s are kept apart"), name_of (list, pair->first),
                                   name_of (list, pair->second));
      add_row (list, text, (Decision){ .first = pair->first, .second = pair->second });
    }
}

static char *
tie_text (HwDecisionsList *list, const char *first, const char *second)
{
  if (hw_bench_get_n_selected (list->bench) > 1)
    return g_strdup_printf (_ ("%s is stitched before %s"), name_of (list, first), name_of (list, second));
  if (hw_bench_is_selected (list->bench, first))
    return g_strdup_printf (_ ("Stitched before %s"), name_of (list, second));
  return g_strdup_printf (_ ("Stitched after %s"), name_of (list, first));
}

static void
add_ties (HwDecisionsList *list)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (list->bench));
  guint n = g_list_model_get_n_items (motifs);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      const HwMotif *record = hw_scene_motif_get_record (motif);

      for (guint k = 0; record->before != NULL && record->before[k] != NULL; k++)
        if (concerns (list, record->id, record->before[k]))
          {
            g_autofree char *text = tie_text (list, record->id, record->before[k]);
            add_row (list, text, (Decision){ .tie = TRUE, .first = record->id, .second = record->before[k] });
          }
    }
}

/* With motifs selected, the pins that hold some of them. The hooping in the machine has a place of its own. */
static gboolean
is_told (HwDecisionsList *list, const HwPin *pin)
{
  if (pin->work != NULL)
    return FALSE;
  for (guint k = 0; !list->whole && pin->motifs != NULL && pin->motifs[k] != NULL; k++)
    if (hw_bench_is_selected (list->bench, pin->motifs[k]))
      return TRUE;
  return list->whole;
}

/* Shows the pins, or only tells what would be said of them. Returns: (transfer full) */
static char *
tell_pins (HwDecisionsList *list, gboolean show)
{
  GPtrArray *pins = hw_scene_get_pins (hw_bench_get_scene (list->bench));
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < pins->len; i++)
    {
      HwPin *pin = g_ptr_array_index (pins, i);

      if (!is_told (list, pin))
        continue;
      g_autofree char *text = hw_bench_pin_text (list->bench, pin);
      g_string_append_printf (all, "%s\n", text);
      if (show)
        add_row (list, text, (Decision){ .pin = pin });
    }
  return g_string_free (all, FALSE);
}

static GtkWidget *
button_for (const char *label, const char *action, GVariant *target)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_label_set_wrap (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (button))), TRUE);
  gtk_actionable_set_action_target_value (GTK_ACTIONABLE (button), target);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  return button;
}

static void
add_tie_button (HwDecisionsList *list, const HwMotif *first, const HwMotif *second)
{
  if (hw_bench_is_tied (list->bench, first->id, second->id))
    return;
  g_autofree char *label = g_strdup_printf (_ ("Stitch %s before %s"), first->name, second->name);
  gtk_box_append (GTK_BOX (list),
                  button_for (label, "win.tie", g_variant_new ("(ss)", first->id, second->id)));
}

static void
add_buttons (HwDecisionsList *list)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (list->bench);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  if (!hw_bench_all_apart (list->bench))
    gtk_box_append (GTK_BOX (row), button_for (_ ("Keep apart"), "win.keep-apart", NULL));
  if (hw_bench_some_apart (list->bench))
    gtk_box_append (GTK_BOX (row), button_for (_ ("May share again"), "win.let-share", NULL));
  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  gtk_box_append (GTK_BOX (list), row);
  if (selection->len != 2)
    return;
  const HwMotif *back = hw_scene_motif_get_record (g_ptr_array_index (selection, 0));
  const HwMotif *front = hw_scene_motif_get_record (g_ptr_array_index (selection, 1));
  add_tie_button (list, back, front);
  add_tie_button (list, front, back);
}

static void
update (HwDecisionsList *list)
{
  guint n = hw_bench_get_n_selected (list->bench);

  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (list))) != NULL;)
    gtk_box_remove (GTK_BOX (list), child);
  g_clear_pointer (&list->pins, g_free);
  if ((n == 0) == list->whole)
    list->pins = tell_pins (list, TRUE);
  if (n > 0 && !list->whole)
    {
      add_apart (list);
      add_ties (list);
    }
  if (n > 1 && !list->whole)
    add_buttons (list);
  gtk_widget_set_visible (GTK_WIDGET (list), gtk_widget_get_first_child (GTK_WIDGET (list)) != NULL);
}

static void
selection_cb (HwBench *bench, HwDecisionsList *list)
{
  update (list);
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwDecisionsList *list)
{
  if (flags
      & (HW_SCENE_CHANGE_PINS | HW_SCENE_CHANGE_ORDER | HW_SCENE_CHANGE_MOTIF_LIST | HW_SCENE_CHANGE_WORDS
         | HW_SCENE_CHANGE_WORK))
    update (list);
}

/* Plans come many times a second while a motif is dragged: rows are made anew only when they say another thing. */
static void
plan_changed_cb (HwBench *bench, HwDecisionsList *list)
{
  if (list->pins == NULL)
    return;
  g_autofree char *pins = tell_pins (list, FALSE);
  if (!g_str_equal (pins, list->pins))
    update (list);
}

static void
hw_decisions_list_finalize (GObject *object)
{
  g_free (HW_DECISIONS_LIST (object)->pins);
  G_OBJECT_CLASS (hw_decisions_list_parent_class)->finalize (object);
}

static void
hw_decisions_list_dispose (GObject *object)
{
  g_clear_object (&HW_DECISIONS_LIST (object)->bench);
  G_OBJECT_CLASS (hw_decisions_list_parent_class)->dispose (object);
}

static void
hw_decisions_list_class_init (HwDecisionsListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_decisions_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_decisions_list_finalize;
}

static void
hw_decisions_list_init (HwDecisionsList *list)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (list), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (list), 8);
}

GtkWidget *
hw_decisions_list_new (HwBench *bench, gboolean whole)
{
  HwDecisionsList *list = g_object_new (HW_TYPE_DECISIONS_LIST, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (list));
  list->bench = g_object_ref (bench);
  list->whole = whole;
  g_signal_connect_object (bench, "selection-changed", G_CALLBACK (selection_cb), list, 0);
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), list, 0);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), list, 0);
  update (list);
  return GTK_WIDGET (list);
}
