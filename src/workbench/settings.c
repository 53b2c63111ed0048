/* What the program remembers from one day to the next. A missing schema would end a GLib program; here it only means that nothing is
 * remembered. Where nothing may be written, what is chosen holds until the program ends. */
#include "settings.h"

#define SCHEMA_ID "org.hoopwright.Hoopwright"

GSettings *
hw_settings_get (void)
{
  static GSettings *settings;
  static gsize tried;

  if (g_once_init_enter (&tried))
    {
      GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
      g_autoptr (GSettingsSchema) schema
          = source != NULL ? g_settings_schema_source_lookup (source, SCHEMA_ID, TRUE) : NULL;

      if (schema != NULL)
        settings = g_settings_new_full (schema, NULL, NULL);
      if (settings != NULL && !g_settings_is_writable (settings, HW_SETTING_UNIT))
        g_settings_delay (settings);
      g_once_init_leave (&tried, 1);
    }
  return settings;
}

HwUnit
hw_settings_get_unit (void)
{
  GSettings *settings = hw_settings_get ();

  return settings != NULL ? (HwUnit)g_settings_get_enum (settings, HW_SETTING_UNIT) : HW_UNIT_MM;
}

void
hw_settings_set_unit (HwUnit unit)
{
  GSettings *settings = hw_settings_get ();

  if (settings != NULL)
    g_settings_set_enum (settings, HW_SETTING_UNIT, (int)unit);
}

char *
hw_settings_get_text (const char *key)
{
  GSettings *settings = hw_settings_get ();

  return settings != NULL ? g_settings_get_string (settings, key) : g_strdup ("");
}

void
hw_settings_set_text (const char *key, const char *text)
{
  GSettings *settings = hw_settings_get ();

  if (settings != NULL && text != NULL)
    g_settings_set_string (settings, key, text);
}

gboolean
hw_settings_get_flag (const char *key, gboolean otherwise)
{
  GSettings *settings = hw_settings_get ();

  return settings != NULL ? g_settings_get_boolean (settings, key) : otherwise;
}

void
hw_settings_set_flag (const char *key, gboolean flag)
{
  GSettings *settings = hw_settings_get ();

  if (settings != NULL)
    g_settings_set_boolean (settings, key, flag);
}

guint
hw_settings_get_place (const char *key)
{
  GSettings *settings = hw_settings_get ();

  return settings != NULL ? g_settings_get_uint (settings, key) : 0;
}

void
hw_settings_set_place (const char *key, guint place)
{
  GSettings *settings = hw_settings_get ();

  if (settings != NULL)
    g_settings_set_uint (settings, key, place);
}
