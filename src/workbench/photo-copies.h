/* Copies of photos that the bench itself put beside a scene, until a saved scene names them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _HwPhotoCopies HwPhotoCopies;

HwPhotoCopies *
hw_photo_copies_new (void);
/* Nothing is removed by this. */
void
hw_photo_copies_free (HwPhotoCopies *copies);
/* original was copied to a file that was not there before. Whole paths. */
void
hw_photo_copies_add (HwPhotoCopies *copies, const char *original, const char *copy);
/* A saved scene names the copy: it stays for good. Other files may be given too. */
void
hw_photo_copies_keep (HwPhotoCopies *copies, const char *copy);
/* The work is let go of: removes the copies that were never kept, each only while its original still holds the same. */
void
hw_photo_copies_let_go (HwPhotoCopies *copies);

G_END_DECLS
