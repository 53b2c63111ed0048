/* A hint as it is shown: a slip of paper that points at what it speaks of, with a way to put it away. It lies over what is there and takes
 * no keyboard. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_HINT_SLIP (hw_hint_slip_get_type ())
G_DECLARE_FINAL_TYPE (HwHintSlip, hw_hint_slip, HW, HINT_SLIP, GtkWidget)

/* Signal "put-away" (gboolean all): the person has read it; all: and wants no more hints. It is hidden until something is said. */
GtkWidget *
hw_hint_slip_new (void);
void
hw_hint_slip_say (HwHintSlip *slip, const char *text);
/* Where the slip is to be so that it points at target, inside room (both in its parent's px): beside it, if it may be and there is space, else
 * above or below. Tells the slip which way to point. */
void
hw_hint_slip_place (HwHintSlip *slip,
                    const GdkRectangle *target,
                    const GdkRectangle *room,
                    gboolean beside,
                    GdkRectangle *place);

G_END_DECLS
