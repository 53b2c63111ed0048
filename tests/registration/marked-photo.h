/* Photographs of marked cloth as a telephone takes them, made up by the test: crosses drawn by hand in good and bad light, and what may be taken for one
 * where none is drawn. */
#pragma once

#include <gdk-pixbuf/gdk-pixbuf.h>

#include "cloth-photo.h"

typedef struct
{
  const char *name;
  double scale;            /* px per mm */
  double blur, noise;      /* px, grey levels; up to */
  double shade, shadow;    /* grey levels; up to */
  double weave, thread;    /* grey levels; up to. mm */
  double pen_from, pen_to; /* grey levels */
  int quality;             /* of the JPEG, percent */
} MarkedLight;

static const MarkedLight marked_lights[] = {
  { "close, in daylight", 8, 1.2, 3, 15, 0, 10, 0.4, 60, 110, 92 },
  { "a whole hoop, in daylight", 5, 1.0, 4, 25, 20, 12, 0.5, 55, 110, 90 },
  { "a lamp from the side", 5, 1.2, 6, 60, 45, 14, 0.5, 50, 100, 85 },
  { "a dim room", 5, 1.8, 12, 40, 25, 12, 0.5, 50, 100, 75 },
  { "coarse linen, a faint pen", 5, 1.0, 5, 30, 20, 18, 1.2, 28, 55, 85 },
  { "from far", 2.6, 0.9, 5, 30, 20, 10, 0.5, 55, 110, 85 },
};

static inline double
upto (double most)
{
  return g_test_rand_double_range (0.3, 1) * most;
}

/* mm: of the photographed piece */
#define MARKED_SIDE 46.0

static inline ClothPhoto
marked_cloth (const MarkedLight *light)
{
  guint side = (guint)(MARKED_SIDE * light->scale);
  ClothPhoto photo = { .width = side,
                       .height = side,
                       .ground = g_test_rand_double_range (130, 205),
                       .thread = light->thread * g_test_rand_double_range (0.8, 1.3),
                       .turn = g_test_rand_double_range (0, G_PI),
                       .weave = upto (light->weave),
                       .blur = 0.4 + upto (light->blur),
                       .shade = g_test_rand_double_range (-1, 1) * light->shade,
                       .noise = upto (light->noise),
                       .shadow = light->shadow > 0 ? upto (light->shadow) : 0,
                       .shadow_at = { side * g_test_rand_double_range (0.2, 0.8),
                                      side * g_test_rand_double_range (0.2, 0.8) },
                       .shadow_turn = g_test_rand_double_range (0, 2 * G_PI) };

  cloth_photo_aim (&photo, light->scale, 0.06);
  return photo;
}

static inline void
marked_line (ClothPhoto *photo, HwPoint at, double turn, double before, double after, double wide)
{
  double c = cos (turn), s = sin (turn);

  photo->lines[photo->n_lines++]
      = (PenLine){ { at.x - before * c, at.y - before * s }, { at.x + after * c, at.y + after * s }, wide };
}

static inline HwPoint
marked_place (const ClothPhoto *photo, double within)
{
  HwPoint middle = hw_homography_apply (&photo->view, (HwPoint){ photo->width / 2.0, photo->height / 2.0 });

  return (HwPoint){ middle.x + g_test_rand_double_range (-within, within),
                    middle.y + g_test_rand_double_range (-within, within) };
}

static inline void
marked_pen (ClothPhoto *photo, const MarkedLight *light)
{
  photo->pen = g_test_rand_double_range (light->pen_from, light->pen_to);
  if (g_test_rand_int_range (0, 5) == 0)
    {
      photo->pen = -photo->pen; /* chalk on dark cloth */
      photo->ground = MIN (photo->ground, 120);
    }
}

/* Ten millimetres or so across, its arms not quite of one length nor quite square. */
static inline void
marked_cross (ClothPhoto *photo, HwPoint at)
{
  double turn = g_test_rand_double_range (0, G_PI), wide = g_test_rand_double_range (0.4, 0.8);
  double crooked = g_test_rand_double_range (-0.05, 0.05);

  marked_line (photo, at, turn, 5 * g_test_rand_double_range (0.85, 1.2),
               5 * g_test_rand_double_range (0.85, 1.2), wide);
  marked_line (photo, at, turn + G_PI / 2 + crooked, 5 * g_test_rand_double_range (0.85, 1.2),
               5 * g_test_rand_double_range (0.85, 1.2), wide);
}

