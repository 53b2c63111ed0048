/* Asks for the figures of a row, a round or a tuck. Every figure is tried on the cloth at once, as an edit under way; taking it ends
 * the edit as one step, closing the slip in any other way takes it back. It hangs at the table's right side, over the side pane, so
 * that the cloth is seen. */
#include "arrange-dialog.h"

#include <glib/gi18n.h>

#include "../scene/records.h"
#include "dialog.h"
#include "measure-field.h"

#define WIDTH 290      /* px: with what is around it no wider than the side pane */
#define WORDS_WIDTH 32 /* letters */
#define TOLD_WIDTH 26  /* letters, larger ones */
#define FIRST_GAP 5.0
#define FIRST_DEPTH 3.0
#define FAR 20000 /* mm: farther than any cloth */

typedef struct
{
  HwBench *bench;
  GtkWidget *slip;
  HwArrangement arrangement;
  char *pair[2]; /* of a tuck: ids */
  char **ids;    /* to select once it is taken */
  GtkWidget *told, *take;
  gboolean over;    /* taken, or closed: a figure that is still being left changes nothing */
  GtkWidget *first; /* field the typing begins in */
} Dialog;

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  g_strfreev (dialog->ids);
  g_free (dialog->pair[0]);
  g_free (dialog->pair[1]);
  g_object_unref (dialog->bench);
  g_free (dialog);
}

static GtkWidget *
words (const char *text)
{
  GtkWidget *label = hw_dialog_words (text);

  gtk_label_set_max_width_chars (GTK_LABEL (label), WORDS_WIDTH);
  return label;
}

static const char *
name_of (Dialog *dialog, const char *id)
{
  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (dialog->bench), id);

  return motif != NULL ? hw_scene_motif_get_record (motif)->name : "";
}

/* What is said of a tuck that can be: who lies over whom from now on. */
static char *
tuck_words (Dialog *dialog)
{
  const HwArrangement *tuck = &dialog->arrangement;
  HwScene *scene = hw_bench_get_scene (dialog->bench);
  int motif = hw_scene_index_of (scene, hw_scene_find_motif (scene, tuck->motif));
  int neighbour = hw_scene_index_of (scene, hw_scene_find_motif (scene, tuck->neighbour));

  if (motif < neighbour)
    return g_strdup_printf (_ ("%s lies behind %s, and is stitched before it."),
                            name_of (dialog, tuck->motif), name_of (dialog, tuck->neighbour));
  return g_strdup_printf (_ ("%s lies over %s, which is held where it is."), name_of (dialog, tuck->motif),
                          name_of (dialog, tuck->neighbour));
}

static void
try_it (Dialog *dialog)
{
  g_autofree char *said = NULL;
  gboolean done;

  if (dialog->over)
    return;
  g_clear_pointer (&dialog->ids, g_strfreev);
  done = hw_bench_try_arrangement (dialog->bench, &dialog->arrangement, &dialog->ids, &said);
  if (done && dialog->arrangement.kind == HW_ARRANGE_TUCK)
    said = tuck_words (dialog);
  gtk_label_set_label (GTK_LABEL (dialog->told), said != NULL ? said : "");
  gtk_widget_set_visible (dialog->told, said != NULL);
  gtk_widget_set_sensitive (dialog->take, done);
}

static void
number_cb (HwMeasureField *field, double value, double *number)
{
  *number = value;
  try_it (g_object_get_data (G_OBJECT (field), "dialog"));
}

static void
count_cb (HwMeasureField *field, double value, Dialog *dialog)
{
  dialog->arrangement.count = (guint)value;
  try_it (dialog);
}

static void
turned_cb (GtkCheckButton *check, Dialog *dialog)
{
  dialog->arrangement.turned = gtk_check_button_get_active (check);
  try_it (dialog);
}

