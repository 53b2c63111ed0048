/* Drawn marks read in a photo, of the hooped cloth or beside a sheet of paper: each is told with where it was found and how surely, and only what the person approves of is used. */
#include <glib/gstdio.h>
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "drawn-cloth.h"
#include "window-fixture.h"
#include "workbench/draw-in-dialog.h"
#include "workbench/machine-private.h"
#include "workbench/machine-view.h"
#include "workbench/photo-reader-private.h"
#include "workbench/photo-view-private.h"

typedef struct
{
  Desk desk;
  char *folder, *path;
  HwPhotoReader *reader;
  HwReading *read; /* what was handed on */
  guint n_read;
} Fixture;

static const HwReading marks[] = {
  { "A", { -50, -60 }, { 0 }, FALSE, FALSE },
  { "B", { 50, -60 }, { 0 }, FALSE, FALSE },
  { "C", { 50, 60 }, { 0 }, FALSE, FALSE },
  { "D", { -50, 60 }, { 0 }, FALSE, FALSE },
};

/* The hooped cloth from above, 2.4 px to a mm. */
static const DrawnCloth bare = { .scale = 2.4, .origin = { 300, 324 }, .width = 600, .height = 648 };

static void
set_up (Fixture *f, gconstpointer data)
{
  desk_set_up (&f->desk, NULL);
  f->folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  f->path = g_build_filename (f->folder, "hooped.png", NULL);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  desk_tear_down (&f->desk, NULL);
  g_remove (f->path);
  g_rmdir (f->folder);
  g_free (f->path);
  g_free (f->folder);
  g_free (f->read);
}

static void
read_cb (const HwReading *readings, guint n, gpointer owner)
{
  Fixture *f = g_object_get_data (owner, "fixture");

  g_free (f->read);
  f->read = g_memdup2 (readings, n * sizeof *readings);
  f->n_read = n;
}

/* The photo is there, its handles put where their places are seen. */
static void
put_handles (Fixture *f, const DrawnCloth *cloth)
{
  HwPhotoDesk *desk = &f->reader->desk;

  room_until (desk->view != NULL);
  hands_settle ();
  for (guint i = 0; i < desk->squaring->points->len; i++)
    {
      HwHandlePoint *point = g_ptr_array_index (desk->squaring->points, i);

      point->px = drawn_px (cloth, point->mm);
    }
  g_signal_emit_by_name (desk->view, "moved", 0);
  hands_settle ();
}

static void
open_hooped (Fixture *f, const DrawnCloth *cloth, guint n)
{
  const HwPlan *plan = hw_bench_get_plan (f->desk.bench);
  g_autoptr (HwPhoto) photo = hw_photo_new ();

  drawn_save (cloth, f->path);
  photo->name = (g_free (photo->name), g_strdup ("Hooped"));
  photo->path = g_strdup (f->path);
  g_object_set_data (G_OBJECT (f->desk.parent), "fixture", f);
  hw_photo_reader_show_hooped (f->desk.parent, f->desk.bench, photo, hw_snapshot_hoop (plan->snapshot, 0),
                               marks, n, read_cb, G_OBJECT (f->desk.parent));
  f->desk.dialog = hands_window ("Read the marks: Hooped");
  f->reader = g_object_get_data (G_OBJECT (f->desk.dialog), "desk");
  put_handles (f, cloth);
}

static void
look (Fixture *f)
{
  hands_click (f->desk.dialog, "Look for the drawn marks");
  room_until (f->reader->looked && gtk_widget_is_sensitive (f->reader->look));
  hands_settle ();
}

static GtkWidget *
tick (Fixture *f, guint mark)
{
  return g_ptr_array_index (f->reader->ticks, mark);
}

static gboolean
ticked (Fixture *f, guint mark)
{
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (tick (f, mark)));
}

/* The line below a mark begins and ends so. */
static void
mark_says (Fixture *f, guint mark, const char *beginning, const char *part)
{
  const char *text = gtk_label_get_text (g_ptr_array_index (f->reader->texts, mark));

  if (!g_str_has_prefix (text, beginning) || strstr (text, part) == NULL)
    g_error ("mark %u says “%s”", mark, text);
}

