/* What a file of artwork does not tell by itself is asked: how large a picture is, which page of a PDF is meant. */
#pragma once

#include <gtk/gtk.h>

#include "motif-import.h"

G_BEGIN_DECLS

/* file: read again by the person's answer; NULL: it is left out. (transfer full) */
typedef void (*HwImportAnswered) (HwMotifFile *file, gpointer user_data);

/* Takes over file, which has been read and asks for its size or its page. answered is called once, also when the dialog goes away with its parent. */
void
hw_import_dialog_show (
    GtkWindow *parent, HwBench *bench, HwMotifFile *file, HwImportAnswered answered, gpointer user_data);

G_END_DECLS
