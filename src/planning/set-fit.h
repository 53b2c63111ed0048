/* Whether a set of placed motifs fits some hoop of the scene, asked many thousand times while a plan is made. */
#pragma once

#include "order.h"

G_BEGIN_DECLS

/* Remembers answers from one plan to the next as long as hoops and cloth stay the same. */
typedef struct _HwSetFit HwSetFit;
HwSetFit *
hw_set_fit_new (void);
void
hw_set_fit_free (HwSetFit *fit);

/* Makes ready for questions about n placed motifs; placed must live until the next call. Returns TRUE when hoops or cloth have changed
 * since the last one. */
gboolean
hw_set_fit_begin (HwSetFit *fit, const HwSnapshot *snapshot, const HwPlaced *placed, guint n);

/* Whether the motifs (indices into placed) fit one field together. Quick when most of the set was asked about just before. */
gboolean
hw_set_fit_ask (HwSetFit *fit, const guint *set, guint n);

/* The convex hull of the set, valid until the next question. */
const HwPoint *
hw_set_fit_hull (HwSetFit *fit, const guint *set, guint n, guint *n_hull);

/* A key that tells sets of placed motifs apart, whatever the order they are named in. */
typedef struct
{
  guint64 a, b;
} HwSetKey;
HwSetKey
hw_set_key (const HwPlaced *placed, const guint *set, guint n);

G_END_DECLS
