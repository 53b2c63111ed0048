/* A walk through a JSON tree, field by field. */
#include "json-walk.h"

#include "json-lines.h"
#include "../geometry/one-line.h"
#include "../geometry/language.h"
#include "../scene/scene-limits.h"

#define LONGEST_QUOTE 40 /* characters of a found text that are shown */

void
hw_json_walk_init (HwJsonWalk *walk, GQuark domain, int code)
{
  *walk = (HwJsonWalk){ .path = g_string_new (NULL), .domain = domain, .code = code };
}

void
hw_json_walk_clear (HwJsonWalk *walk)
{
  g_string_free (walk->path, TRUE);
  g_clear_error (&walk->error);
}

gsize
hw_json_walk_enter (HwJsonWalk *walk, const char *key)
{
  gsize mark = walk->path->len;

  g_string_append_printf (walk->path, "%s%s", mark > 0 ? "." : "", key);
  return mark;
}

gsize
hw_json_walk_enter_item (HwJsonWalk *walk, guint index)
{
  gsize mark = walk->path->len;

  g_string_append_printf (walk->path, "[%u]", index);
  return mark;
}

void
hw_json_walk_leave (HwJsonWalk *walk, gsize mark)
{
  g_string_truncate (walk->path, mark);
}

static char *
quoted (const char *text)
{
  g_autofree char *start = NULL;

  if (g_utf8_strlen (text, -1) <= LONGEST_QUOTE)
    return g_strdup_printf ("\"%s\"", text);
  start = g_utf8_substring (text, 0, LONGEST_QUOTE);
  return g_strdup_printf ("\"%s…\"", start);
}

/* Short lists of plain values are shown as they are, longer ones counted. */
static char *
describe_list (JsonArray *list, JsonNode *node)
{
  guint n = json_array_get_length (list);

  if (n <= 4)
    {
      g_autofree char *text = NULL;
      gboolean plain = TRUE;

      for (guint i = 0; i < n; i++)
        plain = plain && !JSON_NODE_HOLDS_ARRAY (json_array_get_element (list, i))
                && !JSON_NODE_HOLDS_OBJECT (json_array_get_element (list, i));
      text = plain ? hw_json_line (node) : NULL;
      if (text != NULL && g_utf8_strlen (text, -1) <= LONGEST_QUOTE)
        return g_steal_pointer (&text);
    }
  return g_strdup_printf (ngettext ("a list of %u", "a list of %u", n), n);
}

static char *
describe (JsonNode *node)
{
  if (node == NULL)
    return g_strdup (_ ("nothing"));
  if (JSON_NODE_HOLDS_OBJECT (node))
    return g_strdup (_ ("keys in braces"));
  if (JSON_NODE_HOLDS_ARRAY (node))
    return describe_list (json_node_get_array (node), node);
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING)
    return quoted (json_node_get_string (node));
  return hw_json_line (node);
}

void
hw_json_walk_expected (HwJsonWalk *walk, const char *expected, JsonNode *found)
{
  g_autofree char *what = NULL;

  if (walk->error != NULL)
    return;
  what = describe (found);
  hw_json_walk_refuse (walk, _ ("expected %s, found %s."), expected, what);
}

void
hw_json_walk_refuse (HwJsonWalk *walk, const char *format, ...)
{
  g_autofree char *text = NULL;
  g_autofree char *what = NULL;
  va_list args;

  if (walk->error != NULL)
    return;
  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  what = hw_one_line (text);
  walk->error = walk->path->len > 0 ? g_error_new (walk->domain, walk->code, "%s: %s", walk->path->str, what)
                                    : g_error_new_literal (walk->domain, walk->code, what);
}

static void
expected_at (HwJsonWalk *walk, const char *key, const char *expected, JsonNode *found)
{
  gsize mark = hw_json_walk_enter (walk, key);

  hw_json_walk_expected (walk, expected, found);
  hw_json_walk_leave (walk, mark);
}

/* The member, or NULL when there is nothing to read; a missing required one is refused. */
static JsonNode *
member (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, const char *expected)
{
  JsonNode *node;

  if (walk->error != NULL)
    return NULL;
  node = json_object_get_member (in, key);
  if (node == NULL || JSON_NODE_HOLDS_NULL (node))
    {
      if (required)
        expected_at (walk, key, expected, node);
      return NULL;
    }
  return node;
}

static gboolean
node_number (JsonNode *node, double *value)
{
  GType type;

  if (!JSON_NODE_HOLDS_VALUE (node))
    return FALSE;
  type = json_node_get_value_type (node);
  if (type != G_TYPE_INT64 && type != G_TYPE_DOUBLE)
    return FALSE;
  *value = json_node_get_double (node);
  return isfinite (*value);
}

double
hw_json_walk_number (HwJsonWalk *walk,
                     JsonObject *in,
                     const char *key,
                     const char *expected,
                     double least,
                     double most,
                     double fallback)
{
  JsonNode *node = member (walk, in, key, isnan (fallback), expected);
  double value;

  if (node == NULL)
    return fallback;
  if (node_number (node, &value) && value >= least && value <= most)
    return value;
  expected_at (walk, key, expected, node);
  return fallback;
}

guint
hw_json_walk_count (HwJsonWalk *walk, JsonObject *in, const char *key, guint most, guint fallback)
{
  g_autofree char *expected = g_strdup_printf (_ ("a whole number from 0 to %u"), most);
  double value = hw_json_walk_number (walk, in, key, expected, 0, most, fallback);

  if (value != floor (value))
    expected_at (walk, key, expected, json_object_get_member (in, key));
  return (guint)value;
}

