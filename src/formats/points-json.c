/* Known points of a photo as JSON. The matrix is written to ten significant digits: a thousandth of a micrometre on a cloth, and the same on every machine. */
#include "points-json.h"

#include <stdio.h>

#include "../geometry/language.h"
#include "../scene/records.h"
#include "json-root.h"
#include "json-figures.h"
#include "json-lines.h"
#include "json-walk.h"
#include "whole-file.h"

G_DEFINE_QUARK (hw_points_error_quark, hw_points_error)

#define MOST_BOW 0.3
#define RESIDUAL_DECIMALS 4
#define BOW_DECIMALS 8

void
hw_known_points_free (HwKnownPoints *known)
{
  if (known == NULL)
    return;
  for (guint i = 0; i < known->n_lines; i++)
    g_free (known->lines[i].px);
  g_free (known->lines);
  g_free (known->points);
  g_free (known->name);
  g_free (known);
}

static const char *
pixels_expected (void)
{
  return _ ("two numbers of pixels from the photo's top left, to the right and down");
}

/* The length of a list that may hold so many; 0 after a refusal. */
static guint
list_length (HwJsonWalk *walk, JsonArray *list, guint fewest, const char *expected)
{
  guint n = list != NULL ? json_array_get_length (list) : 0;

  if (list != NULL && n < fewest)
    hw_json_walk_refuse (walk, _ ("expected %s or more, found %u."), expected, n);
  else if (n > HW_MOST_LISTED_POINTS)
    hw_json_walk_refuse (walk, _ ("expected at most %d, found %u."), HW_MOST_LISTED_POINTS, n);
  return walk->error == NULL ? n : 0;
}

static void
read_point (HwJsonWalk *walk, JsonObject *in, HwPhotoPoint *point)
{
  double px[2] = { 0, 0 }, mm[2] = { 0, 0 };

  hw_json_walk_pair (walk, in, "px", pixels_expected (), TRUE, 0, HW_LARGEST_PICTURE_SIDE, px);
  hw_json_walk_pair (walk, in, "mm", _ ("two numbers of millimetres on the cloth, up to 100000"), TRUE,
                     -HW_LARGEST_MM, HW_LARGEST_MM, mm);
  *point = (HwPhotoPoint){ { px[0], px[1] }, { mm[0], mm[1] } };
}

static void
read_points (HwJsonWalk *walk, JsonObject *in, HwKnownPoints *known)
{
  JsonArray *list = hw_json_walk_list (walk, in, "points", TRUE, _ ("a list of points"));
  gsize mark = hw_json_walk_enter (walk, "points");
  guint n = list_length (walk, list, 4, _ ("four points"));

  known->points = g_new0 (HwPhotoPoint, n + 1);
  known->n_points = n;
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      JsonObject *object = hw_json_walk_item_object (walk, list, i);

      if (object != NULL)
        read_point (walk, object, &known->points[i]);
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

static JsonNode *
member (JsonObject *in, const char *key)
{
  JsonNode *node = json_object_get_member (in, key);

  return node != NULL && !JSON_NODE_HOLDS_NULL (node) ? node : NULL;
}

static void
read_bow (HwJsonWalk *walk, JsonObject *in, HwKnownPoints *known)
{
  JsonNode *node = member (in, "bow");

  known->fit_bow = node != NULL && JSON_NODE_HOLDS_VALUE (node)
                   && json_node_get_value_type (node) == G_TYPE_STRING
                   && g_str_equal (json_node_get_string (node), "fit");
  if (!known->fit_bow)
    known->bow = hw_json_walk_number (walk, in, "bow", _ ("\"fit\", or a number from -0.3 to 0.3"), -MOST_BOW,
                                      MOST_BOW, 0);
}

static void
read_box (HwJsonWalk *walk, JsonObject *in, HwKnownPoints *known)
{
  JsonNode *node = member (in, "box");
  JsonArray *list = node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  double side[4] = { 0 };
  gboolean good = list != NULL && json_array_get_length (list) == 4;
  gsize mark;

  known->box = HW_BOX_EMPTY;
  if (node == NULL)
    return;
  for (guint i = 0; good && i < 4; i++)
    {
      JsonNode *number = json_array_get_element (list, i);

      good = JSON_NODE_HOLDS_VALUE (number)
             && (json_node_get_value_type (number) == G_TYPE_INT64
                 || json_node_get_value_type (number) == G_TYPE_DOUBLE);
      side[i] = good ? json_node_get_double (number) : 0;
      good = good && fabs (side[i]) <= HW_LARGEST_MM && (i < 2 || side[i] > 0);
    }
  if (good)
    {
      known->box = (HwBox){ side[0], side[1], side[0] + side[2], side[1] + side[3] };
      return;
    }
  mark = hw_json_walk_enter (walk, "box");
  hw_json_walk_expected (walk, _ ("four numbers of millimetres: left, top, width and height, up to 100000"),
                         node);
  hw_json_walk_leave (walk, mark);
}

static void
read_line (HwJsonWalk *walk, JsonNode *node, HwPhotoLine *line)
{
  JsonArray *list = JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
  guint n;

  if (list == NULL)
    hw_json_walk_expected (walk, _ ("a list of places in the photo"), node);
  n = list_length (walk, list, 3, _ ("three places"));
  line->px = g_new0 (HwPoint, n + 1);
  line->n = n;
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);
      double px[2] = { 0, 0 };

      if (!hw_json_node_pair (json_array_get_element (list, i), 0, HW_LARGEST_PICTURE_SIDE, px))
        hw_json_walk_expected (walk, pixels_expected (), json_array_get_element (list, i));
      line->px[i] = (HwPoint){ px[0], px[1] };
      hw_json_walk_leave (walk, item);
    }
}