static void
slides_cb (GtkDropDown *choice, GParamSpec *pspec, Dialog *dialog)
{
  guint chosen = gtk_drop_down_get_selected (choice);

  if (chosen > 1)
    return;
  dialog->arrangement.motif = dialog->pair[chosen];
  dialog->arrangement.neighbour = dialog->pair[1 - chosen];
  try_it (dialog);
}

static void
take_cb (GtkButton *button, Dialog *dialog)
{
  g_auto (GStrv) ids = g_steal_pointer (&dialog->ids);

  dialog->over = TRUE;
  hw_bench_end_edit (dialog->bench);
  if (ids != NULL)
    hw_bench_select_ids (dialog->bench, (const char *const *)ids);
  gtk_popover_popdown (GTK_POPOVER (dialog->slip));
}

static void
cancel_cb (GtkButton *button, Dialog *dialog)
{
  gtk_popover_popdown (GTK_POPOVER (dialog->slip));
}

static gboolean
drop_cb (gpointer slip)
{
  if (gtk_widget_get_parent (slip) != NULL)
    gtk_widget_unparent (slip);
  return G_SOURCE_REMOVE;
}

/* What was taken is no longer an edit; what was not goes back. */
static void
closed_cb (GtkPopover *slip, Dialog *dialog)
{
  if (!dialog->over)
    hw_bench_cancel_edit (dialog->bench);
  dialog->over = TRUE;
  g_idle_add_full (G_PRIORITY_LOW, drop_cb, g_object_ref (slip), g_object_unref);
}

static GtkWidget *
number_field (
    Dialog *dialog, HwMeasure measure, const char *caption, double least, double most, double *number)
{
  GtkWidget *field = hw_measure_field_new (dialog->bench, measure, caption, least, most);

  hw_measure_field_set_value (HW_MEASURE_FIELD (field), *number);
  g_object_set_data (G_OBJECT (field), "dialog", dialog);
  g_signal_connect (field, "edited", G_CALLBACK (number_cb), number);
  if (dialog->first == NULL)
    dialog->first = field;
  return hw_captioned (caption, field);
}

static GtkWidget *
count_field (Dialog *dialog)
{
  const char *caption = _ ("How many in all");
  GtkWidget *field
      = hw_measure_field_new (dialog->bench, HW_MEASURE_COUNT, caption, 2,
                              MAX (2, HW_ARRANGE_MOST / hw_bench_get_n_selected (dialog->bench)));

  hw_measure_field_set_value (HW_MEASURE_FIELD (field), dialog->arrangement.count);
  g_signal_connect (field, "edited", G_CALLBACK (count_cb), dialog);
  dialog->first = field;
  return hw_captioned (caption, field);
}

static GtkWidget *
gap_and_direction (Dialog *dialog)
{
  HwArrangement *row = &dialog->arrangement;
  GtkWidget *gap = number_field (dialog, HW_MEASURE_LENGTH, _ ("Gap between them"), -FAR, FAR, &row->gap);
  GtkWidget *direction = number_field (dialog, HW_MEASURE_ANGLE, _ ("Direction"), -360, 360, &row->direction);

  return hw_dialog_pair (gap, direction);
}

static const char *
direction_words (void)
{
  return _ ("Direction 0° leads to the right, 90° down. Gaps are measured along it; one below nothing lets "
            "them overlap.");
}

static void
fill_copies (Dialog *dialog, GtkBox *content)
{
  dialog->arrangement.count = 3;
  dialog->arrangement.gap = FIRST_GAP;
  gtk_box_append (content, count_field (dialog));
  gtk_box_append (content, gap_and_direction (dialog));
  gtk_box_append (content, words (direction_words ()));
}

static void
fill_row (Dialog *dialog, GtkBox *content)
{
  hw_bench_row_now (dialog->bench, &dialog->arrangement.direction, &dialog->arrangement.gap);
  gtk_box_append (content, words (_ ("The first of them stays; the others follow it with equal gaps.")));
  gtk_box_append (content, gap_and_direction (dialog));
  gtk_box_append (content, words (direction_words ()));
}

