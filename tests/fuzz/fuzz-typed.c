/* What is typed into a field: lengths with units, readings with directions, how fine a thread is, turns. */
#include <math.h>
#include <string.h>

#include "../../src/geometry/units.h"
#include "../../src/scene/yarn-count.h"
#include "../../src/workbench/reading-text.h"
#include "fuzz.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *bytes = g_strndup ((const char *)data, size);
  g_autofree char *text = g_utf8_make_valid (bytes, -1); /* a field holds nothing else */
  g_autoptr (GError) error = NULL;
  double value = 0;
  gboolean negative;

  for (int unit = HW_UNIT_MM; unit <= HW_UNIT_INCH; unit++)
    {
      if (hw_length_parse (text, unit, &value))
        g_assert_true (isfinite (value));
      for (int along = 0; along < 2; along++)
        if (hw_reading_text_parse (text, along, unit, &value, &negative) == HW_READING_TEXT_LENGTH)
          g_assert_true (isfinite (value));
    }
  if (hw_yarn_parse (text, &value, &error))
    {
      g_assert_cmpfloat (value, >=, HW_LEAST_TEX);
      g_assert_cmpfloat (value, <=, HW_MOST_TEX);
    }
  else
    fuzz_assert_sentence (error);
  return 0;
}