static void
read_lines (HwJsonWalk *walk, JsonObject *in, HwKnownPoints *known)
{
  JsonArray *list = hw_json_walk_list (walk, in, "lines", FALSE, _ ("a list of straight lines"));
  gsize mark = hw_json_walk_enter (walk, "lines");
  guint n = list_length (walk, list, 0, _ ("no line"));

  known->lines = g_new0 (HwPhotoLine, n + 1);
  known->n_lines = n;
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      gsize item = hw_json_walk_enter_item (walk, i);

      read_line (walk, json_array_get_element (list, i), &known->lines[i]);
      hw_json_walk_leave (walk, item);
    }
  hw_json_walk_leave (walk, mark);
}

HwKnownPoints *
hw_known_points_parse (const char *text, gssize length, GError **error)
{
  g_autoptr (HwKnownPoints) known = NULL;
  g_autoptr (JsonNode) root = NULL;
  HwJsonWalk walk;

  g_return_val_if_fail (text != NULL, NULL);

  root = hw_json_root (text, length, HW_POINTS_ERROR, HW_POINTS_ERROR_SYNTAX, HW_POINTS_ERROR_CONTENT, error);
  if (root == NULL)
    return NULL;
  known = g_new0 (HwKnownPoints, 1);
  hw_json_walk_init (&walk, HW_POINTS_ERROR, HW_POINTS_ERROR_CONTENT);
  if (JSON_NODE_HOLDS_OBJECT (root))
    {
      JsonObject *object = json_node_get_object (root);

      read_points (&walk, object, known);
      read_bow (&walk, object, known);
      read_box (&walk, object, known);
      read_lines (&walk, object, known);
    }
  else
    hw_json_walk_expected (&walk, _ ("keys in braces"), root);
  if (walk.error != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&walk.error));
      g_clear_pointer (&known, hw_known_points_free);
    }
  hw_json_walk_clear (&walk);
  return g_steal_pointer (&known);
}

HwKnownPoints *
hw_known_points_load (const char *path, GError **error)
{
  g_autofree char *name = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) problem = NULL;
  HwKnownPoints *known;
  gsize length;

  g_return_val_if_fail (path != NULL, NULL);

  name = hw_file_shown_name (path);
  text = hw_file_read_whole (path, HW_LARGEST_LIST_FILE, &length, &problem);
  if (text == NULL)
    {
      g_set_error (error, HW_POINTS_ERROR, HW_POINTS_ERROR_READ, "%s: %s", name, problem->message);
      return NULL;
    }
  known = hw_known_points_parse (text, (gssize)length, error);
  if (known == NULL)
    g_prefix_error (error, "%s: ", name);
  else
    known->name = g_steal_pointer (&name);
  return known;
}

