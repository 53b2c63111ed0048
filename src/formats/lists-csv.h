/* What a plan asks for as tables for a spreadsheet: its hoopings, the marks to draw, the threads, what to buy. CSV by RFC 4180 in UTF-8, lines ended by
 * CRLF. The header names the columns in English whatever the screen speaks, with their units; figures have a decimal point. What is not known is
 * an empty field. Words of the person's own that a spreadsheet might take for a formula, those that begin with = + - @ or a tab, get an
 * apostrophe before them. */
#pragma once

#include <gio/gio.h>

#include "../planning/plan.h"

G_BEGIN_DECLS

typedef enum
{
  HW_LIST_HOOPINGS,
  HW_LIST_THREADS,
  HW_LIST_MARKS,
  HW_LIST_SHOPPING
} HwListKind;
#define HW_N_LISTS (HW_LIST_SHOPPING + 1)

/* "hoopings", "threads", "marks", "shopping": the name of its file, less its ending. */
const char *
hw_list_nick (HwListKind kind);
/* The kind of that nick, or -1. */
int
hw_list_find (const char *nick);

/* Returns: (transfer full) */
char *
hw_list_csv_text (HwListKind kind, const HwPlan *plan);

/* Writes it, whole or not at all. Errors are sentences with the file's name, of the domain G_FILE_ERROR. */
gboolean
hw_list_csv_save (HwListKind kind, const HwPlan *plan, const char *path, GError **error);

G_END_DECLS
