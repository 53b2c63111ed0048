/* Light or dark and how much contrast, as the desktop's portal tells: a portal of the test's own stands on the bus (freedesktop appearance settings: color-scheme 1 dark,
 * 2 light; contrast 1 higher). */
#include "hands.h"
#include "window-fixture.h"
#include "workbench/appearance.h"
#include "workbench/contrast.h"

#define NAME "org.freedesktop.portal.Desktop"
#define SETTINGS "org.freedesktop.portal.Settings"

static const char interface[]
    = "<node><interface name='org.freedesktop.portal.Settings'>"
      "<method name='Read'><arg type='s' direction='in'/><arg type='s' direction='in'/>"
      "<arg type='v' direction='out'/></method>"
      "<signal name='SettingChanged'><arg type='s'/><arg type='s'/><arg type='v'/></signal>"
      "</interface></node>";

typedef struct
{
  GDBusConnection *bus;
  guint n_read;
} Portal;

static Portal portal;

/* The answer is wrapped in a variant more than once, as portals do. */
static void
call_cb (GDBusConnection *connection,
         const char *sender,
         const char *path,
         const char *interface_name,
         const char *method,
         GVariant *parameters,
         GDBusMethodInvocation *invocation,
         gpointer user_data)
{
  const char *space, *key;
  guint wish;

  g_variant_get (parameters, "(&s&s)", &space, &key);
  g_assert_cmpstr (space, ==, "org.freedesktop.appearance");
  wish = g_str_equal (key, "color-scheme") ? 1 : 0;
  portal.n_read++;
  g_dbus_method_invocation_return_value (
      invocation, g_variant_new ("(v)", g_variant_new_variant (g_variant_new_uint32 (wish))));
}

static void
owned_cb (GDBusConnection *connection, const char *name, gpointer owned)
{
  *(gboolean *)owned = TRUE;
}

/* The bus is asked by a connection of the portal's own, as another program's would. */
static void
open_portal (void)
{
  static const GDBusInterfaceVTable calls = { .method_call = call_cb };
  g_autoptr (GError) error = NULL;
  g_autoptr (GDBusNodeInfo) node = g_dbus_node_info_new_for_xml (interface, &error);
  static gboolean owned;

  g_assert_no_error (error);
  portal.bus = g_dbus_connection_new_for_address_sync (g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
                                                       G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT
                                                           | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION,
                                                       NULL, NULL, &error);
  g_assert_no_error (error);
  g_dbus_connection_register_object (portal.bus, "/org/freedesktop/portal/desktop", node->interfaces[0],
                                     &calls, NULL, NULL, &error);
  g_assert_no_error (error);
  g_bus_own_name_on_connection (portal.bus, NAME, G_BUS_NAME_OWNER_FLAGS_NONE, owned_cb, NULL, &owned, NULL);
  room_until (owned);
}

static void
change (const char *space, const char *key, GVariant *value)
{
  g_autoptr (GError) error = NULL;

  g_dbus_connection_emit_signal (portal.bus, NULL, "/org/freedesktop/portal/desktop", SETTINGS,
                                 "SettingChanged", g_variant_new ("(ssv)", space, key, value), &error);
  g_assert_no_error (error);
  g_dbus_connection_flush_sync (portal.bus, NULL, NULL);
}

static gboolean
is_dark (void)
{
  gboolean dark;

  g_object_get (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", &dark, NULL);
  return dark;
}

static gboolean
is_high (void)
{
  return hw_contrast_is_high (gtk_settings_get_default ());
}

#define APPEARANCE "org.freedesktop.appearance"

static void
scheme (guint wish)
{
  change (APPEARANCE, "color-scheme", g_variant_new_uint32 (wish));
}

/* What the portal says at the start is taken, and every change after that. */
static void
the_desktops_wish_is_followed (void)
{
  g_assert_false (is_dark ());
  hw_appearance_add_style ();
  hw_appearance_follow_desktop ();
  room_until (portal.n_read == 2);
  room_until (is_dark ());
  g_assert_false (is_high ());
  scheme (2);
  room_until (!is_dark ());
  scheme (1);
  room_until (is_dark ());
  change (APPEARANCE, "contrast", g_variant_new_uint32 (1));
  room_until (is_high ());
  /* Told again it is what it is. */
  change (APPEARANCE, "contrast", g_variant_new_uint32 (1));
  change (APPEARANCE, "contrast", g_variant_new_uint32 (0));
  room_until (!is_high ());
}

/* No wish changes nothing; nor does what is another setting, or no number. */
static void
what_is_no_wish_changes_nothing (void)
{
  scheme (1);
  room_until (is_dark ());
  scheme (0);
  change ("org.garden.colours", "color-scheme", g_variant_new_uint32 (2));
  change (APPEARANCE, "accent-color", g_variant_new_uint32 (2));
  change (APPEARANCE, "color-scheme", g_variant_new_string ("light"));
  change (APPEARANCE, "contrast", g_variant_new_string ("high"));
  /* A change that is heard ends the wait: the others were before it. */
  change (APPEARANCE, "contrast", g_variant_new_uint32 (1));
  room_until (is_high ());
  g_assert_true (is_dark ());
  change (APPEARANCE, "contrast", g_variant_new_uint32 (0));
  room_until (!is_high ());
}

/* A theme that was named for this program comes before any wish. */
static void
a_theme_that_was_named_comes_first (void)
{
  guint before = portal.n_read;

  g_setenv ("GTK_THEME", "Default-hc", TRUE);
  g_assert_true (is_high ());
  hw_appearance_follow_desktop ();
  room_wait (100);
  g_assert_cmpuint (portal.n_read, ==, before);
  g_setenv ("GTK_THEME", "", TRUE);
  g_assert_false (is_high ());
  g_unsetenv ("GTK_THEME");
}

static void
high_contrast_is_known_by_the_themes_name (void)
{
  static const char *const high[]
      = { "HighContrast", "HighContrastInverse", "Default-hc:dark", "Orchard-hc-dark", "high-contrast" };
  static const char *const usual[] = { "Default", "Default:dark", "hc-orchard", "", ":dark" };

  for (guint i = 0; i < G_N_ELEMENTS (high); i++)
    g_assert_true (hw_contrast_theme_is_high (high[i]));
  for (guint i = 0; i < G_N_ELEMENTS (usual); i++)
    g_assert_false (hw_contrast_theme_is_high (usual[i]));
  g_assert_false (hw_contrast_theme_is_high (NULL));
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
  open_portal ();
#define ADD(test) g_test_add_func ("/appearance/" #test, test)
  ADD (the_desktops_wish_is_followed);
  ADD (what_is_no_wish_changes_nothing);
  ADD (a_theme_that_was_named_comes_first);
  ADD (high_contrast_is_known_by_the_themes_name);
  return g_test_run ();
}
