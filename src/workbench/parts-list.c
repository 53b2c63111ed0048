/* The parts of the scene in the order they are stitched: each can be renamed, moved earlier or later, and taken apart. Rows stay while parts
 * change, so that the keyboard does not lose its place. */
#include "parts-list.h"

#include <glib/gi18n.h>

#include "../planning/parts-hoopings.h"
#include "dialog.h"

struct _HwPartsList
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *words;
  GtkWidget *rows_box;
  GPtrArray *rows; /* Row, owned */
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwPartsList, hw_parts_list, GTK_TYPE_BOX)

typedef struct
{
  HwPartsList *list;
  guint part;
  GtkWidget *box, *name, *earlier, *later, *drop, *what;
  char *shown; /* the name as last set */
} Row;

static void
row_free (gpointer data)
{
  Row *row = data;

  gtk_box_remove (GTK_BOX (row->list->rows_box), row->box);
  g_free (row->shown);
  g_free (row);
}

static GPtrArray *
parts_of (HwPartsList *list)
{
  return hw_scene_get_parts (hw_bench_get_scene (list->bench));
}

/* Takes the name typed; one that cannot be taken is put back. */
static void
take_name (Row *row)
{
  const HwPart *part;

  if (row->list->updating || row->part >= parts_of (row->list)->len)
    return;
  hw_bench_rename_part (row->list->bench, row->part, gtk_editable_get_text (GTK_EDITABLE (row->name)));
  part = parts_of (row->list)->pdata[row->part];
  if (g_strcmp0 (part->name, gtk_editable_get_text (GTK_EDITABLE (row->name))) != 0)
    gtk_editable_set_text (GTK_EDITABLE (row->name), part->name);
}

static void
activate_cb (GtkEntry *entry, Row *row)
{
  take_name (row);
}

static void
leave_cb (GtkEventControllerFocus *focus, Row *row)
{
  take_name (row);
}

static void
earlier_cb (GtkButton *button, Row *row)
{
  if (row->part > 0)
    hw_bench_move_part (row->list->bench, row->part, row->part - 1);
}

static void
later_cb (GtkButton *button, Row *row)
{
  hw_bench_move_part (row->list->bench, row->part, row->part + 1);
}

typedef struct
{
  HwBench *bench;
  guint part;
} Dropped;

static gboolean
drop_idle_cb (gpointer data)
{
  hw_bench_drop_part (((Dropped *)data)->bench, ((Dropped *)data)->part);
  return G_SOURCE_REMOVE;
}

static void
dropped_free (gpointer data)
{
  g_object_unref (((Dropped *)data)->bench);
  g_free (data);
}

/* The row goes away with the part: its button is let finish first. */
static void
drop_cb (GtkButton *button, Row *row)
{
  Dropped *dropped = g_new0 (Dropped, 1);

  *dropped = (Dropped){ g_object_ref (row->list->bench), row->part };
  g_idle_add_full (G_PRIORITY_DEFAULT, drop_idle_cb, dropped, dropped_free);
}

static GtkWidget *
add_tool (Row *row, GtkWidget *line, const char *icon, GCallback callback)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  g_signal_connect (button, "clicked", callback, row);
  gtk_box_append (GTK_BOX (line), button);
  return button;
}

/* Undo means the scene's, also from here: heard before the text field takes the keys for its own. */
static void
undo_the_scene (GtkWidget *entry)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Control>z"), gtk_named_action_new ("win.undo")));
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Control><Shift>z"),
                        gtk_named_action_new ("win.redo")));
  gtk_widget_add_controller (entry, keys);
}

static Row *
row_new (HwPartsList *list, guint part)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 2);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  row->list = list;
  row->part = part;
  row->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  row->name = gtk_entry_new ();
  undo_the_scene (row->name);
  gtk_widget_set_hexpand (row->name, TRUE);
  g_signal_connect (row->name, "activate", G_CALLBACK (activate_cb), row);
  g_signal_connect (focus, "leave", G_CALLBACK (leave_cb), row);
  gtk_widget_add_controller (row->name, focus);
  gtk_box_append (GTK_BOX (line), row->name);
  row->earlier = add_tool (row, line, "hw-up-symbolic", G_CALLBACK (earlier_cb));
  row->later = add_tool (row, line, "hw-down-symbolic", G_CALLBACK (later_cb));
  row->drop = add_tool (row, line, "hw-away-symbolic", G_CALLBACK (drop_cb));
  row->what = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (row->what), 0);
  hw_wrap_words (row->what);
  gtk_widget_add_css_class (row->what, "quiet");
  gtk_box_append (GTK_BOX (row->box), line);
  gtk_box_append (GTK_BOX (row->box), row->what);
  gtk_box_append (GTK_BOX (list->rows_box), row->box);
  return row;
}

/* Takes words over. */
static void
call (GtkWidget *widget, char *words, gboolean tip)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  if (tip)
    gtk_widget_set_tooltip_text (widget, words);
  g_free (words);
}

