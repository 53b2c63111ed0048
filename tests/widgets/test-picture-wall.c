/* Pictures of scenes on a wall: in rows that fill it, or one below the other, as large as there is room, and never over one another. */
#include "hands.h"
#include "workbench/picture-wall.h"

/* A page of a hanging, a banner, a tall one, and so on: width by height. */
static const double aspects[] = { 1.3, 4.7, 0.6, 1, 2, 1.3 };

static GtkWidget *cards[G_N_ELEMENTS (aspects)];

static GtkWidget *
wall_of (int row, guint n)
{
  GtkWidget *wall = hw_picture_wall_new (row);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *name = g_strdup_printf ("Scene %u", i + 1);

      cards[i] = hw_scene_card_new ("/nowhere/scene.hoopscene", name, i % 2 == 0 ? "yesterday" : NULL,
                                    aspects[i], 64);
      hw_picture_wall_hang (HW_PICTURE_WALL (wall), HW_SCENE_CARD (cards[i]));
    }
  return wall;
}

static graphene_rect_t
place (GtkWidget *card, GtkWidget *wall)
{
  graphene_rect_t lies;

  g_assert_true (gtk_widget_compute_bounds (card, wall, &lies));
  return lies;
}

/* All lie on the wall, in their order, and apart. */
static void
assert_hung_well (GtkWidget *wall, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      graphene_rect_t one = place (cards[i], wall);

      g_assert_cmpfloat (one.origin.x, >=, 0);
      g_assert_cmpfloat (one.origin.x + one.size.width, <=, gtk_widget_get_width (wall) + 1);
      g_assert_cmpfloat (one.origin.y + one.size.height, <=, gtk_widget_get_height (wall) + 1);
      for (guint k = i + 1; k < n; k++)
        {
          graphene_rect_t other = place (cards[k], wall);

          g_assert_false (graphene_rect_intersection (&one, &other, NULL));
          g_assert_true (other.origin.y >= one.origin.y + one.size.height || other.origin.x > one.origin.x);
        }
    }
}

static guint
n_rows (GtkWidget *wall, guint n)
{
  guint rows = 1;

  for (guint i = 1; i < n; i++)
    rows += place (cards[i], wall).origin.x <= place (cards[i - 1], wall).origin.x;
  return rows;
}

static void
rows_fill_the_wall (void)
{
  static const int widths[] = { 1100, 700, 420 };
  guint rows[3];

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      GtkWidget *wall = wall_of (168, G_N_ELEMENTS (aspects));
      GtkWidget *scroller = gtk_scrolled_window_new ();
      GtkWindow *window;

      gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
      gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), wall);
      window = hands_show (scroller, widths[i], 600);
      assert_hung_well (wall, G_N_ELEMENTS (aspects));
      rows[i] = n_rows (wall, G_N_ELEMENTS (aspects));
      gtk_window_destroy (window);
    }
  g_assert_cmpuint (rows[1], >=, rows[0]);
  g_assert_cmpuint (rows[2], >, rows[0]); /* a narrower wall takes more of them */
}

/* A banner alone hangs as low as it is. */
static void
a_banner_alone_hangs_low (void)
{
  GtkWidget *wall = hw_picture_wall_new (168);
  GtkWindow *window;

  cards[0] = hw_scene_card_new ("/nowhere/banner.hoopscene", "Banner", NULL, 6, 64);
  hw_picture_wall_hang (HW_PICTURE_WALL (wall), HW_SCENE_CARD (cards[0]));
  gtk_widget_set_valign (wall, GTK_ALIGN_START);
  window = hands_show (wall, 700, 500);
  g_assert_cmpfloat (place (cards[0], wall).size.height, <, 168);
  gtk_window_destroy (window);
}

/* One below the other each has the same width; where the room is wide, its words stand beside it. */
static void
a_column_is_as_large_as_there_is_room (void)
{
  static const int rooms[][2] = { { 900, 420 }, { 320, 700 }, { 700, 260 } };
  float widths[3];

  for (guint i = 0; i < G_N_ELEMENTS (rooms); i++)
    {
      GtkWidget *wall = wall_of (0, 2), *scroller = gtk_scrolled_window_new ();
      GtkWindow *window;

      gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
      gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), wall);
      window = hands_show (scroller, rooms[i][0], rooms[i][1]);
      assert_hung_well (wall, 2);
      widths[i] = place (cards[0], wall).size.width;
      g_assert_cmpfloat (widths[i], ==, place (cards[1], wall).size.width);
      gtk_window_destroy (window);
    }
  g_assert_cmpfloat (widths[0], >, widths[1]);
}

/* Taken down, and hung in another way, it is measured anew. */
static void
it_is_hung_anew (void)
{
  GtkWidget *wall = wall_of (168, 3);
  GtkWindow *window;
  double before;

  gtk_widget_set_valign (wall, GTK_ALIGN_START);
  window = hands_show (wall, 700, 600);
  before = place (cards[0], wall).size.height;
  hw_picture_wall_set_row (HW_PICTURE_WALL (wall), 168);
  hw_picture_wall_set_row (HW_PICTURE_WALL (wall), 100);
  hands_frame (wall);
  g_assert_cmpfloat (place (cards[0], wall).size.height, <, before);
  hw_picture_wall_clear (HW_PICTURE_WALL (wall));
  g_assert_null (gtk_widget_get_first_child (wall));
  hw_picture_wall_set_row (HW_PICTURE_WALL (wall), 0);
  hands_frame (wall);
  gtk_window_destroy (window);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
  g_test_add_func ("/picture-wall/rows_fill_the_wall", rows_fill_the_wall);
  g_test_add_func ("/picture-wall/a_banner_alone_hangs_low", a_banner_alone_hangs_low);
  g_test_add_func ("/picture-wall/a_column_is_as_large_as_there_is_room",
                   a_column_is_as_large_as_there_is_room);
  g_test_add_func ("/picture-wall/it_is_hung_anew", it_is_hung_anew);
  return g_test_run ();
}
