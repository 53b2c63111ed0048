/* What the commands that read readings share: a doubtful reading is asked about before anything is worked out from it. */
#include "command-readings.h"

#include "../geometry/language.h"
#include "../planning/marks.h"
#include "command-scene.h"

gboolean
hw_command_doubts_readings (const HwMeasured *measured, const HwReading *readings, HwUnit unit)
{
  HwDoubt doubt;
  g_autofree char *text = NULL;

  if (measured->sure)
    return FALSE;
  doubt = hw_readings_doubt (readings, measured->n_readings, HW_MARKS_SIGMA);
  text = hw_doubt_text (&doubt, readings, measured->n_readings, unit);
  if (text == NULL)
    return FALSE;
  hw_command_complain (_ ("%s: %s The key \"sure\": true says so."), measured->name, text);
  return TRUE;
}
