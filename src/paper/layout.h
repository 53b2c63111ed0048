/* Private to this room: the whole cloth at true size, cut into sheets. */
#pragma once

#include "template-motif.h"
#include "tiling.h"

G_BEGIN_DECLS

typedef struct
{
  const HwPrintJob *job;
  double width, height; /* of the sheet, turned as suits best */
  HwTiling tiling;
  gboolean *left_out; /* by row, then column: tiles of bare cloth */
  guint n_left_out;
  HwTemplateMotif **motifs; /* by motif of the plan; NULL: not printed with the job's part */
  HwOutline **placed;       /* where they lie; mirrored on a layout for the back, as all that follows */
  HwEdgeLine *edge_line;    /* or NULL */
} HwLayout;

/* Lays out the job's sheets. The job must outlive it. Returns: (transfer full) (nullable): NULL and an error of HW_PAPER_ERROR */
HwLayout *
hw_layout_new (const HwPrintJob *job, GError **error);
void
hw_layout_free (HwLayout *layout);

/* Where a point of the cloth is seen. */
HwPoint
hw_layout_point (const HwLayout *layout, HwPoint p);

/* Whether a mark stands at the same place under the same name as one that was drawn before it. */
gboolean
hw_layout_drawn_before (const HwLayout *layout, guint hooping, guint mark);

/* White on all sides, and the height the foot takes. */
#define HW_LAYOUT_FOOT 18.0

/* How far the signs reach around their places, mm. */
#define HW_LAYOUT_MOTIF_ARM 9.0
#define HW_LAYOUT_CENTRE_ARM 16.0
#define HW_LAYOUT_MARK_ARM 5.0

G_END_DECLS
