/* Light or dark and with how much contrast, as the desktop is. GTK 4 by itself knows the theme's name only; the wish for dark windows and
 * for more contrast is told by the desktop portal (freedesktop appearance settings: color-scheme 1 dark, 2 light, 0 no wish; contrast 1 higher, 0 no
 * wish). */
#include "appearance.h"

#include "contrast.h"

#define PORTAL_NAME "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define APPEARANCE "org.freedesktop.appearance"
#define STYLE_PATH "/org/hoopwright/Hoopwright/style.css"
#define CLEAR_STYLE_PATH "/org/hoopwright/Hoopwright/high-contrast.css"
#define HIGH_CONTRAST_THEME "Default-hc" /* GTK's own; it has a light and a dark variant */

/* The number inside a reply of the portal, which may be wrapped more than once; otherwise when it is none. */
static guint32
number_of (GVariant *reply, guint32 otherwise)
{
  g_autoptr (GVariant) inner = g_variant_ref (reply);

  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *unpacked = g_variant_get_variant (inner);
      g_variant_unref (inner);
      inner = unpacked;
    }
  return g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32) ? g_variant_get_uint32 (inner) : otherwise;
}

static void
take_scheme (GVariant *value)
{
  guint32 scheme = number_of (value, 0);

  if (scheme != 0)
    g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", scheme == 1, NULL);
}

static void
take_contrast (GVariant *value)
{
  GtkSettings *settings = gtk_settings_get_default ();

  if (number_of (value, 0) != 1)
    gtk_settings_reset_property (settings, "gtk-theme-name");
  else if (!hw_contrast_is_high (settings))
    g_object_set (settings, "gtk-theme-name", HIGH_CONTRAST_THEME, NULL);
}

static void
setting_changed_cb (
    GDBusProxy *portal, const char *sender, const char *signal_name, GVariant *parameters, gpointer user_data)
{
  const char *space;
  const char *key;
  g_autoptr (GVariant) value = NULL;

  if (!g_str_equal (signal_name, "SettingChanged")
      || !g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (parameters, "(&s&sv)", &space, &key, &value);
  if (!g_str_equal (space, APPEARANCE))
    return;
  if (g_str_equal (key, "color-scheme"))
    take_scheme (value);
  else if (g_str_equal (key, "contrast"))
    take_contrast (value);
}

typedef void (*TakeFunc) (GVariant *value);

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  TakeFunc take = (TakeFunc)user_data;
  g_autoptr (GVariant) reply = g_dbus_proxy_call_finish (G_DBUS_PROXY (source), result, NULL);

  if (reply == NULL || !g_variant_is_of_type (reply, G_VARIANT_TYPE ("(v)")))
    return;
  g_autoptr (GVariant) value = g_variant_get_child_value (reply, 0);
  take (value);
}

static void
read_wish (GDBusProxy *portal, const char *key, TakeFunc take)
{
  /* A proxy whose portal nobody runs refuses the call and takes what it is given into no hand: so it is held here. */
  g_autoptr (GVariant) wish = g_variant_ref_sink (g_variant_new ("(ss)", APPEARANCE, key));

  g_dbus_proxy_call (portal, "Read", wish, G_DBUS_CALL_FLAGS_NO_AUTO_START, 1000, NULL, read_cb,
                     (gpointer)take);
}

static void
portal_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  static GDBusProxy *portal; /* kept for its signal as long as the program runs */

  portal = g_dbus_proxy_new_for_bus_finish (result, NULL);
  if (portal == NULL)
    return;
  g_signal_connect (portal, "g-signal", G_CALLBACK (setting_changed_cb), NULL);
  read_wish (portal, "color-scheme", take_scheme);
  read_wish (portal, "contrast", take_contrast);
}

void
hw_appearance_follow_desktop (void)
{
  if (g_getenv ("GTK_THEME") != NULL)
    return;
  g_dbus_proxy_new_for_bus (G_BUS_TYPE_SESSION,
                            G_DBUS_PROXY_FLAGS_DO_NOT_LOAD_PROPERTIES | G_DBUS_PROXY_FLAGS_DO_NOT_AUTO_START,
                            NULL, PORTAL_NAME, PORTAL_PATH, PORTAL_SETTINGS, NULL, portal_cb, NULL);
}

/* Over the usual style lies a second one while the theme is one of high contrast. */
static void
theme_cb (GtkSettings *settings, GParamSpec *pspec, gpointer user_data)
{
  static GtkCssProvider *clear; /* made once, kept as long as the program runs */
  GdkDisplay *display = gdk_display_get_default ();

  if (clear == NULL)
    {
      clear = gtk_css_provider_new ();
      gtk_css_provider_load_from_resource (clear, CLEAR_STYLE_PATH);
    }
  gtk_style_context_remove_provider_for_display (display, GTK_STYLE_PROVIDER (clear));
  if (hw_contrast_is_high (settings))
    gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (clear),
                                                GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
}

void
hw_appearance_add_style (void)
{
  g_autoptr (GtkCssProvider) style = gtk_css_provider_new ();
  GtkSettings *settings = gtk_settings_get_default ();

  gtk_css_provider_load_from_resource (style, STYLE_PATH);
  gtk_style_context_add_provider_for_display (gdk_display_get_default (), GTK_STYLE_PROVIDER (style),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_signal_connect (settings, "notify::gtk-theme-name", G_CALLBACK (theme_cb), NULL);
  theme_cb (settings, NULL, NULL);
}
