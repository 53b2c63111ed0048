/* Runs of what a person does, each in a process of its own that may be short of memory. The call answers with one sentence, or does without, or the program
 * ends by what GLib and other libraries do without memory: with a line that says so. What was saved is whole whatever happens. */
#pragma once

#include <sys/types.h>

#include "memory-desk.h"

G_BEGIN_DECLS

typedef enum
{
  WENT_WELL,
  SENTENCE,
  ENDED,
  CRASHED,
  N_ENDS
} End;

/* FALSE with one sentence when it could not be done; ends the process by itself when what it gave is not whole. */
typedef gboolean (*MemoryWay) (const MemoryDesk *desk, GError **error);

typedef struct
{
  const char *name;
  MemoryWay run;
  gboolean answers; /* at least once with a sentence */
  gboolean may_end; /* in a library */
  gboolean
      may_crash; /* in a library that does so without memory: cairo 1.16, when a picture that a PDF still needs cannot be copied */
} MemoryCase;

extern const MemoryCase memory_cases[];
extern const guint n_memory_cases;

/* Forks; what the child says goes into the desk's file. Returns: 0 in the child */
pid_t
memory_begin (const MemoryDesk *desk);
/* In the child: runs it and ends. */
void
memory_run_and_exit (MemoryWay way, const MemoryDesk *desk);
/* Waits for the child and fails unless it ended as it may. reached: whether a request failed */
End
memory_end_of (const MemoryDesk *desk, pid_t child, gboolean *reached);
/* Puts what was saved before there, and no work. */
void
memory_set_up (const MemoryDesk *desk);
/* What was saved before is what is there, unless all of something new is. */
void
memory_look (const MemoryDesk *desk, const MemoryCase *what, End end);

G_END_DECLS
