/* One page of a print job, small, with buttons to leaf through the others. */
#include "page-preview.h"

#include <glib/gi18n.h>

struct _HwPagePreview
{
  GtkBox parent_instance;

  HwPrintJob *job;
  guint page;
  GtkWidget *paper;
  GtkWidget *count;
  GtkWidget *back;
  GtkWidget *on;
};

G_DEFINE_FINAL_TYPE (HwPagePreview, hw_page_preview, GTK_TYPE_BOX)

static void
draw_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwPagePreview *preview = user_data;
  double page_width, page_height;

  if (preview->job == NULL || preview->page >= hw_print_job_n_pages (preview->job))
    return;
  hw_print_job_page_size (preview->job, preview->page, &page_width, &page_height);
  double scale = MIN ((width - 8) / page_width, (height - 8) / page_height);
  cairo_translate (cr, (width - page_width * scale) / 2, (height - page_height * scale) / 2);
  cairo_rectangle (cr, 2, 3, page_width * scale, page_height * scale);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.18);
  cairo_fill (cr);
  cairo_scale (cr, scale, scale);
  cairo_rectangle (cr, 0, 0, page_width, page_height);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  hw_print_job_draw_page (preview->job, preview->page, cr);
}

static void
update (HwPagePreview *preview)
{
  guint n = preview->job != NULL ? hw_print_job_n_pages (preview->job) : 0;

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
hw_page_preview_finalize (GObject *object)
{
  g_clear_pointer (&HW_PAGE_PREVIEW (object)->job, hw_print_job_free);
  G_OBJECT_CLASS (hw_page_preview_parent_class)->finalize (object);
}

static void
hw_page_preview_class_init (HwPagePreviewClass *klass)
{
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

  preview->back = leaf_button (preview, "go-previous-symbolic", _ ("Page before"), G_CALLBACK (back_cb));
  preview->on = leaf_button (preview, "go-next-symbolic", _ ("Next page"), G_CALLBACK (on_cb));
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

  g_clear_pointer (&preview->job, hw_print_job_free);
  preview->job = job;
  update (preview);
}

const HwPrintJob *
hw_page_preview_get_job (HwPagePreview *preview)
{
  g_return_val_if_fail (HW_IS_PAGE_PREVIEW (preview), NULL);
  return preview->job;
}