/* Crosses where cloth that lies off has them. */
static DrawnCloth
lying_off (HwPoint by, guint n)
{
  DrawnCloth cloth = bare;

  for (guint i = 0; i < n; i++)
    cloth.crosses[cloth.n_crosses++] = (HwPoint){ marks[i].design.x + by.x, marks[i].design.y + by.y };
  return cloth;
}

/* Each is found where it was drawn, to a tenth of a millimetre, told in the words of the machine, and handed on when the person approves. */
static void
marks_are_found_where_they_were_drawn (Fixture *f, gconstpointer data)
{
  DrawnCloth cloth = lying_off ((HwPoint){ 2.5, -1.5 }, 4);

  open_hooped (f, &cloth, 4);
  g_assert_false (gtk_widget_get_visible (f->reader->list));
  g_assert_false (gtk_widget_is_sensitive (f->reader->desk.take));
  look (f);
  hands_says (f->desk.dialog,
              "Look at each in the photo; drag its square where it is wrong, and leave ticked");
  hands_says (f->desk.dialog, "Four handles cannot check each other");
  for (guint i = 0; i < 4; i++)
    {
      g_assert_true (ticked (f, i));
      mark_says (f, i, "Found: sure, ", "mm from its planned place");
    }
  g_assert_true (
      g_str_has_prefix (gtk_check_button_get_label (GTK_CHECK_BUTTON (tick (f, 0))), "Mark A: 47."));
  /* One that the person does not trust is left out. */
  gtk_check_button_set_active (GTK_CHECK_BUTTON (tick (f, 1)), FALSE);
  hands_settle ();
  g_assert_true (g_array_index (f->reader->desk.view->spots, HwPhotoSpot, 1).faint);
  hands_click (f->desk.dialog, "Use these readings");
  g_assert_null (hands_window ("Read the marks: Hooped"));
  g_assert_cmpuint (f->n_read, ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      guint which = i == 0 ? 0 : i + 1;
      HwPoint drawn = { marks[which].design.x + 2.5, marks[which].design.y - 1.5 };

      g_assert_cmpstr (f->read[i].letter, ==, marks[which].letter);
      g_assert_true (f->read[i].by_photo);
      g_assert_cmpfloat (hw_point_distance (f->read[i].at, drawn), <, 0.15);
    }
}

/* What was not found is put by hand, and then it counts; with one mark alone there is something to hand on already. */
static void
one_that_was_not_found_is_put_by_hand (Fixture *f, gconstpointer data)
{
  DrawnCloth cloth = lying_off ((HwPoint){ 1, 1 }, 1);
  HwPoint *spot;

  open_hooped (f, &cloth, 2);
  look (f);
  g_assert_true (ticked (f, 0));
  g_assert_false (ticked (f, 1));
  g_assert_false (gtk_widget_is_sensitive (tick (f, 1)));
  mark_says (f, 1, "Not found. Drag its square", "");
  g_assert_cmpstr (gtk_check_button_get_label (GTK_CHECK_BUTTON (tick (f, 1))), ==, "Mark B");
  g_assert_true (gtk_widget_is_sensitive (f->reader->desk.take));
  spot = hw_photo_view_place (f->reader->desk.view, f->reader->desk.squaring->points->len + 1);
  *spot = drawn_px (&cloth, (HwPoint){ 51, -59 });
  g_signal_emit_by_name (f->reader->desk.view, "spot-moved", 1);
  hands_settle ();
  mark_says (f, 1, "Put by hand; ", "told to about");
  g_assert_true (ticked (f, 1));
  g_assert_cmpint (f->reader->desk.view->chosen, ==, (int)f->reader->desk.squaring->points->len + 1);
  /* Looking again leaves what was put by hand. */
  look (f);
  mark_says (f, 1, "Put by hand; ", "");
  hands_click (f->desk.dialog, "Use these readings");
  g_assert_cmpuint (f->n_read, ==, 2);
  g_assert_cmpfloat (hw_point_distance (f->read[1].at, (HwPoint){ 51, -59 }), <, 0.2);
}

