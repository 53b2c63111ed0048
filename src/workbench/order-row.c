/* One row of the stitch order. It can be taken by its whole width and dropped on another; the upper half of that one means before it, the
 * lower half after it. */
#include "order-row.h"

#include <glib/gi18n.h>

#include "bead.h"
#include "motif-thumb.h"

#define THUMB_SIZE 38 /* px */
#define BEAD_SIZE 26  /* px */

struct _HwOrderRow
{
  GtkBox parent_instance;

  HwBench *bench;
  HwSceneMotif *motif;
  guint place;
  gulong notify_id;
  GtkWidget *number;
  GtkWidget *thumb;
  GtkWidget *name;
  GtkWidget *lock;
  GtkWidget *bead;
};

G_DEFINE_FINAL_TYPE (HwOrderRow, hw_order_row, GTK_TYPE_BOX)

static void
show_record (HwOrderRow *row)
{
  const HwMotif *record = hw_scene_motif_get_record (row->motif);

  gtk_label_set_label (GTK_LABEL (row->name), record->name);
  gtk_widget_set_visible (row->lock, record->locked);
  hw_motif_thumb_set_motif (HW_MOTIF_THUMB (row->thumb), record);
}

static void
notify_cb (HwSceneMotif *motif, GParamSpec *pspec, HwOrderRow *row)
{
  show_record (row);
  hw_order_row_show_plan (row);
}

/* The row of the list that holds this one takes the focus; GTK 4.8 has no other way to name it (gtk_list_item_set_accessible_label() comes
 * with 4.12). */
