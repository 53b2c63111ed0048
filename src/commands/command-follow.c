/* hoopwright follow: from distances or readings measured after stitching to how the cloth changed, and where what is not stitched yet lies now. With --output
 * the scene that follows the cloth is written. */
#include "command-scene.h"

#include <math.h>

#include "../geometry/language.h"
#include "../formats/answers-json.h"
#include "../formats/readings-json.h"
#include "../formats/scene-file.h"
#include "../planning/follow.h"
#include "command-readings.h"

/* What was found. */
typedef struct
{
  HwStretch stretch;
  double *residuals;    /* mm, of each distance or reading */
  const char **letters; /* of the readings; NULL of distances; borrowed from readings */
  HwReading *readings;
  guint n;
} Found;

static void
found_clear (Found *found)
{
  g_free (found->stretch.residuals);
  g_free (found->residuals);
  g_free (found->letters);
  g_free (found->readings);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Found, found_clear)

static gboolean
fit_distances (const HwMeasured *measured, const HwPlan *plan, Found *found, GError **error)
{
  g_autofree HwDistance *distances = hw_measured_distances (measured, plan, error);

  if (distances == NULL)
    return FALSE;
  if (!hw_stretch_from_distances (distances, measured->n_distances, &found->stretch, error))
    {
      g_prefix_error (error, "%s: ", measured->name);
      return FALSE;
    }
  found->n = measured->n_distances;
  found->residuals = g_steal_pointer (&found->stretch.residuals);
  return TRUE;
}

/* What remains at each reading once the cloth's stretch and the hooping's shift and turn are taken off. */
static gboolean
fill_residuals (Found *found, const HwPoint *scene, const HwPoint *at, const gboolean *used, GError **error)
{
  g_autofree HwPoint *from = g_new (HwPoint, found->n), *to = g_new (HwPoint, found->n);
  HwRigidFit fit;
  guint n_used = 0;

  for (guint i = 0; i < found->n; i++)
    {
      if (!used[i])
        continue;
      from[n_used] = hw_stretch_apply (&found->stretch, (HwPoint){ 0, 0 }, scene[i]);
      to[n_used++] = at[i];
    }
  if (!hw_rigid_fit (from, to, n_used, &fit, error))
    return FALSE;
  found->residuals = g_new (double, found->n);
  for (guint i = 0; i < found->n; i++)
    {
      HwPoint p = hw_point_turn (hw_stretch_apply (&found->stretch, (HwPoint){ 0, 0 }, scene[i]), fit.turn);

      found->residuals[i] = hypot (p.x + fit.shift.x - at[i].x, p.y + fit.shift.y - at[i].y);
    }
  return TRUE;
}

static gboolean
fit_points (const HwMeasured *measured, const HwHooping *hooping, Found *found, GError **error)
{
  guint n = measured->n_readings, n_used = 0;
  g_autofree HwPoint *scene = g_new (HwPoint, n), *at = g_new (HwPoint, n);
  g_autofree HwPoint *used_scene = g_new (HwPoint, n), *used_at = g_new (HwPoint, n);
  g_autofree gboolean *used = g_new (gboolean, n);

  for (guint i = 0; i < n; i++)
    {
      /* Back from the hoop's axes, so that the stretch is that of the cloth's own axes. */
      scene[i] = hw_point_turn (found->readings[i].design, hooping->angle);
      at[i] = found->readings[i].at;
      found->letters[i] = found->readings[i].letter;
      used[i] = !found->readings[i].left_out;
      if (used[i])
        {
          used_scene[n_used] = scene[i];
          used_at[n_used++] = at[i];
        }
    }
  return hw_stretch_from_points (used_scene, used_at, n_used, &found->stretch, error)
         && fill_residuals (found, scene, at, used, error);
}