/* A cross that cannot be the mark, for cloth does not stretch so far, is told and not used unless the person insists. */
static void
one_that_stands_apart_is_not_ticked (Fixture *f, gconstpointer data)
{
  DrawnCloth cloth = lying_off ((HwPoint){ 1, 0 }, 4);

  cloth.crosses[2].x += 6;
  cloth.crosses[2].y += 5;
  open_hooped (f, &cloth, 4);
  look (f);
  hands_says (f->desk.dialog, "Mark C does not agree with the others and is not ticked.");
  mark_says (f, 2, "Does not agree with the others; ", "planned place");
  g_assert_false (ticked (f, 2));
  g_assert_true (ticked (f, 0) && ticked (f, 1) && ticked (f, 3));
}

static void
on_bare_cloth_none_is_found (Fixture *f, gconstpointer data)
{
  open_hooped (f, &bare, 3);
  look (f);
  hands_says (f->desk.dialog, "None was found near where it should be.");
  hands_says (f->desk.dialog, "Four handles cannot check each other: each is taken to be off by");
  g_assert_false (gtk_widget_is_sensitive (f->reader->desk.take));
  g_assert_cmpuint (hw_photo_readings_count (f->reader->readings), ==, 0);
  hands_click (f->desk.dialog, "Cancel");
  g_assert_cmpuint (f->n_read, ==, 0);
}

/* Five handles check each other; one that is wrong is told instead of what the photo is worth. */
static void
more_handles_check_each_other (Fixture *f, gconstpointer data)
{
  DrawnCloth cloth = lying_off ((HwPoint){ 0, 0 }, 4);
  HwPhotoDesk *desk;

  open_hooped (f, &cloth, 4);
  desk = &f->reader->desk;
  look (f);
  for (guint i = 0; i < 3; i++)
    hands_click (f->desk.dialog, "One more handle");
  put_handles (f, &cloth);
  hands_says (f->desk.dialog, "The handles are likely off by");
  HwHandlePoint *wrong = g_ptr_array_index (desk->squaring->points, 1);
  wrong->px.x += 36;
  g_signal_emit_by_name (desk->view, "moved", 1);
  hands_settle ();
  g_assert_cmpint (desk->squaring->bad, ==, 1);
  g_assert_true (gtk_widget_has_css_class (desk->told, "error"));
  put_handles (f, &cloth);
  g_assert_false (gtk_widget_has_css_class (desk->told, "error"));
}

/* The lens: its bow is pulled, told from the points when there are six, and a straight line of the cloth checks it. */
static void
the_bow_of_the_lens_is_checked_by_a_line (Fixture *f, gconstpointer data)
{
  HwPhotoDesk *desk;
  GtkWidget *fit, *bow;

  open_hooped (f, &bare, 2);
  desk = &f->reader->desk;
  fit = hands_find (f->desk.dialog, GTK_TYPE_BUTTON, "Fit it from the points");
  bow = hands_find (f->desk.dialog, GTK_TYPE_SCALE, "Bow of the lens");
  g_assert_false (gtk_widget_is_sensitive (fit));
  gtk_toggle_button_set_active (
      GTK_TOGGLE_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_TOGGLE_BUTTON, "Check a straight line")), TRUE);
  hands_settle ();
  hands_says (f->desk.dialog, "Click three points or more along a line");
  for (guint i = 0; i < 3; i++)
    {
      HwPoint px = { 120 + 180.0 * i, 96 };

      g_array_append_val (desk->view->line, px);
    }
  g_signal_emit_by_name (desk->view, "line-changed");
  hands_says (f->desk.dialog, "Put square, the line is straight to within 0.0 mm.");
  gtk_range_set_value (GTK_RANGE (bow), 0.1);
  hands_settle ();
  g_assert_cmpfloat (desk->squaring->bow, ==, 0.1);
  g_autofree char *straight = desk_sentence (&f->desk, "Put square, the line is straight to within 0.0 mm.");
  g_assert_null (straight);
  while (desk->squaring->points->len < 6)
    hands_click (f->desk.dialog, "One more handle");
  put_handles (f, &bare);
  g_assert_true (gtk_widget_is_sensitive (fit));
  hands_click (f->desk.dialog, "Fit it from the points");
  hands_says (f->desk.dialog, "Bow of the lens from the points: ");
  g_assert_cmpfloat (fabs (desk->squaring->bow), <, 0.01);
  g_assert_cmpfloat (gtk_range_get_value (GTK_RANGE (bow)), ==, desk->squaring->bow);
}

