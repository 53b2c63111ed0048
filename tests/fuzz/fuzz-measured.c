/* Readings, distances and the points of a photograph. */
#include <string.h>

#include "../../src/formats/points-json.h"
#include "../../src/formats/readings-json.h"
#include "fuzz.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL, unlike = NULL, other = NULL;
  HwMeasured *readings = hw_measured_parse ((const char *)data, (gssize)size, HW_MEASURED_READINGS, &error);
  HwMeasured *either = hw_measured_parse ((const char *)data, (gssize)size, HW_MEASURED_EITHER, &unlike);
  HwKnownPoints *points = hw_known_points_parse ((const char *)data, (gssize)size, &other);

  if (readings == NULL)
    fuzz_assert_sentence (error);
  if (either == NULL)
    fuzz_assert_sentence (unlike);
  if (points == NULL)
    fuzz_assert_sentence (other);
  g_clear_pointer (&readings, hw_measured_free);
  g_clear_pointer (&either, hw_measured_free);
  g_clear_pointer (&points, hw_known_points_free);
  return 0;
}
