/* The stack of photos in the side pane: which one is shown, how strongly, and how far the motifs are faded over it. */
#include "photo-section.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "measure-field.h"

struct _HwPhotoSection
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *list; /* a choice for each photo, and none */
  char *said;      /* by the list */
  GtkWidget *told;
  GtkWidget *details;
  GtkWidget *square;
  GtkWidget *brightness, *strength, *fade;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwPhotoSection, hw_photo_section, GTK_TYPE_BOX)

static const HwPhoto *
shown_photo (HwPhotoSection *section)
{
  HwScene *scene = hw_bench_get_scene (section->bench);
  int shown = hw_scene_get_photo_shown (scene);

  return shown >= 0 ? g_ptr_array_index (hw_scene_get_photos (scene), (guint)shown) : NULL;
}

static void
choose_cb (GtkCheckButton *choice, HwPhotoSection *section)
{
  int index = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (choice), "photo")) - 1;

  if (section->updating || !gtk_check_button_get_active (choice) || hw_bench_is_editing (section->bench))
    return;
  hw_bench_show_photo (section->bench, index);
}

static GtkWidget *
add_choice (HwPhotoSection *section, GtkWidget *group, const char *text, int index)
{
  GtkWidget *choice = gtk_check_button_new_with_label (text);

  if (group != NULL)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (choice), GTK_CHECK_BUTTON (group));
  g_object_set_data (G_OBJECT (choice), "photo", GINT_TO_POINTER (index + 1));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choice),
                               hw_scene_get_photo_shown (hw_bench_get_scene (section->bench)) == index);
  g_signal_connect (choice, "toggled", G_CALLBACK (choose_cb), section);
  gtk_box_append (GTK_BOX (section->list), choice);
  return choice;
}

static char *
photo_text (const HwPhoto *photo)
{
  g_autofree char *text = photo->taken != NULL
                              ? g_strdup_printf (_ ("%s, taken %s"), photo->name, photo->taken)
                              : g_strdup (photo->name);

  return photo->n_points >= 4 ? g_steal_pointer (&text) : g_strdup_printf (_ ("%s, not square yet"), text);
}

/* What the list says, with the choice; a list that says the same is left alone, or a choice with the keys in it would go. */
static char *
list_text (HwPhotoSection *section)
{
  HwScene *scene = hw_bench_get_scene (section->bench);
  GPtrArray *photos = hw_scene_get_photos (scene);
  GString *said = g_string_new (NULL);

  g_string_printf (said, "%d", hw_scene_get_photo_shown (scene));
  for (guint i = 0; i < photos->len; i++)
    {
      g_autofree char *text = photo_text (g_ptr_array_index (photos, i));
      g_string_append_printf (said, "\n%s", text);
    }
  return g_string_free (said, FALSE);
}

static void
update_list (HwPhotoSection *section)
{
  GPtrArray *photos = hw_scene_get_photos (hw_bench_get_scene (section->bench));
  g_autofree char *said = list_text (section);
  GtkWidget *child, *group;

  if (g_strcmp0 (said, section->said) == 0)
    return;
  g_free (section->said);
  section->said = g_steal_pointer (&said);
  while ((child = gtk_widget_get_first_child (section->list)) != NULL)
    gtk_box_remove (GTK_BOX (section->list), child);
  if (photos->len == 0)
    return;
  group = add_choice (section, NULL, _ ("No photo shown"), -1);
  for (guint i = 0; i < photos->len; i++)
    {
      g_autofree char *text = photo_text (g_ptr_array_index (photos, i));
      add_choice (section, group, text, (int)i);
    }
}

static void
update (HwPhotoSection *section)
{
  const HwPhoto *photo = shown_photo (section);
  gboolean any = hw_scene_get_photos (hw_bench_get_scene (section->bench))->len > 0;

  section->updating = TRUE;
  update_list (section);
  gtk_widget_set_visible (section->list, any);
  gtk_widget_set_visible (section->told, !any);
  gtk_widget_set_visible (section->details, photo != NULL);
  if (photo != NULL)
    {
      gtk_button_set_label (GTK_BUTTON (section->square),
                            photo->n_points >= 4 ? _ ("Put square again…") : _ ("Put square…"));
      gtk_range_set_value (GTK_RANGE (section->brightness), photo->brightness);
      gtk_range_set_value (GTK_RANGE (section->strength), photo->strength);
      gtk_range_set_value (GTK_RANGE (section->fade),
                           hw_scene_get_photo_fade (hw_bench_get_scene (section->bench)));
    }
  section->updating = FALSE;
}

