/* The calls, by the names the libraries ask for: with large files those that end in 64. Each asks befall() first. */
#include "faults.h"

#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

/* What a call does, which decides what can befall it. */
typedef enum
{
  LOOKS = 1 << 0, /* up a name */
  OPENS = 1 << 1,
  CHANGES = 1 << 2, /* something on the disk */
  GROWS = 1 << 3,   /* needs room */
  WAITS = 1 << 4,   /* may be interrupted */
  MOVES = 1 << 5    /* bytes */
} Does;

static gboolean armed, reached;
static Fault kind;
static guint counted, wanted;
static gint64 clock_is_wrong_by, clock_stands_at; /* seconds; 0: it goes */
static const char *reach = "";
static gboolean within_reach[1024], unsynced[1024]; /* by handle */

void
faults_set_reach (const char *prefix)
{
  reach = prefix;
}

static gboolean
is_path_ours (const char *path)
{
  return armed && strncmp (path, reach, strlen (reach)) == 0;
}

static gboolean
is_ours (int file)
{
  return armed && file > STDERR_FILENO && file < (int)G_N_ELEMENTS (within_reach) && within_reach[file];
}

void
faults_arm (Fault fault, guint call)
{
  kind = fault;
  wanted = call;
  counted = 0;
  reached = FALSE;
  armed = TRUE;
}

gboolean
faults_disarm (void)
{
  armed = FALSE;
  return reached;
}

void
faults_set_clock (gint64 seconds)
{
  clock_is_wrong_by = seconds;
}

void
faults_stop_clock (gboolean stands)
{
  clock_stands_at = 0;
  clock_stands_at = stands ? g_get_real_time () / G_USEC_PER_SEC : 0;
}

static void
end_here (void)
{
  kill (getpid (), SIGKILL);
  for (;;)
    pause ();
}

static gboolean
can_befall (Does does)
{
  switch (kind)
    {
    case FAULT_KILL_BEFORE:
    case FAULT_KILL_WITHIN:
    case FAULT_READ_ONLY:
      return (does & CHANGES) != 0;
    case FAULT_FULL:
    case FAULT_QUOTA:
      return (does & GROWS) != 0;
    case FAULT_FORBIDDEN:
      return (does & LOOKS) != 0;
    case FAULT_HANDLES:
      return (does & OPENS) != 0;
    case FAULT_INTERRUPTED:
      return (does & WAITS) != 0;
    case FAULT_SHORT:
      return (does & MOVES) != 0;
    default:
      return TRUE;
    }
}

static int
number_of (Fault fault)
{
  static const int numbers[N_FAULTS] = {
    [FAULT_FULL] = ENOSPC,      [FAULT_QUOTA] = EDQUOT,   [FAULT_READ_ONLY] = EROFS,  [FAULT_DISK] = EIO,
    [FAULT_FORBIDDEN] = EACCES, [FAULT_HANDLES] = EMFILE, [FAULT_INTERRUPTED] = EINTR
  };

  return numbers[fault];
}

/* TRUE: the call fails, and errno says of what. */
static gboolean
befall (Does does, gboolean *within)
{
  gboolean stays = kind == FAULT_FULL || kind == FAULT_QUOTA || kind == FAULT_READ_ONLY;

  *within = FALSE;
  if (!armed || !can_befall (does))
    return FALSE;
  counted++;
  if (counted < wanted || (counted > wanted && !stays))
    return FALSE;
  reached = TRUE;
  if (kind == FAULT_KILL_BEFORE)
    end_here ();
  if (kind == FAULT_KILL_WITHIN || kind == FAULT_SHORT)
    {
      *within = TRUE;
      return FALSE;
    }
  errno = number_of (kind);
  return TRUE;
}

static void
after (gboolean within)
{
  if (within && kind == FAULT_KILL_WITHIN)
    end_here ();
}

#define TRUE_CALL(type, name)                                                                                \
  static __typeof__ (type) call;                                                                             \
  if (call == NULL)                                                                                          \
  *(void **)&call = dlsym (RTLD_NEXT, name)

/* result function (parameters), standing for name; then what it does, and how the true one is called */
#define STAND_FOR(result, function, name, parameters, ours, does, arguments)                                 \
  result function parameters __asm__(name);                                                                  \
  result function parameters                                                                                 \
  {                                                                                                          \
    TRUE_CALL (result (*) parameters, name);                                                                 \
    gboolean within = FALSE;                                                                                 \
    if (ours && befall (does, &within))                                                                      \
      return (result)-1;                                                                                     \
    result answer = call arguments;                                                                          \
    after (within);                                                                                          \
    return answer;                                                                                           \
  }

static void
must_be_synced (void)
{
  for (guint i = 0; armed && i < G_N_ELEMENTS (unsynced); i++)
    if (unsynced[i])
      _exit (FAULTS_EXIT_UNSYNCED);
}

STAND_FOR (int,
           my_mkdir,
           "mkdir",
           (const char *path, mode_t mode),
           is_path_ours (path),
           LOOKS | CHANGES | GROWS,
           (path, mode))
STAND_FOR (int, my_unlink, "unlink", (const char *path), is_path_ours (path), CHANGES, (path))
STAND_FOR (int, my_fchmod, "fchmod", (int file, mode_t mode), is_ours (file), CHANGES, (file, mode))
STAND_FOR (int,
           my_fchown,
           "fchown",
           (int file, uid_t user, gid_t group),
           is_ours (file),
           CHANGES,
           (file, user, group))
STAND_FOR (int,
           my_truncate,
           "ftruncate64",
           (int file, off_t length),
           is_ours (file),
           CHANGES | GROWS,
           (file, length))