static gboolean
fit_readings (const HwCommandLine *line, const HwMeasured *measured, const HwPlan *plan, Found *found)
{
  g_autoptr (GError) error = NULL;
  const HwHooping *hooping = hw_measured_hooping (measured, plan, &error);

  found->readings = hooping != NULL ? hw_measured_readings (measured, hooping, &error) : NULL;
  if (found->readings == NULL)
    {
      hw_command_complain ("%s", error->message);
      return FALSE;
    }
  if (hw_command_doubts_readings (measured, found->readings, line->unit))
    return FALSE;
  found->n = measured->n_readings;
  found->letters = g_new (const char *, found->n);
  if (fit_points (measured, hooping, found, &error))
    return TRUE;
  hw_command_complain ("%s: %s", measured->name, error->message);
  return FALSE;
}

/* The scene that follows, with a line of it in its log. */
static HwSnapshot *
follow (const HwSnapshot *snapshot, const HwStretch *stretch, HwPoint about)
{
  g_autofree char *text = hw_stretch_text (stretch);
  HwSnapshot *now = hw_follow_cloth (snapshot, stretch, about);

  g_ptr_array_add (now->log,
                   hw_log_line_new (g_get_real_time () / G_USEC_PER_SEC, HW_LOG_DRAW_IN, NULL, text));
  return now;
}

static gboolean
save (const HwSnapshot *now, const HwCommandLine *line, const char *output)
{
  g_autofree char *folder = g_path_get_dirname (line->scene);
  g_autofree char *text = hw_scene_file_text (now);
  g_autoptr (HwSnapshot) again = NULL;
  g_autoptr (GError) error = NULL;

  /* A place pushed beyond what a scene may hold would make a file that nobody can open. */
  again = hw_scene_file_parse (text, -1, NULL, &error);
  if (again != NULL && hw_scene_file_save (now, output, folder, &error))
    return TRUE;
  hw_command_complain ("%s", error->message);
  return FALSE;
}

static int
answer (const HwCommandLine *line,
        const HwMeasured *measured,
        const HwSnapshot *snapshot,
        const HwPlan *plan,
        const char *output)
{
  g_auto (Found) found = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) now = NULL;
  g_autofree char *text = NULL;
  HwPoint about = hw_follow_still_point (snapshot);

  if (measured->n_readings > 0 && !fit_readings (line, measured, plan, &found))
    return HW_EXIT_BAD;
  if (measured->n_readings == 0 && !fit_distances (measured, plan, &found, &error))
    return hw_command_complain ("%s", error->message);
  now = follow (snapshot, &found.stretch, about);
  if (output != NULL && !save (now, line, output))
    return HW_EXIT_BAD;
  text = hw_stretch_json_text (&found.stretch, about, found.residuals, found.letters, found.n, now);
  return hw_command_output (text, HW_EXIT_PLANNED);
}

int
hw_command_follow (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_autoptr (HwSnapshot) snapshot = NULL;
  g_autoptr (HwMeasured) measured = NULL;
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *output = NULL;
  const GOptionEntry extra[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &output,
      N_ ("Write the scene that follows the cloth to this file"), N_ ("FILE") },
    { NULL },
  };
  int status;

  if (!hw_command_line_read_two (
          &line, argc, argv, _ ("DISTANCES.json"), extra,
          _ ("Works out from distances measured on the cloth how it drew in or stretched, and prints as JSON "
             "where the motifs that are not stitched yet lie now."),
          _ ("DISTANCES.json holds {\"hooping\": 1, \"distances\": [{\"from\": \"A\", \"to\": \"B\", \"mm\": "
             "119.2}, "
             "…]}: marks of a hooping or places on the cloth, and what was measured between them; or "
             "readings as for "
             "hoopwright correct. It ends with 0 when there is an answer, with 1 when the scene cannot be "
             "planned "
             "whole, and with 2 when the input cannot be used."),
          &status))
    return status;
  snapshot = hw_command_load (&line);
  if (snapshot == NULL)
    return HW_EXIT_BAD;
  measured = hw_measured_load (line.second, HW_MEASURED_EITHER, &error);
  if (measured == NULL)
    return hw_command_complain ("%s", error->message);
  if (hw_measured_names_marks (measured))
    {
      plan = hw_command_make_whole_plan (&line, snapshot);
      if (plan == NULL)
        return HW_EXIT_UNPLANNABLE;
    }
  return answer (&line, measured, snapshot, plan, output);
}
