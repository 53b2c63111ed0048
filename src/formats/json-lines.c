/* JSON written for people: a value that fits within the width stands in one line, a longer one has a line for each member, and long lists of
 * plain values or points are filled line by line. */
#include "json-lines.h"

#include <math.h>
#include <string.h>

#define WIDTH 120

typedef struct
{
  GString *out;
  HwJsonOpens opens;
} Writer;

char *
hw_json_number_text (double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (value == 0)
    return g_strdup ("0"); /* and no -0 */
  for (int digits = 15; digits <= 17; digits++)
    {
      g_autofree char *format = g_strdup_printf ("%%.%dg", digits);

      g_ascii_formatd (buffer, sizeof buffer, format, value);
      if (g_ascii_strtod (buffer, NULL) == value)
        break;
    }
  return g_strdup (buffer);
}

static void
write_string (GString *out, const char *text)
{
  g_string_append_c (out, '"');
  for (const char *c = text; *c != '\0'; c++)
    {
      static const char plain[] = "\"\\\b\f\n\r\t";
      static const char escaped[] = "\"\\bfnrt";
      const char *special = strchr (plain, *c);

      if (special != NULL)
        {
          g_string_append_c (out, '\\');
          g_string_append_c (out, escaped[special - plain]);
        }
      else if ((guchar)*c < 0x20)
        g_string_append_printf (out, "\\u%04x", (guint)*c);
      else
        g_string_append_c (out, *c);
    }
  g_string_append_c (out, '"');
}

static void
write_plain (GString *out, JsonNode *node)
{
  GType type = JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_NONE;

  if (type == G_TYPE_STRING)
    write_string (out, json_node_get_string (node));
  else if (type == G_TYPE_INT64)
    g_string_append_printf (out, "%" G_GINT64_FORMAT, json_node_get_int (node));
  else if (type == G_TYPE_DOUBLE)
    {
      g_autofree char *number = hw_json_number_text (json_node_get_double (node));

      g_string_append (out, number);
    }
  else if (type == G_TYPE_BOOLEAN)
    g_string_append (out, json_node_get_boolean (node) ? "true" : "false");
  else
    g_string_append (out, "null");
}

/* Gives up, leaving a torso, once out is longer than limit. */
static void
write_line (GString *out, JsonNode *node, gsize limit)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *list = json_node_get_array (node);

      g_string_append_c (out, '[');
      for (guint i = 0; i < json_array_get_length (list) && out->len <= limit; i++)
        {
          if (i > 0)
            g_string_append (out, ", ");
          write_line (out, json_array_get_element (list, i), limit);
        }
      g_string_append_c (out, ']');
    }
  else if (JSON_NODE_HOLDS_OBJECT (node))
    {
      JsonObjectIter iter;
      const char *key;
      JsonNode *member;
      gboolean first = TRUE;

      g_string_append_c (out, '{');
      json_object_iter_init_ordered (&iter, json_node_get_object (node));
      while (out->len <= limit && json_object_iter_next_ordered (&iter, &key, &member))
        {
          if (!first)
            g_string_append (out, ", ");
          first = FALSE;
          write_string (out, key);
          g_string_append (out, ": ");
          write_line (out, member, limit);
        }
      g_string_append_c (out, '}');
    }
  else
    write_plain (out, node);
}

char *
hw_json_line (JsonNode *node)
{
  GString *out = g_string_new (NULL);

  g_return_val_if_fail (node != NULL, NULL);

  write_line (out, node, G_MAXSIZE);
  return g_string_free (out, FALSE);
}

static void
new_line (GString *out, guint depth)
{
  g_string_append_c (out, '\n');
  for (guint i = 0; i < depth; i++)
    g_string_append (out, "  ");
}

static void
write_node (Writer *writer, JsonNode *node, guint depth, const char *key, gsize column);

