/* Drawn marks read in a photo of the hooped cloth, or of the cloth with a sheet of paper beside them. Nothing is handed on before the person has seen where each mark was
 * found and approves. */
#include "photo-reader.h"

#include <glib/gi18n.h>
#include <math.h>

#include "help-place.h"
#include "photo-reader-private.h"

static void
reader_free (gpointer data)
{
  HwPhotoReader *reader = data;

  hw_photo_desk_clear (&reader->desk);
  hw_photo_unref (reader->photo);
  g_clear_pointer (&reader->hoop, hw_hoop_unref);
  g_clear_pointer (&reader->marks, g_ptr_array_unref);
  g_clear_pointer (&reader->readings, g_array_unref);
  g_clear_pointer (&reader->ticks, g_ptr_array_unref);
  g_clear_pointer (&reader->texts, g_ptr_array_unref);
  g_weak_ref_clear (&reader->owner);
  g_free (reader);
}

static void
take_cb (GtkButton *button, HwPhotoReader *reader)
{
  guint n;
  g_autofree HwReading *readings = hw_photo_readings_ticked (reader->readings, &n);
  g_autoptr (GObject) owner = g_weak_ref_get (&reader->owner);
  HwPhotoRead read = reader->read;

  gtk_window_close (reader->desk.window);
  if (owner != NULL && n > 0)
    read (readings, n, owner);
}

static void
spot_cb (HwPhotoView *view, guint spot, HwPhotoReader *reader)
{
  hw_photo_reader_put_mark (reader, spot);
}

static void
lay_out_hoop (HwPhotoReader *reader)
{
  const HwHoop *hoop = reader->hoop;
  double across = hoop->frame_width / 2, down = hoop->frame_height / 2;
  const HwBox frame = { -across, -down, across, down };
  g_autoptr (HwOutline) field = hw_outline_new_rectangle (hoop->field_width, hoop->field_height);
  HwPhotoDesk *desk = &reader->desk;

  hw_squaring_begin_at (desk->squaring, desk->places, 0, frame);
  hw_photo_desk_lay_out (desk, frame, field);
  hw_photo_desk_append (desk, hw_photo_desk_make_rows (desk));
  hw_photo_desk_append (desk, hw_photo_reader_make_marks (reader));
  hw_photo_desk_append (desk, hw_photo_desk_make_lens (desk));
}

/* The sheet tells the measure; two marks or more, roughly, which way the cloth lies. */
static void
lay_out_sheet (HwPhotoReader *reader)
{
  HwPhotoDesk *desk = &reader->desk;
  const HwFabric *fabric = hw_scene_get_fabric (hw_bench_get_scene (desk->bench));
  const HwEdgeLine *edge = hw_scene_get_edge_line (hw_bench_get_scene (desk->bench));
  gboolean fresh;

  hw_squaring_take (desk->squaring, reader->photo, desk->places);
  fresh = desk->squaring->points->len == 0;
  for (guint i = 0; fresh && i < MIN (reader->marks->len, 2); i++)
    {
      HwKnownPlace place = *(HwKnownPlace *)g_ptr_array_index (reader->marks, i);
      int known = hw_known_places_find (desk->places, place.mm);

      if (known >= 0)
        place = *(HwKnownPlace *)g_ptr_array_index (desk->places, (guint)known);
      hw_squaring_add (desk->squaring,
                       (HwPoint){ desk->squaring->width * (0.3 + 0.4 * i), desk->squaring->height / 2 },
                       &place);
    }
  desk->untouched = FALSE;
  hw_photo_desk_lay_out (desk, (HwBox){ 0, 0, fabric->width, fabric->height },
                         edge != NULL ? edge->outline : NULL);
  hw_photo_desk_append (desk, hw_photo_desk_make_sheet (desk));
  hw_photo_desk_append (desk, hw_photo_reader_make_marks (reader));
  hw_photo_desk_append (desk, hw_photo_desk_make_rows (desk));
  hw_photo_desk_append (desk, hw_photo_desk_make_lens (desk));
  hw_photo_desk_find_sheet (desk);
}

