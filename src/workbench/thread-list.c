/* A motif's thread blocks in stitching order. Rows are kept while only their contents change, so that typing is never
 * interrupted. */
#include "thread-list.h"

#include <glib/gi18n.h>

#include "../geometry/one-line.h"
#include "measure-field.h"

struct _HwThreadList
{
  GtkBox parent_instance;

  HwBench *bench;
  HwSceneMotif *motif;
  GtkWidget *rows;
  GtkWidget *add;
  GPtrArray *lines; /* Line, owned */
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwThreadList, hw_thread_list, GTK_TYPE_BOX)

/* The controls of one thread block. */
typedef struct
{
  HwThreadList *list;
  guint index;
  GtkWidget *box;
  GtkWidget *colour;
  GtkWidget *name;
  GtkWidget *stitches;
} Line;

/* What an edit does to a copy of the blocks. */
typedef void (*ThreadEdit) (GArray *blocks, guint index, gconstpointer value);

static void
edit (HwThreadList *list, const char *verb, guint index, ThreadEdit call, gconstpointer value)
{
  const HwMotif *record = hw_scene_motif_get_record (list->motif);
  g_autoptr (HwMotif) copy = hw_motif_copy (record);
  g_autoptr (GArray) blocks = g_array_new (FALSE, TRUE, sizeof (HwThreadBlock));
  g_autofree char *name = g_strdup_printf ("%s %s", verb, record->name);

  if (record->n_threads > 0)
    g_array_append_vals (blocks, record->threads, record->n_threads);
  call (blocks, index, value);
  hw_motif_set_threads (copy, (const HwThreadBlock *)(gpointer)blocks->data, blocks->len);
  hw_bench_begin_edit (list->bench, name, TRUE);
  hw_scene_motif_set_record (list->motif, copy);
  hw_bench_end_edit (list->bench);
}

static void
set_name (GArray *blocks, guint index, gconstpointer value)
{
  g_array_index (blocks, HwThreadBlock, index).name = (char *)value;
}

static void
set_colour (GArray *blocks, guint index, gconstpointer value)
{
  g_array_index (blocks, HwThreadBlock, index).colour = *(const HwColour *)value;
}

static void
set_stitches (GArray *blocks, guint index, gconstpointer value)
{
  g_array_index (blocks, HwThreadBlock, index).stitches = (guint) * (const double *)value;
}

static void
append_block (GArray *blocks, guint index, gconstpointer value)
{
  HwThreadBlock block = { .name = (char *)value, .colour = { 0.55, 0.5, 0.42 } };

  g_array_append_val (blocks, block);
}

static void
remove_block (GArray *blocks, guint index, gconstpointer value)
{
  g_array_remove_index (blocks, index);
}

static void
name_cb (GtkEditable *editable, Line *line)
{
  g_autofree char *name = hw_one_line_name (gtk_editable_get_text (editable));

  if (!line->list->updating)
    edit (line->list, _ ("rename a thread of"), line->index, set_name, name);
}

static void
colour_cb (GtkColorButton *button, GParamSpec *pspec, Line *line)
{
  GdkRGBA rgba;

  if (line->list->updating)
    return;
  gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (button), &rgba);
  HwColour colour = { rgba.red, rgba.green, rgba.blue };
  edit (line->list, _ ("recolour a thread of"), line->index, set_colour, &colour);
}

static void
stitches_cb (HwMeasureField *field, double value, Line *line)
{
  edit (line->list, _ ("change the stitches of"), line->index, set_stitches, &value);
}

static void
remove_cb (GtkButton *button, Line *line)
{
  edit (line->list, _ ("take a thread from"), line->index, remove_block, NULL);
}

static void
add_cb (GtkButton *button, HwThreadList *list)
{
  if (list->motif != NULL)
    edit (list, _ ("add a thread to"), 0, append_block, _ ("new thread"));
}

