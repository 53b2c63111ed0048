/* Private to this room: how much thread, in words. */
#pragma once

#include "../geometry/units.h"

G_BEGIN_DECLS

/* "212 m", "4.2 m"; with inches "232 yd (212 m)"; "not known" for NAN. Returns: (transfer full) */
char *
hw_words_thread (double metres, HwUnit unit);

G_END_DECLS
