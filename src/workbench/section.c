/* A section of the side pane: a heading that folds what lies below it. */
#include "section.h"

struct _HwSection
{
  GtkBox parent_instance;

  GtkWidget *button;
  GtkWidget *icon;
  GtkWidget *label;
  GtkWidget *arrow;
  GtkWidget *content;
};

G_DEFINE_FINAL_TYPE (HwSection, hw_section, GTK_TYPE_BOX)

enum
{
  PROP_0,
  PROP_OPEN,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

static void
toggled_cb (GtkToggleButton *button, HwSection *section)
{
  gboolean open = gtk_toggle_button_get_active (button);

  gtk_widget_set_visible (section->content, open);
  gtk_image_set_from_icon_name (GTK_IMAGE (section->arrow), open ? "hw-down-symbolic" : "hw-on-symbolic");
  gtk_accessible_update_state (GTK_ACCESSIBLE (section->button), GTK_ACCESSIBLE_STATE_EXPANDED, open, -1);
  g_object_notify_by_pspec (G_OBJECT (section), properties[PROP_OPEN]);
}

static void
hw_section_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  if (prop_id == PROP_OPEN)
    g_value_set_boolean (value, hw_section_get_open (HW_SECTION (object)));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
hw_section_set_property (GObject *object, guint prop_id, const GValue *value, GParamSpec *pspec)
{
  if (prop_id == PROP_OPEN)
    hw_section_set_open (HW_SECTION (object), g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
hw_section_class_init (HwSectionClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = hw_section_get_property;
  object_class->set_property = hw_section_set_property;
  properties[PROP_OPEN] = g_param_spec_boolean (
      "open", NULL, NULL, TRUE, G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
hw_section_init (HwSection *section)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (section), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (section), "section");

  section->icon = g_object_new (GTK_TYPE_IMAGE, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_widget_set_visible (section->icon, FALSE);
  section->arrow = g_object_new (GTK_TYPE_IMAGE, "icon-name", "hw-down-symbolic", "accessible-role",
                                 GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_widget_add_css_class (section->arrow, "fold");
  section->label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (section->label), 0);
  gtk_label_set_wrap (GTK_LABEL (section->label), TRUE);
  gtk_widget_set_hexpand (section->label, TRUE);
  gtk_box_append (GTK_BOX (row), section->icon);
  gtk_box_append (GTK_BOX (row), section->label);
  gtk_box_append (GTK_BOX (row), section->arrow);

  section->button = gtk_toggle_button_new ();
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (section->button), TRUE);
  gtk_accessible_update_state (GTK_ACCESSIBLE (section->button), GTK_ACCESSIBLE_STATE_EXPANDED, TRUE, -1);
  gtk_button_set_child (GTK_BUTTON (section->button), row);
  gtk_widget_add_css_class (section->button, "flat");
  gtk_widget_add_css_class (section->button, "section-heading");
  g_signal_connect (section->button, "toggled", G_CALLBACK (toggled_cb), section);
  gtk_box_append (GTK_BOX (section), section->button);
}

GtkWidget *
hw_section_new (const char *heading, GtkWidget *child)
{
  HwSection *section = g_object_new (HW_TYPE_SECTION, NULL);

  g_return_val_if_fail (GTK_IS_WIDGET (child), GTK_WIDGET (section));
  section->content = child;
  gtk_box_append (GTK_BOX (section), child);
  hw_section_set_heading (section, heading);
  return GTK_WIDGET (section);
}

void
hw_section_set_icon (HwSection *section, const char *icon_name)
{
  g_return_if_fail (HW_IS_SECTION (section));

  gtk_image_set_from_icon_name (GTK_IMAGE (section->icon), icon_name);
  gtk_widget_set_visible (section->icon, icon_name != NULL);
}

void
hw_section_set_heading (HwSection *section, const char *heading)
{
  g_return_if_fail (HW_IS_SECTION (section));

  gtk_label_set_label (GTK_LABEL (section->label), heading);
  gtk_accessible_update_property (GTK_ACCESSIBLE (section->button), GTK_ACCESSIBLE_PROPERTY_LABEL, heading,
                                  -1);
}

void
hw_section_set_open (HwSection *section, gboolean open)
{
  g_return_if_fail (HW_IS_SECTION (section));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (section->button), open);
}

gboolean
hw_section_get_open (HwSection *section)
{
  g_return_val_if_fail (HW_IS_SECTION (section), FALSE);
  return gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (section->button));
}
