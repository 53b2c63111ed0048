/* A scene as a picture one can click. Pictures are made one after another on one worker, so that a start page full of large scenes leaves
 * the machine free to draw the window. */
#include "scene-card.h"

#include <glib/gi18n.h>

#include "../drawing/at-work.h"
#include "dialog.h"
#include "scene-pictures.h"

struct _HwSceneCard
{
  GtkButton parent_instance;

  char *path;
  guint longer_side;
  double aspect;
  gboolean asked;
  GtkWidget *picture;
  GtkWidget *words; /* below the picture */
  GtkWidget *label; /* the same beside it, as pictures on a wall have them */
};

G_DEFINE_FINAL_TYPE (HwSceneCard, hw_scene_card, GTK_TYPE_BUTTON)

typedef struct
{
  char *path;
  guint longer_side;
} Order;

static void
order_free (gpointer data)
{
  Order *order = data;

  g_free (order->path);
  g_free (order);
}

static void
work (gpointer data, gpointer user_data)
{
  g_autoptr (GTask) task = data;
  const Order *order = g_task_get_task_data (task);
  GError *error = NULL;
  GdkTexture *texture = NULL;
  g_autofree char *file = NULL;

  if (g_task_return_error_if_cancelled (task))
    return;
  if (!hw_at_work_begin ())
    {
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "The program ends.");
      return;
    }
  file = hw_scene_picture_file (NULL, order->path, order->longer_side, &error);
  if (file != NULL)
    texture = gdk_texture_new_from_filename (file, &error);
  hw_at_work_end ();
  if (texture != NULL)
    g_task_return_pointer (task, texture, g_object_unref);
  else
    g_task_return_error (task, error);
}

static GThreadPool *
worker (void)
{
  static GThreadPool *pool;

  if (pool == NULL)
    pool = g_thread_pool_new (work, NULL, 1, FALSE, NULL);
  return pool;
}

static void
painted_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwSceneCard *card = HW_SCENE_CARD (source);
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkTexture) texture = g_task_propagate_pointer (G_TASK (result), &error);

  if (card->picture == NULL)
    return;
  if (texture == NULL)
    {
      gtk_widget_set_tooltip_text (GTK_WIDGET (card), error->message);
      return;
    }
  card->aspect = gdk_texture_get_width (texture) / (double)gdk_texture_get_height (texture);
  gtk_picture_set_paintable (GTK_PICTURE (card->picture), GDK_PAINTABLE (texture));
  gtk_widget_remove_css_class (card->picture, "awaited");
  gtk_widget_queue_resize (GTK_WIDGET (card));
}

static void
hw_scene_card_map (GtkWidget *widget)
{
  HwSceneCard *card = HW_SCENE_CARD (widget);

  GTK_WIDGET_CLASS (hw_scene_card_parent_class)->map (widget);
  if (card->asked || card->path == NULL)
    return;
  card->asked = TRUE;
  GTask *task = g_task_new (card, NULL, painted_cb, NULL);
  Order *order = g_new0 (Order, 1);
  order->path = g_strdup (card->path);
  order->longer_side = card->longer_side;
  g_task_set_task_data (task, order, order_free);
  g_thread_pool_push (worker (), task, NULL);
}

static void
hw_scene_card_dispose (GObject *object)
{
  HW_SCENE_CARD (object)->picture = NULL;
  G_OBJECT_CLASS (hw_scene_card_parent_class)->dispose (object);
}

static void
hw_scene_card_finalize (GObject *object)
{
  g_free (HW_SCENE_CARD (object)->path);
  G_OBJECT_CLASS (hw_scene_card_parent_class)->finalize (object);
}

static void
hw_scene_card_class_init (HwSceneCardClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_scene_card_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_scene_card_finalize;
  GTK_WIDGET_CLASS (klass)->map = hw_scene_card_map;
}

static void
hw_scene_card_init (HwSceneCard *card)
{
}

/* The card decides its size; what lies in it takes what it is given. */
static void
measure_cb (GtkWidget *box,
            GtkOrientation orientation,
            int for_size,
            int *minimum,
            int *natural,
            int *minimum_baseline,
            int *natural_baseline)
{
  for (GtkWidget *child = gtk_widget_get_first_child (box); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    gtk_widget_measure (child, orientation, -1, NULL, NULL, NULL, NULL);
  *minimum = *natural = 0;
}

static void
give (GtkWidget *child, int x, int y, int width, int height)
{
  GtkAllocation place = { x, y, MAX (width, 0), MAX (height, 0) };
  int least;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  place.width = MAX (place.width, least);
  gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, place.width, &least, NULL, NULL, NULL);
  place.height = MAX (place.height, least);
  gtk_widget_size_allocate (child, &place, -1);
}

