/* The side pane, in sections that fold. What is selected comes first, then what is looked at all day: the hoopings, the stitch order, what to look at
 * and what would help. What is set up once lies below. The pane scrolls as a whole, and what is being read stays where it is when the facts above
 * it come, change or go. */
#include "side-pane.h"

#include <glib/gi18n.h>

#include "advice-list.h"
#include "help-place.h"
#include "hooping-list.h"
#include "library-pane.h"
#include "motif-pane.h"
#include "parts-list.h"
#include "photo-section.h"
#include "problem-list.h"
#include "scene-pane.h"
#include "section.h"
#include "settings.h"
#include "stitch-order-list.h"
#include "wishes-fields.h"

struct _HwSidePane
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *scroller;
  GtkWidget *sections;
  GtkWidget *facts; /* of what is selected; hidden when nothing is */
  GtkWidget *order;
  GtkWidget *wishes;
  GtkWidget *hoopings;
  HwAdviser *adviser;
  GtkWidget *advice;
  GtkWidget *problems;
  GtkWidget *problem_list;
  GtkWidget *parts;
  GtkWidget *kept;          /* the section that was asked for last */
  guint keeping;            /* what keeps it in view, or 0 */
  graphene_rect_t kept_lay; /* where it lay in the last frame */
  guint still;              /* frames in a row that it lay there, in view */
};

G_DEFINE_FINAL_TYPE (HwSidePane, hw_side_pane, GTK_TYPE_BOX)

enum
{
  SHOW_PLACE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
update_facts (HwSidePane *pane)
{
  guint n = hw_bench_get_n_selected (pane->bench);

  gtk_widget_set_visible (pane->facts, n > 0);
  if (n > 1)
    {
      g_autofree char *heading = g_strdup_printf (ngettext ("%u motif", "%u motifs", n), n);
      hw_section_set_heading (HW_SECTION (pane->facts), heading);
    }
  else
    hw_section_set_heading (HW_SECTION (pane->facts), _ ("Motif"));
}

/* Whether the person is at work in one of the sections below the facts. */
static gboolean
is_below_facts (HwSidePane *pane)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (pane));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, pane->sections)
         && !gtk_widget_is_ancestor (focus, pane->facts);
}

/* The height of the facts as they are now: 0 when nothing is selected. */
static int
facts_height (HwSidePane *pane)
{
  int height = 0;

  if (gtk_widget_get_visible (pane->facts))
    gtk_widget_measure (pane->facts, GTK_ORIENTATION_VERTICAL, gtk_widget_get_width (pane->sections), NULL,
                        &height, NULL, NULL);
  return height;
}

static void
stop_keeping (HwSidePane *pane)
{
  if (pane->keeping != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (pane), pane->keeping);
  pane->keeping = 0;
}

/* What is being read below the facts stays where it is, although they have another height now. */
static void
selection_cb (HwBench *bench, HwSidePane *pane)
{
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (pane->scroller));
  double value = gtk_adjustment_get_value (adjustment);
  int before = gtk_widget_get_visible (pane->facts) ? gtk_widget_get_height (pane->facts) : 0;
  gboolean follows = is_below_facts (pane) || (value > 0 && value >= before);

  update_facts (pane);
  if (!follows || !gtk_widget_get_mapped (GTK_WIDGET (pane)))
    return;
  stop_keeping (pane); /* the person has gone on from the section that unfolds */
  int grown = facts_height (pane) - before;
  gtk_adjustment_set_upper (adjustment, gtk_adjustment_get_upper (adjustment) + grown);
  gtk_adjustment_set_value (adjustment, value + grown);
}

/* The section stays where it is even when there is nothing to say, so that nothing jumps while a motif is dragged. */
static void
plan_cb (HwBench *bench, HwSidePane *pane)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  guint n = plan != NULL ? plan->problems->len : 0;
  g_autofree char *heading
      = n > 0 ? g_strdup_printf (_ ("To look at: %u"), n) : g_strdup (_ ("To look at: nothing"));

  hw_section_set_heading (HW_SECTION (pane->problems), heading);
  hw_section_set_icon (HW_SECTION (pane->problems), n > 0 ? "hw-heed-symbolic" : "hw-glass-symbolic");
  if (n > 0)
    gtk_widget_add_css_class (pane->problems, "problems");
  else
    gtk_widget_remove_css_class (pane->problems, "problems");
}

