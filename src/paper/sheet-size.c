/* The sheets a home or copy-shop printer takes. ISO 216:2007 (A4, A3) and ASME Y14.1 (size A, the Letter
 * sheet of 8.5 x 11 in, and size B, the Tabloid sheet of 11 x 17 in); Legal, 8.5 x 14 in, is customary. */
#include "sheet-size.h"

#define INCH 25.4

static const HwSheetSize sizes[] = {
  { "A4", 210, 297 },
  { "Letter", 8.5 * INCH, 11 * INCH },
  { "A3", 297, 420 },
  { "Tabloid", 11 * INCH, 17 * INCH },
  { "Legal", 8.5 * INCH, 14 * INCH },
  { NULL, 0, 0 },
};

const HwSheetSize *
hw_sheet_sizes (void)
{
  return sizes;
}

const HwSheetSize *
hw_sheet_size_find (const char *name)
{
  g_return_val_if_fail (name != NULL, NULL);

  for (const HwSheetSize *size = sizes; size->name != NULL; size++)
    if (g_ascii_strcasecmp (size->name, name) == 0)
      return size;

  return NULL;
}
