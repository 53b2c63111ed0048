/* The hoopings of the plan as numbered cards. Choosing one shows it alone on the table; choosing it again shows all. A plan comes many
 * times a second while a motif is dragged, so cards stay and only what they say is changed. */
#include "hooping-list.h"

#include <glib/gi18n.h>

#include "../planning/explain.h"
#include "../planning/parts-hoopings.h"
#include "dialog.h"
#include "bead.h"
#include "decision-menus.h"
#include "hooping-words.h"
#include "why-button.h"

#define BEAD_SIZE 34 /* px */
#define PAGE 100     /* cards at once: each costs half a millisecond whenever the pane is measured */

struct _HwHoopingList
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *none;
  GtkWidget *pager; /* seen where there are more hoopings than a page takes */
  GtkWidget *earlier;
  GtkWidget *later;
  GtkWidget *shown;
  guint first;      /* hooping of the first card */
  GPtrArray *cards; /* Card, owned */
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwHoopingList, hw_hooping_list, GTK_TYPE_BOX)

typedef struct
{
  HwHoopingList *list;
  guint hooping;
  GtkWidget *heading; /* of the part that begins with it */
  GtkWidget *button;
  GtkWidget *hoop;
  GtkWidget *motifs;
  GtkWidget *work;
  GtkWidget *hold;
  GtkWidget *room; /* beside the title, for the tools */
  char *words;     /* as last told to assistive technology */
} Card;

static void
toggled_cb (GtkToggleButton *button, Card *card)
{
  if (card->list->updating)
    return;
  hw_bench_choose_hooping (card->list->bench,
                           gtk_toggle_button_get_active (button) ? (int)card->hooping : -1);
}

static void
let_go_cb (GtkButton *button, Card *card)
{
  hw_bench_unpin (card->list->bench, card->hooping);
}

static char *
why_text (HwBench *bench, gpointer data)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  const Card *card = data;

  if (plan == NULL || card->hooping >= plan->n_hoopings)
    return NULL;
  return hw_explain_hooping (plan, card->hooping, hw_bench_get_unit (bench));
}

/* The menu speaks of the chosen hooping, so its card is chosen first. */
static void
make_menu_cb (GtkMenuButton *button, gpointer data)
{
  Card *card = data;

  hw_bench_choose_hooping (card->list->bench, (int)card->hooping);
  g_autoptr (GMenuModel) menu = hw_hooping_menu_new (card->list->bench);
  gtk_menu_button_set_menu_model (button, menu);
}

static GtkWidget *
card_tools (Card *card)
{
  GtkWidget *tools = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  g_autofree char *why = g_strdup_printf (_ ("Why hooping %u is here"), card->hooping + 1);
  g_autofree char *decide = g_strdup_printf (_ ("Decide about hooping %u"), card->hooping + 1);

  card->hold = gtk_button_new_from_icon_name ("hw-pin-symbolic");
  gtk_widget_add_css_class (card->hold, "flat");
  gtk_widget_set_tooltip_text (card->hold, _ ("Held by you. Press to let it go."));
  gtk_accessible_update_property (GTK_ACCESSIBLE (card->hold), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Let this hooping go"), -1);
  g_signal_connect (card->hold, "clicked", G_CALLBACK (let_go_cb), card);
  gtk_box_append (GTK_BOX (tools), card->hold);

  GtkWidget *why_button = hw_why_button_new (card->list->bench, _ ("Why here?"), why, why_text, NULL, card);
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (why_button), FALSE);
  gtk_box_append (GTK_BOX (tools), why_button);

  GtkWidget *menu = gtk_menu_button_new ();
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (menu), "hw-more-symbolic");
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (menu), FALSE);
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (menu), make_menu_cb, card, NULL);
  gtk_widget_set_tooltip_text (menu, decide);
  gtk_accessible_update_property (GTK_ACCESSIBLE (menu), GTK_ACCESSIBLE_PROPERTY_LABEL, decide, -1);
  gtk_box_append (GTK_BOX (tools), menu);

  gtk_widget_set_halign (tools, GTK_ALIGN_END);
  gtk_widget_set_valign (tools, GTK_ALIGN_START);
  gtk_widget_add_css_class (tools, "card-tools");
  return tools;
}

static GtkWidget *
line (GtkWidget *lines, const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  hw_wrap_words (label);
  gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (lines), label);
  return label;
}

#define TOOLS "hw-tools"

/* The tools lie over the card; beside the title is as much room as they are wide. A size group would learn of a tool that comes only after the title
 * was measured, and a title that then takes a second line would hang over the section below. */
static void
measure_room (GtkWidget *room,
              GtkOrientation orientation,
              int for_size,
              int *least,
              int *natural,
              int *over,
              int *under)
{
  *least = *natural = 0;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    gtk_widget_measure (g_object_get_data (G_OBJECT (room), TOOLS), orientation, -1, least, natural, NULL,
                        NULL);
}