static void
name_item (HwOrderRow *row, const char *hooping)
{
  GtkWidget *item = gtk_widget_get_parent (GTK_WIDGET (row));
  const HwMotif *record = hw_scene_motif_get_record (row->motif);

  if (item == NULL)
    return;
  /* Translators: a row of the stitch order: "3, Rowing boat, locked in place. Stitched in hooping 1" */
  g_autofree char *name = g_strdup_printf (_ ("%u, %s%s. %s"), row->place + 1, record->name,
                                           record->locked ? _ (", locked in place") : "", hooping);
  gtk_accessible_update_property (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
hw_order_row_show_plan (HwOrderRow *row)
{
  g_return_if_fail (HW_IS_ORDER_ROW (row));

  const HwPlan *plan = hw_bench_get_plan (row->bench);
  int hooping = -1;

  if (row->motif == NULL)
    return;
  if (plan != NULL)
    {
      int index = hw_snapshot_find_motif (plan->snapshot, hw_scene_motif_get_record (row->motif)->id);
      if (index >= 0)
        hooping = hw_plan_hooping_of (plan, (guint)index);
    }
  hw_bead_set_hooping (HW_BEAD (row->bead), hooping);

  g_autofree char *words = hooping >= 0 ? g_strdup_printf (_ ("Stitched in hooping %d"), hooping + 1)
                                        : g_strdup (_ ("Not in a hooping yet"));
  gtk_widget_set_tooltip_text (GTK_WIDGET (row), words);
  name_item (row, words);
}

void
hw_order_row_show (HwOrderRow *row, HwSceneMotif *motif, guint place)
{
  g_return_if_fail (HW_IS_ORDER_ROW (row));

  if (row->motif != NULL && row->motif != motif)
    g_clear_signal_handler (&row->notify_id, row->motif);
  g_autofree char *number = g_strdup_printf ("%u", place + 1);
  row->place = place;
  gtk_label_set_label (GTK_LABEL (row->number), number);
  if (!g_set_object (&row->motif, motif))
    {
      hw_order_row_show_plan (row);
      return;
    }
  if (motif == NULL)
    {
      hw_motif_thumb_set_motif (HW_MOTIF_THUMB (row->thumb), NULL);
      return;
    }
  row->notify_id = g_signal_connect (motif, "notify", G_CALLBACK (notify_cb), row);
  show_record (row);
  hw_order_row_show_plan (row);
}

HwSceneMotif *
hw_order_row_get_motif (HwOrderRow *row)
{
  g_return_val_if_fail (HW_IS_ORDER_ROW (row), NULL);
  return row->motif;
}

static GdkContentProvider *
prepare_cb (GtkDragSource *source, double x, double y, HwOrderRow *row)
{
  if (row->motif == NULL)
    return NULL;
  return gdk_content_provider_new_typed (HW_TYPE_SCENE_MOTIF, row->motif);
}

static void
drag_begin_cb (GtkDragSource *source, GdkDrag *drag, HwOrderRow *row)
{
  g_autoptr (GdkPaintable) picture = gtk_widget_paintable_new (GTK_WIDGET (row));

  gtk_drag_source_set_icon (source, picture, 24, 16);
}

static gboolean
lower_half (HwOrderRow *row, double y)
{
  return y > gtk_widget_get_height (GTK_WIDGET (row)) / 2.0;
}

static void
mark_drop (HwOrderRow *row, gboolean over, gboolean after)
{
  gtk_widget_remove_css_class (GTK_WIDGET (row), "drop-before");
  gtk_widget_remove_css_class (GTK_WIDGET (row), "drop-after");
  if (over)
    gtk_widget_add_css_class (GTK_WIDGET (row), after ? "drop-after" : "drop-before");
}

static GdkDragAction
motion_cb (GtkDropTarget *target, double x, double y, HwOrderRow *row)
{
  mark_drop (row, TRUE, lower_half (row, y));
  return GDK_ACTION_MOVE;
}

static void
leave_cb (GtkDropTarget *target, HwOrderRow *row)
{
  mark_drop (row, FALSE, FALSE);
}

static gboolean
drop_cb (GtkDropTarget *target, const GValue *value, double x, double y, HwOrderRow *row)
{
  HwSceneMotif *motif = g_value_get_object (value);
  HwScene *scene = hw_bench_get_scene (row->bench);

  mark_drop (row, FALSE, FALSE);
  int from = motif != NULL ? hw_scene_index_of (scene, motif) : -1;
  if (from < 0)
    return FALSE;
  int to = (int)row->place + (lower_half (row, y) ? 1 : 0);
  if (to > from)
    to--;
  hw_bench_move_in_order (row->bench, hw_scene_motif_get_record (motif)->id, (guint)to);
  return TRUE;
}

static void
hw_order_row_dispose (GObject *object)
{
  HwOrderRow *row = HW_ORDER_ROW (object);

  if (row->motif != NULL)
    g_clear_signal_handler (&row->notify_id, row->motif);
  g_clear_object (&row->motif);
  g_clear_object (&row->bench);
  G_OBJECT_CLASS (hw_order_row_parent_class)->dispose (object);
}

static void
hw_order_row_class_init (HwOrderRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_order_row_dispose;
}

static void
add_dragging (HwOrderRow *row)
{
  GtkDragSource *source = gtk_drag_source_new ();
  GtkDropTarget *target = gtk_drop_target_new (HW_TYPE_SCENE_MOTIF, GDK_ACTION_MOVE);

  gtk_drag_source_set_actions (source, GDK_ACTION_MOVE);
  g_signal_connect (source, "prepare", G_CALLBACK (prepare_cb), row);
  g_signal_connect (source, "drag-begin", G_CALLBACK (drag_begin_cb), row);
  gtk_widget_add_controller (GTK_WIDGET (row), GTK_EVENT_CONTROLLER (source));

  g_signal_connect (target, "motion", G_CALLBACK (motion_cb), row);
  g_signal_connect (target, "leave", G_CALLBACK (leave_cb), row);
  g_signal_connect (target, "drop", G_CALLBACK (drop_cb), row);
  gtk_widget_add_controller (GTK_WIDGET (row), GTK_EVENT_CONTROLLER (target));
}

static void
hw_order_row_init (HwOrderRow *row)
{
  gtk_widget_add_css_class (GTK_WIDGET (row), "order-row");
  gtk_box_set_spacing (GTK_BOX (row), 10);

  row->number = gtk_label_new (NULL);
  gtk_label_set_width_chars (GTK_LABEL (row->number), 3);
  gtk_label_set_xalign (GTK_LABEL (row->number), 1);
  gtk_widget_add_css_class (row->number, "order-number");
  row->thumb = hw_motif_thumb_new (THUMB_SIZE);
  row->name = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (row->name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (row->name), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (row->name, TRUE);
  row->lock = gtk_image_new_from_icon_name ("hw-fixed-symbolic");
  gtk_widget_set_tooltip_text (row->lock, _ ("Locked in place"));
  row->bead = hw_bead_new (BEAD_SIZE);
  gtk_widget_set_valign (row->bead, GTK_ALIGN_CENTER);

  gtk_box_append (GTK_BOX (row), row->number);
  gtk_box_append (GTK_BOX (row), row->thumb);
  gtk_box_append (GTK_BOX (row), row->name);
  gtk_box_append (GTK_BOX (row), row->lock);
  gtk_box_append (GTK_BOX (row), row->bead);
  add_dragging (row);
}

GtkWidget *
hw_order_row_new (HwBench *bench)
{
  HwOrderRow *row = g_object_new (HW_TYPE_ORDER_ROW, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (row));
  row->bench = g_object_ref (bench);
  return GTK_WIDGET (row);
}