static gboolean
update_idle_cb (gpointer user_data)
{
  HwPhotoSection *section = user_data;

  if (section->bench != NULL)
    update (section);
  return G_SOURCE_REMOVE;
}

/* A choice that is just being made is not taken away under the hand. */
static void
scene_changed_cb (HwBench *bench, guint flags, HwPhotoSection *section)
{
  if (flags & HW_SCENE_CHANGE_PHOTOS)
    g_idle_add_full (G_PRIORITY_DEFAULT, update_idle_cb, g_object_ref (section), g_object_unref);
}

static void
look_cb (GtkRange *range, HwPhotoSection *section)
{
  int shown = hw_scene_get_photo_shown (hw_bench_get_scene (section->bench));

  if (section->updating || shown < 0 || hw_bench_is_editing (section->bench))
    return;
  hw_bench_set_photo_look (section->bench, (guint)shown,
                           gtk_range_get_value (GTK_RANGE (section->brightness)),
                           gtk_range_get_value (GTK_RANGE (section->strength)));
}

static void
fade_cb (GtkRange *range, HwPhotoSection *section)
{
  if (!section->updating && !hw_bench_is_editing (section->bench))
    hw_bench_set_photo_fade (section->bench, gtk_range_get_value (range));
}

static void
hw_photo_section_dispose (GObject *object)
{
  g_clear_object (&HW_PHOTO_SECTION (object)->bench);
  G_OBJECT_CLASS (hw_photo_section_parent_class)->dispose (object);
}

static void
hw_photo_section_finalize (GObject *object)
{
  g_free (HW_PHOTO_SECTION (object)->said);
  G_OBJECT_CLASS (hw_photo_section_parent_class)->finalize (object);
}

static void
hw_photo_section_class_init (HwPhotoSectionClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_photo_section_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_photo_section_finalize;
}

static void
hw_photo_section_init (HwPhotoSection *section)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (section), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (section), 12);
  gtk_widget_add_css_class (GTK_WIDGET (section), "facts");
}

/* Turning the wheel to move through the pane must not change what the slider says. */
static void
ignore_wheel (GtkWidget *scale)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (scale);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
        gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_NONE);
    }
}

static GtkWidget *
slider (HwPhotoSection *section, const char *caption, double least, GCallback changed)
{
  GtkWidget *scale = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, least, 1, 0.05);

  gtk_scale_set_draw_value (GTK_SCALE (scale), FALSE);
  if (least < 0)
    {
      gtk_scale_set_has_origin (GTK_SCALE (scale), FALSE);
      gtk_scale_add_mark (GTK_SCALE (scale), 0, GTK_POS_BOTTOM, NULL);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (scale), GTK_ACCESSIBLE_PROPERTY_LABEL, caption, -1);
  ignore_wheel (scale);
  g_signal_connect (scale, "value-changed", changed, section);
  gtk_box_append (GTK_BOX (section->details), hw_captioned (caption, scale));
  return scale;
}

static GtkWidget *
button (const char *label, const char *action)
{
  GtkWidget *made = gtk_button_new_with_label (label);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (made), action);
  gtk_widget_set_hexpand (made, TRUE);
  return made;
}

GtkWidget *
hw_photo_section_new (HwBench *bench)
{
  HwPhotoSection *section = g_object_new (HW_TYPE_PHOTO_SECTION, NULL);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (section));
  section->bench = g_object_ref (bench);

  section->told
      = gtk_label_new (_ ("A photo of the cloth, put square, lies under the motifs in its true size."));
  hw_wrap_words (section->told);
  gtk_label_set_xalign (GTK_LABEL (section->told), 0);
  section->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  section->details = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  section->square = button (_ ("Put square…"), "win.square-photo");
  gtk_box_append (GTK_BOX (section->details), section->square);
  gtk_box_append (GTK_BOX (buttons), button (_ ("Rename…"), "win.rename-photo"));
  gtk_box_append (GTK_BOX (buttons), button (_ ("Take away"), "win.delete-photo"));
  gtk_box_append (GTK_BOX (section->details), buttons);
  section->brightness = slider (section, _ ("Brightness of the photo"), -1, G_CALLBACK (look_cb));
  section->strength = slider (section, _ ("Strength of the photo"), 0, G_CALLBACK (look_cb));
  section->fade = slider (section, _ ("Fade the motifs over it"), 0, G_CALLBACK (fade_cb));
  gtk_box_append (GTK_BOX (section), section->told);
  gtk_box_append (GTK_BOX (section), section->list);
  gtk_box_append (GTK_BOX (section), section->details);
  gtk_box_append (GTK_BOX (section), button (_ ("Add a photo…"), "win.add-photo"));

  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), section, 0);
  update (section);
  return GTK_WIDGET (section);
}
