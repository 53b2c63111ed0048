/* What is needed in words, for paper and screen alike. All strings are translated. */
#pragma once

#include "../planning/supplies.h"

G_BEGIN_DECLS

/* A figure to be seen from across the table, with what it is and why. */
typedef struct
{
  const char *label;
  char *value;
  char *reason; /* or NULL */
} HwNeed;

/* Cloth, stabiliser, time; needle thread, bobbin thread, needles. */
#define HW_N_NEEDS 6

/* Returns: (transfer full): HW_N_NEEDS of them; hw_needs_free() them */
HwNeed *
hw_needs_new (const HwSupplies *supplies, HwUnit unit);
void
hw_needs_free (HwNeed *needs);

/* "180 × 240 mm", "2 of 180 × 240 mm": the stabiliser of a hooping. Returns: (transfer full) */
char *
hw_needs_piece_text (const HwHoopingSupplies *taken, HwUnit unit);
/* "a full one first": what becomes of the bobbin in the machine. Returns: (transfer full) (nullable): NULL when it stays in */
char *
hw_needs_bobbin_text (const HwHoopingSupplies *taken);

G_END_DECLS
