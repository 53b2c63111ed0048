/* A hooping as `hoopwright plan` prints it, and readings made up for it: what the needle would show over its marks if the cloth lay so. */
#pragma once

#include <math.h>

#include "command-run.h"

typedef struct
{
  char letter[8];
  double u, v; /* hoop axes as planned */
} Mark;

/* A hooping as the plan prints it. */
typedef struct
{
  guint number;
  guint n_marks;
  Mark marks[8];
  guint n_motifs;
  char motifs[8][16];
  double centres[8][2]; /* hoop axes */
} Hooping;

static inline void
to_axes (JsonArray *centre, double angle, JsonArray *place, double *u, double *v)
{
  double x = json_array_get_double_element (place, 0) - json_array_get_double_element (centre, 0);
  double y = json_array_get_double_element (place, 1) - json_array_get_double_element (centre, 1);
  double a = angle * G_PI / 180;

  *u = x * cos (a) + y * sin (a);
  *v = -x * sin (a) + y * cos (a);
}

static inline JsonArray *
position_of (JsonObject *scene, const char *id)
{
  JsonArray *motifs = json_object_get_array_member (scene, "motifs");

  for (guint i = 0; i < json_array_get_length (motifs); i++)
    {
      JsonObject *motif = json_array_get_object_element (motifs, i);

      if (g_str_equal (json_object_get_string_member (motif, "id"), id))
        return json_object_get_array_member (motif, "position");
    }
  g_assert_not_reached ();
}

/* The hooping that stitches the motif. */
static inline void
hooping_of (Bench *bench, const char *motif, Hooping *hooping)
{
  const char *const words[] = { "plan", bench->scene, NULL };
  g_auto (Run) planned = { 0 };
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *scene;
  JsonArray *hoopings;

  run_words (&planned, words);
  root = answer_of (&planned);
  g_assert_true (json_parser_load_from_file (parser, bench->scene, NULL));
  scene = json_node_get_object (json_parser_get_root (parser));
  hoopings = json_object_get_array_member (json_node_get_object (root), "hoopings");
  g_assert_cmpuint (json_array_get_length (hoopings), ==, 2);
  for (guint h = 0; h < 2; h++)
    {
      JsonObject *in = json_array_get_object_element (hoopings, h);
      JsonArray *centre = json_object_get_array_member (in, "centre");
      JsonArray *marks = json_object_get_array_member (in, "marks");
      JsonArray *motifs = json_object_get_array_member (in, "motifs");
      double angle = json_object_get_double_member (in, "angle");
      gboolean found = FALSE;

      *hooping = (Hooping){ .number = h + 1,
                            .n_marks = json_array_get_length (marks),
                            .n_motifs = json_array_get_length (motifs) };
      for (guint i = 0; i < hooping->n_motifs; i++)
        {
          const char *id = json_array_get_string_element (motifs, i);

          found |= g_str_equal (id, motif);
          g_strlcpy (hooping->motifs[i], id, sizeof hooping->motifs[i]);
          to_axes (centre, angle, position_of (scene, id), &hooping->centres[i][0], &hooping->centres[i][1]);
        }
      for (guint i = 0; i < hooping->n_marks; i++)
        {
          JsonObject *mark = json_array_get_object_element (marks, i);

          g_strlcpy (hooping->marks[i].letter, json_object_get_string_member (mark, "id"),
                     sizeof hooping->marks[i].letter);
          to_axes (centre, angle, json_object_get_array_member (mark, "at"), &hooping->marks[i].u,
                   &hooping->marks[i].v);
        }
      if (found)
        return;
    }
  g_assert_not_reached ();
}

static inline void
carry (double turn, double du, double dv, double u, double v, double out[2])
{
  double a = turn * G_PI / 180;

  out[0] = u * cos (a) - v * sin (a) + du;
  out[1] = u * sin (a) + v * cos (a) + dv;
}

/* What the needle shows over each mark when the cloth lies so. */
static inline void
readings_at (const Hooping *hooping, double turn, double du, double dv, double at[8][2])
{
  for (guint i = 0; i < hooping->n_marks; i++)
    carry (turn, du, dv, hooping->marks[i].u, hooping->marks[i].v, at[i]);
}

static inline void
append_number (GString *text, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append (text, g_ascii_dtostr (buffer, sizeof buffer, value));
}

/* n of the readings, with more keys between. */
static inline void
write_readings (Bench *bench, const Hooping *hooping, guint n, double at[8][2], const char *more)
{
  g_autoptr (GString) text = g_string_new (NULL);

  g_string_printf (text, "{\"hooping\": %u, %s \"readings\": [", hooping->number, more);
  for (guint i = 0; i < n; i++)
    {
      g_string_append_printf (text, "%s{\"mark\": \"%s\", \"at\": [", i > 0 ? ", " : "",
                              hooping->marks[i].letter);
      append_number (text, at[i][0]);
      g_string_append (text, ", ");
      append_number (text, at[i][1]);
      g_string_append (text, "]}");
    }
  g_string_append (text, "]}");
  bench_write (bench->measured, text->str);
}

static inline void
correct (Bench *bench, Run *run)
{
  const char *const words[] = { "correct", bench->scene, bench->measured, NULL };

  run_words (run, words);
}

/* The answer to readings that must be understood. Returns: (transfer full) */
static inline JsonNode *
corrected (Bench *bench)
{
  g_auto (Run) run = { 0 };

  correct (bench, &run);
  return answer_of (&run);
}

static inline double
number_at (JsonNode *answer, const char *key, int index)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path
      = index < 0 ? g_strdup_printf ("$.%s", key) : g_strdup_printf ("$.%s[%d]", key, index);
  g_autoptr (JsonNode) found = json_path_query (path, answer, &error);
  JsonArray *matches;

  g_assert_no_error (error);
  matches = json_node_get_array (found);
  g_assert_cmpuint (json_array_get_length (matches), ==, 1);
  return json_array_get_double_element (matches, 0);
}

static inline const char *
text_of (JsonNode *answer, const char *key)
{
  return json_object_get_string_member (json_node_get_object (answer), key);
}

static inline void
assert_near (double value, double expected, double within)
{
  g_assert_cmpfloat_with_epsilon (value, expected, within);
}
