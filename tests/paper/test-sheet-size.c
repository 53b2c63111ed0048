/* Sheet sizes against the standards that fix them. */
#include <glib.h>
#include <math.h>

#include "../../src/paper/sheet-size.h"

static void
assert_size (const char *name, double width, double height)
{
  const HwSheetSize *size = hw_sheet_size_find (name);

  g_assert_nonnull (size);
  g_assert_cmpfloat_with_epsilon (size->width, width, 1e-9);
  g_assert_cmpfloat_with_epsilon (size->height, height, 1e-9);
}

/* ISO 216:2007, table of the main A series. */
static void
test_iso_216 (void)
{
  const HwSheetSize *a3 = hw_sheet_size_find ("A3"), *a4 = hw_sheet_size_find ("A4");

  assert_size ("A4", 210, 297);
  assert_size ("A3", 297, 420);
  /* Its rule: half a sheet has the shape of the whole, and A0 is a square metre. */
  g_assert_cmpfloat_with_epsilon (a3->height / 2, a4->width, 0.5);
  g_assert_cmpfloat_with_epsilon (a4->height / a4->width, sqrt (2), 0.005);
  g_assert_cmpfloat_with_epsilon (a4->width * a4->height * 16 / 1e6, 1.0, 0.005);
}

/* ASME Y14.1, sizes A and B, and 1 inch = 25.4 mm exactly. */
static void
test_asme_y14_1 (void)
{
  assert_size ("Letter", 8.5 * 25.4, 11 * 25.4);
  assert_size ("Tabloid", 11 * 25.4, 17 * 25.4);
}

/* Common practice, no source. */
static void
test_legal (void)
{
  assert_size ("Legal", 215.9, 355.6);
}

static void
test_names (void)
{
  g_assert_true (hw_sheet_size_find ("letter") == hw_sheet_size_find ("LETTER"));
  g_assert_null (hw_sheet_size_find ("A4 "));
  g_assert_null (hw_sheet_size_find (""));
  for (const HwSheetSize *size = hw_sheet_sizes (); size->name != NULL; size++)
    {
      g_assert_true (hw_sheet_size_find (size->name) == size);
      g_assert_cmpfloat (size->height, >, size->width);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet-size/iso-216", test_iso_216);
  g_test_add_func ("/sheet-size/asme-y14.1", test_asme_y14_1);
  g_test_add_func ("/sheet-size/legal", test_legal);
  g_test_add_func ("/sheet-size/names-without-regard-to-case", test_names);

  return g_test_run ();
}
