/* The dialog for the hoops a person owns: a list at the left, the measures of the chosen one at the right. */
#include "hoops-dialog.h"

#include <glib/gi18n.h>

#include "../geometry/one-line.h"
#include "../scene/limits.h"
#include "dialog.h"
#include "help-place.h"
#include "measure-field.h"
#include "new-scene.h"
#include "own-hoops.h"

/* What the dialog is made of; freed with its window. */
typedef struct
{
  HwBench *bench;
  HwSceneHoop *hoop; /* the chosen one */
  GtkWidget *list;
  GtkWidget *fields;
  GtkWidget *name;
  GtkWidget *field_width;
  GtkWidget *field_height;
  GtkWidget *frame_width;
  GtkWidget *frame_height;
  GtkWidget *clearance;
  GtkWidget *turn;
  GtkWidget *aside;
  GtkWidget *remove;
  gulong changed_id;
  gboolean updating;
} Hoops;

/* A hoop with sensible measures to start from. Returns: (transfer full) */
static HwHoop *
hoop_to_start_from (HwScene *scene, double field_width, double field_height)
{
  GListModel *hoops = hw_scene_get_hoops (scene);
  HwHoop *hoop = hw_hoop_of_size (field_width, field_height);

  for (guint n = 1;; n++)
    {
      gboolean taken = FALSE;

      g_free (hoop->id);
      hoop->id = g_strdup_printf ("h%u", n);
      for (guint i = 0; i < g_list_model_get_n_items (hoops) && !taken; i++)
        {
          g_autoptr (HwSceneHoop) other = g_list_model_get_item (hoops, i);
          taken = g_str_equal (hw_scene_hoop_get_record (other)->id, hoop->id);
        }
      if (!taken)
        break;
    }
  return hoop;
}

static HwScene *
scene_of (Hoops *hoops)
{
  return hw_bench_get_scene (hoops->bench);
}

static void
show_fields (Hoops *hoops)
{
  gboolean any = hoops->hoop != NULL;

  gtk_widget_set_sensitive (hoops->fields, any);
  gtk_widget_set_sensitive (hoops->remove, any);
  if (!any)
    return;
  const HwHoop *record = hw_scene_hoop_get_record (hoops->hoop);
  hoops->updating = TRUE;
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (hoops->name)), record->name) != 0)
    gtk_editable_set_text (GTK_EDITABLE (hoops->name), record->name);
  hw_measure_field_set_value (HW_MEASURE_FIELD (hoops->field_width), record->field_width);
  hw_measure_field_set_value (HW_MEASURE_FIELD (hoops->field_height), record->field_height);
  hw_measure_field_set_value (HW_MEASURE_FIELD (hoops->frame_width), record->frame_width);
  hw_measure_field_set_value (HW_MEASURE_FIELD (hoops->frame_height), record->frame_height);
  hw_measure_field_set_value (HW_MEASURE_FIELD (hoops->clearance), record->clearance);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hoops->turn), (guint)record->turn);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hoops->aside), record->set_aside);
  hoops->updating = FALSE;
}

static GtkWidget *
row_for (gpointer item, gpointer user_data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  g_object_bind_property (item, "name", label, "label", G_BINDING_SYNC_CREATE);
  return label;
}

static void
row_selected_cb (GtkListBox *list, GtkListBoxRow *row, Hoops *hoops)
{
  g_autoptr (HwSceneHoop) hoop = NULL;

  if (row != NULL)
    hoop = g_list_model_get_item (hw_scene_get_hoops (scene_of (hoops)),
                                  (guint)gtk_list_box_row_get_index (row));
  g_set_object (&hoops->hoop, hoop);
  show_fields (hoops);
}

static void
select_row (Hoops *hoops, int index)
{
  gtk_list_box_select_row (GTK_LIST_BOX (hoops->list),
                           gtk_list_box_get_row_at_index (GTK_LIST_BOX (hoops->list), index));
}

/* Puts a changed copy in the hoop's place. The frame is never smaller than its field, and the clearance leaves some of it. */
static void
change (Hoops *hoops, HwHoop *copy)
{
  const HwHoop *record = hw_scene_hoop_get_record (hoops->hoop);
  g_autofree char *old_name = hw_hoop_size_name (record->field_width, record->field_height);
  g_autofree char *step = NULL;

  if (g_str_equal (copy->name, old_name))
    {
      g_free (copy->name);
      copy->name = hw_hoop_size_name (copy->field_width, copy->field_height);
    }
  copy->frame_width = MAX (copy->frame_width, copy->field_width);
  copy->frame_height = MAX (copy->frame_height, copy->field_height);
  copy->clearance = MIN (copy->clearance, MIN (copy->field_width, copy->field_height) / 2 - 1);
  step = g_strdup_printf (_ ("change the hoop %s"), copy->name);
  hw_bench_begin_edit (hoops->bench, step, TRUE);
  hw_scene_hoop_set_record (hoops->hoop, copy);
  hw_own_hoops_take_measures (copy);
  hw_bench_end_edit (hoops->bench);
}