static void
fill_around (Dialog *dialog, GtkBox *content)
{
  HwArrangement *around = &dialog->arrangement;
  HwBox edge = hw_bench_edge_box (dialog->bench, FALSE);
  GtkWidget *turned = gtk_check_button_new_with_label (_ ("Each is turned with the round"));

  around->count = 6;
  around->turned = TRUE;
  around->centre = (HwPoint){ (edge.x0 + edge.x1) / 2, (edge.y0 + edge.y1) / 2 };
  gtk_check_button_set_active (GTK_CHECK_BUTTON (turned), TRUE);
  g_signal_connect (turned, "toggled", G_CALLBACK (turned_cb), dialog);
  gtk_box_append (content, count_field (dialog));
  gtk_box_append (content, turned);
  gtk_box_append (
      content,
      words (_ ("The centre is the middle of the edge line, unless you type another place of the cloth.")));
  gtk_box_append (
      content,
      hw_dialog_pair (
          number_field (dialog, HW_MEASURE_LENGTH, _ ("Centre from the left"), -FAR, FAR, &around->centre.x),
          number_field (dialog, HW_MEASURE_LENGTH, _ ("Centre from the top"), -FAR, FAR, &around->centre.y)));
}

static GtkWidget *
slides_field (Dialog *dialog)
{
  const char *names[3] = { name_of (dialog, dialog->pair[0]), name_of (dialog, dialog->pair[1]), NULL };
  GtkWidget *choice = gtk_drop_down_new_from_strings (names);

  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Which one slides"), -1);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (slides_cb), dialog);
  return hw_captioned (_ ("Which one slides"), choice);
}

static void
fill_tuck (Dialog *dialog, GtkBox *content)
{
  HwArrangement *tuck = &dialog->arrangement;
  HwSceneMotif *neighbour = hw_scene_find_motif (hw_bench_get_scene (dialog->bench), dialog->pair[1]);
  double now;
  g_autofree char *what = NULL;

  tuck->motif = dialog->pair[0];
  tuck->neighbour = dialog->pair[1];
  tuck->depth = FIRST_DEPTH;
  what = g_strdup_printf (_ ("%s slides along the line between its middle and that of %s."),
                          name_of (dialog, tuck->motif), name_of (dialog, tuck->neighbour));
  gtk_box_append (content, words (what));
  if (hw_bench_tuck_depth (dialog->bench, tuck->motif, tuck->neighbour, &now))
    {
      g_autofree char *length = hw_length_text (ABS (now), hw_bench_get_unit (dialog->bench));
      g_autofree char *so_far = g_strdup_printf (
          now >= 0 ? _ ("So far it reaches over by %s.") : _ ("So far it lies off by %s."), length);
      /* What reaches over already stays there until another figure is typed. */
      if (now > 0)
        tuck->depth = now;
      gtk_box_append (content, words (so_far));
    }
  gtk_box_append (
      content, number_field (dialog, HW_MEASURE_LENGTH, _ ("How far it reaches over"), 0, FAR, &tuck->depth));
  if (hw_bench_may_arrange (dialog->bench, hw_scene_motif_get_record (neighbour)))
    gtk_box_append (content, slides_field (dialog));
}

static const char *
title_of (HwArrangeKind kind)
{
  switch (kind)
    {
    case HW_ARRANGE_COPIES:
      return _ ("Copies in a row");
    case HW_ARRANGE_ROW:
      return _ ("Put in a row");
    case HW_ARRANGE_AROUND:
      return _ ("Copies around a centre");
    case HW_ARRANGE_TUCK:
      return _ ("Tuck behind");
    default:
      g_assert_not_reached ();
    }
}

