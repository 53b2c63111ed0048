/* Answers as JSON. What is entered at the machine is a whole number of its steps; six decimals hold every step a machine has and drop what
 * binary fractions add. */
#include "answers-json.h"

#include <math.h>

#include "json-figures.h"
#include "json-lines.h"

#define STEP_DECIMALS 6
#define EXACT_DECIMALS 6
#define REMAINS_DECIMALS 4
#define PERCENT_DECIMALS 4
#define STRETCH_DECIMALS 8

static const char *const advice_nicks[] = {
  [HW_ADVICE_STITCH] = "stitch",
  [HW_ADVICE_ENTER] = "enter",
  [HW_ADVICE_READ_AGAIN] = "read-again",
  [HW_ADVICE_HOOP_AGAIN] = "hoop-again",
};

static const char *const kind_nicks[] = {
  [HW_STRETCH_ALIKE] = "alike",
  [HW_STRETCH_AXES] = "axes",
  [HW_STRETCH_FULL] = "full",
};

static void
set_fit (JsonObject *object, const char *key, const HwRigidFit *fit)
{
  JsonObject *inner = json_object_new ();

  hw_json_set_place (inner, "shift", fit->shift, EXACT_DECIMALS);
  hw_json_set_number (inner, "turn", fit->turn, EXACT_DECIMALS);
  json_object_set_object_member (object, key, inner);
}

static void
set_remaining (JsonObject *object,
               const HwCorrectionAnswer *answer,
               const HwSnapshot *snapshot,
               const HwHooping *hooping)
{
  JsonObject *remaining = json_object_new ();

  for (guint i = 0; i < answer->n_targets; i++)
    hw_json_set_number (remaining, hw_snapshot_motif (snapshot, hooping->motifs[i])->id, answer->remaining[i],
                        REMAINS_DECIMALS);
  json_object_set_object_member (object, "remaining_error", remaining);
}

static void
set_residuals (JsonObject *object, const HwCorrectionAnswer *answer, const HwReading *readings, guint n)
{
  JsonObject *residuals = json_object_new ();

  for (guint i = 0; i < n; i++)
    hw_json_set_number (residuals, readings[i].letter, answer->residuals[i], REMAINS_DECIMALS);
  json_object_set_object_member (object, "residuals", residuals);
}

char *
hw_correction_json_text (const HwCorrectionAnswer *answer,
                         const HwReading *readings,
                         guint n,
                         const HwSnapshot *snapshot,
                         const HwHooping *hooping,
                         const char *advice)
{
  g_autoptr (JsonNode) root = NULL;
  JsonObject *object;

  g_return_val_if_fail (answer != NULL && readings != NULL && advice != NULL, NULL);
  g_return_val_if_fail (snapshot != NULL && hooping != NULL && answer->n_targets == hooping->n_motifs, NULL);

  root = json_node_new (JSON_NODE_OBJECT);
  object = json_object_new ();
  json_node_take_object (root, object);
  hw_json_set_place (object, "shift", answer->chosen.shift, STEP_DECIMALS);
  hw_json_set_number (object, "turn", answer->chosen.turn, STEP_DECIMALS);
  set_fit (object, "exact", &answer->exact);
  set_remaining (object, answer, snapshot, hooping);
  if (answer->outlier >= 0)
    json_object_set_string_member (object, "outlier", readings[answer->outlier].letter);
  else
    json_object_set_null_member (object, "outlier");
  hw_json_set_number (object, "stretch_percent", answer->stretch_seen ? answer->stretch : NAN,
                      PERCENT_DECIMALS);
  json_object_set_string_member (object, "advice", advice);
  json_object_set_string_member (object, "next", advice_nicks[answer->advice]);
  if (answer->outlier >= 0)
    {
      hw_json_set_number (object, "outlier_by", answer->outlier_by, REMAINS_DECIMALS);
      set_fit (object, "without_outlier", &answer->without);
    }
  set_residuals (object, answer, readings, n);
  if (answer->leaves_field > 0)
    hw_json_set_number (object, "leaves_field", answer->leaves_field, REMAINS_DECIMALS);
  return hw_json_lines (root, NULL);
}

static void
set_matrix (JsonObject *object, const HwStretch *stretch)
{
  double rows[2][2] = { { stretch->xx, stretch->xy }, { stretch->xy, stretch->yy } };
  JsonArray *matrix = json_array_new ();

  for (guint i = 0; i < 2; i++)
    {
      JsonArray *row = json_array_new ();

      for (guint k = 0; k < 2; k++)
        json_array_add_double_element (row, hw_json_rounded (rows[i][k], STRETCH_DECIMALS));
      json_array_add_array_element (matrix, row);
    }
  json_object_set_array_member (object, "stretch", matrix);
}

static void
set_remaining_mm (JsonObject *object, const double *residuals, const char *const *letters, guint n)
{
  JsonObject *by_mark = letters != NULL ? json_object_new () : NULL;
  JsonArray *list = letters != NULL ? NULL : json_array_new ();

  for (guint i = 0; i < n; i++)
    {
      if (by_mark != NULL)
        hw_json_set_number (by_mark, letters[i], residuals[i], REMAINS_DECIMALS);
      else
        json_array_add_double_element (list, hw_json_rounded (residuals[i], REMAINS_DECIMALS));
    }
  if (by_mark != NULL)
    json_object_set_object_member (object, "remaining_mm", by_mark);
  else
    json_object_set_array_member (object, "remaining_mm", list);
}

static gboolean
is_stitched (const HwSnapshot *snapshot, const char *id)
{
  for (guint i = 0; i < snapshot->frozen->len; i++)
    {
      const HwPin *pin = snapshot->frozen->pdata[i];

      if (pin->motifs != NULL && g_strv_contains ((const char *const *)pin->motifs, id))
        return TRUE;
    }
  return FALSE;
}

static void
set_places (JsonObject *object, const HwSnapshot *after)
{
  JsonObject *places = json_object_new ();

  for (guint i = 0; i < after->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (after, i);

      if (!is_stitched (after, motif->id))
        hw_json_set_place (places, motif->id, motif->placement.position, HW_JSON_PLACE_DECIMALS);
    }
  json_object_set_object_member (object, "motifs", places);
}

char *
hw_stretch_json_text (const HwStretch *stretch,
                      HwPoint about,
                      const double *residuals,
                      const char *const *letters,
                      guint n,
                      const HwSnapshot *after)
{
  g_autoptr (JsonNode) root = NULL;
  g_autofree char *text = NULL;
  JsonObject *object;
  double across, along;

  g_return_val_if_fail (stretch != NULL && residuals != NULL && after != NULL, NULL);

  root = json_node_new (JSON_NODE_OBJECT);
  object = json_object_new ();
  json_node_take_object (root, object);
  hw_stretch_percents (stretch, &across, &along);
  hw_json_set_number (object, "across_percent", across, PERCENT_DECIMALS);
  hw_json_set_number (object, "along_percent", along, PERCENT_DECIMALS);
  set_matrix (object, stretch);
  json_object_set_string_member (object, "kind", kind_nicks[stretch->kind]);
  hw_json_set_place (object, "about", about, HW_JSON_PLACE_DECIMALS);
  set_remaining_mm (object, residuals, letters, n);
  set_places (object, after);
  text = hw_stretch_text (stretch);
  json_object_set_string_member (object, "text", text);
  return hw_json_lines (root, NULL);
}