static void
measure_cb (HwMeasureField *field, double value, Hoops *hoops)
{
  g_autoptr (HwHoop) copy = NULL;
  GtkWidget *widget = GTK_WIDGET (field);

  if (hoops->hoop == NULL)
    return;
  copy = hw_hoop_copy (hw_scene_hoop_get_record (hoops->hoop));
  /* Rings keep their width: a larger field has a larger frame. */
  if (widget == hoops->field_width)
    {
      copy->frame_width += value - copy->field_width;
      copy->field_width = value;
    }
  else if (widget == hoops->field_height)
    {
      copy->frame_height += value - copy->field_height;
      copy->field_height = value;
    }
  else if (widget == hoops->frame_width)
    copy->frame_width = value;
  else if (widget == hoops->frame_height)
    copy->frame_height = value;
  else
    copy->clearance = value;
  change (hoops, copy);
}

static void
name_cb (GtkEditable *editable, Hoops *hoops)
{
  const char *text = gtk_editable_get_text (editable);

  if (hoops->updating || hoops->hoop == NULL || *text == '\0')
    return;
  g_autoptr (HwHoop) copy = hw_hoop_copy (hw_scene_hoop_get_record (hoops->hoop));
  g_free (copy->name);
  copy->name = hw_one_line_name (text);
  change (hoops, copy);
}

static void
turn_cb (GtkDropDown *drop_down, GParamSpec *pspec, Hoops *hoops)
{
  if (hoops->updating || hoops->hoop == NULL)
    return;
  g_autoptr (HwHoop) copy = hw_hoop_copy (hw_scene_hoop_get_record (hoops->hoop));
  copy->turn = gtk_drop_down_get_selected (drop_down) == 1 ? HW_TURN_QUARTER : HW_TURN_ANY;
  change (hoops, copy);
}

static void
aside_cb (GtkCheckButton *check, Hoops *hoops)
{
  if (!hoops->updating && hoops->hoop != NULL)
    hw_bench_set_hoop_aside (hoops->bench, hoops->hoop, gtk_check_button_get_active (check));
}

static void
add_cb (GtkButton *button, Hoops *hoops)
{
  g_autoptr (HwHoop) record = hoop_to_start_from (scene_of (hoops), 100, 100);
  g_autoptr (HwSceneHoop) hoop = hw_scene_hoop_new (record);

  hw_bench_begin_edit (hoops->bench, _ ("add a hoop"), FALSE);
  hw_scene_add_hoop (scene_of (hoops), hoop);
  hw_bench_end_edit (hoops->bench);
  select_row (hoops, (int)g_list_model_get_n_items (hw_scene_get_hoops (scene_of (hoops))) - 1);
  gtk_widget_grab_focus (hoops->name);
}

static void
remove_cb (GtkButton *button, Hoops *hoops)
{
  g_autoptr (HwSceneHoop) hoop = hoops->hoop != NULL ? g_object_ref (hoops->hoop) : NULL;

  if (hoop == NULL)
    return;
  g_autofree char *step
      = g_strdup_printf (_ ("take the hoop %s away"), hw_scene_hoop_get_record (hoop)->name);
  hw_bench_begin_edit (hoops->bench, step, FALSE);
  hw_scene_remove_hoop (scene_of (hoops), hoop);
  hw_bench_end_edit (hoops->bench);
  select_row (hoops, 0);
}

static void
scene_changed_cb (HwBench *bench, guint flags, Hoops *hoops)
{
  if (flags & HW_SCENE_CHANGE_HOOPS)
    show_fields (hoops);
}

static void
hoops_free (gpointer data)
{
  Hoops *hoops = data;

  g_clear_signal_handler (&hoops->changed_id, hoops->bench);
  g_clear_object (&hoops->hoop);
  g_object_unref (hoops->bench);
  g_free (hoops);
}

static GtkWidget *
length (Hoops *hoops, const char *label, double least)
{
  GtkWidget *field
      = hw_measure_field_new (hoops->bench, HW_MEASURE_LENGTH, label, least, HW_LARGEST_HOOP_TYPED);

  g_signal_connect (field, "edited", G_CALLBACK (measure_cb), hoops);
  return field;
}

