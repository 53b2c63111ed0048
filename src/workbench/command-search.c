/* The search for commands: a field and below it what fits, best first. The field keeps the focus; arrow keys go through the list, Enter does what is chosen there, and
 * a click does too. What cannot be done now is shown too, pale, so that one sees that it exists. */
#include "command-search.h"

#include <glib/gi18n.h>
#include <stdlib.h>

#include "command-list.h"
#include "hooping-words.h"

#define WIDTH 580       /* px */
#define MOST_HEIGHT 430 /* px */
#define MOST_FOUND 40   /* rows */
#define NOT_NOW 1000    /* what cannot be done now comes last */

struct _HwCommandSearch
{
  GtkPopover parent_instance;

  HwWindow *window; /* not owned */
  GtkWidget *entry;
  GtkWidget *scroller;
  GtkWidget *list;
  GtkWidget *nothing;
  GArray *found; /* Found, as listed */
};

G_DEFINE_FINAL_TYPE (HwCommandSearch, hw_command_search, GTK_TYPE_POPOVER)

/* One line of the list: a command, a motif or a hooping. */
typedef struct
{
  const HwCommand *command; /* or NULL */
  char *motif;              /* id, or NULL */
  int hooping;              /* or -1 */
  gboolean enabled;
  int fit;
  guint place; /* among those that fit equally well */
} Found;

static void
found_clear (gpointer data)
{
  g_free (((Found *)data)->motif);
}

static GActionGroup *
group_of (HwCommandSearch *search, const char *action, const char **name)
{
  GActionGroup *window = G_ACTION_GROUP (search->window);
  GActionGroup *program = G_ACTION_GROUP (gtk_window_get_application (GTK_WINDOW (search->window)));

  *name = strchr (action, '.') + 1;
  return g_str_has_prefix (action, "win.") ? window : g_str_has_prefix (action, "app.") ? program : NULL;
}

/* *on: the command is a choice that holds now. FALSE: it cannot be done now. */
static gboolean
ask_state (HwCommandSearch *search, const HwCommand *command, gboolean *on)
{
  g_autofree char *detailed = NULL;
  g_autoptr (GVariant) target = NULL;
  g_autoptr (GVariant) state = NULL;
  gboolean enabled = FALSE;
  const char *name;
  GActionGroup *group;

  *on = FALSE;
  if (!g_action_parse_detailed_name (command->action, &detailed, &target, NULL))
    return FALSE;
  group = group_of (search, detailed, &name);
  if (group == NULL)
    return TRUE; /* the window's own */
  if (!g_action_group_query_action (group, name, &enabled, NULL, NULL, NULL, &state))
    return FALSE;
  if (state != NULL && target != NULL)
    *on = g_variant_equal (state, target);
  else if (state != NULL && g_variant_is_of_type (state, G_VARIANT_TYPE_BOOLEAN))
    *on = g_variant_get_boolean (state);
  return enabled;
}

static char *
name_of (HwCommandSearch *search, const Found *found)
{
  HwBench *bench = hw_window_get_bench (search->window);

  if (found->command != NULL)
    return g_strdup (_ (found->command->label));
  if (found->motif != NULL)
    {
      HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (bench), found->motif);
      return g_strdup (motif != NULL ? hw_scene_motif_get_record (motif)->name : "");
    }
  return g_strdup_printf (_ ("Hooping %d"), found->hooping + 1);
}

static char *
told_of (HwCommandSearch *search, const Found *found)
{
  const HwPlan *plan = hw_bench_get_plan (hw_window_get_bench (search->window));

  if (found->command != NULL)
    return g_strdup (_ (found->command->what));
  if (found->motif != NULL)
    return g_strdup (_ ("Selects the motif and shows it."));
  return plan != NULL && found->hooping < (int)plan->n_hoopings
             ? hw_hooping_motifs_text (plan, (guint)found->hooping)
             : g_strdup ("");
}

static const char *
kind_of (const Found *found)
{
  return found->command != NULL ? _ (found->command->group)
         : found->motif != NULL ? _ ("Motif")
                                : _ ("Hooping");
}

