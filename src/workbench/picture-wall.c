/* Where pictures hang: sums of heights and widths, nothing else. */
#include "picture-wall.h"

#include <math.h>

#define GAP 18        /* px between cards */
#define NARROWEST 150 /* px of a card, for its words */
#define LOWEST 24     /* px of a picture */
#define WIDEST 2.4    /* width by height of a card in a row: a long banner hangs lower than its neighbours */
#define LEAST_PICTURES 220 /* px of height in all, one below the other */

struct _HwPictureWall
{
  GtkWidget parent_instance;
  int row;
};

G_DEFINE_FINAL_TYPE (HwPictureWall, hw_picture_wall, GTK_TYPE_WIDGET)

/* One row: its first card, the one after its last, and the height of its pictures. */
typedef struct
{
  GtkWidget *first, *end;
  guint n;
  double height;
  double wide_as; /* the height their widths were reckoned from */
  int foot;
} Row;

static double
width_at (GtkWidget *card, double height)
{
  return MAX (MIN (hw_scene_card_get_aspect (HW_SCENE_CARD (card)), WIDEST) * height, NARROWEST);
}

static double
row_width (const Row *row, double height)
{
  double width = row->n > 1 ? (row->n - 1) * GAP : 0;

  for (GtkWidget *card = row->first; card != row->end; card = gtk_widget_get_next_sibling (card))
    width += width_at (card, height);
  return width;
}

/* Cards are taken while the row is not much too wide; then its pictures become lower until it fits, or a little higher to fill the wall. */
static void
fill_row (HwPictureWall *wall, Row *row, GtkWidget *first, double width)
{
  *row = (Row){ .first = first, .end = first, .height = wall->row };
  while (row->end != NULL)
    {
      Row more = *row;

      more.end = gtk_widget_get_next_sibling (row->end);
      more.n++;
      if (row->n > 0 && row_width (&more, wall->row * 0.8) > width)
        break;
      more.foot = MAX (row->foot, hw_scene_card_get_foot (HW_SCENE_CARD (row->end)));
      *row = more;
    }
  row->height = wall->row * 1.15;
  while (row->height > LOWEST && row_width (row, row->height) > width)
    row->height -= 1;
  /* A row of long banners alone is as low as they are. */
  double highest = LOWEST;
  for (GtkWidget *card = row->first; card != row->end; card = gtk_widget_get_next_sibling (card))
    highest = MAX (highest, MIN (width_at (card, row->height), width)
                                / hw_scene_card_get_aspect (HW_SCENE_CARD (card)));
  row->wide_as = row->height;
  row->height = MIN (row->height, highest);
}

static void
place (GtkWidget *card, double x, double y, double width, double height)
{
  GtkAllocation allocation = { (int)x, (int)y, (int)width, (int)height };

  gtk_widget_size_allocate (card, &allocation, -1);
}

/* Hangs the rows, or only says how high they are. */
static double
hang_rows (HwPictureWall *wall, double width, gboolean really)
{
  GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (wall));
  double y = 0;

  while (card != NULL)
    {
      Row row;
      double x = 0;

      fill_row (wall, &row, card, width);
      y += y > 0 ? GAP : 0;
      for (; card != row.end; card = gtk_widget_get_next_sibling (card))
        {
          double across = floor (MIN (width_at (card, row.wide_as), width));

          if (really)
            place (card, x, y, across, row.height + row.foot);
          x += across + GAP;
        }
      y += row.height + row.foot;
    }
  return ceil (y);
}

/* One below the other at one width: what the pictures take of the height at a width of one, and what stands beside that. */
static void
column_sums (HwPictureWall *wall, double *each, double *feet, double *gaps)
{
  *each = *feet = *gaps = 0;
  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (wall)); card != NULL;
       card = gtk_widget_get_next_sibling (card))
    {
      *each += 1 / hw_scene_card_get_aspect (HW_SCENE_CARD (card));
      *gaps += *feet > 0 ? GAP : 0;
      *feet += hw_scene_card_get_foot (HW_SCENE_CARD (card));
    }
}

