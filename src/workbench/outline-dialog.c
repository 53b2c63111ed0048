/* The outline of one motif over its artwork, large, in the motif's own axes: points are handles to be pulled, a click on a side puts one there, Delete takes
 * one away. Enter takes the outline over, Escape leaves it as it was. */
#include "outline-dialog.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "../drawing/thread-painting.h"
#include "../geometry/region.h"
#include "artwork-view.h"
#include "dialog.h"
#include "help-place.h"
#include "outline-edit.h"

#define WIDTH 980 /* px */
#define HEIGHT 680
#define REACH 16.0     /* px about a handle */
#define SIDE_REACH 9.0 /* px about a side */
#define HANDLE 5.5     /* px: radius */
#define NUDGE 0.1      /* mm */
#define FAR_NUDGE 1.0
#define PAINTED 900.0 /* px: longer side of the artwork's picture */

typedef struct
{
  HwBench *bench;
  GtkWindow *window;
  char *id;
  HwOutlineEdit *edit;
  GtkWidget *view, *sum, *told, *undo, *redo, *remove, *take;
  HwOutlineSpot chosen;
  gboolean has_chosen, pulled;
  HwPoint grip; /* from the pointer to the handle, mm */
} Dialog;

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  hw_outline_edit_free (dialog->edit);
  g_object_unref (dialog->bench);
  g_free (dialog->id);
  g_free (dialog);
}

static double
zoom (Dialog *dialog)
{
  return hw_artwork_view_get_view (HW_ARTWORK_VIEW (dialog->view))->zoom;
}

static void
tell (Dialog *dialog, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (dialog->told), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (dialog->told, sentence != NULL);
}

static void
update (Dialog *dialog)
{
  const HwOutline *outline = hw_outline_edit_get (dialog->edit);
  HwUnit unit = hw_bench_get_unit (dialog->bench);
  g_autofree char *w = hw_length_text (outline->box.x1 - outline->box.x0, unit);
  g_autofree char *h = hw_length_text (outline->box.y1 - outline->box.y0, unit);
  guint n = hw_outline_edit_count (dialog->edit);
  /* Translators: "24 points, 80.0 mm wide and 65.0 mm high as made" */
  g_autofree char *text = g_strdup_printf (
      ngettext ("%u point, %s wide and %s high as made", "%u points, %s wide and %s high as made", n), n, w,
      h);

  if (dialog->has_chosen
      && (dialog->chosen.ring >= outline->n_rings
          || dialog->chosen.point >= outline->rings[dialog->chosen.ring].n_points))
    dialog->has_chosen = FALSE;
  gtk_label_set_label (GTK_LABEL (dialog->sum), text);
  gtk_widget_set_sensitive (dialog->remove, dialog->has_chosen);
  gtk_widget_set_sensitive (dialog->undo, hw_outline_edit_can_undo (dialog->edit));
  gtk_widget_set_sensitive (dialog->redo, hw_outline_edit_can_redo (dialog->edit));
  gtk_accessible_update_property (GTK_ACCESSIBLE (dialog->view), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text,
                                  -1);
  gtk_widget_queue_draw (dialog->view);
}

static void
choose (Dialog *dialog, HwOutlineSpot spot)
{
  dialog->chosen = spot;
  dialog->has_chosen = TRUE;
  update (dialog);
}

static void
undo (Dialog *dialog)
{
  tell (dialog, NULL);
  if (hw_outline_edit_undo (dialog->edit))
    update (dialog);
}

static void
redo (Dialog *dialog)
{
  tell (dialog, NULL);
  if (hw_outline_edit_redo (dialog->edit))
    update (dialog);
}

static void
remove_chosen (Dialog *dialog)
{
  if (!dialog->has_chosen)
    return;
  if (hw_outline_edit_remove (dialog->edit, dialog->chosen))
    tell (dialog, NULL);
  else
    tell (dialog, _ ("An outline needs three points: these stay."));
  update (dialog);
}

static void
take_over (Dialog *dialog)
{
  g_autofree char *refusal = NULL;

  if (hw_outline_edit_is_changed (dialog->edit)
      && !hw_bench_set_outline (dialog->bench, dialog->id, hw_outline_edit_get (dialog->edit), &refusal))
    {
      tell (dialog, refusal);
      return;
    }
  gtk_window_close (dialog->window);
}

