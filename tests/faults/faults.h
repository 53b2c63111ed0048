/* Faults at the calls through which a program touches files. The test program takes the place of those calls for itself and for the libraries it uses, so
 * that neither root nor a tracer is needed. What the file system is like between two of them is all that a kill can leave behind. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  FAULT_KILL_BEFORE, /* the process ends just before the call, as by kill -9 */
  FAULT_KILL_WITHIN, /* and just after it; a write has then written half */
  FAULT_FULL,        /* ENOSPC, and so it stays for all that needs room */
  FAULT_QUOTA,       /* EDQUOT, the same */
  FAULT_READ_ONLY,   /* EROFS for all that would change something, from then on */
  FAULT_DISK,        /* EIO, once */
  FAULT_FORBIDDEN,   /* EACCES, once, where a name is looked up */
  FAULT_HANDLES,     /* EMFILE, once, where something is opened */
  FAULT_INTERRUPTED, /* EINTR, once, where it may come */
  FAULT_SHORT,       /* one byte is written or read, once */
  N_FAULTS
} Fault;

/* Only files whose paths begin so are touched by faults: what fonts and threads need is no way of writing. The text must stay. */
void
faults_set_reach (const char *prefix);

/* From now on; call counts from 1. Calls that the fault cannot befall are not counted, so that each run is another. */
void
faults_arm (Fault fault, guint call);
/* Whether the call was reached. */
gboolean
faults_disarm (void);

/* Seconds by which the wall clock is wrong from now on; the clock that only runs on stays right. */
void
faults_set_clock (gint64 seconds);
/* And whether it stands still. */
void
faults_stop_clock (gboolean stands);

#define FAULTS_EXIT_UNSYNCED                                                                                 \
  98 /* a file was put in place before it was synced: a power cut could leave it empty */

G_END_DECLS
