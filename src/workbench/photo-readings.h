/* Marks read in a photo: where each was found or put by hand, where that is in the axes of the handles, how closely the photo tells it, and whether the person approves of
 * it. Plain sums, no screen. */
#pragma once

#include "photo-marks.h"

G_BEGIN_DECLS

typedef struct
{
  char letter[4];
  HwPoint design; /* where it should be; mm: hoop axes, or of the cloth */
  gboolean seen;  /* found, or put by hand */
  gboolean by_hand;
  HwPoint px; /* where it is in the photo; while it is not seen: where it should be */
  double confidence;
  double fineness; /* px per axis that px is likely off by */
  HwPoint at;      /* where it lies, mm, by the handles; not numbers beyond the horizon */
  double off;      /* mm from where it should be */
  double sigma;    /* mm per axis that `at` is likely off by: handles and search together */
  gboolean apart;  /* it does not agree with the others */
  gboolean ticked; /* approved */
} HwPhotoReading;

/* What the photo is worth for the marks that are seen. */
typedef struct
{
  double handles; /* mm per axis each handle is likely off by */
  double
      at_marks; /* mm per axis, the worst of the marks that are ticked (of those seen, while none is); 0: none */
  gboolean assumed;  /* only four handles: what they are off by is assumed */
  gboolean by_sheet; /* told by a sheet of paper: nothing to be read at the needle */
} HwPhotoWorth;

/* One for each mark, in their order (letter and design are taken). Returns: (transfer full) (element-type HwPhotoReading) */
GArray *
hw_photo_readings_new (const HwReading *marks, guint n);
/* What a search among the places of the same marks found, in place of what was there; what was put by hand stays. Those to be believed are ticked. */
void
hw_photo_readings_take (GArray *readings, const GArray *seen);
void
hw_photo_readings_put (GArray *readings, guint index, HwPoint px);
/* Where they all lie by the handles. by_sheet: on the sheet of paper, in its own axes, by its four corners alone. FALSE when the handles do not tell. */
gboolean
hw_photo_readings_measure (GArray *readings,
                           const HwSquaring *squaring,
                           gboolean by_sheet,
                           HwPhotoWorth *worth);
/* Looks whether those that are ticked can all lie where they are on cloth that was only shifted and turned: one that cannot is told apart and no longer ticked; when they
 * disagree and none stands out, none of them is. Returns whether all agreed. */
gboolean
hw_photo_readings_agree (GArray *readings);
guint
hw_photo_readings_count (const GArray *readings);
/* Those that are ticked, as readings. Returns: (transfer full): n of them */
HwReading *
hw_photo_readings_ticked (const GArray *readings, guint *n);
/* "sure, 98 %, 2.1 mm from its place, told to 0.3 mm" of one that is seen, or why it is not. Returns: (transfer full) */
char *
hw_photo_reading_text (const HwPhotoReading *reading, HwUnit unit);
/* "Handles likely off by 0.5 mm each, and so the marks by 0.4 mm. ..." Returns: (transfer full) */
char *
hw_photo_worth_text (const HwPhotoWorth *worth, HwUnit unit);

G_END_DECLS
