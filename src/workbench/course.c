/* The course: a string of beads, one per hooping. Standing on a bead shows the cloth as it will be when that hooping begins. The hollow
 * bead at its start is the whole picture as it is composed, the one at its end the finished piece. */
#include "course.h"

#include <glib/gi18n.h>
#include <math.h>

#include "bead.h"
#include "hooping-words.h"

#define BEAD_SIZE 34    /* px */
#define SLIDE_FROM 10.0 /* px */

struct _HwCourse
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *scroller;
  GtkWidget *string;
  GtkWidget *caption;
  GtkWidget *tally; /* what is stitched by then, what still lies as paper */
  GPtrArray *beads; /* GtkToggleButton: the whole picture, each hooping, the finished piece; not owned */
  gboolean updating;
  gboolean sliding;
};

G_DEFINE_FINAL_TYPE (HwCourse, hw_course, GTK_TYPE_BOX)

/* The stage a bead stands for. */
static int
stage_of (HwCourse *course, guint bead)
{
  return (int)bead - 1;
}

static char *
words_of (HwCourse *course, const HwPlan *plan, int stage)
{
  if (stage < 0)
    return g_strdup (_ ("The whole picture, as you compose it"));
  if (plan == NULL || stage >= (int)plan->n_hoopings)
    return g_strdup (_ ("The finished picture"));

  g_autofree char *motifs = hw_hooping_motifs_text (plan, (guint)stage);
  g_autofree char *work = hw_hooping_work_text (plan, (guint)stage);
  /* Translators: "Hooping 3 in the hoop 130 × 180: Wall, Quince · 4 thread changes · 38 min" */
  return g_strdup_printf (_ ("Hooping %d in the hoop %s: %s · %s"), stage + 1,
                          hw_hooping_hoop_name (plan, (guint)stage), motifs, work);
}

/* How far the picture has come at a stage; NULL for the whole picture. (transfer full) */
static char *
tally_of (const HwPlan *plan, int stage)
{
  guint stitched = 0, next = 0, later = 0;

  if (plan == NULL || stage < 0)
    return NULL;
  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      guint n = plan->hoopings[i].n_motifs;

      *((int)i < stage ? &stitched : (int)i == stage ? &next : &later) += n;
    }
  later += plan->snapshot->motifs->len - stitched - next - later; /* those that no hooping takes */
  /* Translators: counts of motifs, at one stage of the work */
  return g_strdup_printf (_ ("Stitched by then: %u · now: %u · still paper templates: %u"), stitched, next,
                          later);
}

static void
bead_toggled_cb (GtkToggleButton *button, HwCourse *course)
{
  guint bead;

  if (course->updating || !g_ptr_array_find (course->beads, button, &bead))
    return;
  /* A second press on the same bead leads back to the whole picture. */
  hw_bench_set_stage (course->bench, gtk_toggle_button_get_active (button) ? stage_of (course, bead) : -1);
}

static void
add_bead (HwCourse *course, int hooping)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *disc = hw_bead_new (BEAD_SIZE);

  if (course->beads->len > 0)
    {
      GtkWidget *thread = gtk_separator_new (GTK_ORIENTATION_HORIZONTAL);

      gtk_widget_add_css_class (thread, "thread");
      gtk_widget_set_valign (thread, GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (course->string), thread);
    }
  hw_bead_set_hooping (HW_BEAD (disc), hooping);
  gtk_button_set_child (GTK_BUTTON (button), disc);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "course-bead");
  g_signal_connect (button, "toggled", G_CALLBACK (bead_toggled_cb), course);
  gtk_box_append (GTK_BOX (course->string), button);
  g_ptr_array_add (course->beads, button);
}

static void
string_beads (HwCourse *course, guint n_hoopings)
{
  if (course->beads->len == n_hoopings + 2)
    return;

  g_ptr_array_set_size (course->beads, 0);
  for (GtkWidget *child = gtk_widget_get_first_child (course->string); child != NULL;)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (child);
      gtk_box_remove (GTK_BOX (course->string), child);
      child = next;
    }
  add_bead (course, -1);
  for (guint i = 0; i < n_hoopings; i++)
    add_bead (course, (int)i);
  add_bead (course, -1);
}

static void
update (HwCourse *course)
{
  const HwPlan *plan = hw_bench_get_plan (course->bench);
  int stage = hw_bench_get_stage (course->bench);

  course->updating = TRUE;
  string_beads (course, plan != NULL ? plan->n_hoopings : 0);
  for (guint i = 0; i < course->beads->len; i++)
    {
      GtkWidget *button = g_ptr_array_index (course->beads, i);
      g_autofree char *words = words_of (course, plan, stage_of (course, i));

      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), stage_of (course, i) == stage);
      if (g_strcmp0 (gtk_widget_get_tooltip_text (button), words) == 0)
        continue;
      gtk_widget_set_tooltip_text (button, words);
      gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
    }
  course->updating = FALSE;

  g_autofree char *caption = words_of (course, plan, stage);
  gtk_label_set_label (GTK_LABEL (course->caption), caption);
  g_autofree char *tally = tally_of (plan, stage);
  gtk_label_set_label (GTK_LABEL (course->tally), tally != NULL ? tally : "");
  gtk_widget_set_visible (course->tally, tally != NULL);
}

static void
plan_changed_cb (HwBench *bench, HwCourse *course)
{
  update (course);
}