STAND_FOR (int, my_flock, "flock", (int file, int how), is_ours (file), WAITS, (file, how))
STAND_FOR (
    int, my_stat, "stat64", (const char *path, struct stat *info), is_path_ours (path), LOOKS, (path, info))
STAND_FOR (
    int, my_lstat, "lstat64", (const char *path, struct stat *info), is_path_ours (path), LOOKS, (path, info))
STAND_FOR (int, my_fstat, "fstat64", (int file, struct stat *info), is_ours (file), 0, (file, info))
STAND_FOR (int, my_access, "access", (const char *path, int how), is_path_ours (path), LOOKS, (path, how))

int
my_rename (const char *from, const char *to) __asm__("rename");
int
my_rename (const char *from, const char *to)
{
  TRUE_CALL (int (*) (const char *, const char *), "rename");
  gboolean within = FALSE;
  int answer;

  must_be_synced ();
  if (is_path_ours (to) && befall (LOOKS | CHANGES | GROWS, &within))
    return -1;
  answer = call (from, to);
  after (within);
  return answer;
}

int
my_link (const char *from, const char *to) __asm__("link");
int
my_link (const char *from, const char *to)
{
  TRUE_CALL (int (*) (const char *, const char *), "link");
  gboolean within = FALSE;
  int answer;

  must_be_synced ();
  if (is_path_ours (to) && befall (LOOKS | CHANGES | GROWS, &within))
    return -1;
  answer = call (from, to);
  after (within);
  return answer;
}

static int
opened (int (*call) (const char *, int, ...), const char *path, int flags, mode_t mode)
{
  gboolean makes = (flags & O_CREAT) != 0, within = FALSE;
  int answer;

  if (is_path_ours (path) && befall (LOOKS | OPENS | (makes ? CHANGES | GROWS : 0), &within))
    return -1;
  answer = call (path, flags, mode);
  if (answer >= 0 && answer < (int)G_N_ELEMENTS (within_reach))
    within_reach[answer] = is_path_ours (path);
  after (within);
  return answer;
}

#define STAND_FOR_OPEN(function, name)                                                                       \
  int function (const char *path, int flags, ...) __asm__(name);                                             \
  int function (const char *path, int flags, ...)                                                            \
  {                                                                                                          \
    TRUE_CALL (int (*) (const char *, int, ...), name);                                                      \
    mode_t mode = 0;                                                                                         \
    if ((flags & (O_CREAT | O_TMPFILE)) != 0)                                                                \
      {                                                                                                      \
        va_list list;                                                                                        \
        va_start (list, flags);                                                                              \
        mode = va_arg (list, mode_t);                                                                        \
        va_end (list);                                                                                       \
      }                                                                                                      \
    return opened (call, path, flags, mode);                                                                 \
  }

STAND_FOR_OPEN (my_open, "open")
STAND_FOR_OPEN (my_open64, "open64")

gssize
my_write (int file, const void *bytes, size_t length) __asm__("write");
gssize
my_write (int file, const void *bytes, size_t length)
{
  TRUE_CALL (gssize (*) (int, const void *, size_t), "write");
  gboolean within;
  gssize answer;

  if (!is_ours (file))
    return call (file, bytes, length);
  if (befall (CHANGES | GROWS | WAITS | MOVES, &within))
    return -1;
  answer = call (file, bytes, !within ? length : kind == FAULT_SHORT ? 1 : length / 2);
  unsynced[file] = TRUE;
  after (within);
  return answer;
}

gssize
my_read (int file, void *bytes, size_t length) __asm__("read");
gssize
my_read (int file, void *bytes, size_t length)
{
  TRUE_CALL (gssize (*) (int, void *, size_t), "read");
  gboolean within;

  if (!is_ours (file))
    return call (file, bytes, length);
  if (befall (WAITS | MOVES, &within))
    return -1;
  return call (file, bytes, within ? 1 : length);
}

int
my_fsync (int file) __asm__("fsync");
int
my_fsync (int file)
{
  gboolean within = FALSE;
  int answer;

  if (is_ours (file) && befall (CHANGES | GROWS | WAITS, &within))
    return -1;
  answer = 0; /* a killed process loses nothing that is not synced yet, so the waiting is spared */
  if (is_ours (file))
    unsynced[file] = FALSE;
  after (within);
  return answer;
}

/* The handle goes in any case, as on Linux. */
int
my_close (int file) __asm__("close");
int
my_close (int file)
{
  TRUE_CALL (int (*) (int), "close");
  gboolean within = FALSE, fails = is_ours (file) && befall (GROWS | WAITS, &within);
  int number = errno, answer = call (file);

  if (!fails)
    return answer;
  errno = number;
  return -1;
}

int
my_clock_gettime (clockid_t id, struct timespec *now) __asm__("clock_gettime");
int
my_clock_gettime (clockid_t id, struct timespec *now)
{
  TRUE_CALL (int (*) (clockid_t, struct timespec *), "clock_gettime");
  int answer = call (id, now);

  if (id == CLOCK_REALTIME && clock_stands_at != 0)
    *now = (struct timespec){ clock_stands_at, 0 };
  else if (id == CLOCK_REALTIME)
    now->tv_sec += clock_is_wrong_by;
  return answer;
}

int
my_gettimeofday (struct timeval *now, void *zone) __asm__("gettimeofday");
int
my_gettimeofday (struct timeval *now, void *zone)
{
  TRUE_CALL (int (*) (struct timeval *, void *), "gettimeofday");
  int answer = call (now, zone);

  now->tv_sec += clock_is_wrong_by;
  if (clock_stands_at != 0)
    *now = (struct timeval){ clock_stands_at, 0 };
  return answer;
}