static void
hang_column (HwPictureWall *wall, double width, double height)
{
  double each, feet, gaps, y = 0;

  column_sums (wall, &each, &feet, &gaps);
  if (each <= 0)
    return;
  /* Where the room is wider than high, words stand beside the pictures, which have its whole height then. */
  double across = floor ((height - gaps) / each);
  gboolean beside = across + HW_SCENE_CARD_LABEL <= width;
  if (!beside)
    across = floor (CLAMP ((height - feet - gaps) / each, NARROWEST, width));
  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (wall)); card != NULL;
       card = gtk_widget_get_next_sibling (card))
    {
      double down = across / hw_scene_card_get_aspect (HW_SCENE_CARD (card))
                    + (beside ? 0 : hw_scene_card_get_foot (HW_SCENE_CARD (card)));

      place (card, 0, y, beside ? width : across, down);
      y += floor (down) + GAP;
    }
}

static void
hw_picture_wall_measure (GtkWidget *widget,
                         GtkOrientation orientation,
                         int for_size,
                         int *minimum,
                         int *natural,
                         int *minimum_baseline,
                         int *natural_baseline)
{
  HwPictureWall *wall = HW_PICTURE_WALL (widget);
  double each, feet, gaps;

  /* GTK wants every child measured before it is placed. */
  for (GtkWidget *card = gtk_widget_get_first_child (widget); card != NULL;
       card = gtk_widget_get_next_sibling (card))
    gtk_widget_measure (card, orientation, -1, NULL, NULL, NULL, NULL);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = 2 * NARROWEST;
      *natural = 700;
      return;
    }
  double width = for_size > 0 ? for_size : 700;
  if (wall->row > 0)
    {
      *minimum = *natural = (int)hang_rows (wall, width, FALSE);
      return;
    }
  column_sums (wall, &each, &feet, &gaps);
  feet += gaps;
  *minimum = (int)MIN (LEAST_PICTURES + feet, width * each + feet);
  *natural = (int)MAX (*minimum, width * each + feet);
}

static void
hw_picture_wall_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwPictureWall *wall = HW_PICTURE_WALL (widget);

  if (wall->row > 0)
    hang_rows (wall, width, TRUE);
  else
    hang_column (wall, width, height);
}

static GtkSizeRequestMode
hw_picture_wall_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

void
hw_picture_wall_clear (HwPictureWall *wall)
{
  GtkWidget *card;

  g_return_if_fail (HW_IS_PICTURE_WALL (wall));
  while ((card = gtk_widget_get_first_child (GTK_WIDGET (wall))) != NULL)
    gtk_widget_unparent (card);
}

static void
hw_picture_wall_dispose (GObject *object)
{
  hw_picture_wall_clear (HW_PICTURE_WALL (object));
  G_OBJECT_CLASS (hw_picture_wall_parent_class)->dispose (object);
}

static void
hw_picture_wall_class_init (HwPictureWallClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hw_picture_wall_dispose;
  widget_class->measure = hw_picture_wall_measure;
  widget_class->size_allocate = hw_picture_wall_size_allocate;
  widget_class->get_request_mode = hw_picture_wall_get_request_mode;
}

static void
hw_picture_wall_init (HwPictureWall *wall)
{
}

GtkWidget *
hw_picture_wall_new (int row)
{
  HwPictureWall *wall = g_object_new (HW_TYPE_PICTURE_WALL, NULL);

  wall->row = row;
  return GTK_WIDGET (wall);
}

void
hw_picture_wall_set_row (HwPictureWall *wall, int row)
{
  g_return_if_fail (HW_IS_PICTURE_WALL (wall));
  if (wall->row == row)
    return;
  wall->row = row;
  gtk_widget_queue_resize (GTK_WIDGET (wall));
}

void
hw_picture_wall_hang (HwPictureWall *wall, HwSceneCard *card)
{
  g_return_if_fail (HW_IS_PICTURE_WALL (wall));
  g_return_if_fail (HW_IS_SCENE_CARD (card));
  gtk_widget_set_parent (GTK_WIDGET (card), GTK_WIDGET (wall));
}
