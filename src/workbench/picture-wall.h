/* Scene cards hung side by side in rows of one height, as pictures of different shapes hang on a wall; or, a few of them, one below the other and
 * as large as the room allows. */
#pragma once

#include "scene-card.h"

G_BEGIN_DECLS

#define HW_TYPE_PICTURE_WALL (hw_picture_wall_get_type ())
G_DECLARE_FINAL_TYPE (HwPictureWall, hw_picture_wall, HW, PICTURE_WALL, GtkWidget)

/* row: the height of a row's pictures, px, about; 0: one below the other. */
GtkWidget *
hw_picture_wall_new (int row);
void
hw_picture_wall_set_row (HwPictureWall *wall, int row);
void
hw_picture_wall_hang (HwPictureWall *wall, HwSceneCard *card);
void
hw_picture_wall_clear (HwPictureWall *wall);

G_END_DECLS
