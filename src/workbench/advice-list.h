/* What would help, each with a button that does it. */
#pragma once

#include <gtk/gtk.h>

#include "adviser.h"

G_BEGIN_DECLS

#define HW_TYPE_ADVICE_LIST (hw_advice_list_get_type ())
G_DECLARE_FINAL_TYPE (HwAdviceList, hw_advice_list, HW, ADVICE_LIST, GtkBox)

GtkWidget *
hw_advice_list_new (HwAdviser *adviser);

G_END_DECLS