static void
opened (HwPhotoDesk *desk)
{
  HwPhotoReader *reader = (HwPhotoReader *)desk;

  if (reader->hoop != NULL)
    lay_out_hoop (reader);
  else
    lay_out_sheet (reader);
  g_signal_connect (desk->view, "spot-moved", G_CALLBACK (spot_cb), reader);
}

static void
solved (HwPhotoDesk *desk)
{
  hw_photo_reader_update_marks ((HwPhotoReader *)desk);
}

static HwPhotoReader *
reader_new (const HwPhoto *photo, const HwReading *marks, guint n, HwPhotoRead read, GObject *owner)
{
  HwPhotoReader *reader = g_new0 (HwPhotoReader, 1);

  reader->desk = (HwPhotoDesk){ .opened = opened, .solved = solved, .free_whole = reader_free };
  reader->photo = hw_photo_ref ((HwPhoto *)photo);
  reader->marks = hw_hooping_mark_places (marks, n);
  reader->readings = hw_photo_readings_new (marks, n);
  reader->read = read;
  g_weak_ref_init (&reader->owner, owner);
  return reader;
}

void
hw_photo_reader_show_hooped (GtkWindow *parent,
                             HwBench *bench,
                             const HwPhoto *photo,
                             const HwHoop *hoop,
                             const HwReading *marks,
                             guint n,
                             HwPhotoRead read,
                             GObject *owner)
{
  g_return_if_fail (HW_IS_BENCH (bench) && photo != NULL && hoop != NULL && read != NULL);

  HwPhotoReader *reader = reader_new (photo, marks, n, read, owner);
  HwPhotoDesk *desk = &reader->desk;
  g_autofree char *title = g_strdup_printf (_ ("Read the marks: %s"), photo->name);

  reader->hoop = hw_hoop_ref ((HwHoop *)hoop);
  hw_photo_desk_init (desk, parent, bench, hw_hoop_places (hoop), title,
                      _ ("Drag each handle to its point of the hoop, best to points that lie as high as the "
                         "cloth. Far is the side away from you at the machine. The wheel brings the photo "
                         "nearer; with Shift a handle goes slowly."),
                      _ ("Use these readings"));
  hw_help_mark (desk->window, "marks-in-photo");
  desk->across_label = _ ("Handle %u, right of the hoop’s centre");
  desk->down_label = _ ("Handle %u, towards you from the hoop’s centre");
  desk->across = _ ("Right");
  desk->down = _ ("Towards you");
  g_signal_connect (desk->take, "clicked", G_CALLBACK (take_cb), reader);
  hw_photo_desk_open (desk, photo, NULL);
}

void
hw_photo_reader_show_beside_sheet (GtkWindow *parent,
                                   HwBench *bench,
                                   const HwPhoto *photo,
                                   const char *folder,
                                   const HwReading *marks,
                                   guint n,
                                   HwPhotoRead read,
                                   GObject *owner)
{
  g_return_if_fail (HW_IS_BENCH (bench) && photo != NULL && read != NULL);

  HwPhotoReader *reader = reader_new (photo, marks, n, read, owner);
  HwPhotoDesk *desk = &reader->desk;
  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autofree char *title = g_strdup_printf (_ ("Measure between the marks: %s"), photo->name);

  hw_photo_desk_init (desk, parent, bench, hw_known_places (snapshot, hw_bench_get_plan (bench)), title,
                      _ ("The sheet of paper gives the measure: put its four handles on its corners, and a "
                         "handle each roughly on two marks. Then look for the marks. The wheel brings the "
                         "photo nearer; with Shift a handle goes slowly."),
                      _ ("Use these distances"));
  hw_help_mark (desk->window, "marks-in-photo");
  g_signal_connect (desk->take, "clicked", G_CALLBACK (take_cb), reader);
  hw_photo_desk_open (desk, photo, folder);
}
