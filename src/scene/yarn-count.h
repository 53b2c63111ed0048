/* How fine a thread is, as it is written on spools: tex, dtex, denier, cotton count, metric count. Kept and reckoned with as tex. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define HW_LEAST_TEX 1.0
#define HW_MOST_TEX 1000.0

typedef enum
{
  HW_YARN_TEX,    /* grams a kilometre */
  HW_YARN_DTEX,   /* grams ten kilometres */
  HW_YARN_DENIER, /* grams nine kilometres */
  HW_YARN_NE,     /* cotton count: hanks of 840 yards to the pound */
  HW_YARN_NM,     /* metric count: metres a gram */
  HW_N_YARN_SYSTEMS
} HwYarnSystem;

/* A figure of one system, over zero, in tex and back. */
double
hw_yarn_to_tex (double figure, HwYarnSystem system);
double
hw_yarn_from_tex (double tex, HwYarnSystem system);

/* Reads "27 tex", "120 den x 2", "240/2 dtex", "40 Ne", "Nm 80/2"; a bare figure is tex; comma or point as the decimal sign. A thread of several
 * plies, written "x 2" or "/2", is as thick as all of them together. FALSE, leaving *tex alone, with a sentence when it cannot be read or is
 * beyond HW_LEAST_TEX and HW_MOST_TEX. */
gboolean
hw_yarn_parse (const char *text, double *tex, GError **error);

/* "26.7 tex". Returns: (transfer full) */
char *
hw_yarn_text (double tex);

#define HW_YARN_ERROR (hw_yarn_error_quark ())
typedef enum
{
  HW_YARN_ERROR_UNREADABLE,
  HW_YARN_ERROR_RANGE
} HwYarnError;
GQuark
hw_yarn_error_quark (void);

G_END_DECLS
