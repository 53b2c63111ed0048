/* Needle lists. */
#include <string.h>

#include "../../src/formats/needle-csv.h"
#include "fuzz.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwNeedleList) list = hw_needle_csv_parse ((const char *)data, size, "spoiled.csv", &error);

  if (list == NULL)
    fuzz_assert_sentence (error);
  else
    g_assert_cmpuint (list->n_stitches, <=, list->n_points);
  return 0;
}