/* "3 motifs · Hoopings 1 to 2"; the hoopings once the plan knows the part. Returns: (transfer full) */
static char *
what_text (HwPartsList *list, const HwPart *part, guint index)
{
  const HwPlan *plan = hw_bench_get_plan (list->bench);
  guint n = g_strv_length (part->motifs);
  g_autofree char *motifs = g_strdup_printf (ngettext ("%u motif", "%u motifs", n), n);
  g_autofree char *hoopings = NULL;

  if (plan == NULL || index >= plan->snapshot->parts->len
      || !hw_part_equal (plan->snapshot->parts->pdata[index], part))
    return g_steal_pointer (&motifs);
  hoopings = hw_plan_part_text (plan, index);
  return g_strdup_printf (_ ("%s · %s"), motifs, hoopings);
}

static void
row_show (Row *row)
{
  GPtrArray *parts = parts_of (row->list);
  const HwPart *part = parts->pdata[row->part];
  g_autofree char *what = what_text (row->list, part, row->part);

  gtk_label_set_label (GTK_LABEL (row->what), what);
  /* What is being typed stays. */
  if (row->shown == NULL || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (row->name)), row->shown) == 0
      || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (row->name)), part->name) == 0)
    {
      if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (row->name)), part->name) != 0)
        gtk_editable_set_text (GTK_EDITABLE (row->name), part->name);
      g_free (row->shown);
      row->shown = g_strdup (part->name);
    }
  gtk_widget_set_sensitive (row->earlier, row->part > 0);
  gtk_widget_set_sensitive (row->later, row->part + 1 < parts->len);
  call (row->name, g_strdup_printf (_ ("Name of part %u"), row->part + 1), FALSE);
  call (row->earlier, g_strdup_printf (_ ("Stitch “%s” earlier"), part->name), TRUE);
  call (row->later, g_strdup_printf (_ ("Stitch “%s” later"), part->name), TRUE);
  call (row->drop, g_strdup_printf (_ ("Take “%s” apart"), part->name), TRUE);
}

static void
update (HwPartsList *list)
{
  guint n = parts_of (list)->len;

  list->updating = TRUE;
  g_ptr_array_set_size (list->rows, (int)MIN (list->rows->len, n));
  while (list->rows->len < n)
    g_ptr_array_add (list->rows, row_new (list, list->rows->len));
  for (guint i = 0; i < n; i++)
    row_show (g_ptr_array_index (list->rows, i));
  gtk_label_set_label (
      GTK_LABEL (list->words),
      n == 0
          ? _ ("The scene is not divided. Select motifs and put them into a part, to stitch and print each "
               "part for itself.")
          : _ ("Parts are stitched in this order, and share no hooping. Motifs in no part are stitched "
               "where they suit."));
  list->updating = FALSE;
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwPartsList *list)
{
  if (flags & HW_SCENE_CHANGE_ORDER)
    update (list);
}

static void
plan_changed_cb (HwBench *bench, HwPartsList *list)
{
  if (parts_of (list)->len > 0)
    update (list);
}

static void
hw_parts_list_dispose (GObject *object)
{
  HwPartsList *list = HW_PARTS_LIST (object);

  list->updating = TRUE;
  g_ptr_array_set_size (list->rows, 0);
  g_clear_object (&list->bench);
  G_OBJECT_CLASS (hw_parts_list_parent_class)->dispose (object);
}

static void
hw_parts_list_finalize (GObject *object)
{
  g_ptr_array_unref (HW_PARTS_LIST (object)->rows);
  G_OBJECT_CLASS (hw_parts_list_parent_class)->finalize (object);
}

static void
hw_parts_list_class_init (HwPartsListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_parts_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_parts_list_finalize;
}

static void
hw_parts_list_init (HwPartsList *list)
{
  GtkWidget *put = gtk_button_new_with_label (_ ("Put into a part…"));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (list), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (list), 10);
  gtk_widget_add_css_class (GTK_WIDGET (list), "facts");
  list->rows = g_ptr_array_new_with_free_func (row_free);
  list->words = gtk_label_new (NULL);
  hw_wrap_words (list->words);
  gtk_label_set_xalign (GTK_LABEL (list->words), 0);
  gtk_widget_add_css_class (list->words, "quiet");
  list->rows_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (put), "win.put-in-part");
  gtk_box_append (GTK_BOX (list), list->words);
  gtk_box_append (GTK_BOX (list), list->rows_box);
  gtk_box_append (GTK_BOX (list), put);
}

GtkWidget *
hw_parts_list_new (HwBench *bench)
{
  HwPartsList *list = g_object_new (HW_TYPE_PARTS_LIST, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (list));
  list->bench = g_object_ref (bench);
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), list, 0);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), list, 0);
  update (list);
  return GTK_WIDGET (list);
}
