/* The stitch order: all motifs back to front, the first stitched at the top. Rows are dragged to another place, or moved with Alt and the
 * arrow keys. What is selected here is selected on the table and the other way round. */
#include "stitch-order-list.h"

#include <glib/gi18n.h>

#include "order-row.h"

/* The list lies in the pane as long as it is. A list view keeps no more rows than about this many alive at once: a longer one has to scroll by itself. */
#define MOST_ROWS 150
#define LONG_HEIGHT 640 /* px */

struct _HwStitchOrderList
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *scroller;
  GtkWidget *view;
  GtkSelectionModel *selection;
  GPtrArray *rows; /* HwOrderRow in use; not owned */
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwStitchOrderList, hw_stitch_order_list, GTK_TYPE_BOX)

static void
setup_cb (GtkListItemFactory *factory, GtkListItem *item, HwStitchOrderList *list)
{
  gtk_list_item_set_child (item, hw_order_row_new (list->bench));
}

static void
show_item (GtkListItem *item)
{
  GtkWidget *row = gtk_list_item_get_child (item);

  if (row != NULL && gtk_list_item_get_item (item) != NULL)
    hw_order_row_show (HW_ORDER_ROW (row), HW_SCENE_MOTIF (gtk_list_item_get_item (item)),
                       gtk_list_item_get_position (item));
}

static void
position_cb (GtkListItem *item, GParamSpec *pspec, gpointer user_data)
{
  show_item (item);
}

static void
bind_cb (GtkListItemFactory *factory, GtkListItem *item, HwStitchOrderList *list)
{
  show_item (item);
  g_ptr_array_add (list->rows, gtk_list_item_get_child (item));
  g_signal_connect (item, "notify::position", G_CALLBACK (position_cb), list);
}

static void
unbind_cb (GtkListItemFactory *factory, GtkListItem *item, HwStitchOrderList *list)
{
  g_signal_handlers_disconnect_by_func (item, position_cb, list);
  g_ptr_array_remove_fast (list->rows, gtk_list_item_get_child (item));
  hw_order_row_show (HW_ORDER_ROW (gtk_list_item_get_child (item)), NULL, 0);
}

static void
plan_changed_cb (HwBench *bench, HwStitchOrderList *list)
{
  for (guint i = 0; i < list->rows->len; i++)
    hw_order_row_show_plan (g_ptr_array_index (list->rows, i));
}

/* The bench's selection, shown in the list. */
static void
show_selection (HwStitchOrderList *list)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (list->bench));
  guint n = g_list_model_get_n_items (motifs);
  g_autoptr (GtkBitset) selected = gtk_bitset_new_empty ();
  g_autoptr (GtkBitset) mask = gtk_bitset_new_range (0, n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      if (hw_bench_is_selected (list->bench, hw_scene_motif_get_record (motif)->id))
        gtk_bitset_add (selected, i);
    }
  list->updating = TRUE;
  gtk_selection_model_set_selection (list->selection, selected, mask);
  list->updating = FALSE;
}

static void
bench_selection_cb (HwBench *bench, HwStitchOrderList *list)
{
  show_selection (list);
}

static void
fit_height (HwStitchOrderList *list)
{
  gboolean is_long = g_list_model_get_n_items (G_LIST_MODEL (list->selection)) > MOST_ROWS;

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (list->scroller), GTK_POLICY_NEVER,
                                  is_long ? GTK_POLICY_AUTOMATIC : GTK_POLICY_NEVER);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (list->scroller),
                                              is_long ? LONG_HEIGHT : -1);
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwStitchOrderList *list)
{
  if (flags & HW_SCENE_CHANGE_MOTIF_LIST)
    fit_height (list);
  if (flags & (HW_SCENE_CHANGE_MOTIF_LIST | HW_SCENE_CHANGE_ORDER))
    show_selection (list);
}

/* The list's selection, told to the bench. */
static void
list_selection_cb (GtkSelectionModel *selection, guint position, guint n_items, HwStitchOrderList *list)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (selection));

  if (list->updating)
    return;
  for (guint i = 0; i < n; i++)
    if (gtk_selection_model_is_selected (selection, i))
      {
        g_autoptr (HwSceneMotif) motif = g_list_model_get_item (G_LIST_MODEL (selection), i);
        g_ptr_array_add (ids, g_strdup (hw_scene_motif_get_record (motif)->id));
      }
  g_ptr_array_add (ids, NULL);
  list->updating = TRUE;
  hw_bench_select_ids (list->bench, (const char *const *)ids->pdata);
  list->updating = FALSE;
}

static gboolean
key_cb (
    GtkEventControllerKey *keys, guint keyval, guint keycode, GdkModifierType state, HwStitchOrderList *list)
{
  if ((state & GDK_ALT_MASK) == 0 || (keyval != GDK_KEY_Up && keyval != GDK_KEY_Down))
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_Down)
    hw_bench_bring_forward (list->bench);
  else
    hw_bench_send_back (list->bench);
  return GDK_EVENT_STOP;
}

static void
hw_stitch_order_list_dispose (GObject *object)
{
  HwStitchOrderList *list = HW_STITCH_ORDER_LIST (object);

  if (list->view != NULL)
    gtk_list_view_set_model (GTK_LIST_VIEW (list->view), NULL);
  list->view = NULL;
  g_clear_object (&list->selection);
  g_clear_object (&list->bench);
  G_OBJECT_CLASS (hw_stitch_order_list_parent_class)->dispose (object);
}

static void
hw_stitch_order_list_finalize (GObject *object)
{
  g_ptr_array_unref (HW_STITCH_ORDER_LIST (object)->rows);
  G_OBJECT_CLASS (hw_stitch_order_list_parent_class)->finalize (object);
}

static void
hw_stitch_order_list_class_init (HwStitchOrderListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_stitch_order_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_stitch_order_list_finalize;
}

static void
hw_stitch_order_list_init (HwStitchOrderList *list)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (list), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (list), "order-list");
  list->rows = g_ptr_array_new ();
}

GtkWidget *
hw_stitch_order_list_new (HwBench *bench)
{
  HwStitchOrderList *list = g_object_new (HW_TYPE_STITCH_ORDER_LIST, NULL);
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (list));
  list->bench = g_object_ref (bench);

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), list);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), list);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), list);
  list->selection = GTK_SELECTION_MODEL (
      gtk_multi_selection_new (g_object_ref (hw_scene_get_motifs (hw_bench_get_scene (bench)))));
  g_signal_connect_object (list->selection, "selection-changed", G_CALLBACK (list_selection_cb), list, 0);

  list->view = gtk_list_view_new (g_object_ref (list->selection), factory);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Stitch order, back to front"), -1);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), list);
  gtk_widget_add_controller (list->view, keys);
  list->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (list->scroller), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (list->scroller), list->view);
  gtk_box_append (GTK_BOX (list), list->scroller);
  fit_height (list);

  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), list, 0);
  g_signal_connect_object (bench, "selection-changed", G_CALLBACK (bench_selection_cb), list, 0);
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), list, 0);
  show_selection (list);
  return GTK_WIDGET (list);
}
