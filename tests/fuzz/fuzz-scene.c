/* Scene files: what is read can be written and read again to the same; what is not says why. */
#include <string.h>

#include "../../src/formats/scene-file.h"
#include "fuzz.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) scene = hw_scene_file_parse_awaiting ((const char *)data, (gssize)size, &error);
  g_autoptr (HwSnapshot) again = NULL;
  g_autofree char *text = NULL, *second = NULL;

  if (scene == NULL)
    {
      fuzz_assert_sentence (error);
      return 0;
    }
  text = hw_scene_file_text (scene);
  again = hw_scene_file_parse_awaiting (text, -1, &error);
  g_assert_no_error (error);
  second = hw_scene_file_text (again);
  g_assert_cmpstr (text, ==, second);
  return 0;
}
