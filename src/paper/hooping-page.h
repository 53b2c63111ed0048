/* Private to this room: the bench sheet's page for one hooping. */
#pragma once

#include "hooping-facts.h"
#include "writer.h"

G_BEGIN_DECLS

/* HwWriterMatter; subject: the hooping, from 0 */
void
hw_hooping_page_write (HwWriter *writer, guint hooping);

G_END_DECLS