/* The first of its keys, as the desktop writes them. (transfer full) (nullable) */
static char *
keys_of (const Found *found)
{
  g_auto (GStrv) keys = NULL;
  GdkModifierType modifiers;
  guint key;

  if (found->command == NULL || found->command->keys == NULL)
    return NULL;
  keys = g_strsplit (found->command->keys, " ", 2);
  if (!gtk_accelerator_parse (keys[0], &key, &modifiers))
    return NULL;
  return gtk_accelerator_get_label (key, modifiers);
}

static void
find_commands (HwCommandSearch *search, const char *typed)
{
  guint n;
  const HwCommand *commands = hw_commands (&n);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *more = g_strconcat (_ (commands[i].group), " ", _ (commands[i].what), NULL);
      Found found = { .command = &commands[i], .hooping = -1, .place = i };
      gboolean on;

      found.fit = hw_command_fit (typed, _ (commands[i].label), more);
      if (found.fit < 0 || g_str_equal (commands[i].action, "win.find-command"))
        continue;
      found.enabled = ask_state (search, &commands[i], &on);
      if (!found.enabled)
        found.fit += NOT_NOW;
      g_array_append_val (search->found, found);
    }
}

/* Motifs and hoopings are found by what is typed only: all of them would be no help. */
static void
find_things (HwCommandSearch *search, const char *typed)
{
  HwBench *bench = hw_window_get_bench (search->window);
  const HwPlan *plan = hw_bench_get_plan (bench);
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (bench));

  for (guint i = 0; i < g_list_model_get_n_items (motifs); i++)
    {
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, i);
      const HwMotif *record = hw_scene_motif_get_record (motif);
      Found found = { .hooping = -1, .enabled = TRUE, .place = 1000 + i };

      found.fit = hw_command_fit (typed, record->name, _ ("Motif"));
      if (found.fit < 0)
        continue;
      found.motif = g_strdup (record->id);
      g_array_append_val (search->found, found);
    }
  for (guint i = 0; plan != NULL && i < plan->n_hoopings; i++)
    {
      Found found = { .hooping = (int)i, .enabled = TRUE, .place = 500 + i };
      g_autofree char *name = g_strdup_printf (_ ("Hooping %d"), (int)i + 1);

      found.fit = hw_command_fit (typed, name, NULL);
      if (found.fit >= 0)
        g_array_append_val (search->found, found);
    }
}

static int
compare_found (gconstpointer a, gconstpointer b)
{
  const Found *one = a, *other = b;

  if (one->fit != other->fit)
    return one->fit < other->fit ? -1 : 1;
  return one->place < other->place ? -1 : one->place > other->place;
}

static GtkWidget *
label_new (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

/* What a screen reader says of a line. (transfer full) */
static char *
spoken_words (HwCommandSearch *search, const Found *found)
{
  g_autofree char *name = name_of (search, found);
  g_autofree char *told = told_of (search, found);
  g_autofree char *keys = keys_of (found);
  GString *text = g_string_new (name);

  g_string_append_printf (text, ", %s", kind_of (found));
  if (keys != NULL)
    g_string_append_printf (text, ", %s", keys);
  if (!found->enabled)
    g_string_append_printf (text, ", %s", _ ("not possible now"));
  g_string_append_printf (text, ". %s", told);
  return g_string_free (text, FALSE);
}

static GtkWidget *
row_new (HwCommandSearch *search, const Found *found)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_autofree char *name = name_of (search, found);
  g_autofree char *told = told_of (search, found);
  g_autofree char *keys = keys_of (found);
  g_autofree char *spoken = spoken_words (search, found);
  GtkWidget *check = gtk_image_new_from_icon_name ("hw-done-symbolic");
  gboolean on = FALSE;

  if (found->command != NULL)
    ask_state (search, found->command, &on);
  gtk_widget_set_opacity (check, on ? 1 : 0);
  gtk_box_append (GTK_BOX (line), check);
  gtk_box_append (GTK_BOX (words), label_new (name, "command-name"));
  gtk_box_append (GTK_BOX (words), label_new (told, "caption"));
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (GTK_BOX (line),
                  label_new (found->enabled ? kind_of (found) : _ ("not possible now"), "caption"));
  if (keys != NULL)
    gtk_box_append (GTK_BOX (line), label_new (keys, "keycap"));
  for (GtkWidget *child = gtk_widget_get_first_child (line); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    gtk_widget_set_valign (child, GTK_ALIGN_CENTER);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), line);
  gtk_widget_set_sensitive (line, found->enabled);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  return row;
}

