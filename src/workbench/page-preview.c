/* One page of a print job, small, with buttons to leaf through the others. Pages are drawn on a thread, one at a time, and shown when they are
 * there: a sheet of a large scene takes longer than a frame. */
#include "page-preview.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/at-work.h"

struct _HwPagePreview
{
  GtkBox parent_instance;

  HwPrintJob **job; /* shared with the thread that draws (atomic box), or NULL */
  guint page;
  GtkWidget *paper;
  GtkWidget *count;
  GtkWidget *back;
  GtkWidget *on;

  cairo_surface_t *picture; /* of picture_page of picture_job, or NULL */
  gconstpointer picture_job;
  guint picture_page;
  double picture_scale; /* pixels per mm */
  gboolean drawing;     /* a thread is at it */
};

G_DEFINE_FINAL_TYPE (HwPagePreview, hw_page_preview, GTK_TYPE_BOX)

/* What the thread draws. */
typedef struct
{
  HwPrintJob **job;
  guint page;
  double scale;
} Sitting;

static void
free_job (gpointer box)
{
  hw_print_job_free (*(HwPrintJob **)box);
}

static void
release_job (HwPrintJob **job)
{
  g_atomic_rc_box_release_full (job, free_job);
}

static void
sitting_free (gpointer data)
{
  Sitting *sitting = data;

  release_job (sitting->job);
  g_free (sitting);
}

static void
draw_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Sitting *sitting = data;
  double width, height;
  cairo_surface_t *picture;
  cairo_t *cr;

  hw_print_job_page_size (*sitting->job, sitting->page, &width, &height);
  picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)ceil (width * sitting->scale),
                                        (int)ceil (height * sitting->scale));
  cr = cairo_create (picture);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, sitting->scale, sitting->scale);
  hw_print_job_draw_page (*sitting->job, sitting->page, cr);
  cairo_destroy (cr);
  cairo_surface_flush (picture);
  g_task_return_pointer (task, picture, (GDestroyNotify)cairo_surface_destroy);
}

static void
drawn_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwPagePreview *preview = HW_PAGE_PREVIEW (source);
  const Sitting *sitting = g_task_get_task_data (G_TASK (result));

  preview->drawing = FALSE;
  g_clear_pointer (&preview->picture, cairo_surface_destroy);
  preview->picture = g_task_propagate_pointer (G_TASK (result), NULL);
  preview->picture_job = sitting->job;
  preview->picture_page = sitting->page;
  preview->picture_scale = sitting->scale;
  if (preview->paper != NULL) /* else the window was closed meanwhile */
    gtk_widget_queue_draw (preview->paper);
}

/* Has the page drawn, unless it is or is being so; asked again with each frame until what is there is what is wanted. */
static void
want_picture (HwPagePreview *preview, double scale)
{
  gboolean there = preview->picture != NULL && preview->picture_job == preview->job
                   && preview->picture_page == preview->page && fabs (preview->picture_scale - scale) < 1e-9;
  g_autoptr (GTask) task = NULL;
  Sitting *sitting;

  if (preview->drawing || there)
    return;
  preview->drawing = TRUE;
  sitting = g_new0 (Sitting, 1);
  sitting->job = g_atomic_rc_box_acquire (preview->job);
  sitting->page = preview->page;
  sitting->scale = scale;
  task = g_task_new (preview, NULL, drawn_cb, NULL);
  g_task_set_task_data (task, sitting, sitting_free);
  hw_at_work_run (task, draw_thread);
}

static void
draw_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwPagePreview *preview = user_data;
  double page_width, page_height;

  if (preview->job == NULL || preview->page >= hw_print_job_n_pages (*preview->job))
    return;
  hw_print_job_page_size (*preview->job, preview->page, &page_width, &page_height);
  double scale = MIN ((width - 8) / page_width, (height - 8) / page_height);
  int factor = gtk_widget_get_scale_factor (GTK_WIDGET (area));
  if (scale <= 0)
    return;
  want_picture (preview, scale * factor);
  cairo_translate (cr, floor ((width - page_width * scale) / 2), floor ((height - page_height * scale) / 2));
  cairo_rectangle (cr, 2, 3, page_width * scale, page_height * scale);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.18);
  cairo_fill (cr);
  cairo_rectangle (cr, 0, 0, page_width * scale, page_height * scale);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill (cr);
  if (preview->picture == NULL || preview->picture_job != preview->job
      || preview->picture_page != preview->page)
    return;
  cairo_rectangle (cr, 0, 0, page_width * scale, page_height * scale);
  cairo_clip (cr);
  cairo_scale (cr, scale / preview->picture_scale, scale / preview->picture_scale);
  cairo_set_source_surface (cr, preview->picture, 0, 0);
  cairo_paint (cr);
}

