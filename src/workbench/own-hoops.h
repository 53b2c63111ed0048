/* The hoops a person owns, remembered from one new scene to the next. */
#pragma once

#include "../scene/records.h"

G_BEGIN_DECLS

/* Returns: (transfer full) (element-type HwHoop): without ids, in the person's order; empty when none are remembered */
GPtrArray *
hw_own_hoops_get (void);
void
hw_own_hoops_set (GPtrArray *hoops);
/* Takes over frame, clearance and turn of a hoop of the same name and field, if one is remembered. */
void
hw_own_hoops_take_measures (const HwHoop *hoop);

G_END_DECLS
