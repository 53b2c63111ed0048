/* Put before the C library in a test: the program may not reach for the network, and what it does is written down, as is each opening of a file whose name
 * holds "do-not-read". Local sockets are let through: the desktop and its accessibility tree speak by them. */
/* These would give the functions below other names. */
#undef _FILE_OFFSET_BITS
#undef _FORTIFY_SOURCE

#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <netdb.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#define MARK "do-not-read"

static void
note (const char *what, const char *more)
{
  static int (*open_file) (const char *, int, ...);
  const char *path = getenv ("HOOPWRIGHT_QUIET_LOG");
  char line[512];
  int length = snprintf (line, sizeof line, "%s %s\n", what, more != NULL ? more : ""), file;

  if (open_file == NULL)
    open_file = (int (*) (const char *, int, ...))dlsym (RTLD_NEXT, "open");
  file = path != NULL ? open_file (path, O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC, 0600) : -1;
  if (file < 0)
    return;
  if (write (file, line, (size_t)(length < (int)sizeof line ? length : (int)sizeof line - 1)) < 0)
    abort ();
  close (file);
}

static int
is_far (int family)
{
  return family != AF_UNIX && family != AF_UNSPEC && family != AF_NETLINK;
}

int
socket (int family, int type, int protocol)
{
  static int (*real) (int, int, int);

  if (real == NULL)
    real = (int (*) (int, int, int))dlsym (RTLD_NEXT, "socket");
  if (!is_far (family))
    return real (family, type, protocol);
  note ("socket", NULL);
  errno = EACCES;
  return -1;
}

int
connect (int handle, const struct sockaddr *address, socklen_t length)
{
  static int (*real) (int, const struct sockaddr *, socklen_t);

  if (real == NULL)
    real = (int (*) (int, const struct sockaddr *, socklen_t))dlsym (RTLD_NEXT, "connect");
  if (!is_far (address->sa_family))
    return real (handle, address, length);
  note ("connect", NULL);
  errno = EACCES;
  return -1;
}

int
getaddrinfo (const char *name, const char *service, const struct addrinfo *hints, struct addrinfo **found)
{
  note ("getaddrinfo", name);
  return EAI_FAIL;
}

struct hostent *
gethostbyname (const char *name)
{
  note ("gethostbyname", name);
  return NULL;
}

static void
look_at (const char *path)
{
  if (path != NULL && strstr (path, MARK) != NULL)
    note ("open", path);
}

#define OPENING(name)                                                                                        \
  int name (const char *path, int flags, ...)                                                                \
  {                                                                                                          \
    static int (*real) (const char *, int, ...);                                                             \
    va_list args;                                                                                            \
    int mode;                                                                                                \
                                                                                                             \
    va_start (args, flags);                                                                                  \
    mode = (flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE ? va_arg (args, int) : 0;              \
    va_end (args);                                                                                           \
    if (real == NULL)                                                                                        \
      real = (int (*) (const char *, int, ...))dlsym (RTLD_NEXT, #name);                                     \
    look_at (path);                                                                                          \
    return real (path, flags, mode);                                                                         \
  }
#define OPENING_AT(name)                                                                                     \
  int name (int folder, const char *path, int flags, ...)                                                    \
  {                                                                                                          \
    static int (*real) (int, const char *, int, ...);                                                        \
    va_list args;                                                                                            \
    int mode;                                                                                                \
                                                                                                             \
    va_start (args, flags);                                                                                  \
    mode = (flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE ? va_arg (args, int) : 0;              \
    va_end (args);                                                                                           \
    if (real == NULL)                                                                                        \
      real = (int (*) (int, const char *, int, ...))dlsym (RTLD_NEXT, #name);                                \
    look_at (path);                                                                                          \
    return real (folder, path, flags, mode);                                                                 \
  }
#define OPENING_STREAM(name)                                                                                 \
  FILE *name (const char *path, const char *how)                                                             \
  {                                                                                                          \
    static FILE *(*real) (const char *, const char *);                                                       \
                                                                                                             \
    if (real == NULL)                                                                                        \
      real = (FILE * (*)(const char *, const char *)) dlsym (RTLD_NEXT, #name);                              \
    look_at (path);                                                                                          \
    return real (path, how);                                                                                 \
  }

OPENING (open)
OPENING (open64)
OPENING_AT (openat)
OPENING_AT (openat64)
OPENING_STREAM (fopen)
OPENING_STREAM (fopen64)
