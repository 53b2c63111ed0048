/* A slip of paper with a point towards what it speaks of. The point is drawn in the margin that the slip keeps around itself. */
#include "hint-slip.h"

#include <glib/gi18n.h>

#include "dialog.h"

#define MARGIN 14  /* px around the paper: the length of the point */
#define BREADTH 12 /* px: half the breadth of the point where it leaves the paper */
#define WIDEST 40  /* characters */

typedef enum
{
  NOWHERE,
  TO_LEFT,
  TO_RIGHT,
  UP,
  DOWN
} Way;

struct _HwHintSlip
{
  GtkWidget parent_instance;

  GtkWidget *paper, *words;
  Way way;
  int at; /* px along the side it points from */
};

G_DEFINE_FINAL_TYPE (HwHintSlip, hw_hint_slip, GTK_TYPE_WIDGET)

enum
{
  PUT_AWAY,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
got_it_cb (GtkButton *button, HwHintSlip *slip)
{
  g_signal_emit (slip, signals[PUT_AWAY], 0, FALSE);
}

static void
no_more_cb (GtkButton *button, HwHintSlip *slip)
{
  g_signal_emit (slip, signals[PUT_AWAY], 0, TRUE);
}

void
hw_hint_slip_say (HwHintSlip *slip, const char *text)
{
  g_return_if_fail (HW_IS_HINT_SLIP (slip));
  g_return_if_fail (text != NULL);

  gtk_label_set_label (GTK_LABEL (slip->words), text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (slip), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_widget_set_visible (GTK_WIDGET (slip), TRUE);
}

static int
between (int value, int least, int most)
{
  return MAX (least, MIN (value, most));
}

void
hw_hint_slip_place (HwHintSlip *slip,
                    const GdkRectangle *target,
                    const GdkRectangle *room,
                    gboolean beside,
                    GdkRectangle *place)
{
  int width, height, right = target->x + target->width, below = target->y + target->height;
  int middle_x = target->x + target->width / 2, middle_y = target->y + target->height / 2;

  g_return_if_fail (HW_IS_HINT_SLIP (slip));
  g_return_if_fail (target != NULL && room != NULL && place != NULL);

  gtk_widget_measure (GTK_WIDGET (slip), GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  width = MIN (width, room->width);
  gtk_widget_measure (GTK_WIDGET (slip), GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  if (beside && right + width <= room->x + room->width)
    slip->way = TO_LEFT;
  else if (beside && target->x - width >= room->x)
    slip->way = TO_RIGHT;
  else if (target->y - height >= room->y)
    slip->way = DOWN;
  else
    slip->way = UP;
  if (slip->way == TO_LEFT || slip->way == TO_RIGHT)
    {
      place->x = slip->way == TO_LEFT ? right : target->x - width;
      place->y = between (middle_y - height / 2, room->y, room->y + room->height - height);
      slip->at = between (middle_y - place->y, MARGIN + BREADTH + 8, height - MARGIN - BREADTH - 8);
    }
  else
    {
      place->x = between (middle_x - width / 2, room->x, room->x + room->width - width);
      place->y = slip->way == DOWN ? target->y - height
                                   : between (below, room->y, room->y + room->height - height);
      slip->at = between (middle_x - place->x, MARGIN + BREADTH + 8, width - MARGIN - BREADTH - 8);
    }
  place->width = width;
  place->height = height;
}

static void
hw_hint_slip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwHintSlip *slip = HW_HINT_SLIP (widget);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget), at = slip->at;
  graphene_rect_t bounds;
  GdkRGBA ink = { 0.5f, 0.45f, 0.3f, 1 };

  GTK_WIDGET_CLASS (hw_hint_slip_parent_class)->snapshot (widget, snapshot);
  if (slip->way == NOWHERE)
    return;
  gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), "hint_paper", &ink);
  graphene_rect_init (&bounds, 0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  switch (slip->way)
    {
    case TO_LEFT:
      cairo_move_to (cr, 1, at);
      cairo_line_to (cr, MARGIN + 1, at - BREADTH);
      cairo_line_to (cr, MARGIN + 1, at + BREADTH);
      break;
    case TO_RIGHT:
      cairo_move_to (cr, width - 1, at);
      cairo_line_to (cr, width - MARGIN - 1, at - BREADTH);
      cairo_line_to (cr, width - MARGIN - 1, at + BREADTH);
      break;
    case UP:
      cairo_move_to (cr, at, 1);
      cairo_line_to (cr, at - BREADTH, MARGIN + 1);
      cairo_line_to (cr, at + BREADTH, MARGIN + 1);
      break;
    default:
      cairo_move_to (cr, at, height - 1);
      cairo_line_to (cr, at - BREADTH, height - MARGIN - 1);
      cairo_line_to (cr, at + BREADTH, height - MARGIN - 1);
      break;
    }
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_fill (cr);
  cairo_destroy (cr);
}

static void
hw_hint_slip_dispose (GObject *object)
{
  g_clear_pointer (&HW_HINT_SLIP (object)->paper, gtk_widget_unparent);
  G_OBJECT_CLASS (hw_hint_slip_parent_class)->dispose (object);
}

static void
hw_hint_slip_class_init (HwHintSlipClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hw_hint_slip_dispose;
  widget_class->snapshot = hw_hint_slip_snapshot;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_ALERT);
  signals[PUT_AWAY] = g_signal_new ("put-away", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                    NULL, G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
}

static void
hw_hint_slip_init (HwHintSlip *slip)
{
  GtkWidget *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *no_more = gtk_button_new_with_label (_ ("No more hints"));
  GtkWidget *got_it = gtk_button_new_with_label (_ ("I see"));

  slip->words = hw_dialog_words ("");
  gtk_label_set_max_width_chars (GTK_LABEL (slip->words), WIDEST);
  gtk_widget_set_hexpand (no_more, TRUE);
  gtk_widget_set_halign (no_more, GTK_ALIGN_START);
  gtk_button_set_has_frame (GTK_BUTTON (no_more), FALSE);
  g_signal_connect (no_more, "clicked", G_CALLBACK (no_more_cb), slip);
  g_signal_connect (got_it, "clicked", G_CALLBACK (got_it_cb), slip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (got_it), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("I see: put the hint away"), -1);
  gtk_box_append (GTK_BOX (foot), no_more);
  gtk_box_append (GTK_BOX (foot), got_it);
  slip->paper = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_box_append (GTK_BOX (slip->paper), slip->words);
  gtk_box_append (GTK_BOX (slip->paper), foot);
  gtk_widget_add_css_class (slip->paper, "hint-paper");
  gtk_widget_add_css_class (GTK_WIDGET (slip), "hint-slip");
  gtk_widget_set_margin_start (slip->paper, MARGIN);
  gtk_widget_set_margin_end (slip->paper, MARGIN);
  gtk_widget_set_margin_top (slip->paper, MARGIN);
  gtk_widget_set_margin_bottom (slip->paper, MARGIN);
  gtk_widget_set_parent (slip->paper, GTK_WIDGET (slip));
  gtk_widget_set_visible (GTK_WIDGET (slip), FALSE);
}

GtkWidget *
hw_hint_slip_new (void)
{
  return g_object_new (HW_TYPE_HINT_SLIP, NULL);
}
