/* Paper formats: ISO 216 and ASME Y14.1, portrait, millimetres. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  const char *name;     /* "A4", "A3", "Letter", "Legal", "Tabloid" */
  double width, height; /* mm */
} HwSheetSize;

/* All offered sizes, ended by a NULL name. */
const HwSheetSize *
hw_sheet_sizes (void);
/* By name, without regard to case; NULL when unknown. */
const HwSheetSize *
hw_sheet_size_find (const char *name);

G_END_DECLS