static gboolean
is_in_photo (HwPoint px, guint width, guint height)
{
  return px.x >= 0 && px.y >= 0 && px.x <= width && px.y <= height;
}

static gboolean
set_outside (
    const HwKnownPoints *known, const char *key, HwPoint px, guint width, guint height, GError **error)
{
  g_autofree char *x = hw_json_number_text (px.x);
  g_autofree char *y = hw_json_number_text (px.y);

  g_set_error (error, HW_POINTS_ERROR, HW_POINTS_ERROR_CONTENT,
               _ ("%s%s%s: expected a place in the photo, which is %u × %u pixels, found [%s, %s]."),
               known->name != NULL ? known->name : "", known->name != NULL ? ": " : "", key, width, height, x,
               y);
  return FALSE;
}

gboolean
hw_known_points_check (const HwKnownPoints *known, guint width, guint height, GError **error)
{
  g_return_val_if_fail (known != NULL, FALSE);

  for (guint i = 0; i < known->n_points; i++)
    {
      g_autofree char *key = g_strdup_printf ("points[%u].px", i);

      if (!is_in_photo (known->points[i].px, width, height))
        return set_outside (known, key, known->points[i].px, width, height, error);
    }
  for (guint i = 0; i < known->n_lines; i++)
    for (guint k = 0; k < known->lines[i].n; k++)
      {
        g_autofree char *key = g_strdup_printf ("lines[%u][%u]", i, k);

        if (!is_in_photo (known->lines[i].px[k], width, height))
          return set_outside (known, key, known->lines[i].px[k], width, height, error);
      }
  return TRUE;
}

static double
to_ten_digits (double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  /* Minus nothing is nothing. */
  return g_ascii_strtod (g_ascii_formatd (text, sizeof text, "%.10g", value), NULL) + 0.0;
}

static JsonArray *
matrix_rows (const HwHomography *h)
{
  JsonArray *rows = json_array_new ();

  for (guint i = 0; i < 3; i++)
    {
      JsonArray *row = json_array_new ();

      for (guint k = 0; k < 3; k++)
        json_array_add_double_element (row, to_ten_digits (h->m[i][k]));
      json_array_add_array_element (rows, row);
    }
  return rows;
}

static void
add_number (JsonArray *list, double value)
{
  if (isfinite (value))
    json_array_add_double_element (list, hw_json_rounded (value, RESIDUAL_DECIMALS));
  else
    json_array_add_null_element (list);
}

char *
hw_square_json_text (
    const HwKnownPoints *known, const HwHomography *h, const double *residuals, int bad_point, double bad_by)
{
  g_autoptr (JsonNode) root = NULL;
  JsonObject *object;
  JsonArray *list = json_array_new ();
  double sum = 0;

  g_return_val_if_fail (known != NULL && h != NULL && residuals != NULL, NULL);

  root = json_node_new (JSON_NODE_OBJECT);
  object = json_object_new ();
  json_node_take_object (root, object);
  json_object_set_array_member (object, "matrix", matrix_rows (h));
  if (known->fit_bow || h->bow != 0)
    {
      hw_json_set_number (object, "bow", h->bow, BOW_DECIMALS);
      hw_json_set_place (object, "middle", h->middle, HW_JSON_PLACE_DECIMALS);
      hw_json_set_number (object, "half_diagonal", h->diagonal, HW_JSON_PLACE_DECIMALS);
    }
  for (guint i = 0; i < known->n_points; i++)
    {
      add_number (list, residuals[i]);
      sum += residuals[i] * residuals[i] / known->n_points;
    }
  json_object_set_array_member (object, "residuals_mm", list);
  hw_json_set_number (object, "rms_mm", sqrt (sum), RESIDUAL_DECIMALS);
  if (bad_point >= 0)
    {
      json_object_set_int_member (object, "bad_point", bad_point);
      hw_json_set_number (object, "bad_by_mm", bad_by, RESIDUAL_DECIMALS);
    }
  else
    json_object_set_null_member (object, "bad_point");
  if (known->n_lines > 0)
    {
      list = json_array_new ();
      for (guint i = 0; i < known->n_lines; i++)
        add_number (list, hw_homography_straightness (h, known->lines[i].px, known->lines[i].n));
      json_object_set_array_member (object, "straight_mm", list);
    }
  return hw_json_lines (root, NULL);
}