static gboolean
press (HwArtworkView *view, HwPoint at, gpointer data)
{
  Dialog *dialog = data;
  HwOutlineSpot spot;

  tell (dialog, NULL);
  dialog->pulled = FALSE;
  dialog->grip = (HwPoint){ 0, 0 };
  if (hw_outline_edit_point_near (dialog->edit, at, REACH / zoom (dialog), &spot))
    {
      HwPoint there = hw_outline_edit_at (dialog->edit, spot);

      dialog->grip = (HwPoint){ there.x - at.x, there.y - at.y };
    }
  else if (hw_outline_edit_side_near (dialog->edit, at, SIDE_REACH / zoom (dialog), &spot))
    {
      hw_outline_edit_add (dialog->edit, spot, at);
      dialog->pulled = TRUE;
    }
  else
    return FALSE;
  choose (dialog, spot);
  return TRUE;
}

static void
pull (HwArtworkView *view, HwPoint at, gpointer data)
{
  Dialog *dialog = data;

  hw_outline_edit_move (dialog->edit, dialog->chosen,
                        (HwPoint){ at.x + dialog->grip.x, at.y + dialog->grip.y }, dialog->pulled);
  dialog->pulled = TRUE;
  update (dialog);
}

static const char *
hover (HwArtworkView *view, HwPoint at, gpointer data)
{
  Dialog *dialog = data;
  HwOutlineSpot spot;

  if (hw_outline_edit_point_near (dialog->edit, at, REACH / zoom (dialog), &spot))
    return "grab";
  return hw_outline_edit_side_near (dialog->edit, at, SIDE_REACH / zoom (dialog), &spot) ? "copy" : NULL;
}

/* The right button takes a point away at once: there is nothing else it could mean there, and it can be undone. */
static void
menu (HwArtworkView *view, HwPoint at, gpointer data)
{
  Dialog *dialog = data;
  HwOutlineSpot spot;

  if (!hw_outline_edit_point_near (dialog->edit, at, REACH / zoom (dialog), &spot))
    return;
  choose (dialog, spot);
  remove_chosen (dialog);
}

static gboolean
nudge (Dialog *dialog, double dx, double dy, GdkModifierType held)
{
  double step = held & GDK_SHIFT_MASK ? FAR_NUDGE : NUDGE;
  HwPoint at;

  if (!dialog->has_chosen)
    return FALSE;
  at = hw_outline_edit_at (dialog->edit, dialog->chosen);
  at = (HwPoint){ at.x + dx * step, at.y + dy * step };
  hw_outline_edit_move (dialog->edit, dialog->chosen, at, FALSE);
  hw_artwork_view_reveal (HW_ARTWORK_VIEW (dialog->view), at);
  update (dialog);
  return TRUE;
}

/* Past the last point the focus goes on to the buttons. */
static gboolean
go_through (Dialog *dialog, int step)
{
  HwOutlineSpot first = { 0, 0 }, next;

  if (!dialog->has_chosen)
    next = step > 0 ? first : hw_outline_edit_beside (dialog->edit, first, -1);
  else
    {
      next = hw_outline_edit_beside (dialog->edit, dialog->chosen, step);
      gboolean past = step > 0 ? next.ring == 0 && next.point == 0
                               : dialog->chosen.ring == 0 && dialog->chosen.point == 0;
      if (past)
        {
          dialog->has_chosen = FALSE;
          update (dialog);
          return FALSE;
        }
    }
  choose (dialog, next);
  hw_artwork_view_reveal (HW_ARTWORK_VIEW (dialog->view), hw_outline_edit_at (dialog->edit, next));
  return TRUE;
}

