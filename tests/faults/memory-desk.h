/* What is at hand on a system short of memory: a scene in a file with artwork and a photo, one that is not saved, one to plan, a plan to print. */
#pragma once

#include <glib.h>

#include "planning/planner.h"

G_BEGIN_DECLS

#define DESK_ROWS 60000 /* of its needle list */

typedef struct
{
  char *root, *scene, *saved, *work, *photo, *said;
  HwSnapshot *large; /* with artwork, not saved */
  HwSnapshot *to_plan;
  HwPlan *plan;
} MemoryDesk;

/* The desk stays until the program ends; its folder goes with memory_desk_clear(). Returns: (transfer full) */
MemoryDesk *
memory_desk_new (void);
void
memory_desk_clear (MemoryDesk *desk);

G_END_DECLS
