/* One hooping of a plan in words, for cards, beads and their tooltips. */
#pragma once

#include "../planning/plan.h"

G_BEGIN_DECLS

/* "Wall, Fig branch, Quince"; of very many the first 59, " and 12 more". Returns: (transfer full) */
char *
hw_hooping_motifs_text (const HwPlan *plan, guint hooping);
/* "4 thread changes · 38 min". Returns: (transfer full) */
char *
hw_hooping_work_text (const HwPlan *plan, guint hooping);
const char *
hw_hooping_hoop_name (const HwPlan *plan, guint hooping);
/* "12 min", "1 h 20". Returns: (transfer full) */
char *
hw_minutes_text (double minutes);

G_END_DECLS