static int
chosen (HwCommandSearch *search)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (search->list));

  return row != NULL ? gtk_list_box_row_get_index (row) : -1;
}

static void
scroll_to (HwCommandSearch *search, GtkWidget *row)
{
  GtkAdjustment *along = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (search->scroller));
  graphene_rect_t box;

  if (gtk_widget_compute_bounds (row, search->list, &box))
    gtk_adjustment_clamp_page (along, box.origin.y, box.origin.y + box.size.height);
}

/* The field tells what is chosen, for it keeps the focus. */
static void
choose (HwCommandSearch *search, int index)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (search->list), index);
  g_autofree char *words = NULL;

  gtk_list_box_select_row (GTK_LIST_BOX (search->list), row);
  if (row == NULL)
    words = g_strdup (_ ("Nothing is called so."));
  else
    {
      g_autofree char *spoken = spoken_words (search, &g_array_index (search->found, Found, index));

      /* Translators: the place in a list and what stands there: "2 of 9: Mirror, Motifs, Ctrl+M" */
      words = g_strdup_printf (_ ("%d of %d: %s"), index + 1, (int)search->found->len, spoken);
      scroll_to (search, GTK_WIDGET (row));
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (search->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words,
                                  -1);
}

static void
refill (HwCommandSearch *search)
{
  const char *typed = gtk_editable_get_text (GTK_EDITABLE (search->entry));
  gboolean empty = typed[strspn (typed, " ")] == '\0';
  GtkWidget *row;

  while ((row = gtk_widget_get_first_child (search->list)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (search->list), row);
  g_array_set_size (search->found, 0);
  find_commands (search, typed);
  if (!empty)
    find_things (search, typed);
  g_array_sort (search->found, compare_found);
  if (!empty && search->found->len > MOST_FOUND)
    g_array_set_size (search->found, MOST_FOUND);
  for (guint i = 0; i < search->found->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (search->list),
                         row_new (search, &g_array_index (search->found, Found, i)));
  gtk_widget_set_visible (search->nothing, search->found->len == 0);
  choose (search, 0);
}

/* What was chosen is done when the search has closed and the focus is back in the window. */
typedef struct
{
  HwWindow *window;
  Found what;
} Order;

static void
order_free (gpointer data)
{
  Order *order = data;

  g_object_unref (order->window);
  found_clear (&order->what);
  g_free (order);
}

static void
show_motif (HwWindow *window, const char *id)
{
  HwBench *bench = hw_window_get_bench (window);
  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (bench), id);
  HwBox box;

  if (motif == NULL)
    return;
  box = hw_scene_motif_get_placed (motif)->box;
  hw_bench_select_only (bench, id);
  hw_canvas_show (hw_window_get_canvas (window), (HwPoint){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 });
}

static gboolean
do_cb (gpointer user_data)
{
  Order *order = user_data;
  HwWindow *window = order->window;
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;

  if (gtk_widget_get_mapped (GTK_WIDGET (hw_window_get_canvas (window))))
    gtk_widget_grab_focus (GTK_WIDGET (hw_window_get_canvas (window)));
  if (order->what.motif != NULL)
    show_motif (window, order->what.motif);
  else if (order->what.command == NULL)
    hw_bench_choose_hooping (hw_window_get_bench (window), order->what.hooping);
  else if (g_action_parse_detailed_name (order->what.command->action, &name, &target, NULL))
    gtk_widget_activate_action_variant (GTK_WIDGET (window), name, target);
  return G_SOURCE_REMOVE;
}

static void
do_chosen (HwCommandSearch *search)
{
  int index = chosen (search);
  Order *order;

  if (index < 0 || !g_array_index (search->found, Found, index).enabled)
    return;
  order = g_new0 (Order, 1);
  order->window = g_object_ref (search->window);
  order->what = g_array_index (search->found, Found, index);
  order->what.motif = g_strdup (order->what.motif);
  gtk_popover_popdown (GTK_POPOVER (search));
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, do_cb, order, order_free);
}

