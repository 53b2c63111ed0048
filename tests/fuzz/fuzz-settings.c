/* What the settings hold, where anybody may write: lines of a key and its value, as the desktop's own editor writes them. Whatever a store may give is read
 * as something that can be worked with, and a second time as the same. */
#include <math.h>

#include "../../src/scene/limits.h"
#include "../../src/workbench/own-hoops.h"
#include "../../src/workbench/printer-memory.h"
#include "../../src/workbench/settings.h"
#include "fuzz.h"

/* A store holds nothing that is not of the key's own form. */
static void
put (GSettings *settings, GSettingsSchema *schema, char *line)
{
  char *space = strchr (line, ' ');
  g_autoptr (GSettingsSchemaKey) key = NULL;
  g_autoptr (GVariant) value = NULL;

  if (space == NULL)
    return;
  *space = '\0';
  if (!g_settings_schema_has_key (schema, line))
    return;
  key = g_settings_schema_get_key (schema, line);
  value = g_variant_parse (g_settings_schema_key_get_value_type (key), space + 1, NULL, NULL, NULL);
  if (value != NULL && g_settings_schema_key_range_check (key, value))
    g_settings_set_value (settings, line, value);
}

static void
assert_can_be_hooped (const HwHoop *hoop)
{
  g_assert_cmpfloat (hoop->field_width, >=, HW_SMALLEST_HOOP_TYPED);
  g_assert_cmpfloat (hoop->field_height, >=, HW_SMALLEST_HOOP_TYPED);
  g_assert_cmpfloat (hoop->frame_width, >=, hoop->field_width);
  g_assert_cmpfloat (hoop->frame_height, >=, hoop->field_height);
  g_assert_cmpfloat (hoop->frame_width, <=, HW_LARGEST_OWN_HOOP);
  g_assert_cmpfloat (hoop->frame_height, <=, HW_LARGEST_OWN_HOOP);
  g_assert_cmpfloat (2 * hoop->clearance, <, fmin (hoop->field_width, hoop->field_height));
  g_assert_cmpfloat (hoop->clearance, >=, 0);
  g_assert_cmpint (g_utf8_strlen (hoop->name, -1), <=, 200 + 1); /* and the sign that it was cut */
  g_assert_null (strchr (hoop->name, '\n'));
}

static void
look_at_hoops (void)
{
  g_autoptr (GPtrArray) hoops = hw_own_hoops_get (), again = NULL;

  hw_own_hoops_set (hoops);
  again = hw_own_hoops_get ();
  g_assert_cmpuint (again->len, ==, hoops->len);
  for (guint i = 0; i < hoops->len; i++)
    {
      const HwHoop *hoop = hoops->pdata[i], *same = again->pdata[i];

      assert_can_be_hooped (hoop);
      g_assert_cmpstr (hoop->name, ==, same->name);
      g_assert_true (hoop->field_width == same->field_width && hoop->clearance == same->clearance
                     && hoop->turn == same->turn);
      hw_own_hoops_take_measures (hoop);
    }
}

static void
look_at_printers (void)
{
  g_auto (GStrv) names = hw_printer_memory_names ();

  g_assert_cmpstr (names[0], ==, "");
  for (guint i = 0; names[i] != NULL; i++)
    {
      g_autofree char *sentence = hw_printer_memory_sentence (names[i]);
      double x, y;

      hw_printer_memory_get (names[i], &x, &y);
      g_assert_true (x >= 0.5 && x <= 2 && y >= 0.5 && y <= 2);
      g_assert_true (sentence != NULL && g_utf8_validate (sentence, -1, NULL));
      hw_printer_memory_forget (names[i]);
      g_assert_false (hw_printer_memory_knows (names[i]));
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *bytes = g_strndup ((const char *)data, size);
  g_autofree char *text = g_utf8_make_valid (bytes, -1); /* nor anything else than UTF-8 */
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  GSettings *settings = hw_settings_get ();
  g_autoptr (GSettingsSchema) schema = NULL;
  g_auto (GStrv) keys = NULL;

  if (settings == NULL)
    g_error ("GSETTINGS_SCHEMA_DIR names no folder with the program's schema.");
  g_object_get (settings, "settings-schema", &schema, NULL);
  for (guint i = 0; lines[i] != NULL; i++)
    put (settings, schema, lines[i]);
  g_assert_true (hw_settings_get_unit () == HW_UNIT_MM || hw_settings_get_unit () == HW_UNIT_INCH);
  look_at_hoops ();
  look_at_printers ();
  keys = g_settings_schema_list_keys (schema);
  for (guint i = 0; keys[i] != NULL; i++)
    g_settings_reset (settings, keys[i]);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  return 0;
}
