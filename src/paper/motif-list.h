/* Private to this room: the motifs of a scene with where each comes from. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* HwWriterMatter; subject: not used. All motifs the job prints, back to front: with their pictures, or as a table where they are very many. */
void
hw_motif_list_write (HwWriter *writer, guint subject);

G_END_DECLS