static void
update (HwPagePreview *preview)
{
  guint n = preview->job != NULL ? hw_print_job_n_pages (*preview->job) : 0;

  preview->page = n > 0 ? MIN (preview->page, n - 1) : 0;
  g_autofree char *count
      = n > 0 ? g_strdup_printf (_ ("Page %u of %u"), preview->page + 1, n) : g_strdup (_ ("No page"));
  gtk_label_set_label (GTK_LABEL (preview->count), count);
  gtk_accessible_update_property (GTK_ACCESSIBLE (preview->paper), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, count,
                                  -1);
  gtk_widget_set_sensitive (preview->back, preview->page > 0);
  gtk_widget_set_sensitive (preview->on, preview->page + 1 < n);
  gtk_widget_queue_draw (preview->paper);
}

static void
back_cb (GtkButton *button, HwPagePreview *preview)
{
  preview->page--;
  update (preview);
}

static void
on_cb (GtkButton *button, HwPagePreview *preview)
{
  preview->page++;
  update (preview);
}

static void
hw_page_preview_dispose (GObject *object)
{
  HW_PAGE_PREVIEW (object)->paper = NULL;
  G_OBJECT_CLASS (hw_page_preview_parent_class)->dispose (object);
}

static void
hw_page_preview_finalize (GObject *object)
{
  HwPagePreview *preview = HW_PAGE_PREVIEW (object);

  g_clear_pointer (&preview->job, release_job);
  g_clear_pointer (&preview->picture, cairo_surface_destroy);
  G_OBJECT_CLASS (hw_page_preview_parent_class)->finalize (object);
}

static void
hw_page_preview_class_init (HwPagePreviewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_page_preview_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_page_preview_finalize;
}

static GtkWidget *
leaf_button (HwPagePreview *preview, const char *icon, const char *label, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect (button, "clicked", clicked, preview);
  return button;
}

static void
hw_page_preview_init (HwPagePreview *preview)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (preview), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (preview), 12);
  preview->paper = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (preview->paper), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The page as it will be printed"), -1);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (preview->paper), draw_cb, preview, NULL);
  gtk_widget_set_size_request (preview->paper, 340, 400);
  gtk_widget_set_vexpand (preview->paper, TRUE);
  gtk_widget_set_hexpand (preview->paper, TRUE);

  preview->back = leaf_button (preview, "hw-back-symbolic", _ ("Page before"), G_CALLBACK (back_cb));
  preview->on = leaf_button (preview, "hw-on-symbolic", _ ("Next page"), G_CALLBACK (on_cb));
  preview->count = gtk_label_new (NULL);
  gtk_widget_set_halign (row, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), preview->back);
  gtk_box_append (GTK_BOX (row), preview->count);
  gtk_box_append (GTK_BOX (row), preview->on);
  gtk_box_append (GTK_BOX (preview), preview->paper);
  gtk_box_append (GTK_BOX (preview), row);
}

GtkWidget *
hw_page_preview_new (void)
{
  return g_object_new (HW_TYPE_PAGE_PREVIEW, NULL);
}

void
hw_page_preview_take_job (HwPagePreview *preview, HwPrintJob *job)
{
  g_return_if_fail (HW_IS_PAGE_PREVIEW (preview));

  g_clear_pointer (&preview->job, release_job);
  if (job != NULL)
    {
      preview->job = g_atomic_rc_box_new (HwPrintJob *);
      *preview->job = job;
    }
  preview->picture_job = NULL;
  update (preview);
}

gboolean
hw_page_preview_has_job (HwPagePreview *preview)
{
  g_return_val_if_fail (HW_IS_PAGE_PREVIEW (preview), FALSE);
  return preview->job != NULL;
}
