/* The picture of a plan as a file, for a blog or a class: the cloth with its motifs as thread, and over it the hoopings. */
#pragma once

#include <gio/gio.h>

#include "../planning/plan.h"

G_BEGIN_DECLS

#define HW_PLAN_PICTURE_DPI 96.0 /* where nothing else is asked for: at true size on a screen */

typedef struct
{
  guint width;    /* pixels across; 0: dpi counts */
  double dpi;     /* pixels to the inch of cloth; 0: HW_PLAN_PICTURE_DPI */
  gboolean plain; /* the cloth alone, without hoopings */
  int stage;      /* as in HwSceneLook */
} HwPlanPictureOptions;

#define HW_PLAN_PICTURE_ERROR (hw_plan_picture_error_quark ())
typedef enum
{
  HW_PLAN_PICTURE_ERROR_ENDING, /* neither .png nor .svg */
  HW_PLAN_PICTURE_ERROR_SIZE,   /* too many pixels, or fewer than one */
  HW_PLAN_PICTURE_ERROR_WRITE
} HwPlanPictureError;
GQuark
hw_plan_picture_error_quark (void);

/* Whether the path's ending names a kind of picture; else a sentence. */
gboolean
hw_plan_picture_path_check (const char *path, GError **error);

/* Writes the kind that the path's ending names, whole or not at all. It shows the whole cloth and what of the hoopings lies beside it. A PNG tells its
 * dots per inch, so that it prints at true size. An SVG is of true size in mm; lines and numbers are lines in it, thread is painted as
 * finely as the options say for a PNG. May be called on any thread. */
gboolean
hw_plan_picture_save (const HwPlan *plan,
                      const HwPlanPictureOptions *options,
                      const char *path,
                      GError **error);

G_END_DECLS
