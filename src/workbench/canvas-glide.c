/* A new plan comes quietly: hoopings glide to their new places within a fifth of a second, new ones fade in, old ones out. Nothing glides while something is in the
 * hand, on a stage, or when the desktop asks for less motion. Only kept nodes are moved: nothing is drawn anew. */

#include "canvas-private.h"
#include "plan-glide.h"

struct _HwCanvasGlide
{
  HwGlide *way;
  HwPlan *plan;       /* the new one */
  HwView view;        /* that the nodes were drawn for */
  GPtrArray *leaving; /* GskRenderNode */
  gint64 began;       /* us of the frame clock; 0: not yet */
  double part;
  guint tick;
};

void
hw_canvas_stop_glide (HwCanvas *canvas)
{
  HwCanvasGlide *glide = g_steal_pointer (&canvas->glide);

  if (glide == NULL)
    return;
  if (glide->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (canvas), glide->tick);
  hw_glide_free (glide->way);
  hw_plan_unref (glide->plan);
  g_ptr_array_unref (glide->leaving);
  g_free (glide);
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_HOOPINGS));
}

static gboolean
tick_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  HwCanvas *canvas = HW_CANVAS (widget);
  HwCanvasGlide *glide = canvas->glide;
  gint64 now = gdk_frame_clock_get_frame_time (clock);

  if (glide->began == 0)
    glide->began = now;
  glide->part = hw_glide_part ((double)(now - glide->began) / 1000);
  if (glide->part < 1 && canvas->drag.pull == HW_PULL_NONE)
    {
      hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_HOOPINGS));
      return G_SOURCE_CONTINUE;
    }
  glide->tick = 0;
  hw_canvas_stop_glide (canvas);
  return G_SOURCE_REMOVE;
}

static gboolean
motion_is_wanted (HwCanvas *canvas)
{
  gboolean wanted = FALSE;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (canvas)), "gtk-enable-animations", &wanted, NULL);
  return wanted && canvas->show_hoopings && canvas->drag.pull == HW_PULL_NONE
         && !hw_bench_is_editing (canvas->bench) && hw_bench_get_stage (canvas->bench) < 0
         && gtk_widget_get_mapped (GTK_WIDGET (canvas));
}

void
hw_canvas_begin_glide (HwCanvas *canvas, const HwPlan *before, HwPlan *after)
{
  g_autoptr (HwGlide) way = NULL;
  HwCanvasGlide *glide;

  hw_canvas_stop_glide (canvas);
  if (before == NULL || after == NULL || !motion_is_wanted (canvas))
    return;
  way = hw_glide_new (before, after);
  if (way == NULL || !way->anything)
    return;
  glide = g_new0 (HwCanvasGlide, 1);
  glide->leaving = g_ptr_array_new_with_free_func ((GDestroyNotify)gsk_render_node_unref);
  for (guint i = 0; i < way->n_before; i++)
    if (way->leaves[i])
      hw_canvas_take_footprint (canvas, i, glide->leaving);
  glide->way = g_steal_pointer (&way);
  glide->plan = hw_plan_ref (after);
  glide->view = canvas->view;
  glide->tick = gtk_widget_add_tick_callback (GTK_WIDGET (canvas), tick_cb, NULL, NULL);
  canvas->glide = glide;
}

static gboolean
is_gliding (HwCanvas *canvas, guint hooping)
{
  const HwCanvasGlide *glide = canvas->glide;

  return glide != NULL && hooping < glide->way->n && glide->plan == hw_bench_get_plan (canvas->bench);
}

static void
append_faded (GtkSnapshot *snapshot, GskRenderNode *node, double opacity)
{
  gtk_snapshot_push_opacity (snapshot, opacity);
  gtk_snapshot_append_node (snapshot, node);
  gtk_snapshot_pop (snapshot);
}

void
hw_canvas_append_footprint (HwCanvas *canvas, GtkSnapshot *snapshot, guint hooping, GskRenderNode *node)
{
  const HwHooping *now;
  HwPoint centre, from, to;
  double angle;

  if (!is_gliding (canvas, hooping))
    {
      gtk_snapshot_append_node (snapshot, node);
      return;
    }
  if (!canvas->glide->way->from[hooping].known)
    {
      append_faded (snapshot, node, canvas->glide->part);
      return;
    }
  now = &canvas->glide->plan->hoopings[hooping];
  hw_glide_pose (canvas->glide->way, canvas->glide->plan, hooping, canvas->glide->part, &centre, &angle);
  from = hw_view_to_pixels (&canvas->view, centre);
  to = hw_view_to_pixels (&canvas->view, now->centre);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)from.x, (float)from.y));
  gtk_snapshot_rotate (snapshot, (float)(angle - now->angle));
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)-to.x, (float)-to.y));
  gtk_snapshot_append_node (snapshot, node);
  gtk_snapshot_restore (snapshot);
}

void
hw_canvas_append_leaving (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  const HwCanvasGlide *glide = canvas->glide;

  if (glide == NULL || memcmp (&glide->view, &canvas->view, sizeof glide->view) != 0)
    return;
  for (guint i = 0; i < glide->leaving->len; i++)
    append_faded (snapshot, g_ptr_array_index (glide->leaving, i), 1 - glide->part);
}
