/* Threads at hand, and how near a thread's colour comes to another: CIEDE2000 (Sharma, Wu and Dalal 2005) over CIELAB of sRGB (IEC 61966-2-1, D65). */
#pragma once

#include "colour.h"
#include "records.h"

G_BEGIN_DECLS

typedef struct
{
  double l, a, b; /* CIELAB, D65, 2 degree observer */
} HwLab;

HwLab
hw_colour_lab (HwColour colour);
/* Nearest sRGB colour, each part cut to 0..1. */
HwColour
hw_lab_colour (HwLab lab);
/* CIEDE2000 with kL = kC = kH = 1. */
double
hw_lab_difference (HwLab x, HwLab y);

/* A thread the person has. Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  char *name;
  char *number; /* the person's own number for it, or NULL */
  HwLab lab;
  double metres; /* left; NAN: not known */
  HwUnknown *unknown;
} HwPaletteThread;

/* name and number are kept as hw_one_line_name() makes them. Returns: (transfer full) */
HwPaletteThread *
hw_palette_thread_new (const char *name, const char *number, HwLab lab, double metres);
HwPaletteThread *
hw_palette_thread_ref (const HwPaletteThread *thread);
void
hw_palette_thread_unref (HwPaletteThread *thread);
gboolean
hw_palette_thread_equal (const HwPaletteThread *a, const HwPaletteThread *b);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPaletteThread, hw_palette_thread_unref)

/* One thread at hand beside a colour. */
typedef struct
{
  guint thread; /* index into the palette */
  double difference;
} HwThreadMatch;

/* The n nearest, nearest first; ties by palette order. Writes at most n to matches and returns how many. */
guint
hw_palette_nearest (GPtrArray *palette, HwLab lab, guint n, HwThreadMatch *matches);
/* "the same to the eye", "hardly to be told apart", "near", "clearly another shade", "another colour". (transfer none) */
const char *
hw_difference_words (double difference);

G_END_DECLS