static void
place_nothing (GtkWidget *room, int width, int height, int baseline)
{
}

static Card *
card_new (HwHoopingList *list, guint hooping)
{
  Card *card = g_new0 (Card, 1);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *bead = hw_bead_new (BEAD_SIZE);
  GtkWidget *outer = g_object_new (GTK_TYPE_OVERLAY, "accessible-role", GTK_ACCESSIBLE_ROLE_LIST_ITEM, NULL);

  card->list = list;
  card->hooping = hooping;
  card->heading = line (GTK_WIDGET (list), "dialog-heading");
  gtk_widget_set_visible (card->heading, FALSE);
  hw_bead_set_hooping (HW_BEAD (bead), (int)hooping);
  gtk_widget_set_valign (bead, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (row), bead);
  gtk_widget_set_hexpand (lines, TRUE);
  gtk_box_append (GTK_BOX (row), lines);
  GtkWidget *title = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_box_append (GTK_BOX (lines), title);
  card->hoop = line (title, "card-title");
  gtk_widget_set_hexpand (card->hoop, TRUE);
  gtk_label_set_lines (GTK_LABEL (card->hoop), 2);
  gtk_label_set_ellipsize (GTK_LABEL (card->hoop), PANGO_ELLIPSIZE_END);
  card->room = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  gtk_widget_set_layout_manager (card->room, gtk_custom_layout_new (NULL, measure_room, place_nothing));
  gtk_box_append (GTK_BOX (title), card->room);
  card->motifs = line (lines, "card-motifs");
  card->work = line (lines, "quiet");

  card->button = gtk_toggle_button_new ();
  gtk_button_set_child (GTK_BUTTON (card->button), row);
  gtk_widget_add_css_class (card->button, "card");
  g_signal_connect (card->button, "toggled", G_CALLBACK (toggled_cb), card);
  gtk_overlay_set_child (GTK_OVERLAY (outer), card->button);

  GtkWidget *tools = card_tools (card);
  gtk_overlay_add_overlay (GTK_OVERLAY (outer), tools);
  g_object_set_data (G_OBJECT (card->room), TOOLS, tools);
  gtk_box_append (GTK_BOX (list), outer);
  return card;
}

static void
card_free (gpointer data)
{
  Card *card = data;

  gtk_box_remove (GTK_BOX (card->list), card->heading);
  gtk_box_remove (GTK_BOX (card->list), gtk_widget_get_parent (card->button));
  g_free (card->words);
  g_free (card);
}

static void
set_label (GtkWidget *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_label (GTK_LABEL (label)), text) != 0)
    gtk_label_set_label (GTK_LABEL (label), text);
}