/* A capital A beside the cross, as marks are lettered. */
static inline void
marked_letter (ClothPhoto *photo, HwPoint cross)
{
  double x = cross.x + g_test_rand_double_range (4, 7), y = cross.y - g_test_rand_double_range (4, 7);

  photo->lines[photo->n_lines++] = (PenLine){ { x, y }, { x + 1.6, y - 4.5 }, 0.5 };
  photo->lines[photo->n_lines++] = (PenLine){ { x + 1.6, y - 4.5 }, { x + 3.2, y }, 0.5 };
  photo->lines[photo->n_lines++] = (PenLine){ { x + 0.6, y - 1.7 }, { x + 2.6, y - 1.7 }, 0.5 };
}

typedef enum
{
  BAIT_BARE,
  BAIT_LINE,   /* of a template's outline */
  BAIT_CORNER, /* of a drawn rectangle */
  BAIT_TEE,    /* a line that ends on another */
  BAIT_DOT,    /* a pin, a knot */
  BAIT_LETTER,
  BAIT_STITCHES, /* rows of satin */
  BAIT_CHECKED,  /* gingham */
  BAIT_SHADOW,   /* the edge of a shadow across a line */
  N_BAITS
} MarkedBait;

static const char *const marked_baits[N_BAITS] = { "bare cloth",
                                                   "a line",
                                                   "a corner",
                                                   "a T",
                                                   "a dot",
                                                   "a letter",
                                                   "rows of stitches",
                                                   "checked cloth",
                                                   "a shadow across a line" };

static inline void
marked_bait (ClothPhoto *photo, MarkedBait bait, HwPoint at)
{
  double turn = g_test_rand_double_range (0, G_PI);

  switch (bait)
    {
    case BAIT_LINE:
      marked_line (photo, at, turn, 60, 60, 0.6);
      break;
    case BAIT_CORNER:
      marked_line (photo, at, turn, 0, 60, 0.6);
      marked_line (photo, at, turn + G_PI / 2, 0, 60, 0.6);
      break;
    case BAIT_TEE:
      marked_line (photo, at, turn, 60, 60, 0.6);
      marked_line (photo, at, turn + G_PI / 2, 0, 60, 0.6);
      break;
    case BAIT_DOT:
      marked_line (photo, at, turn, 1.2, 1.2, 2.4);
      break;
    case BAIT_LETTER:
      marked_letter (photo, (HwPoint){ at.x - 6, at.y + 7 });
      break;
    case BAIT_STITCHES:
      for (int i = -8; i < 8; i++)
        marked_line (photo, (HwPoint){ at.x - i * 0.9 * sin (turn), at.y + i * 0.9 * cos (turn) }, turn, 4, 4,
                     0.4);
      break;
    case BAIT_CHECKED:
      photo->check = g_test_rand_double_range (2.5, 7);
      photo->checked = g_test_rand_double_range (15, 40);
      break;
    case BAIT_SHADOW:
      marked_line (photo, at, turn, 60, 60, 0.6);
      photo->shadow = 50;
      photo->shadow_at = (HwPoint){ photo->width / 2.0, photo->height / 2.0 };
      photo->shadow_turn = turn + G_PI / 2;
      break;
    case BAIT_BARE:
    case N_BAITS:
    default:
      break;
    }
}

/* Saved as a JPEG and opened again. */
static inline HwPicture *
marked_photo (const ClothPhoto *photo, int quality)
{
  g_autoptr (HwPicture) taken = cloth_photo_take (photo);
  g_autoptr (GdkPixbuf) raw
      = gdk_pixbuf_new_from_data (taken->pixels, GDK_COLORSPACE_RGB, TRUE, 8, (int)taken->width,
                                  (int)taken->height, (int)taken->stride, NULL, NULL);
  g_autofree char *text = g_strdup_printf ("%d", quality), *bytes = NULL;
  g_autoptr (GdkPixbufLoader) loader = gdk_pixbuf_loader_new_with_type ("jpeg", NULL);
  guint8 *pixels = g_malloc (taken->height * taken->stride);
  GdkPixbuf *back;
  gsize length;

  g_assert_true (gdk_pixbuf_save_to_buffer (raw, &bytes, &length, "jpeg", NULL, "quality", text, NULL));
  g_assert_true (gdk_pixbuf_loader_write (loader, (const guint8 *)bytes, length, NULL));
  g_assert_true (gdk_pixbuf_loader_close (loader, NULL));
  back = gdk_pixbuf_loader_get_pixbuf (loader);
  for (guint y = 0; y < taken->height; y++)
    for (guint x = 0; x < taken->width; x++)
      {
        const guint8 *from = gdk_pixbuf_read_pixels (back) + (gsize)y * gdk_pixbuf_get_rowstride (back)
                             + (gsize)x * gdk_pixbuf_get_n_channels (back);
        guint8 *to = pixels + (gsize)y * taken->stride + 4 * (gsize)x;

        memcpy (to, from, 3);
        to[3] = 255;
      }
  return hw_picture_new (taken->width, taken->height, taken->stride, pixels);
}