/* What is no photo is told in its place, and there is nothing to use. */
static void
a_photo_that_cannot_be_opened_says_why (Fixture *f, gconstpointer data)
{
  const HwPlan *plan = hw_bench_get_plan (f->desk.bench);
  g_autoptr (HwPhoto) photo = hw_photo_new ();

  g_assert_true (g_file_set_contents (f->path, "no picture", -1, NULL));
  photo->name = (g_free (photo->name), g_strdup ("Hooped"));
  photo->path = g_strdup (f->path);
  hw_photo_reader_show_hooped (f->desk.parent, f->desk.bench, photo, hw_snapshot_hoop (plan->snapshot, 0),
                               marks, 2, read_cb, G_OBJECT (f->desk.parent));
  f->desk.dialog = hands_window ("Read the marks: Hooped");
  f->reader = g_object_get_data (G_OBJECT (f->desk.dialog), "desk");
  room_until (!g_str_has_prefix (gtk_label_get_text (GTK_LABEL (f->reader->desk.opening)), "The photo is"));
  hands_says (f->desk.dialog, "Hooped");
  g_assert_null (f->reader->desk.picture);
  g_assert_false (gtk_widget_is_sensitive (f->reader->desk.take));
}

/* At the machine what was read in the photo stands in the fields, and where it came from stands beside it. */
static void
at_the_machine_the_photo_fills_the_fields (Fixture *f, gconstpointer data)
{
  DrawnCloth cloth = bare;
  HwMachineView *view;
  const HwWork *work;

  g_assert_true (hw_bench_begin_hooping (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  hw_bench_go_to_step (f->desk.bench, HW_WORK_READ);
  view = HW_MACHINE_VIEW (hw_machine_view_new (f->desk.bench));
  gtk_widget_set_size_request (GTK_WIDGET (view), 1180, 740);
  gtk_window_set_child (f->desk.parent, GTK_WIDGET (view));
  hands_settle ();
  g_autoptr (HwMachineWork) now = hw_machine_work_new (f->desk.bench);
  for (guint i = 0; i < now->pin->n_marks; i++)
    {
      HwPoint design = hw_machine_work_mark (now, i);

      cloth.crosses[cloth.n_crosses++] = (HwPoint){ design.x + 1, design.y - 1 };
    }
  drawn_save (&cloth, f->path);
  hands_key (GTK_WIDGET (view), GDK_KEY_p, 0);
  room_pick (NULL);
  g_assert_null (hands_window ("Read the marks: Hooped"));
  hands_key (GTK_WIDGET (view), GDK_KEY_p, 0);
  room_pick (f->path);
  f->desk.dialog = hands_window ("Read the marks: Hooped");
  g_assert_nonnull (f->desk.dialog);
  f->reader = g_object_get_data (G_OBJECT (f->desk.dialog), "desk");
  put_handles (f, &cloth);
  look (f);
  hands_click (f->desk.dialog, "Use these readings");
  work = hw_bench_get_begun (f->desk.bench)->work;
  g_assert_cmpuint (work->n_readings, ==, cloth.n_crosses);
  for (guint i = 0; i < work->n_readings; i++)
    {
      g_assert_true (work->readings[i].by_photo);
      g_assert_cmpfloat (hw_point_distance (work->readings[i].at, cloth.crosses[i]), <, 0.2);
    }
  f->desk.dialog = f->desk.parent;
  desk_says (&f->desk, "photo");
}

/* Beside a sheet of paper, which does not draw in, the photo measures between the marks. */
static void
beside_a_sheet_the_photo_measures_the_cloth (Fixture *f, gconstpointer data)
{
  DrawnCloth cloth = { .scale = 2, .origin = { 120, 60 }, .width = 1200, .height = 760 };
  const HwPin *pin;
  GtkWindow *measuring;
  double planned;

  g_assert_true (hw_bench_mark_stitched (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (f->desk.bench)), 0);
  g_assert_cmpuint (pin->n_marks, ==, 2);
  planned = hw_point_distance (pin->marks[0].at, pin->marks[1].at);
  /* Two per cent drawn in, about the first mark; the sheet lies to the right. */
  for (guint i = 0; i < 2; i++)
    cloth.crosses[cloth.n_crosses++]
        = (HwPoint){ pin->marks[0].at.x + 0.98 * (pin->marks[i].at.x - pin->marks[0].at.x),
                     pin->marks[0].at.y + 0.98 * (pin->marks[i].at.y - pin->marks[0].at.y) };
  cloth.sheet = (HwPoint){ MAX (pin->marks[0].at.x, pin->marks[1].at.x) + 20, 10 };
  cloth.sheet_wide = 210;
  cloth.sheet_high = 297;
  drawn_save (&cloth, f->path);
  desk_open (&f->desk, hw_draw_in_dialog_show, "Measure the cloth");
  measuring = f->desk.dialog;
  GtkWidget *from = room_first (measuring, GTK_TYPE_MENU_BUTTON);
  hands_click (gtk_menu_button_get_popover (GTK_MENU_BUTTON (from)), "Another photo…");
  room_pick (f->path);
  f->desk.dialog = hands_window ("Measure between the marks: Hooped");
  g_assert_nonnull (f->desk.dialog);
  f->reader = g_object_get_data (G_OBJECT (f->desk.dialog), "desk");
  room_until (f->reader->desk.view != NULL && gtk_widget_is_sensitive (f->reader->desk.find_sheet));
  hands_settle ();
  hands_says (f->desk.dialog, "Look whether the four handles lie on the corners of the sheet");
  /* The two others are put roughly on their marks. */
  for (guint i = 0, k = 0; i < f->reader->desk.squaring->points->len; i++)
    {
      HwHandlePoint *point = g_ptr_array_index (f->reader->desk.squaring->points, i);

      if (point->kind != HW_KNOWN_SHEET && k < 2)
        point->px = drawn_px (&cloth, cloth.crosses[k++]);
    }
  g_signal_emit_by_name (f->reader->desk.view, "moved", 0);
  hands_settle ();
  g_assert_false (gtk_widget_is_sensitive (f->reader->desk.sheet_place)); /* the others tell where it lies */
  look (f);
  hands_says (f->desk.dialog, "The sheet’s four handles cannot check each other");
  g_assert_true (gtk_widget_is_sensitive (f->reader->desk.take));
  hands_click (f->desk.dialog, "Use these distances");
  f->desk.dialog = measuring;
  hands_says (f->desk.dialog, "Drawn in 2.");
  g_autofree char *name = g_strdup_printf ("From %s to %s", pin->marks[0].letter, pin->marks[1].letter);
  GtkWidget *entry = hands_find (measuring, GTK_TYPE_ENTRY, name);
  double measured = g_ascii_strtod (gtk_editable_get_text (GTK_EDITABLE (entry)), NULL);
  g_assert_cmpfloat_with_epsilon (measured, 0.98 * planned, 0.3);
}

#define ADD(test) g_test_add ("/photo-reader/" #test, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
  ADD (marks_are_found_where_they_were_drawn);
  ADD (one_that_was_not_found_is_put_by_hand);
  ADD (one_that_stands_apart_is_not_ticked);
  ADD (on_bare_cloth_none_is_found);
  ADD (more_handles_check_each_other);
  ADD (the_bow_of_the_lens_is_checked_by_a_line);
  ADD (a_photo_that_cannot_be_opened_says_why);
  ADD (at_the_machine_the_photo_fills_the_fields);
  ADD (beside_a_sheet_the_photo_measures_the_cloth);
  return g_test_run ();
}
