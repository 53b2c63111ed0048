/* The requests for memory. What they stand for is reached by the names glibc has for it beside the usual ones, so that nothing must be looked up, which would ask
 * for memory itself. */
#include "memory.h"

#include <errno.h>
#include <malloc.h>
#include <stdlib.h>

extern void *
__libc_malloc (size_t size);
extern void *
__libc_calloc (size_t n, size_t size);
extern void *
__libc_realloc (void *old, size_t size);
extern void *
__libc_memalign (size_t alignment, size_t size);

static gint armed, counted;
static MemoryFault kind;
static gint wanted;
static gsize smallest;

void
memory_arm (MemoryFault fault, guint request, gsize least)
{
  kind = fault;
  wanted = (gint)request;
  smallest = least;
  g_atomic_int_set (&counted, 0);
  g_atomic_int_set (&armed, 1);
}

gboolean
memory_disarm (void)
{
  g_atomic_int_set (&armed, 0);
  return g_atomic_int_get (&counted) >= wanted;
}

static gboolean
fails (size_t size)
{
  gint n;

  if (!g_atomic_int_get (&armed) || size < smallest)
    return FALSE;
  n = g_atomic_int_add (&counted, 1) + 1;
  if (n < wanted || (n > wanted && kind == MEMORY_ONCE))
    return FALSE;
  errno = ENOMEM;
  return TRUE;
}

void *
malloc (size_t size)
{
  return fails (size) ? NULL : __libc_malloc (size);
}

void *
calloc (size_t n, size_t size)
{
  return n > 0 && size > 0 && fails (n > G_MAXSIZE / size ? G_MAXSIZE : n * size) ? NULL
                                                                                  : __libc_calloc (n, size);
}

void *
realloc (void *old, size_t size)
{
  return fails (size) ? NULL : __libc_realloc (old, size);
}

void *
memalign (size_t alignment, size_t size)
{
  return fails (size) ? NULL : __libc_memalign (alignment, size);
}

void *
aligned_alloc (size_t alignment, size_t size)
{
  return memalign (alignment, size);
}

int
posix_memalign (void **place, size_t alignment, size_t size)
{
  void *got = memalign (alignment, size);

  if (got == NULL)
    return ENOMEM;
  *place = got;
  return 0;
}