static void
allocate_cb (GtkWidget *box, int width, int height, int baseline)
{
  HwSceneCard *card = HW_SCENE_CARD (gtk_widget_get_parent (box));
  int across = (int)(height * card->aspect), foot = hw_scene_card_get_foot (card);
  gboolean beside = width >= across + HW_SCENE_CARD_LABEL;

  gtk_widget_set_child_visible (card->words, !beside);
  gtk_widget_set_child_visible (card->label, beside);
  /* As large as fits, standing on its words. */
  int room = beside ? height : height - foot;
  int wide = MIN (beside ? across : width, (int)(room * card->aspect));
  int high = MIN (room, (int)(wide / card->aspect));
  give (card->picture, 0, room - high, wide, high);
  if (beside)
    give (card->label, across, 0, width - across, height);
  else
    give (card->words, 0, height - foot, width, foot);
}

static GtkWidget *
line (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, css_class);
  return label;
}

/* Returns: (transfer floating): name and words, one above the other */
static GtkWidget *
label_of (const char *name, const char *words, gboolean wrap)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  GtkWidget *lines[] = { line (name, "card-title"), words != NULL ? line (words, "quiet") : NULL };

  for (guint i = 0; i < G_N_ELEMENTS (lines) && lines[i] != NULL; i++)
    {
      if (wrap)
        {
          gtk_label_set_ellipsize (GTK_LABEL (lines[i]), PANGO_ELLIPSIZE_NONE);
          hw_wrap_words (lines[i]);
        }
      gtk_box_append (GTK_BOX (box), lines[i]);
    }
  return box;
}

GtkWidget *
hw_scene_card_new (const char *path, const char *name, const char *words, double aspect, guint longer_side)
{
  g_return_val_if_fail (path != NULL && name != NULL, NULL);
  g_return_val_if_fail (aspect > 0 && longer_side > 0, NULL);

  HwSceneCard *card = g_object_new (HW_TYPE_SCENE_CARD, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkLayoutManager *layout = gtk_custom_layout_new (NULL, measure_cb, allocate_cb);
  g_autofree char *label = words != NULL ? g_strdup_printf ("%s, %s", name, words) : g_strdup (name);

  card->path = g_strdup (path);
  card->longer_side = longer_side;
  card->aspect = aspect;
  card->picture = g_object_new (GTK_TYPE_PICTURE, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION,
                                "can-shrink", TRUE, NULL);
  card->words = label_of (name, words, FALSE);
  card->label = label_of (name, words, TRUE);
  gtk_widget_set_valign (card->label, GTK_ALIGN_START);
  gtk_widget_set_layout_manager (box, layout);
  gtk_widget_add_css_class (card->picture, "scene-picture");
  gtk_widget_add_css_class (card->picture, "awaited");
  gtk_widget_add_css_class (card->words, "scene-words");
  gtk_widget_add_css_class (card->label, "scene-label");
  gtk_box_append (GTK_BOX (box), card->picture);
  gtk_box_append (GTK_BOX (box), card->words);
  gtk_box_append (GTK_BOX (box), card->label);
  gtk_button_set_child (GTK_BUTTON (card), box);
  gtk_widget_add_css_class (GTK_WIDGET (card), "scene-card");
  gtk_accessible_update_property (GTK_ACCESSIBLE (card), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return GTK_WIDGET (card);
}

const char *
hw_scene_card_get_path (HwSceneCard *card)
{
  g_return_val_if_fail (HW_IS_SCENE_CARD (card), NULL);
  return card->path;
}

double
hw_scene_card_get_aspect (HwSceneCard *card)
{
  g_return_val_if_fail (HW_IS_SCENE_CARD (card), 1);
  return card->aspect;
}

int
hw_scene_card_get_foot (HwSceneCard *card)
{
  int height;

  g_return_val_if_fail (HW_IS_SCENE_CARD (card), 0);
  gtk_widget_measure (card->words, GTK_ORIENTATION_VERTICAL, -1, &height, NULL, NULL, NULL);
  return height;
}
