/* The window in which a photo of the cloth is put square. The scene changes only when it is taken over, in one step. */
#include "photo-square-dialog.h"

#include <glib/gi18n.h>

#include "photo-square-private.h"

static void
square_free (gpointer data)
{
  HwPhotoSquare *square = data;

  hw_photo_desk_clear (&square->desk);
  hw_photo_unref (square->photo);
  g_clear_pointer (&square->ticks, g_ptr_array_unref);
  g_clear_pointer (&square->seen, g_array_unref);
  g_clear_pointer (&square->seen_in, g_ptr_array_unref);
  g_free (square);
}

void
hw_photo_square_apply (HwPhotoSquare *square)
{
  HwSquaring *squaring = square->desk.squaring;
  g_autofree HwPhotoPoint *points = hw_squaring_points (squaring);

  hw_bench_square_photo (square->desk.bench, square->index, points, squaring->points->len, squaring->bow);
}

static void
take_cb (GtkButton *button, HwPhotoSquare *square)
{
  if (!square->desk.squaring->good)
    return;
  hw_photo_square_apply (square);
  gtk_window_close (square->desk.window);
}

static void
opened (HwPhotoDesk *desk)
{
  HwPhotoSquare *square = (HwPhotoSquare *)desk;
  const HwEdgeLine *edge = hw_scene_get_edge_line (hw_bench_get_scene (desk->bench));
  const HwFabric *fabric = hw_scene_get_fabric (hw_bench_get_scene (desk->bench));

  hw_squaring_take (desk->squaring, square->photo, desk->places);
  desk->untouched = desk->squaring->points->len == 0;
  if (desk->untouched)
    hw_squaring_begin (desk->squaring, desk->places);
  hw_photo_desk_lay_out (desk, (HwBox){ 0, 0, fabric->width, fabric->height },
                         edge != NULL ? edge->outline : NULL);
  hw_photo_desk_append (desk, hw_photo_desk_make_rows (desk));
  hw_photo_desk_append (desk, hw_photo_desk_make_sheet (desk));
  hw_photo_desk_append (desk, hw_photo_desk_make_lens (desk));
  hw_photo_desk_append (desk, hw_photo_square_make_marks (square));
}

static void
solved (HwPhotoDesk *desk)
{
  hw_photo_square_update_marks ((HwPhotoSquare *)desk);
}

void
hw_photo_square_dialog_show (GtkWindow *parent, HwBench *bench, guint index)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  GPtrArray *photos = hw_scene_get_photos (hw_bench_get_scene (bench));
  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autofree char *title = NULL;
  HwPhotoSquare *square;

  if (index >= photos->len)
    return;
  square = g_new0 (HwPhotoSquare, 1);
  square->desk = (HwPhotoDesk){ .opened = opened, .solved = solved, .free_whole = square_free };
  square->index = index;
  square->photo = hw_photo_ref (g_ptr_array_index (photos, index));
  title = g_strdup_printf (_ ("Put square: %s"), square->photo->name);
  hw_photo_desk_init (&square->desk, parent, bench, hw_known_places (snapshot, hw_bench_get_plan (bench)),
                      title,
                      _ ("Drag each handle to its place: the wheel brings the photo nearer, with Shift a "
                         "handle goes slowly, and arrow keys move it by a pixel."),
                      _ ("Put square"));
  g_signal_connect (square->desk.take, "clicked", G_CALLBACK (take_cb), square);
  hw_photo_desk_open (&square->desk, square->photo, hw_bench_get_folder (bench));
}