/* Plain values, or short lists of plain values: points. */
static gboolean
may_be_filled (JsonArray *list)
{
  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonNode *item = json_array_get_element (list, i);
      JsonArray *pair;

      if (JSON_NODE_HOLDS_VALUE (item))
        continue;
      if (!JSON_NODE_HOLDS_ARRAY (item))
        return FALSE;
      pair = json_node_get_array (item);
      if (json_array_get_length (pair) > 4)
        return FALSE;
      for (guint j = 0; j < json_array_get_length (pair); j++)
        {
          if (!JSON_NODE_HOLDS_VALUE (json_array_get_element (pair, j)))
            return FALSE;
        }
    }
  return TRUE;
}

static void
write_filled (GString *out, JsonArray *list, guint depth)
{
  guint n = json_array_get_length (list);
  gsize line_start = 0;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *item = hw_json_line (json_array_get_element (list, i));

      if (i == 0 || out->len - line_start + 1 + strlen (item) + 1 > WIDTH)
        {
          line_start = out->len + 1;
          new_line (out, depth + 1);
        }
      else
        g_string_append_c (out, ' ');
      g_string_append (out, item);
      if (i + 1 < n)
        g_string_append_c (out, ',');
    }
}

static void
write_list (Writer *writer, JsonArray *list, guint depth, const char *key)
{
  guint n = json_array_get_length (list);

  g_string_append_c (writer->out, '[');
  if (may_be_filled (list))
    write_filled (writer->out, list, depth);
  else
    {
      for (guint i = 0; i < n; i++)
        {
          new_line (writer->out, depth + 1);
          write_node (writer, json_array_get_element (list, i), depth + 1, key, 2 * (depth + 1));
          if (i + 1 < n)
            g_string_append_c (writer->out, ',');
        }
    }
  new_line (writer->out, depth);
  g_string_append_c (writer->out, ']');
}

static void
write_object (Writer *writer, JsonObject *object, guint depth)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *member;
  guint left = json_object_get_size (object);

  g_string_append_c (writer->out, '{');
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &member))
    {
      gsize line_start = writer->out->len + 1;

      new_line (writer->out, depth + 1);
      write_string (writer->out, key);
      g_string_append (writer->out, ": ");
      write_node (writer, member, depth + 1, key, writer->out->len - line_start);
      if (--left > 0)
        g_string_append_c (writer->out, ',');
    }
  new_line (writer->out, depth);
  g_string_append_c (writer->out, '}');
}

static guint
n_members (JsonNode *node)
{
  if (JSON_NODE_HOLDS_ARRAY (node))
    return json_array_get_length (json_node_get_array (node));
  if (JSON_NODE_HOLDS_OBJECT (node))
    return json_object_get_size (json_node_get_object (node));
  return 0;
}

/* column: how much of the line is already written. */
static void
write_node (Writer *writer, JsonNode *node, guint depth, const char *key, gsize column)
{
  gboolean open
      = n_members (node) > 0 && (depth == 0 || (writer->opens != NULL && writer->opens (depth, key)));
  gsize start = writer->out->len;

  if (!open)
    {
      write_line (writer->out, node, n_members (node) > 0 ? start + WIDTH : G_MAXSIZE);
      if (n_members (node) == 0 || column + writer->out->len - start + 1 <= WIDTH)
        return;
      g_string_truncate (writer->out, start);
    }
  if (JSON_NODE_HOLDS_ARRAY (node))
    write_list (writer, json_node_get_array (node), depth, key);
  else
    write_object (writer, json_node_get_object (node), depth);
}

char *
hw_json_lines (JsonNode *root, HwJsonOpens opens)
{
  Writer writer = { .out = g_string_new (NULL), .opens = opens };

  g_return_val_if_fail (root != NULL, NULL);

  write_node (&writer, root, 0, NULL, 0);
  g_string_append_c (writer.out, '\n');
  return g_string_free (writer.out, FALSE);
}