static void
card_show (Card *card, const HwPlan *plan, int chosen)
{
  g_autofree char *motifs = hw_hooping_motifs_text (plan, card->hooping);
  g_autofree char *work = hw_hooping_work_text (plan, card->hooping);
  const char *hoop = hw_hooping_hoop_name (plan, card->hooping);
  HwPlaceHold hold = plan->hoopings[card->hooping].hold;
  g_autofree char *title = hold == HW_PLACE_FROZEN ? g_strdup_printf (_ ("%s, stitched"), hoop)
                                                   : g_strdup_printf (_ ("Hoop %s"), hoop);
  /* Translators: "Hooping 3: Hoop 130 × 180. Wall, Quince. 4 thread changes · 38 min" */
  g_autofree char *words
      = g_strdup_printf (_ ("Hooping %u: %s. %s. %s"), card->hooping + 1, title, motifs, work);

  set_label (card->hoop, hold == HW_PLACE_FROZEN ? title : hoop);
  set_label (card->motifs, motifs);
  set_label (card->work, work);
  if (gtk_widget_get_visible (card->hold) != (hold == HW_PLACE_PINNED))
    {
      gtk_widget_set_visible (card->hold, hold == HW_PLACE_PINNED);
      gtk_widget_queue_resize (card->room);
    }
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (card->button), (int)card->hooping == chosen);
  if (g_strcmp0 (words, card->words) == 0)
    return;
  gtk_accessible_update_property (GTK_ACCESSIBLE (card->button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  g_free (card->words);
  card->words = g_steal_pointer (&words);
}

/* Names the part before its first hooping, and at the head of a page the part it begins in. */
static void
show_parts (HwHoopingList *list, const HwPlan *plan)
{
  g_autofree int *part_of = plan != NULL ? hw_plan_parts (plan) : NULL;

  for (guint i = 0; i < list->cards->len; i++)
    {
      const Card *card = g_ptr_array_index (list->cards, i);
      guint h = card->hooping;
      gboolean begins = part_of[h] >= 0 && (i == 0 || part_of[h] != part_of[h - 1]);

      if (begins)
        set_label (card->heading,
                   ((const HwPart *)g_ptr_array_index (plan->snapshot->parts, part_of[h]))->name);
      gtk_widget_set_visible (card->heading, begins);
    }
}

static void
show_pager (HwHoopingList *list, guint n)
{
  g_autofree char *shown
      = g_strdup_printf (_ ("%u to %u of %u"), list->first + 1, list->first + list->cards->len, n);

  gtk_widget_set_visible (list->pager, n > PAGE);
  gtk_label_set_label (GTK_LABEL (list->shown), shown);
  gtk_widget_set_sensitive (list->earlier, list->first > 0);
  gtk_widget_set_sensitive (list->later, list->first + PAGE < n);
}

/* Cards know their hooping from the start: another page is other cards. */
static void
turn_to (HwHoopingList *list, guint hooping)
{
  guint first = hooping / PAGE * PAGE;

  if (first == list->first)
    return;
  g_ptr_array_set_size (list->cards, 0);
  list->first = first;
}

static void
update (HwHoopingList *list)
{
  const HwPlan *plan = hw_bench_get_plan (list->bench);
  guint n = plan != NULL ? plan->n_hoopings : 0;
  int chosen = hw_bench_get_chosen_hooping (list->bench);

  list->updating = TRUE;
  if (list->first >= n)
    turn_to (list, n > 0 ? n - 1 : 0);
  guint shown = MIN (PAGE, n - list->first);
  g_ptr_array_set_size (list->cards, (int)MIN (list->cards->len, shown));
  while (list->cards->len < shown)
    g_ptr_array_add (list->cards, card_new (list, list->first + list->cards->len));
  for (guint i = 0; i < shown; i++)
    card_show (g_ptr_array_index (list->cards, i), plan, chosen);
  show_parts (list, plan);
  show_pager (list, n);
  gtk_widget_set_visible (list->none, n == 0);
  list->updating = FALSE;
}

static void
plan_changed_cb (HwBench *bench, HwHoopingList *list)
{
  update (list);
}

static void
chosen_cb (HwBench *bench, GParamSpec *pspec, HwHoopingList *list)
{
  int chosen = hw_bench_get_chosen_hooping (bench);

  if (chosen >= 0)
    turn_to (list, (guint)chosen);
  update (list);
}

static void
earlier_cb (GtkButton *button, HwHoopingList *list)
{
  turn_to (list, list->first - PAGE);
  update (list);
}

static void
later_cb (GtkButton *button, HwHoopingList *list)
{
  turn_to (list, list->first + PAGE);
  update (list);
}

static GtkWidget *
pager_button (HwHoopingList *list, const char *icon, const char *name, GCallback turned)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", turned, list);
  gtk_box_append (GTK_BOX (list->pager), button);
  return button;
}

static void
make_pager (HwHoopingList *list)
{
  list->pager = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  list->earlier = pager_button (list, "hw-back-symbolic", _ ("Earlier hoopings"), G_CALLBACK (earlier_cb));
  list->shown = gtk_label_new (NULL);
  gtk_widget_set_hexpand (list->shown, TRUE);
  gtk_box_append (GTK_BOX (list->pager), list->shown);
  list->later = pager_button (list, "hw-on-symbolic", _ ("Later hoopings"), G_CALLBACK (later_cb));
  gtk_box_append (GTK_BOX (list), list->pager);
}

static void
hw_hooping_list_dispose (GObject *object)
{
  HwHoopingList *list = HW_HOOPING_LIST (object);

  g_ptr_array_set_size (list->cards, 0);
  g_clear_object (&list->bench);
  G_OBJECT_CLASS (hw_hooping_list_parent_class)->dispose (object);
}

static void
hw_hooping_list_finalize (GObject *object)
{
  g_ptr_array_unref (HW_HOOPING_LIST (object)->cards);
  G_OBJECT_CLASS (hw_hooping_list_parent_class)->finalize (object);
}

static void
hw_hooping_list_class_init (HwHoopingListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_hooping_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_hooping_list_finalize;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_LIST);
}

static void
hw_hooping_list_init (HwHoopingList *list)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (list), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (list), 8);
  gtk_widget_add_css_class (GTK_WIDGET (list), "hooping-list");
  list->cards = g_ptr_array_new_with_free_func (card_free);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Hoopings"), -1);
  list->none = gtk_label_new (_ ("No hooping yet."));
  /* Wrapped like all that takes its place: GTK 4.8 may go on with the way of measuring it found when the list was empty. */
  hw_wrap_words (list->none);
  gtk_label_set_xalign (GTK_LABEL (list->none), 0);
  gtk_widget_add_css_class (list->none, "quiet");
  gtk_box_append (GTK_BOX (list), list->none);
  make_pager (list);
}

GtkWidget *
hw_hooping_list_new (HwBench *bench)
{
  HwHoopingList *list = g_object_new (HW_TYPE_HOOPING_LIST, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (list));
  list->bench = g_object_ref (bench);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), list, 0);
  g_signal_connect_object (bench, "notify::chosen-hooping", G_CALLBACK (chosen_cb), list, 0);
  update (list);
  return GTK_WIDGET (list);
}