static gboolean
key (HwArtworkView *view, guint key, GdkModifierType held, gpointer data)
{
  Dialog *dialog = data;

  if (held & (GDK_CONTROL_MASK | GDK_ALT_MASK))
    return FALSE;
  switch (key)
    {
    case GDK_KEY_Left:
      return nudge (dialog, -1, 0, held);
    case GDK_KEY_Right:
      return nudge (dialog, 1, 0, held);
    case GDK_KEY_Up:
      return nudge (dialog, 0, -1, held);
    case GDK_KEY_Down:
      return nudge (dialog, 0, 1, held);
    case GDK_KEY_Tab:
      return go_through (dialog, 1);
    case GDK_KEY_ISO_Left_Tab:
      return go_through (dialog, -1);
    case GDK_KEY_Delete:
    case GDK_KEY_BackSpace:
      remove_chosen (dialog);
      return TRUE;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      take_over (dialog);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
draw_handle (Dialog *dialog, cairo_t *cr, const HwView *view, HwOutlineSpot spot)
{
  HwPoint at = hw_view_to_pixels (view, hw_outline_edit_at (dialog->edit, spot));
  gboolean chosen
      = dialog->has_chosen && spot.ring == dialog->chosen.ring && spot.point == dialog->chosen.point;

  cairo_arc (cr, at.x, at.y, chosen ? HANDLE + 2.5 : HANDLE, 0, 2 * G_PI);
  if (chosen)
    cairo_set_source_rgb (cr, 0.71, 0.28, 0.23);
  else
    cairo_set_source_rgb (cr, 1, 0.99, 0.96);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  cairo_set_line_width (cr, 1.4);
  cairo_stroke (cr);
}

static void
draw (HwArtworkView *artwork, cairo_t *cr, gpointer data)
{
  Dialog *dialog = data;
  const HwView *view = hw_artwork_view_get_view (artwork);
  const HwOutline *outline = hw_outline_edit_get (dialog->edit);

  cairo_save (cr);
  cairo_translate (cr, view->x, view->y);
  cairo_scale (cr, view->zoom, view->zoom);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  hw_path_outline (cr, outline);
  cairo_restore (cr);
  cairo_set_source_rgba (cr, 0.18, 0.40, 0.56, 0.10);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_fill_preserve (cr);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.85);
  cairo_set_line_width (cr, 3.5);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0.18, 0.40, 0.56);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      draw_handle (dialog, cr, view, (HwOutlineSpot){ r, i });
  if (dialog->has_chosen)
    draw_handle (dialog, cr, view, dialog->chosen);
}

static const HwArtworkHands hands
    = { .draw = draw, .press = press, .pull = pull, .hover = hover, .menu = menu, .key = key };

/* The artwork unturned at its own size, as a picture to look at. */
static void
show_artwork (Dialog *dialog, const HwMotif *record)
{
  g_autoptr (HwMotif) upright = hw_motif_copy (record);
  g_autoptr (HwPicture) picture = NULL;
  g_autoptr (HwPhotoLevels) levels = NULL;
  HwThreadPicture painted = { NULL };
  HwBox shown = record->outline->box, box = HW_BOX_EMPTY;
  double per_mm = PAINTED / MAX (MAX (shown.x1 - shown.x0, shown.y1 - shown.y0), 1);

  upright->placement = (HwPlacement){ .scale = 1 };
  if ((record->needles != NULL || record->picture != NULL)
      && hw_thread_picture_paint (&painted, upright, per_mm, 1))
    {
      int width = cairo_image_surface_get_width (painted.surface);
      int height = cairo_image_surface_get_height (painted.surface);
      int stride = cairo_image_surface_get_stride (painted.surface);
      const guint8 *from = cairo_image_surface_get_data (painted.surface);
      guint8 *pixels = g_malloc ((gsize)width * height * 4);

      /* Over white, as the view shows it. */
      for (int y = 0; y < height; y++)
        for (int x = 0; x < width; x++)
          {
            guint32 p = ((const guint32 *)(gconstpointer)(from + (gsize)y * stride))[x];
            guint8 *to = pixels + ((gsize)y * width + x) * 4;
            guint white = 255 - (p >> 24);

            to[0] = (guint8)MIN ((p >> 16 & 255) + white, 255);
            to[1] = (guint8)MIN ((p >> 8 & 255) + white, 255);
            to[2] = (guint8)MIN ((p & 255) + white, 255);
            to[3] = 255;
          }
      picture = hw_picture_new ((guint)width, (guint)height, (gsize)width * 4, pixels);
      levels = hw_photo_levels_new (picture, 16e6);
      box = (HwBox){ painted.x / per_mm, painted.y / per_mm, (painted.x + width) / per_mm,
                     (painted.y + height) / per_mm };
      shown = hw_box_union (shown, box);
      hw_thread_picture_clear (&painted);
    }
  hw_artwork_view_show (HW_ARTWORK_VIEW (dialog->view), levels, box, shown);
}

static void
undo_cb (GtkButton *button, Dialog *dialog)
{
  undo (dialog);
}

static void
redo_cb (GtkButton *button, Dialog *dialog)
{
  redo (dialog);
}

static void
remove_cb (GtkButton *button, Dialog *dialog)
{
  remove_chosen (dialog);
}