static gboolean
is_possible (Dialog *dialog)
{
  const HwMotif *motif, *neighbour;

  switch (dialog->arrangement.kind)
    {
    case HW_ARRANGE_ROW:
      return hw_bench_count_arrangeable (dialog->bench) > 1;
    case HW_ARRANGE_TUCK:
      if (!hw_bench_tuck_pair (dialog->bench, &motif, &neighbour))
        return FALSE;
      dialog->pair[0] = g_strdup (motif->id);
      dialog->pair[1] = g_strdup (neighbour->id);
      return TRUE;
    default:
      return hw_bench_get_n_selected (dialog->bench) > 0;
    }
}

static void
fill (Dialog *dialog, GtkBox *content)
{
  static void (*const fills[]) (Dialog *, GtkBox *) = { fill_copies, fill_row, fill_around, fill_tuck };

  fills[dialog->arrangement.kind](dialog, content);
}

static GtkWidget *
heading (const char *title)
{
  GtkWidget *label = gtk_label_new (title);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dialog-heading");
  return label;
}

static GtkWidget *
make_foot (Dialog *dialog)
{
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *cancel = gtk_button_new_with_label (_ ("Leave as it was"));

  dialog->take = gtk_button_new_with_label (_ ("Take it"));
  gtk_widget_add_css_class (dialog->take, "suggested-action");
  g_signal_connect (cancel, "clicked", G_CALLBACK (cancel_cb), dialog);
  g_signal_connect (dialog->take, "clicked", G_CALLBACK (take_cb), dialog);
  gtk_box_append (GTK_BOX (foot), cancel);
  gtk_box_append (GTK_BOX (foot), dialog->take);
  return foot;
}

static void
hang (Dialog *dialog, GtkWidget *table, GtkWidget *content, const char *title)
{
  dialog->slip = gtk_popover_new ();
  gtk_widget_set_parent (dialog->slip, table);
  gtk_popover_set_child (GTK_POPOVER (dialog->slip), content);
  gtk_popover_set_position (GTK_POPOVER (dialog->slip), GTK_POS_RIGHT);
  gtk_popover_set_pointing_to (
      GTK_POPOVER (dialog->slip),
      &(GdkRectangle){ gtk_widget_get_width (table) - 1, gtk_widget_get_height (table) / 3, 1, 1 });
  gtk_accessible_update_property (GTK_ACCESSIBLE (dialog->slip), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  g_object_set_data_full (G_OBJECT (dialog->slip), "dialog", dialog, dialog_free);
  g_signal_connect (dialog->slip, "closed", G_CALLBACK (closed_cb), dialog);
  /* The table may go while the slip is open. */
  g_signal_connect_object (table, "destroy", G_CALLBACK (drop_cb), dialog->slip, G_CONNECT_SWAPPED);
}

void
hw_arrange_dialog_show (GtkWidget *table, HwBench *bench, HwArrangeKind kind)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Dialog *dialog = g_new0 (Dialog, 1);
  GtkWidget *content;

  dialog->bench = g_object_ref (bench);
  dialog->arrangement.kind = kind;
  if (!is_possible (dialog))
    {
      dialog_free (dialog);
      return;
    }
  content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gtk_widget_set_size_request (content, WIDTH, -1);
  gtk_widget_add_css_class (content, "figures");
  gtk_box_append (GTK_BOX (content), heading (title_of (kind)));
  fill (dialog, GTK_BOX (content));
  dialog->told = words (NULL);
  gtk_label_set_max_width_chars (GTK_LABEL (dialog->told), TOLD_WIDTH);
  gtk_widget_add_css_class (dialog->told, "told");
  gtk_box_append (GTK_BOX (content), dialog->told);
  gtk_box_append (GTK_BOX (content), make_foot (dialog));
  hang (dialog, table, content, title_of (kind));
  try_it (dialog);
  gtk_popover_popup (GTK_POPOVER (dialog->slip));
  gtk_widget_child_focus (dialog->first, GTK_DIR_TAB_FORWARD);
}