static void
stage_cb (HwBench *bench, GParamSpec *pspec, HwCourse *course)
{
  update (course);
}

/* Arrow keys walk along the string; Home and End go to its ends. */
static gboolean
key_cb (GtkEventControllerKey *keys, guint keyval, guint keycode, GdkModifierType state, HwCourse *course)
{
  const HwPlan *plan = hw_bench_get_plan (course->bench);
  int n = plan != NULL ? (int)plan->n_hoopings : 0;
  int stage = hw_bench_get_stage (course->bench);

  switch (keyval)
    {
    case GDK_KEY_Left:
      stage--;
      break;
    case GDK_KEY_Right:
      stage++;
      break;
    case GDK_KEY_Home:
      stage = -1;
      break;
    case GDK_KEY_End:
      stage = n;
      break;
    default:
      return GDK_EVENT_PROPAGATE;
    }
  hw_bench_set_stage (course->bench, CLAMP (stage, -1, n));
  guint bead = (guint)(hw_bench_get_stage (course->bench) + 1);
  if (bead < course->beads->len)
    gtk_widget_grab_focus (g_ptr_array_index (course->beads, bead));
  return GDK_EVENT_STOP;
}

static void
go_to (HwCourse *course, guint bead)
{
  if (stage_of (course, bead) != hw_bench_get_stage (course->bench))
    hw_bench_set_stage (course->bench, stage_of (course, bead));
  /* The bead that has the focus is read aloud, with what it stands for. */
  gtk_widget_grab_focus (g_ptr_array_index (course->beads, bead));
}

static guint
nearest_bead (HwCourse *course, double x)
{
  double least = G_MAXDOUBLE;
  guint nearest = 0;

  for (guint i = 0; i < course->beads->len; i++)
    {
      graphene_rect_t box;
      double away;

      if (!gtk_widget_compute_bounds (g_ptr_array_index (course->beads, i), course->string, &box))
        continue;
      away = fabs (box.origin.x + box.size.width / 2 - x);
      if (away < least)
        {
          least = away;
          nearest = i;
        }
    }
  return nearest;
}

/* A bead that is pressed and pulled along the string slides; a click stays a click. */
static void
slide_cb (GtkGestureDrag *drag, double dx, double dy, HwCourse *course)
{
  double x, y;

  if (!gtk_gesture_drag_get_start_point (drag, &x, &y))
    return;
  if (!course->sliding && fabs (dx) < SLIDE_FROM)
    return;
  if (!course->sliding)
    {
      course->sliding = TRUE;
      gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
    }
  go_to (course, nearest_bead (course, x + dx));
}

static void
slid_cb (GtkGestureDrag *drag, double dx, double dy, HwCourse *course)
{
  course->sliding = FALSE;
}

static void
hw_course_dispose (GObject *object)
{
  g_clear_object (&HW_COURSE (object)->bench);
  G_OBJECT_CLASS (hw_course_parent_class)->dispose (object);
}

static void
hw_course_finalize (GObject *object)
{
  g_ptr_array_unref (HW_COURSE (object)->beads);
  G_OBJECT_CLASS (hw_course_parent_class)->finalize (object);
}

static void
hw_course_class_init (HwCourseClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_course_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_course_finalize;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hw_course_init (HwCourse *course)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkGesture *slide = gtk_gesture_drag_new ();
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  course->beads = g_ptr_array_new ();
  gtk_widget_add_css_class (GTK_WIDGET (course), "course");
  gtk_box_set_spacing (GTK_BOX (course), 20);
  gtk_accessible_update_property (GTK_ACCESSIBLE (course), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The course: one bead for each hooping"), -1);

  course->string = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  course->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (course->scroller), GTK_POLICY_AUTOMATIC,
                                  GTK_POLICY_NEVER);
  gtk_scrolled_window_set_propagate_natural_width (GTK_SCROLLED_WINDOW (course->scroller), TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (course->scroller), course->string);
  gtk_box_append (GTK_BOX (course), course->scroller);

  course->caption = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (course->caption), 0);
  gtk_label_set_ellipsize (GTK_LABEL (course->caption), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (course->caption, TRUE);
  gtk_widget_add_css_class (course->caption, "caption-line");
  course->tally = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (course->tally), 0);
  gtk_label_set_ellipsize (GTK_LABEL (course->tally), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (course->tally, "quiet");
  gtk_box_append (GTK_BOX (words), course->caption);
  gtk_box_append (GTK_BOX (words), course->tally);
  gtk_widget_set_valign (words, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (course), words);

  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (slide), GTK_PHASE_CAPTURE);
  g_signal_connect (slide, "drag-update", G_CALLBACK (slide_cb), course);
  g_signal_connect (slide, "drag-end", G_CALLBACK (slid_cb), course);
  gtk_widget_add_controller (course->string, GTK_EVENT_CONTROLLER (slide));

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), course);
  gtk_widget_add_controller (course->string, keys);
}

GtkWidget *
hw_course_new (HwBench *bench)
{
  HwCourse *course = g_object_new (HW_TYPE_COURSE, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (course));
  course->bench = g_object_ref (bench);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), course, 0);
  g_signal_connect_object (bench, "notify::stage", G_CALLBACK (stage_cb), course, 0);
  update (course);
  return GTK_WIDGET (course);
}
