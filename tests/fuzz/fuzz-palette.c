/* Lists of threads at hand: what is read can be written and read again. */
#include <string.h>

#include "../../src/formats/palette-csv.h"
#include "fuzz.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) palette = hw_palette_csv_parse ((const char *)data, size, "spoiled.csv", &error);
  g_autoptr (GPtrArray) again = NULL;
  g_autofree char *text = NULL;

  if (palette == NULL)
    {
      fuzz_assert_sentence (error);
      return 0;
    }
  text = hw_palette_csv_write (palette);
  again = hw_palette_csv_parse (text, strlen (text), "written.csv", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->len, ==, palette->len);
  return 0;
}