static GtkWidget *
make_fields (Hoops *hoops)
{
  /* In the order of HwTurn. */
  const char *turns[] = { _ ("At any angle"), _ ("In quarter turns"), NULL };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);

  hoops->name = gtk_entry_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (hoops->name), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the hoop"), -1);
  g_signal_connect (hoops->name, "changed", G_CALLBACK (name_cb), hoops);
  hoops->field_width = length (hoops, _ ("Field width"), HW_SMALLEST_HOOP_TYPED);
  hoops->field_height = length (hoops, _ ("Field height"), HW_SMALLEST_HOOP_TYPED);
  hoops->frame_width = length (hoops, _ ("Frame width"), HW_SMALLEST_HOOP_TYPED);
  hoops->frame_height = length (hoops, _ ("Frame height"), HW_SMALLEST_HOOP_TYPED);
  hoops->clearance = length (hoops, _ ("Kept free inside the field"), 0);
  hoops->turn = gtk_drop_down_new_from_strings (turns);
  gtk_accessible_update_property (GTK_ACCESSIBLE (hoops->turn), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("How it may be turned"), -1);
  g_signal_connect (hoops->turn, "notify::selected", G_CALLBACK (turn_cb), hoops);

  gtk_box_append (GTK_BOX (box), hw_captioned (_ ("Name"), hoops->name));
  gtk_box_append (GTK_BOX (box),
                  hw_dialog_pair (hw_captioned (_ ("Sewing field, width"), hoops->field_width),
                                  hw_captioned (_ ("Sewing field, height"), hoops->field_height)));
  gtk_box_append (GTK_BOX (box),
                  hw_dialog_pair (hw_captioned (_ ("Frame outside, width"), hoops->frame_width),
                                  hw_captioned (_ ("Frame outside, height"), hoops->frame_height)));
  gtk_box_append (GTK_BOX (box), hw_dialog_pair (hw_captioned (_ ("Kept free inside"), hoops->clearance),
                                                 hw_captioned (_ ("Turned on the cloth"), hoops->turn)));
  hoops->aside = gtk_check_button_new_with_label (_ ("Set aside: not used for new hoopings"));
  g_signal_connect (hoops->aside, "toggled", G_CALLBACK (aside_cb), hoops);
  gtk_box_append (GTK_BOX (box), hoops->aside);
  return box;
}

static GtkWidget *
make_list (Hoops *hoops)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *add = gtk_button_new_with_label (_ ("Add a hoop"));

  hoops->list = gtk_list_box_new ();
  gtk_widget_add_css_class (hoops->list, "plain-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (hoops->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Your hoops"), -1);
  gtk_list_box_bind_model (GTK_LIST_BOX (hoops->list), hw_scene_get_hoops (scene_of (hoops)), row_for, NULL,
                           NULL);
  g_signal_connect (hoops->list, "row-selected", G_CALLBACK (row_selected_cb), hoops);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), hoops->list);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_widget_set_size_request (box, 200, -1);
  g_signal_connect (add, "clicked", G_CALLBACK (add_cb), hoops);
  gtk_box_append (GTK_BOX (box), scroller);
  gtk_box_append (GTK_BOX (box), add);
  return box;
}

static void
close_cb (GtkButton *button, GtkWindow *dialog)
{
  gtk_window_close (dialog);
}

void
hw_hoops_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Hoops *hoops = g_new0 (Hoops, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *close = gtk_button_new_with_label (_ ("Close"));

  hoops->bench = g_object_ref (bench);
  hoops->remove = gtk_button_new_with_label (_ ("Take this hoop away"));
  g_signal_connect (hoops->remove, "clicked", G_CALLBACK (remove_cb), hoops);
  hoops->fields = make_fields (hoops);
  gtk_box_append (GTK_BOX (columns), make_list (hoops));
  gtk_box_append (GTK_BOX (columns), hoops->fields);
  gtk_widget_set_vexpand (columns, TRUE);
  gtk_box_append (GTK_BOX (foot), hoops->remove);
  gtk_box_append (GTK_BOX (foot), close);
  gtk_box_append (GTK_BOX (content), columns);
  gtk_box_append (GTK_BOX (content), foot);
  hoops->changed_id = g_signal_connect (bench, "scene-changed", G_CALLBACK (scene_changed_cb), hoops);

  GtkWindow *dialog = hw_dialog_new (parent, _ ("Hoops"), content, 680, 480);
  hw_help_mark (dialog, "own-scene");
  g_object_set_data_full (G_OBJECT (dialog), "hoops", hoops, hoops_free);
  g_signal_connect (close, "clicked", G_CALLBACK (close_cb), dialog);
  select_row (hoops, 0);
  show_fields (hoops);
  gtk_window_present (dialog);
}
