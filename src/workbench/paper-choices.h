/* What a person chooses of the papers: which, on what sheet, how it looks and speaks. */
#pragma once

#include <gtk/gtk.h>

#include "../paper/print-job.h"

G_BEGIN_DECLS

#define HW_TYPE_PAPER_CHOICES (hw_paper_choices_get_type ())
G_DECLARE_FINAL_TYPE (HwPaperChoices, hw_paper_choices, HW, PAPER_CHOICES, GtkBox)

/* Signal "changed": something else was chosen; it is remembered already. */
GtkWidget *
hw_paper_choices_new (void);

/* Chooses a sheet by its name, as if the person had; an unknown one changes nothing. */
void
hw_paper_choices_use_sheet (HwPaperChoices *choices, const char *name);

/* Offers the parts of a scene; the choice stays by its place. */
void
hw_paper_choices_offer_parts (HwPaperChoices *choices, const HwSnapshot *snapshot);

/* Fills everything but the stretch. unit: the window's, for paper that follows it. The language is the choices' own. */
void
hw_paper_choices_read (HwPaperChoices *choices, HwUnit unit, HwPaperOptions *options);

G_END_DECLS
