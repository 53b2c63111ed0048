/* A file's stamp: time, size and node, as the system keeps them beside the bytes. */
#include "file-stamp.h"

#include <sys/stat.h>

HwFileStamp
hw_file_stamp_of (const char *path)
{
  struct stat info;

  if (path == NULL || stat (path, &info) != 0)
    return (HwFileStamp){ 0 };
  return (HwFileStamp){ .seconds = info.st_mtim.tv_sec,
                        .nanoseconds = info.st_mtim.tv_nsec,
                        .size = (guint64)info.st_size,
                        .node = info.st_ino };
}

gboolean
hw_file_stamp_equal (const HwFileStamp *a, const HwFileStamp *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a->seconds == b->seconds && a->nanoseconds == b->nanoseconds && a->size == b->size
         && a->node == b->node;
}