const char *
hw_json_walk_long_text (
    HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, const char *fallback)
{
  const char *expected = required ? _ ("a text that is not empty") : _ ("a text");
  JsonNode *node = member (walk, in, key, required, expected);

  if (node == NULL)
    return fallback;
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
      && !(required && json_node_get_string (node)[0] == '\0'))
    return json_node_get_string (node);
  expected_at (walk, key, expected, node);
  return fallback;
}

const char *
hw_json_walk_text (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, const char *fallback)
{
  const char *text = hw_json_walk_long_text (walk, in, key, required, fallback);
  gsize mark;

  if (walk->error != NULL || !hw_text_is_too_long (text))
    return text;
  mark = hw_json_walk_enter (walk, key);
  hw_json_walk_refuse (walk, _ ("expected a text of at most %d letters, found one of %ld."), HW_LONGEST_TEXT,
                       g_utf8_strlen (text, -1));
  hw_json_walk_leave (walk, mark);
  return fallback;
}

char *
hw_json_walk_name (HwJsonWalk *walk, JsonObject *in, gboolean required, const char *fallback)
{
  const char *text = hw_json_walk_text (walk, in, "name", required, fallback);
  g_autofree char *name = text != NULL ? hw_one_line_name (text) : NULL;

  if (required && name != NULL && *name == '\0')
    return g_strdup ("?");
  return g_steal_pointer (&name);
}

gboolean
hw_json_walk_flag (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean fallback)
{
  JsonNode *node = member (walk, in, key, FALSE, NULL);

  if (node == NULL)
    return fallback;
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    return json_node_get_boolean (node);
  expected_at (walk, key, _ ("true or false"), node);
  return fallback;
}

int
hw_json_walk_choice (
    HwJsonWalk *walk, JsonObject *in, const char *key, const char *const *nicks, int fallback)
{
  JsonNode *node = member (walk, in, key, FALSE, NULL);
  g_autofree char *list = NULL;
  g_autofree char *expected = NULL;

  if (node == NULL)
    return fallback;
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING)
    {
      for (int i = 0; nicks[i] != NULL; i++)
        {
          if (g_str_equal (nicks[i], json_node_get_string (node)))
            return i;
        }
    }
  list = g_strjoinv ("\", \"", (char **)nicks);
  expected = g_strdup_printf (_ ("one of \"%s\""), list);
  expected_at (walk, key, expected, node);
  return fallback;
}

HwColour
hw_json_walk_colour (HwJsonWalk *walk, JsonObject *in, const char *key, HwColour fallback)
{
  JsonNode *node = member (walk, in, key, FALSE, NULL);
  HwColour colour;

  if (node == NULL)
    return fallback;
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING
      && hw_colour_parse (json_node_get_string (node), &colour))
    return colour;
  expected_at (walk, key, _ ("a colour like \"#335522\""), node);
  return fallback;
}

gboolean
hw_json_node_pair (JsonNode *node, double least, double most, double pair[2])
{
  double values[2];
  JsonArray *list;

  if (!JSON_NODE_HOLDS_ARRAY (node))
    return FALSE;
  list = json_node_get_array (node);
  if (json_array_get_length (list) != 2)
    return FALSE;
  for (guint i = 0; i < 2; i++)
    {
      if (!node_number (json_array_get_element (list, i), &values[i]) || values[i] < least
          || values[i] > most)
        return FALSE;
    }
  pair[0] = values[0];
  pair[1] = values[1];
  return TRUE;
}

gboolean
hw_json_walk_pair (HwJsonWalk *walk,
                   JsonObject *in,
                   const char *key,
                   const char *expected,
                   gboolean required,
                   double least,
                   double most,
                   double pair[2])
{
  JsonNode *node = member (walk, in, key, required, expected);

  if (node == NULL)
    return FALSE;
  if (hw_json_node_pair (node, least, most, pair))
    return TRUE;
  expected_at (walk, key, expected, node);
  return FALSE;
}

JsonArray *
hw_json_walk_list (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, const char *expected)
{
  JsonNode *node = member (walk, in, key, required, expected);

  if (node == NULL)
    return NULL;
  if (JSON_NODE_HOLDS_ARRAY (node))
    return json_node_get_array (node);
  expected_at (walk, key, expected, node);
  return NULL;
}

JsonObject *
hw_json_walk_object (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required)
{
  const char *expected = _ ("keys in braces");
  JsonNode *node = member (walk, in, key, required, expected);

  if (node == NULL)
    return NULL;
  if (JSON_NODE_HOLDS_OBJECT (node))
    return json_node_get_object (node);
  expected_at (walk, key, expected, node);
  return NULL;
}

JsonObject *
hw_json_walk_item_object (HwJsonWalk *walk, JsonArray *in, guint index)
{
  JsonNode *node = json_array_get_element (in, index);

  if (JSON_NODE_HOLDS_OBJECT (node))
    return json_node_get_object (node);
  hw_json_walk_expected (walk, _ ("keys in braces"), node);
  return NULL;
}

HwUnknown *
hw_json_unknown (JsonObject *in, const char *const *known)
{
  g_autoptr (JsonObject) members = json_object_new ();
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  json_object_iter_init_ordered (&iter, in);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    {
      if (!g_strv_contains (known, key))
        json_object_set_member (members, key, json_node_copy (node));
    }
  return json_object_get_size (members) > 0 ? hw_unknown_new (g_steal_pointer (&members)) : NULL;
}
