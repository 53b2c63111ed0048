/* Light or dark, as the desktop is. GTK 4 by itself knows the theme's name only; the wish for dark windows is told by the desktop
 * portal (freedesktop appearance settings: color-scheme 1 dark, 2 light, 0 no wish). */
#include "appearance.h"

#define PORTAL_NAME "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define APPEARANCE "org.freedesktop.appearance"
#define STYLE_PATH "/org/hoopwright/Hoopwright/style.css"

static void
take_scheme (GVariant *scheme)
{
  g_autoptr (GVariant) inner = g_variant_ref (scheme);

  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *unpacked = g_variant_get_variant (inner);
      g_variant_unref (inner);
      inner = unpacked;
    }
  if (g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32) && g_variant_get_uint32 (inner) != 0)
    g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme",
                  g_variant_get_uint32 (inner) == 1, NULL);
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
  if (g_str_equal (space, APPEARANCE) && g_str_equal (key, "color-scheme"))
    take_scheme (value);
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GVariant) reply = g_dbus_proxy_call_finish (G_DBUS_PROXY (source), result, NULL);

  if (reply == NULL || !g_variant_is_of_type (reply, G_VARIANT_TYPE ("(v)")))
    return;
  g_autoptr (GVariant) value = g_variant_get_child_value (reply, 0);
  take_scheme (value);
}

static void
portal_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  static GDBusProxy *portal; /* kept for its signal as long as the program runs */

  portal = g_dbus_proxy_new_for_bus_finish (result, NULL);
  if (portal == NULL)
    return;
  g_signal_connect (portal, "g-signal", G_CALLBACK (setting_changed_cb), NULL);
  g_dbus_proxy_call (portal, "Read", g_variant_new ("(ss)", APPEARANCE, "color-scheme"),
                     G_DBUS_CALL_FLAGS_NO_AUTO_START, 1000, NULL, read_cb, NULL);
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

void
hw_appearance_add_style (void)
{
  g_autoptr (GtkCssProvider) style = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (style, STYLE_PATH);
  gtk_style_context_add_provider_for_display (gdk_display_get_default (), GTK_STYLE_PROVIDER (style),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}
