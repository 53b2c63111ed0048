/* A scene as a picture one can click: its cloth, its name, a word about it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_SCENE_CARD (hw_scene_card_get_type ())
G_DECLARE_FINAL_TYPE (HwSceneCard, hw_scene_card, HW, SCENE_CARD, GtkButton)

/* The picture is painted on a worker once the card is first shown, its longer side of longer_side pixels. aspect: width by height until it is
 * known; words may be NULL. Signal "clicked" as of any button. */
GtkWidget *
hw_scene_card_new (const char *path, const char *name, const char *words, double aspect, guint longer_side);
const char *
hw_scene_card_get_path (HwSceneCard *card);
/* Width by height of the picture. */
double
hw_scene_card_get_aspect (HwSceneCard *card);
/* What the words take below the picture, px of height. A card that is wider than its picture at the card's whole height, by HW_SCENE_CARD_LABEL at least, has
 * them beside it instead. */
int
hw_scene_card_get_foot (HwSceneCard *card);
#define HW_SCENE_CARD_LABEL 176 /* px */

G_END_DECLS
