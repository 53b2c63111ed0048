/* The scene brought to the truth when the cloth is no longer where the plan has it: what is not stitched yet follows cloth that drew in or stretched, and
 * a hooping that was stitched elsewhere than planned is put where it really is. */
#pragma once

#include "../registration/correction.h"
#include "../registration/draw-in.h"
#include "../scene/snapshot.h"

G_BEGIN_DECLS

/* What stays where it is when the cloth's change is carried over, fabric mm: the centre of the common box of the stitched motifs, or of all motifs when
 * none is stitched yet; the cloth's middle when there are none. */
HwPoint
hw_follow_still_point (const HwSnapshot *snapshot);

/* The scene as the cloth lies now: the places (not angles and sizes) of motifs that are not stitched, the centres of pins with their marks and the places their
 * readings stand for, marks held for motifs that are not stitched, and the edge line's points move by stretch about the point. What is stitched stays.
 * Returns: (transfer full) */
HwSnapshot *
hw_follow_cloth (const HwSnapshot *snapshot, const HwStretch *stretch, HwPoint about);

/* Stitched hooping `frozen` (index into snapshot->frozen) really lies at R(turn) p + shift, p and shift in its hoop axes: its motifs' places and angles and
 * its pose are moved there. Marks stay, being drawn on the cloth, and so does all that is not stitched. Returns: (transfer full) */
HwSnapshot *
hw_land_hooping (const HwSnapshot *snapshot, guint frozen, const HwCorrection *landed);

G_END_DECLS