static void
update_wishes (HwSidePane *pane)
{
  const HwWishes *wishes = hw_scene_get_wishes (hw_bench_get_scene (pane->bench));

  hw_section_set_heading (HW_SECTION (pane->wishes), wishes->best == HW_BEST_LEAST_TIME
                                                         ? _ ("Plan for: least time")
                                                         : _ ("Plan for: fewest hoopings"));
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwSidePane *pane)
{
  if (flags & HW_SCENE_CHANGE_MACHINE)
    update_wishes (pane);
}

static void
advice_cb (HwAdviser *adviser, HwSidePane *pane)
{
  GPtrArray *advice = hw_adviser_get_advice (adviser);
  g_autofree char *heading = advice != NULL && advice->len > 0
                                 ? g_strdup_printf (_ ("What would help: %u"), advice->len)
                                 : g_strdup (_ ("What would help"));

  hw_section_set_heading (HW_SECTION (pane->advice), heading);
}

static void
open_cb (HwSection *section, GParamSpec *pspec, const char *key)
{
  hw_settings_set_flag (key, hw_section_get_open (section));
}

static void
show_place_cb (HwProblemList *list, double x, double y, HwSidePane *pane)
{
  g_signal_emit (pane, signals[SHOW_PLACE], 0, x, y);
}

#define SETTLED                                                                                              \
  5 /* frames: one lays the section out, the next the lines that have another height at its width */

/* The section grows while it unfolds: it is kept in view until it has its height, its heading at the top if it is long. Frames are counted and not
 * time, for a busy machine may show none for as long as one likes. */
static gboolean
keep_in_view_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  HwSidePane *pane = HW_SIDE_PANE (widget);
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (pane->scroller));
  graphene_rect_t lies;

  if (!gtk_widget_compute_bounds (pane->kept, pane->sections, &lies))
    {
      pane->keeping = 0;
      return G_SOURCE_REMOVE;
    }
  double top = lies.origin.y, bottom = top + lies.size.height;
  double page = gtk_adjustment_get_page_size (adjustment), value = gtk_adjustment_get_value (adjustment);

  gtk_adjustment_set_value (adjustment, MIN (MAX (value, bottom - page), top));
  gboolean moved = ABS (gtk_adjustment_get_value (adjustment) - value) >= 1
                   || !graphene_rect_equal (&lies, &pane->kept_lay);
  pane->still = moved ? 0 : pane->still + 1;
  pane->kept_lay = lies;
  if (pane->still < SETTLED)
    return G_SOURCE_CONTINUE;
  pane->keeping = 0;
  return G_SOURCE_REMOVE;
}

static void
show_section (HwSidePane *pane, GtkWidget *section)
{
  hw_section_set_open (HW_SECTION (section), TRUE);
  pane->kept = section;
  pane->still = 0;
  if (pane->keeping == 0)
    pane->keeping = gtk_widget_add_tick_callback (GTK_WIDGET (pane), keep_in_view_cb, NULL, NULL);
}

void
hw_side_pane_show_problems (HwSidePane *pane)
{
  g_return_if_fail (HW_IS_SIDE_PANE (pane));

  show_section (pane, pane->problems);
  gtk_widget_child_focus (pane->problem_list, GTK_DIR_TAB_FORWARD);
}

void
hw_side_pane_show_parts (HwSidePane *pane)
{
  g_return_if_fail (HW_IS_SIDE_PANE (pane));

  show_section (pane, pane->parts);
  gtk_widget_child_focus (pane->parts, GTK_DIR_TAB_FORWARD);
}

/* The guide's page of a section, by the setting that remembers whether it is unfolded. */
static const char *
page_of (const char *key)
{
  static const char *const pages[][2]
      = { { "facts-open", "arranging" }, { "scene-open", "own-scene" },  { "order-open", "stitch-order" },
          { "motifs-open", "artwork" },  { "parts-open", "parts" },      { "photo-open", "photo" },
          { "wishes-open", "wishes" },   { "hoopings-open", "hoopings" } };

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    if (g_strcmp0 (pages[i][0], key) == 0)
      return pages[i][1];
  return NULL;
}

