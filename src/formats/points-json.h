/* Known points of a photo as JSON, and how the photo lies on the cloth by them. */
#pragma once

#include "../registration/homography.h"

G_BEGIN_DECLS

#define HW_POINTS_ERROR (hw_points_error_quark ())
typedef enum
{
  HW_POINTS_ERROR_READ,   /* the file cannot be read */
  HW_POINTS_ERROR_SYNTAX, /* not JSON: line and column are named */
  HW_POINTS_ERROR_CONTENT /* a key is missing or wrong: its path, what was expected, what was found */
} HwPointsError;
GQuark
hw_points_error_quark (void);

/* Places in the photo that lie on one straight line of the cloth. */
typedef struct
{
  HwPoint *px;
  guint n;
} HwPhotoLine;

typedef struct
{
  char *name; /* of the file, fit to be shown; NULL from memory */
  HwPhotoPoint *points;
  guint n_points;
  double bow; /* of the lens */
  gboolean fit_bow;
  HwBox box; /* mm: what the squared picture shows; empty: not said */
  HwPhotoLine *lines;
  guint n_lines;
} HwKnownPoints;

/* {"points": [{"px": [x, y], "mm": [X, Y]}, ...]} and, optional, "bow": a number or "fit", "box": [x, y, width, height], "lines": [[[x, y], ...], ...]. One sentence in
 * error, beginning with the file's name where there is one. Returns: (transfer full) (nullable) */
HwKnownPoints *
hw_known_points_load (const char *path, GError **error);
HwKnownPoints *
hw_known_points_parse (const char *text, gssize length, GError **error);
void
hw_known_points_free (HwKnownPoints *known);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwKnownPoints, hw_known_points_free)

/* FALSE, with the first of them named, when a point or a place of a line lies outside a photo of this size. */
gboolean
hw_known_points_check (const HwKnownPoints *known, guint width, guint height, GError **error);

/* What `hoopwright square` prints. residuals: mm at each point; bad_point: -1 for none, else bad_by mm off. Returns: (transfer full) */
char *
hw_square_json_text (
    const HwKnownPoints *known, const HwHomography *h, const double *residuals, int bad_point, double bad_by);

G_END_DECLS
