/* The menus for what a person decides about hoopings and motifs, the same on cards and on the table. Their items are actions of the window. */
#pragma once

#include <gio/gio.h>

#include "bench.h"

G_BEGIN_DECLS

/* For the chosen hooping. Returns: (transfer full) */
GMenuModel *
hw_hooping_menu_new (HwBench *bench);
/* Adds to a menu what can be decided about the selected motifs; nothing when fewer than two are. */
void
hw_append_motif_decisions (GMenu *menu, HwBench *bench);

G_END_DECLS
