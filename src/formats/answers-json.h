/* Answers worked out from readings and distances, as JSON for other programs. Millimetres and degrees; shifts in hoop axes, places on the cloth. */
#pragma once

#include "../planning/plan.h"
#include "../registration/correction.h"
#include "../registration/draw-in.h"

G_BEGIN_DECLS

/* What is entered at the machine. task's targets are the hooping's motifs in their order; advice: the sentence. Returns: (transfer full) */
char *
hw_correction_json_text (const HwCorrectionAnswer *answer,
                         const HwReading *readings,
                         guint n,
                         const HwSnapshot *snapshot,
                         const HwHooping *hooping,
                         const char *advice);

/* How the cloth changed and where what is not stitched goes. after: the scene once it has followed; letters: NULL, or for each of the n residuals the mark it is
 * of. Returns: (transfer full) */
char *
hw_stretch_json_text (const HwStretch *stretch,
                      HwPoint about,
                      const double *residuals,
                      const char *const *letters,
                      guint n,
                      const HwSnapshot *after);

G_END_DECLS
