/* Each way of writing a file, with each fault at each call that it can befall. A run is a process of its own; what it left is looked at from outside. Whatever happens,
 * the file holds what it held before or all of what it shall hold, a failure is one sentence, and nothing half written stays under a name of the person's. */
#pragma once

#include <glib.h>

#include "faults.h"
#include "paper/print-job.h"
#include "scene/snapshot.h"

G_BEGIN_DECLS

#define PHOTO_SIZE 5000

typedef enum
{
  KILLED,
  FAILED,
  DONE
} Outcome;

typedef struct
{
  char *root, *home, *state; /* home: the person's own folder */
  char *file;                /* what is written, in home */
  HwSnapshot *scene;
  HwPlan *plan, *stitched; /* the second with stitches */
  HwPrintJob *print;
  GBytes *photo;
  Fault fault;
  guint call;
} Desk;

typedef struct
{
  const char *name;
  void (*set_up) (Desk *desk);
  gboolean (*run) (Desk *desk, GError **error); /* in the child; arms the faults when it is ready */
  void (*look) (Desk *desk, Outcome outcome);
} Way;

/* In a way's run, when it is ready: from then on the fault may come. */
void
arm (const Desk *desk);

gboolean
holds (const char *path, const char *text);
gboolean
is_there (const char *path);
void
put (const char *path, const char *text);
/* Nothing is set up. */
void
bare (Desk *desk);

/* The whole of a test program, whose checks are called /saving/NAME. With --faults-told it prints how many faults were tried. */
int
each_way (int argc, char **argv, const Way *ways, guint n_ways);

G_END_DECLS