static Line *
line_new (HwThreadList *list, guint index)
{
  Line *line = g_new0 (Line, 1);
  GtkWidget *remove = gtk_button_new_from_icon_name ("hw-less-symbolic");

  line->list = list;
  line->index = index;
  line->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_add_css_class (line->box, "thread-line");

  line->colour = gtk_color_button_new ();
  gtk_color_button_set_title (GTK_COLOR_BUTTON (line->colour), _ ("Colour of the thread"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (line->colour), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Colour of the thread"), -1);
  line->name = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (line->name), 6);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (line->name), 12);
  gtk_widget_set_hexpand (line->name, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (line->name), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the thread"), -1);
  line->stitches = hw_measure_field_new (list->bench, HW_MEASURE_COUNT, _ ("Stitches in this thread"), 0,
                                         HW_MOST_STITCHES);
  gtk_widget_set_tooltip_text (line->stitches, _ ("Stitches in this thread"));
  gtk_widget_set_tooltip_text (remove, _ ("Take this thread away"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Take this thread away"), -1);
  gtk_widget_add_css_class (remove, "flat");

  gtk_box_append (GTK_BOX (line->box), line->colour);
  gtk_box_append (GTK_BOX (line->box), line->name);
  gtk_box_append (GTK_BOX (line->box), line->stitches);
  gtk_box_append (GTK_BOX (line->box), remove);
  g_signal_connect (line->name, "changed", G_CALLBACK (name_cb), line);
  g_signal_connect (line->colour, "notify::rgba", G_CALLBACK (colour_cb), line);
  g_signal_connect (line->stitches, "edited", G_CALLBACK (stitches_cb), line);
  g_signal_connect (remove, "clicked", G_CALLBACK (remove_cb), line);
  gtk_box_append (GTK_BOX (list->rows), line->box);
  return line;
}

static void
line_free (gpointer data)
{
  Line *line = data;

  gtk_box_remove (GTK_BOX (line->list->rows), line->box);
  g_free (line);
}

static void
line_show (Line *line, const HwThreadBlock *block)
{
  GdkRGBA rgba = { (float)block->colour.red, (float)block->colour.green, (float)block->colour.blue, 1 };

  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (line->name)), block->name) != 0)
    gtk_editable_set_text (GTK_EDITABLE (line->name), block->name != NULL ? block->name : "");
  gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (line->colour), &rgba);
  hw_measure_field_set_value (HW_MEASURE_FIELD (line->stitches), block->stitches);
}

static void
update (HwThreadList *list)
{
  const HwMotif *record = list->motif != NULL ? hw_scene_motif_get_record (list->motif) : NULL;
  guint n = record != NULL ? record->n_threads : 0;

  list->updating = TRUE;
  g_ptr_array_set_size (list->lines, (int)MIN (list->lines->len, n));
  while (list->lines->len < n)
    g_ptr_array_add (list->lines, line_new (list, list->lines->len));
  for (guint i = 0; i < n; i++)
    line_show (g_ptr_array_index (list->lines, i), &record->threads[i]);
  list->updating = FALSE;
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwThreadList *list)
{
  if (flags & HW_SCENE_CHANGE_THREADS)
    update (list);
}

static void
hw_thread_list_dispose (GObject *object)
{
  HwThreadList *list = HW_THREAD_LIST (object);

  g_ptr_array_set_size (list->lines, 0);
  g_clear_object (&list->motif);
  g_clear_object (&list->bench);
  G_OBJECT_CLASS (hw_thread_list_parent_class)->dispose (object);
}

static void
hw_thread_list_finalize (GObject *object)
{
  g_ptr_array_unref (HW_THREAD_LIST (object)->lines);
  G_OBJECT_CLASS (hw_thread_list_parent_class)->finalize (object);
}

static void
hw_thread_list_class_init (HwThreadListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_thread_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_thread_list_finalize;
}

static void
hw_thread_list_init (HwThreadList *list)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (list), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (list), 6);
  list->lines = g_ptr_array_new_with_free_func (line_free);
  list->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (list), list->rows);
  list->add = gtk_button_new_with_label (_ ("Add a thread"));
  gtk_widget_set_halign (list->add, GTK_ALIGN_START);
  gtk_widget_add_css_class (list->add, "flat");
  g_signal_connect (list->add, "clicked", G_CALLBACK (add_cb), list);
  gtk_box_append (GTK_BOX (list), list->add);
}

GtkWidget *
hw_thread_list_new (HwBench *bench)
{
  HwThreadList *list = g_object_new (HW_TYPE_THREAD_LIST, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (list));
  list->bench = g_object_ref (bench);
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), list, 0);
  return GTK_WIDGET (list);
}

void
hw_thread_list_set_motif (HwThreadList *list, HwSceneMotif *motif)
{
  g_return_if_fail (HW_IS_THREAD_LIST (list));

  g_set_object (&list->motif, motif);
  update (list);
}
