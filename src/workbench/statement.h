/* The plan in one sentence, and what to look at. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_STATEMENT (hw_statement_get_type ())
G_DECLARE_FINAL_TYPE (HwStatement, hw_statement, HW, STATEMENT, GtkBox)

/* Signal "problems-wanted": the person wants to see what to look at. */
GtkWidget *
hw_statement_new (HwBench *bench);

G_END_DECLS
