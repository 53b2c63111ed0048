/* Private to this room: sheets that several small templates share. */
#pragma once

#include "page.h"

G_BEGIN_DECLS

typedef struct _HwNestPages HwNestPages;

/* Lays out those templates of the job that share sheets. Returns: (transfer full) */
HwNestPages *
hw_nest_pages_new (const HwPrintJob *job, double pixels_per_mm);
/* The pages that were added stay with the job. */
void
hw_nest_pages_free (HwNestPages *pages);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwNestPages, hw_nest_pages_free)

/* Whether the motif's template is on one of those sheets. */
gboolean
hw_nest_pages_takes (const HwNestPages *pages, guint motif);

/* Adds the sheet the motif is on, unless it was added already. */
void
hw_nest_pages_add (HwNestPages *pages, HwPrintJob *job, guint motif);

/* Where a template lies on such a sheet, for those who read it back: mm from the sheet's top left corner. */
typedef struct
{
  guint motif;
  HwBox box; /* within its cut lines */
  gboolean turned;
} HwNestedPiece;

/* The pieces of a page of a job, or NULL where it is no shared sheet. */
const HwNestedPiece *
hw_nest_page_pieces (const HwPage *page, guint *n_pieces);

G_END_DECLS
