/* The desktop's size of text, for what is lettered on a drawing: widgets follow it by themselves. */
#pragma once

#include <glib.h>

/* A length of lettering in px, as large as the desktop wants it. */
double
hw_text_size (double px);

/* scale: how many times as large as usual; taken within 1 and 2.5. Returns: whether it is another than before. */
gboolean
hw_text_set_scale (double scale);
