/* Photographs of the cloth, as a scene keeps them: which file, which of its points lie where on the cloth. Filled by whoever makes them, never changed
 * once a snapshot holds them. */
#pragma once

#include "../geometry/point.h"
#include "unknown.h"

G_BEGIN_DECLS

/* A point known in the photograph and on the cloth. */
typedef struct
{
  HwPoint px; /* pixels, after the turn the camera noted; the middle of the top left pixel is 0.5, 0.5 */
  HwPoint mm; /* fabric mm */
} HwPhotoPoint;

/* Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  char *name;    /* what the person calls it */
  char *taken;   /* "2026-11-25" or NULL */
  char *path;    /* relative to the scene file; NULL: kept in the scene itself */
  GBytes *bytes; /* the file's bytes where the scene keeps them; else NULL */
  HwPhotoPoint *points;
  guint n_points;
  double bow;        /* of the lens, -0.3 to 0.3; 0: none */
  double brightness; /* -1 to 1; 0: as taken */
  double strength;   /* 0 to 1: how strongly it shows; 1 */
  HwUnknown *unknown;
} HwPhoto;

HwPhoto *
hw_photo_new (void);
HwPhoto *
hw_photo_copy (const HwPhoto *photo);
HwPhoto *
hw_photo_ref (const HwPhoto *photo);
void
hw_photo_unref (HwPhoto *photo);
gboolean
hw_photo_equal (const HwPhoto *a, const HwPhoto *b);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPhoto, hw_photo_unref)

G_END_DECLS
