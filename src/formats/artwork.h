/* Artwork of a motif from any open format people have: needle list (CSV), SVG, PNG, JPEG, a page of a PDF. What is drawn, its true size, its outline, its colours. */
#pragma once

#include <cairo.h>
#include <gio/gio.h>

#include "../geometry/outline.h"
#include "../scene/records.h"

G_BEGIN_DECLS

typedef enum
{
  HW_ARTWORK_NEEDLES,
  HW_ARTWORK_SVG,
  HW_ARTWORK_PNG,
  HW_ARTWORK_JPEG,
  HW_ARTWORK_PDF
} HwArtworkKind;
extern const char
    *const hw_artwork_nicks[]; /* "needles", "svg", "png", "jpeg", "pdf", NULL: artwork_kind of a motif */

#define HW_ARTWORK_ERROR (hw_artwork_error_quark ())
typedef enum
{
  HW_ARTWORK_ERROR_READ,
  HW_ARTWORK_ERROR_FORMAT, /* not what its name says, or broken */
  HW_ARTWORK_ERROR_TOO_LARGE,
  HW_ARTWORK_ERROR_PASSWORD, /* a PDF with a password */
  HW_ARTWORK_ERROR_PAGE,     /* a page the PDF does not have */
  HW_ARTWORK_ERROR_NO_AREA,  /* nothing is drawn: all of it is ground */
  HW_ARTWORK_ERROR_SIZE      /* no size can be told and none was given */
} HwArtworkError;
GQuark
hw_artwork_error_quark (void);

/* What the person says of a file beside what it says itself. Zeroed: nothing. */
typedef struct
{
  guint page;                /* of a PDF, counted from 1; 0: the first */
  double pixels_per_mm;      /* of a PNG or JPEG; 0: by its own resolution, else 96 to the inch */
  gboolean transparent_only; /* keep a paper-coloured ground; only transparency is removed */
  double
      ground_distance; /* how near a colour must be to the ground's to count as ground (CIEDE2000); 0: 12 */
  double smoothing;    /* mm the outline may leave the traced line; 0: 0.1 */
  double speck;        /* mm^2: islands and holes smaller than this are dropped; 0: 1 */
} HwArtworkWishes;

/* Refcounted, immutable. The artwork in the motif's own mm, its outline's box with its middle at the origin; a needle list keeps the origin it has. */
typedef struct
{
  gatomicrefcount ref_count;
  HwArtworkKind kind;
  double width, height;  /* mm of the whole page or picture */
  HwPoint centre;        /* mm, of the outline's box, from the page's top left: what lies at the origin */
  gboolean size_guessed; /* the file did not tell its resolution */
  HwOutline *outline;    /* valid, holes kept */
  HwThreadBlock *
      threads; /* colours of the file, largest area first, at most 12; stitches: those counted or 0; may be none */
  guint n_threads;
  HwNeedleList *needles; /* of a needle list; else NULL */
  cairo_surface_t *
      picture; /* ARGB32 premultiplied with the ground taken out, for showing, cut to the outline's box; its middle is the origin. NULL for needles */
  double pixels_per_mm; /* of picture */
  guint n_pages;        /* of a PDF; else 1 */
} HwArtwork;

/* Reads any of the kinds, told by the content first. Never fetches anything an SVG names; never runs a script. Returns: (transfer full) (nullable) */
HwArtwork *
hw_artwork_load (const char *path, const HwArtworkWishes *wishes, GError **error);
HwArtwork *
hw_artwork_ref (const HwArtwork *artwork);
void
hw_artwork_unref (HwArtwork *artwork);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwArtwork, hw_artwork_unref)
/* Its picture as a motif keeps it. Returns: (transfer full) (nullable): NULL for needles */
HwPicture *
hw_artwork_picture (const HwArtwork *artwork);

/* The outline of what is not ground in an alpha or ground mask: marching squares on opacity (0 to 255, half is the edge), traced between
 * pixels, smoothed to within smoothing mm (GEOS simplification, topology kept), specks (mm^2) dropped; at most the 2000 largest rings. In mm from the
 * mask's top left; beyond the mask all is clear. Memory is bounded: a mask that is mere noise is looked at more coarsely. Returns: (transfer full) (nullable): NULL when nothing is left. */
HwOutline *
hw_trace_mask (const guint8 *mask,
               guint width,
               guint height,
               gsize stride,
               double pixels_per_mm,
               double smoothing,
               double speck);

G_END_DECLS
