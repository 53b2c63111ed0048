/* At the machine: how the picture of the hoop and the words share the window, and how large the type is. */
#include "machine-private.h"

#define ROOMY_WIDTH 1700  /* px */
#define ROOMY_HEIGHT 900  /* px */
#define WORDS_PERCENT 54  /* of the width */
#define PICTURE_LEAST 230 /* px: a smaller picture tells nothing; then the words have all the room */

/* The words have what they need and a little over half the width; the picture has the rest, where that is enough to tell something. */
static int
words_width (GtkWidget *scroller, int width)
{
  GtkWidget *page = gtk_widget_get_first_child (scroller);
  int least;

  gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  int wanted = MAX (least, width * WORDS_PERCENT / 100);
  return width - wanted >= PICTURE_LEAST ? wanted : width;
}

static void
measure_middle (GtkWidget *middle,
                GtkOrientation orientation,
                int for_size,
                int *minimum,
                int *natural,
                int *minimum_baseline,
                int *natural_baseline)
{
  *minimum = 0;
  *natural = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (middle); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int least, wanted;

      gtk_widget_measure (child, orientation, -1, &least, &wanted, NULL, NULL);
      *minimum = MAX (*minimum, least);
      *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? *natural + wanted : MAX (*natural, wanted);
    }
}

static gboolean
roomy_idle_cb (gpointer data)
{
  HwMachineView *view = data;

  view->roomy_idle = 0;
  if (view->roomy)
    gtk_widget_add_css_class (GTK_WIDGET (view), "roomy");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (view), "roomy");
  return G_SOURCE_REMOVE;
}

/* Type cannot change while sizes are being handed out. */
static void
look_for_room (HwMachineView *view, int width, int height)
{
  gboolean roomy = width >= ROOMY_WIDTH && height >= ROOMY_HEIGHT;

  if (roomy == view->roomy)
    return;
  view->roomy = roomy;
  if (view->roomy_idle == 0)
    view->roomy_idle = g_idle_add_full (G_PRIORITY_HIGH_IDLE, roomy_idle_cb, view, NULL);
}

static void
allocate_middle (GtkWidget *middle, int width, int height, int baseline)
{
  GtkWidget *picture = gtk_widget_get_first_child (middle);
  GtkWidget *scroller = gtk_widget_get_next_sibling (picture);
  int words
      = gtk_widget_get_visible (picture) && height >= PICTURE_LEAST ? words_width (scroller, width) : width;
  gboolean beside = words < width;

  look_for_room (HW_MACHINE_VIEW (gtk_widget_get_parent (middle)), width,
                 gtk_widget_get_height (gtk_widget_get_parent (middle)));
  gtk_widget_set_child_visible (picture, beside);
  if (beside)
    gtk_widget_size_allocate (picture, &(GtkAllocation){ 0, 0, width - words, height }, -1);
  gtk_widget_size_allocate (scroller, &(GtkAllocation){ width - words, 0, words, height }, -1);
}

GtkLayoutManager *
hw_machine_layout_new (void)
{
  return gtk_custom_layout_new (NULL, measure_middle, allocate_middle);
}
