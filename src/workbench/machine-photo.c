/* At the machine: the marks of the hooping read in a photo instead of at the needle. What the person approves of there stands in the fields like what is typed, and the
 * same is asked of it. */
#include <glib/gi18n.h>

#include "machine-private.h"
#include "photo-chooser.h"
#include "photo-file.h"
#include "photo-reader.h"

static gboolean
is_reading (HwMachineView *view)
{
  return view->work != NULL && view->work->pin->work->step == HW_WORK_READ && view->work->pin->n_marks > 0;
}

/* Those of other marks stay as they are. */
static void
read_in_photo (const HwReading *readings, guint n, gpointer owner)
{
  HwMachineView *view = owner;

  if (view->bench == NULL || !is_reading (view))
    return;
  g_autoptr (HwWork) work = hw_work_copy (view->work->pin->work);
  for (guint i = 0; i < n; i++)
    hw_work_set_reading (work, &readings[i]);
  hw_bench_set_readings (view->bench, _ ("read the marks in a photo"), work->readings, work->n_readings);
  gtk_widget_grab_focus (view->next);
}

static void
chosen (GFile *file, gpointer owner)
{
  HwMachineView *view = owner;
  g_autoptr (HwPhoto) photo = hw_photo_of_file (file);
  g_autofree HwReading *marks = NULL;
  guint n;

  if (view->bench == NULL || !is_reading (view) || !gtk_widget_get_mapped (GTK_WIDGET (view)))
    return;
  if (photo == NULL)
    {
      hw_machine_view_tell_save (
          view, _ ("This place cannot be read directly. Copy the photo to this computer and open it there."));
      return;
    }
  marks = hw_machine_marks (view, &n);
  hw_photo_reader_show_hooped (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (view))), view->bench, photo,
                               hw_machine_work_hoop (view->work), marks, n, read_in_photo, G_OBJECT (view));
}

void
hw_machine_read_photo_cb (GtkButton *button, HwMachineView *view)
{
  if (view->readings != NULL)
    hw_readings_fields_commit (view->readings);
  hw_photo_choose (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (view))), _ ("Photo of the hooped cloth"),
                   hw_bench_get_folder (view->bench), chosen, G_OBJECT (view));
}
