/* At the machine: the thread to stitch now and the one to lay out meanwhile. */
#include <glib/gi18n.h>

#include "hooping-words.h"
#include "machine-private.h"

#define SWATCH 132      /* px */
#define SMALL_SWATCH 46 /* px */
#define STRANDS 9.0     /* of thread across a swatch */

static void
draw_swatch (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  const HwColour *colour = data;
  double strand = MAX (width / STRANDS, 3.0), radius = width * 0.12;
  HwColour light = hw_colour_mix (*colour, (HwColour){ 1, 1, 1 }, 0.24);
  HwColour dark = hw_colour_mix (*colour, (HwColour){ 0, 0, 0 }, 0.26);

  cairo_new_sub_path (cr);
  cairo_arc (cr, width - radius - 1, radius + 1, radius, -G_PI / 2, 0);
  cairo_arc (cr, width - radius - 1, height - radius - 1, radius, 0, G_PI / 2);
  cairo_arc (cr, radius + 1, height - radius - 1, radius, G_PI / 2, G_PI);
  cairo_arc (cr, radius + 1, radius + 1, radius, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
  cairo_save (cr);
  cairo_clip_preserve (cr);
  cairo_set_source_rgb (cr, colour->red, colour->green, colour->blue);
  cairo_paint (cr);
  /* Thread wound side by side: each strand has a light and a dark side. */
  for (double y = 0; y < height + strand; y += strand)
    {
      cairo_pattern_t *sheen = cairo_pattern_create_linear (0, y, 0, y + strand);

      cairo_pattern_add_color_stop_rgb (sheen, 0, dark.red, dark.green, dark.blue);
      cairo_pattern_add_color_stop_rgb (sheen, 0.35, light.red, light.green, light.blue);
      cairo_pattern_add_color_stop_rgb (sheen, 0.6, colour->red, colour->green, colour->blue);
      cairo_pattern_add_color_stop_rgb (sheen, 1, dark.red, dark.green, dark.blue);
      cairo_set_source (cr, sheen);
      cairo_rectangle (cr, 0, y, width, strand);
      cairo_fill (cr);
      cairo_pattern_destroy (sheen);
    }
  cairo_restore (cr);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.35);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
}

GtkWidget *
hw_thread_swatch_new (HwColour colour, int side)
{
  GtkWidget *area = gtk_drawing_area_new ();

  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), side);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), side);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_swatch, g_memdup2 (&colour, sizeof colour),
                                  g_free);
  gtk_widget_set_valign (area, GTK_ALIGN_CENTER);
  return area;
}

/* "in Fig branch · 1,200 stitches · 2 min" */
static char *
block_text (HwMachineView *view, const HwThreadBlock *thread, const HwMotif *motif)
{
  double minutes = thread->stitches / MAX (view->work->snapshot->machine.stitches_per_minute, 1);
  g_autofree char *time = hw_minutes_text (MAX (minutes, 1));
  g_autofree char *stitches
      = g_strdup_printf (ngettext ("%'u stitch", "%'u stitches", thread->stitches), thread->stitches);

  return g_strdup_printf (_ ("in %s · %s · about %s"), motif->name, stitches, time);
}

static void
broke_cb (GtkButton *button, HwMachineView *view)
{
  const HwMotif *motif;
  const HwThreadBlock *thread
      = hw_machine_work_thread (view->work, view->work->pin->work->threads_done, &motif);

  if (thread != NULL)
    hw_bench_thread_broke (view->bench, motif->id, thread->name);
}

/* Whether the last line of the log tells that the thread broke: then how to go on is said. */
static gboolean
has_just_broken (HwMachineView *view)
{
  GPtrArray *log = view->work->snapshot->log;

  return log->len > 0
         && ((const HwLogLine *)g_ptr_array_index (log, log->len - 1))->kind == HW_LOG_THREAD_BROKE;
}

static void
add_what_to_do (HwMachineView *view)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_widget_add_css_class (box, "machine-doubt");
  gtk_box_append (GTK_BOX (box),
                  hw_machine_words (_ ("The thread broke. It is written down."), "machine-advice"));
  gtk_box_append (
      GTK_BOX (box),
      hw_machine_words (
          _ ("Switch off, look for thread left about needle and bobbin, and thread anew. Go back some "
             "stitches at the machine, so that the new "
             "thread lies over the old one, and go on. How to go back is in the machine's manual."),
          "machine-small"));
  gtk_box_append (GTK_BOX (view->page), box);
}

static void
add_present (HwMachineView *view, guint at)
{
  const HwMotif *motif, *motif_before;
  const HwThreadBlock *thread = hw_machine_work_thread (view->work, at, &motif);
  const HwThreadBlock *before = at > 0 ? hw_machine_work_thread (view->work, at - 1, &motif_before) : NULL;
  g_autofree char *count = g_strdup_printf (_ ("Thread %u of %u"), at + 1, view->work->steps->len);
  g_autofree char *block = block_text (view, thread, motif);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 22);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  gtk_widget_add_css_class (row, "machine-thread");
  gtk_box_append (GTK_BOX (row), hw_thread_swatch_new (thread->colour, SWATCH));
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), hw_machine_words (count, "machine-small"));
  gtk_box_append (GTK_BOX (words), hw_machine_words (thread->name, "machine-figure"));
  gtk_box_append (GTK_BOX (words), hw_machine_words (block, "machine-advice"));
  if (before != NULL && hw_thread_same (before, thread))
    gtk_box_append (GTK_BOX (words), hw_machine_words (_ ("The same thread stays in."), "machine-advice"));
  gtk_box_append (GTK_BOX (row), words);
  gtk_box_append (GTK_BOX (view->page), row);
}

static void
add_next (HwMachineView *view, guint at)
{
  const HwMotif *motif;
  const HwThreadBlock *thread = hw_machine_work_thread (view->work, at, &motif);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14);

  gtk_widget_add_css_class (row, "machine-next-thread");
  if (thread == NULL)
    {
      gtk_box_append (GTK_BOX (row),
                      hw_machine_words (_ ("It is the last thread of this hooping."), "machine-advice"));
      gtk_box_append (GTK_BOX (view->page), row);
      return;
    }
  guint left = view->work->steps->len - at - 1;
  g_autofree char *name = g_strdup_printf (_ ("Lay out next: %s"), thread->name);
  g_autofree char *then
      = left > 0 ? g_strdup_printf (ngettext ("in %s, then %u more", "in %s, then %u more", left),
                                    motif->name, left)
                 : g_strdup_printf (_ ("in %s, the last one"), motif->name);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_box_append (GTK_BOX (row), hw_thread_swatch_new (thread->colour, SMALL_SWATCH));
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), hw_machine_words (name, "machine-sentence"));
  gtk_box_append (GTK_BOX (words), hw_machine_words (then, "machine-small"));
  gtk_box_append (GTK_BOX (row), words);
  gtk_box_append (GTK_BOX (view->page), row);
}

void
hw_machine_fill_threads (HwMachineView *view)
{
  guint at = view->work->pin->work->threads_done;

  if (at >= view->work->steps->len)
    {
      hw_machine_add_words (view, _ ("All threads of this hooping are stitched."), "machine-advice");
      return;
    }
  add_present (view, at);
  add_next (view, at + 1);
  hw_machine_fill_bobbin (view);
  if (has_just_broken (view))
    add_what_to_do (view);
  hw_machine_add_extra (view, _ ("The thread broke"), "B", G_CALLBACK (broke_cb));
}
