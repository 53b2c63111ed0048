/* Files read whole and replaced whole: a file is either as it was or as it shall be, whatever happens in between. For this room and those above it. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* Reads at most `most` bytes. Errors are sentences without the file's name, of the domain G_FILE_ERROR; G_FILE_ERROR_NOSPC stands for a file
 * larger than that. The text is ended by a zero that length does not count. Returns: (transfer full) (nullable) */
char *
hw_file_read_whole (const char *path, gsize most, gsize *length, GError **error);

/* Writes beside, syncs, renames, syncs the folder. Permissions stay as they are; a link is followed to the file it names. */
gboolean
hw_file_replace_whole (const char *path, const char *text, gsize length, GError **error);

/* The same under a name that is still free; G_FILE_ERROR_EXIST when it is not. */
gboolean
hw_file_create_whole (const char *path, const void *bytes, gsize length, GError **error);

/* The same for what is written piece by piece: begin, write, end. Freed before it was ended (or when ending failed) it leaves nothing behind. A killed
 * program may leave a hidden ".hoopwright-XXXXXX", which a later file written into that folder clears away when it is an hour old.
 * A piece that cannot be written fails all that follow; the ending tells why. Returns: (transfer full) (nullable) */
typedef struct _HwWholeFile HwWholeFile;
HwWholeFile *
hw_whole_file_begin (const char *path, GError **error);
gboolean
hw_whole_file_write (HwWholeFile *whole, const void *bytes, gsize length);
gboolean
hw_whole_file_end (HwWholeFile *whole, GError **error);
void
hw_whole_file_free (HwWholeFile *whole);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwWholeFile, hw_whole_file_free)

/* Whether the file's name ends so, whatever the case: ".csv". */
gboolean
hw_file_ends_in (const char *path, const char *ending);

/* The file's own name, fit to be shown: a very long one without its middle. Returns: (transfer full) */
char *
hw_file_shown_name (const char *path);

G_END_DECLS