static void
take_cb (GtkButton *button, Dialog *dialog)
{
  take_over (dialog);
}

static void
cancel_cb (GtkButton *button, Dialog *dialog)
{
  gtk_window_close (dialog->window);
}

static gboolean
undo_key_cb (GtkWidget *widget, GVariant *args, gpointer dialog)
{
  undo (dialog);
  return TRUE;
}

static gboolean
redo_key_cb (GtkWidget *widget, GVariant *args, gpointer dialog)
{
  redo (dialog);
  return TRUE;
}

static void
add_keys (Dialog *dialog)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();
  GtkShortcutController *controller = GTK_SHORTCUT_CONTROLLER (keys);

  gtk_shortcut_controller_add_shortcut (
      controller, gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Control>z"),
                                    gtk_callback_action_new (undo_key_cb, dialog, NULL)));
  gtk_shortcut_controller_add_shortcut (
      controller, gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Control><Shift>z|<Control>y"),
                                    gtk_callback_action_new (redo_key_cb, dialog, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (dialog->window), keys);
}

static GtkWidget *
button (const char *label, GCallback clicked, Dialog *dialog, GtkWidget *row)
{
  GtkWidget *made = gtk_button_new_with_label (label);

  g_signal_connect (made, "clicked", clicked, dialog);
  gtk_box_append (GTK_BOX (row), made);
  return made;
}

static GtkWidget *
make_content (Dialog *dialog)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *ends = hw_dialog_foot ();

  dialog->view = hw_artwork_view_new (_ ("The outline, with its points"), &hands, dialog);
  dialog->sum = gtk_label_new (NULL);
  dialog->told = hw_dialog_words (NULL);
  gtk_widget_add_css_class (dialog->told, "told");
  gtk_widget_set_visible (dialog->told, FALSE);
  gtk_widget_add_css_class (dialog->sum, "quiet");
  gtk_label_set_xalign (GTK_LABEL (dialog->sum), 0);
  GtkWidget *words
      = hw_dialog_words (_ ("Pull a point where it belongs. A click on a side puts a point there; "
                            "Delete takes the chosen one away."));
  gtk_label_set_max_width_chars (GTK_LABEL (words), 110);

  dialog->undo = button (_ ("Undo"), G_CALLBACK (undo_cb), dialog, foot);
  dialog->redo = button (_ ("Redo"), G_CALLBACK (redo_cb), dialog, foot);
  dialog->remove = button (_ ("Take the point away"), G_CALLBACK (remove_cb), dialog, foot);
  gtk_widget_set_hexpand (ends, TRUE);
  button (_ ("Cancel"), G_CALLBACK (cancel_cb), dialog, ends);
  dialog->take = button (_ ("Use this outline"), G_CALLBACK (take_cb), dialog, ends);
  gtk_widget_add_css_class (dialog->take, "suggested-action");
  gtk_box_append (GTK_BOX (foot), ends);

  gtk_box_append (GTK_BOX (content), words);
  gtk_box_append (GTK_BOX (content), dialog->view);
  gtk_box_append (GTK_BOX (content), dialog->sum);
  gtk_box_append (GTK_BOX (content), dialog->told);
  gtk_box_append (GTK_BOX (content), foot);
  return content;
}

void
hw_outline_dialog_show (GtkWindow *parent, HwBench *bench, const char *motif_id)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (motif_id != NULL);

  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (bench), motif_id);
  if (motif == NULL || !hw_bench_may_edit_outline (bench, motif_id))
    return;

  const HwMotif *record = hw_scene_motif_get_record (motif);
  g_autofree char *title = g_strdup_printf (_ ("Outline of %s"), record->name);
  Dialog *dialog = g_new0 (Dialog, 1);
  dialog->bench = g_object_ref (bench);
  dialog->id = g_strdup (motif_id);
  dialog->edit = hw_outline_edit_new (record->outline);
  GtkWidget *content = make_content (dialog);
  dialog->window = hw_dialog_new (parent, title, content, WIDTH, HEIGHT);
  hw_help_mark (dialog->window, "artwork");
  g_object_set_data_full (G_OBJECT (dialog->window), "dialog", dialog, dialog_free);
  add_keys (dialog);
  show_artwork (dialog, record);
  update (dialog);
  gtk_window_present (dialog->window);
  gtk_widget_grab_focus (dialog->view);
}