static GtkWidget *
add_section (HwSidePane *pane,
             const char *icon_name,
             const char *heading,
             GtkWidget *child,
             const char *key,
             gboolean open)
{
  GtkWidget *section = hw_section_new (heading, child);

  hw_section_set_icon (HW_SECTION (section), icon_name);
  hw_help_mark (section, page_of (key));
  if (key != NULL)
    {
      hw_section_set_open (HW_SECTION (section), hw_settings_get_flag (key, open));
      g_signal_connect (section, "notify::open", G_CALLBACK (open_cb), (gpointer)key);
    }
  gtk_box_append (GTK_BOX (pane->sections), section);
  return section;
}

static void
hw_side_pane_dispose (GObject *object)
{
  g_clear_object (&HW_SIDE_PANE (object)->adviser);
  g_clear_object (&HW_SIDE_PANE (object)->bench);
  G_OBJECT_CLASS (hw_side_pane_parent_class)->dispose (object);
}

static void
hw_side_pane_class_init (HwSidePaneClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_side_pane_dispose;
  signals[SHOW_PLACE] = g_signal_new ("show-place", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 2, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
}

static void
hw_side_pane_init (HwSidePane *pane)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (pane), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (pane), "side-pane");

  pane->scroller = gtk_scrolled_window_new ();
  pane->sections = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (pane->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (pane->scroller), pane->sections);
  gtk_widget_set_vexpand (pane->scroller, TRUE);
  gtk_box_append (GTK_BOX (pane), pane->scroller);
}

GtkWidget *
hw_side_pane_new (HwBench *bench)
{
  HwSidePane *pane = g_object_new (HW_TYPE_SIDE_PANE, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (pane));
  pane->bench = g_object_ref (bench);

  pane->facts
      = add_section (pane, "hw-motif-symbolic", _ ("Motif"), hw_motif_pane_new (bench), "facts-open", TRUE);
  pane->hoopings = add_section (pane, "hw-hoop-symbolic", _ ("Hoopings"), hw_hooping_list_new (bench),
                                "hoopings-open", TRUE);
  pane->order = add_section (pane, "hw-order-symbolic", _ ("Stitch order"), hw_stitch_order_list_new (bench),
                             "order-open", FALSE);
  pane->problem_list = hw_problem_list_new (bench);
  g_signal_connect (pane->problem_list, "show-place", G_CALLBACK (show_place_cb), pane);
  pane->problems = add_section (pane, NULL, _ ("To look at"), pane->problem_list, NULL, FALSE);
  hw_section_set_open (HW_SECTION (pane->problems), FALSE);
  pane->adviser = hw_adviser_new (bench);
  pane->advice = add_section (pane, "hw-thimble-symbolic", _ ("What would help"),
                              hw_advice_list_new (pane->adviser), NULL, FALSE);
  hw_section_set_open (HW_SECTION (pane->advice), FALSE);
  g_signal_connect_object (pane->adviser, "changed", G_CALLBACK (advice_cb), pane, 0);
  add_section (pane, "hw-basket-symbolic", _ ("My motifs"), hw_library_pane_new (), "motifs-open", FALSE);
  add_section (pane, "hw-cloth-symbolic", _ ("Scene"), hw_scene_pane_new (bench), "scene-open", TRUE);
  pane->wishes = add_section (pane, "hw-reel-symbolic", _ ("Plan for"), hw_wishes_fields_new (bench),
                              "wishes-open", FALSE);
  pane->parts
      = add_section (pane, "hw-parts-symbolic", _ ("Parts"), hw_parts_list_new (bench), "parts-open", FALSE);
  add_section (pane, "hw-photo-symbolic", _ ("Photo"), hw_photo_section_new (bench), "photo-open", FALSE);

  hw_help_mark (pane->advice, "why");
  hw_help_mark (pane->problems, "problems");

  g_signal_connect_object (bench, "selection-changed", G_CALLBACK (selection_cb), pane, 0);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_cb), pane, 0);
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), pane, 0);
  update_wishes (pane);
  update_facts (pane);
  plan_cb (bench, pane);
  return GTK_WIDGET (pane);
}