static void
changed_cb (GtkEditable *entry, HwCommandSearch *search)
{
  refill (search);
}

static void
activate_cb (GtkEntry *entry, HwCommandSearch *search)
{
  do_chosen (search);
}

static void
row_activated_cb (GtkListBox *list, GtkListBoxRow *row, HwCommandSearch *search)
{
  choose (search, gtk_list_box_row_get_index (row));
  do_chosen (search);
}

static void
stop_cb (GtkSearchEntry *entry, HwCommandSearch *search)
{
  gtk_popover_popdown (GTK_POPOVER (search));
}

static gboolean
key_cb (GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType state, HwCommandSearch *search)
{
  int n = (int)search->found->len, index = chosen (search), page = 6;

  switch (keyval)
    {
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      index++;
      break;
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      index--;
      break;
    case GDK_KEY_Page_Down:
      index += page;
      break;
    case GDK_KEY_Page_Up:
      index -= page;
      break;
    default:
      return GDK_EVENT_PROPAGATE;
    }
  if (n > 0)
    choose (search, CLAMP (index, 0, n - 1));
  return GDK_EVENT_STOP;
}

static void
hw_command_search_show (GtkWidget *widget)
{
  HwCommandSearch *search = HW_COMMAND_SEARCH (widget);

  gtk_editable_set_text (GTK_EDITABLE (search->entry), "");
  refill (search);
  GTK_WIDGET_CLASS (hw_command_search_parent_class)->show (widget);
  gtk_widget_grab_focus (search->entry);
}

static void
hw_command_search_finalize (GObject *object)
{
  g_array_unref (HW_COMMAND_SEARCH (object)->found);
  G_OBJECT_CLASS (hw_command_search_parent_class)->finalize (object);
}

static void
hw_command_search_class_init (HwCommandSearchClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_command_search_finalize;
  GTK_WIDGET_CLASS (klass)->show = hw_command_search_show;
}

static void
hw_command_search_init (HwCommandSearch *search)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkEventController *keys = gtk_event_controller_key_new ();

  search->found = g_array_new (FALSE, TRUE, sizeof (Found));
  g_array_set_clear_func (search->found, found_clear);
  search->entry = gtk_search_entry_new ();
  g_object_set (search->entry, "placeholder-text", _ ("A few letters of a command, motif or hooping"), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (search->entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Command, motif or hooping"), -1);
  g_signal_connect (search->entry, "changed", G_CALLBACK (changed_cb), search);
  g_signal_connect (search->entry, "activate", G_CALLBACK (activate_cb), search);
  g_signal_connect (search->entry, "stop-search", G_CALLBACK (stop_cb), search);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), search);
  gtk_widget_add_controller (search->entry, keys);

  search->list = gtk_list_box_new ();
  gtk_widget_add_css_class (search->list, "plain-list");
  gtk_widget_add_css_class (search->list, "commands");
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (search->list), GTK_SELECTION_BROWSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (search->list), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("What was found"), -1);
  g_signal_connect (search->list, "row-activated", G_CALLBACK (row_activated_cb), search);
  search->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (search->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (search->scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (search->scroller), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (search->scroller), search->list);
  search->nothing = label_new (_ ("Nothing is called so."), "quiet");
  gtk_widget_set_margin_start (search->nothing, 12);

  gtk_box_append (GTK_BOX (content), search->entry);
  gtk_box_append (GTK_BOX (content), search->nothing);
  gtk_box_append (GTK_BOX (content), search->scroller);
  gtk_widget_set_size_request (content, WIDTH, -1);
  gtk_popover_set_child (GTK_POPOVER (search), content);
}

GtkWidget *
hw_command_search_new (HwWindow *window)
{
  HwCommandSearch *search = g_object_new (HW_TYPE_COMMAND_SEARCH, NULL);

  g_return_val_if_fail (HW_IS_WINDOW (window), GTK_WIDGET (search));
  search->window = window;
  return GTK_WIDGET (search);
}
