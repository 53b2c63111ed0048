/* The page lists what there is and says what was chosen; the window opens it. */
#include "start-page.h"

#include <glib/gi18n.h>

#include "picture-wall.h"
#include "recent-scenes.h"
#include "start-form.h"

#define MOST_RECENT 6
#define FORM_WIDTH 392 /* px */
#define FEW 2
#define LARGE_ROW 230 /* px: height of pictures when there are few */
#define ROW 168
#define DEMO_ROW 116 /* below the person's own scenes */
#define FINE 640     /* px of a picture's longer side, enough for a sharp screen */
#define FINER 1400   /* of the demos, which are shown large */
#define USUAL_ASPECT 1.3

static const struct
{
  const char *file, *name, *words;
  double aspect;
} demos[] = {
  { "walled-garden.hoopscene", N_ ("The Walled Garden"), N_ ("a wall hanging of eleven motifs"),
    700.0 / 540 },
  { "orchard-frieze.hoopscene", N_ ("The Orchard Frieze"), N_ ("a long banner of twenty-four motifs"),
    1500.0 / 320 },
};

struct _HwStartPage
{
  GtkBox parent_instance;

  GtkWidget *form;
  GtkWidget *back;
  GtkWidget *own_heading, *own, *demo_heading, *demo;
};

G_DEFINE_FINAL_TYPE (HwStartPage, hw_start_page, GTK_TYPE_BOX)

enum
{
  BEGIN,
  OPEN,
  LEAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
begin_cb (HwStartForm *form, HwStartPage *page)
{
  g_autoptr (HwSnapshot) scene = hw_start_form_take (form);

  g_signal_emit (page, signals[BEGIN], 0, scene);
}

static void
own_cb (HwSceneCard *card, HwStartPage *page)
{
  g_signal_emit (page, signals[OPEN], 0, hw_scene_card_get_path (card), FALSE);
}

static void
demo_cb (HwSceneCard *card, HwStartPage *page)
{
  g_signal_emit (page, signals[OPEN], 0, hw_scene_card_get_path (card), TRUE);
}

static void
back_cb (GtkButton *button, HwStartPage *page)
{
  g_signal_emit (page, signals[LEAVE], 0);
}

static gboolean
escape_cb (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  HwStartPage *page = user_data;

  if (!gtk_widget_get_visible (page->back))
    return FALSE;
  g_signal_emit (page, signals[LEAVE], 0);
  return TRUE;
}

/* When a scene was used last, as one says it. Returns: (transfer full) */
static char *
day_text (GDateTime *when)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autoptr (GDateTime) local = g_date_time_to_local (when);
  g_autoptr (GDateTime) yesterday = g_date_time_add_days (now, -1);

  if (g_date_time_get_year (local) == g_date_time_get_year (now)
      && g_date_time_get_day_of_year (local) == g_date_time_get_day_of_year (now))
    return g_strdup (_ ("today"));
  if (g_date_time_get_year (local) == g_date_time_get_year (yesterday)
      && g_date_time_get_day_of_year (local) == g_date_time_get_day_of_year (yesterday))
    return g_strdup (_ ("yesterday"));
  /* Translators: a day without its year, "25 November" */
  return g_date_time_format (local, _ ("%e %B"));
}

/* The file's name without its ending. Returns: (transfer full) */
static char *
shown_name (GtkRecentInfo *info)
{
  char *name = g_strdup (gtk_recent_info_get_display_name (info));
  char *ending = g_str_has_suffix (name, ".hoopscene") ? g_strrstr (name, ".hoopscene") : NULL;

  if (ending != NULL && ending != name)
    *ending = '\0';
  return name;
}

/* Returns: how many hang there */
static guint
hang_own (HwStartPage *page)
{
  GList *scenes = hw_recent_scenes (MOST_RECENT);
  guint n = 0;

  hw_picture_wall_clear (HW_PICTURE_WALL (page->own));
  for (GList *l = scenes; l != NULL; l = l->next)
    {
      g_autoptr (GFile) file = g_file_new_for_uri (gtk_recent_info_get_uri (l->data));
      g_autofree char *name = shown_name (l->data);
      g_autofree char *day = day_text (gtk_recent_info_get_modified (l->data));
      GtkWidget *card;

      if (g_file_peek_path (file) == NULL)
        continue;
      card = hw_scene_card_new (g_file_peek_path (file), name, day, USUAL_ASPECT, FINE);
      g_signal_connect (card, "clicked", G_CALLBACK (own_cb), page);
      hw_picture_wall_hang (HW_PICTURE_WALL (page->own), HW_SCENE_CARD (card));
      n++;
    }
  g_list_free_full (scenes, (GDestroyNotify)gtk_recent_info_unref);
  return n;
}

static void
hang_demos (HwStartPage *page)
{
  const char *data = g_getenv ("HOOPWRIGHT_DATA_DIR");

  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    {
      g_autofree char *path
          = g_build_filename (data != NULL ? data : HW_DATA_DIR, "demo", demos[i].file, NULL);
      GtkWidget *card;

      if (!g_file_test (path, G_FILE_TEST_IS_REGULAR))
        continue;
      card = hw_scene_card_new (path, _ (demos[i].name), _ (demos[i].words), demos[i].aspect, FINER);
      g_signal_connect (card, "clicked", G_CALLBACK (demo_cb), page);
      hw_picture_wall_hang (HW_PICTURE_WALL (page->demo), HW_SCENE_CARD (card));
    }
}

void
hw_start_page_refresh (HwStartPage *page, const char *back)
{
  g_return_if_fail (HW_IS_START_PAGE (page));

  guint n = hang_own (page);

  gtk_widget_set_visible (page->own_heading, n > 0);
  gtk_widget_set_visible (page->own, n > 0);
  hw_picture_wall_set_row (HW_PICTURE_WALL (page->own), n > FEW ? ROW : LARGE_ROW);
  hw_picture_wall_set_row (HW_PICTURE_WALL (page->demo), n > 0 ? DEMO_ROW : 0);
  gtk_label_set_label (GTK_LABEL (page->demo_heading),
                       n > 0 ? _ ("Or look around in a finished picture")
                             : _ ("Or look around in a finished picture first"));
  gtk_widget_set_visible (page->back, back != NULL);
  if (back != NULL)
    {
      g_autofree char *label = g_strdup_printf (_ ("Back to “%s”"), back);
      gtk_button_set_label (GTK_BUTTON (page->back), label);
    }
}

void
hw_start_page_focus (HwStartPage *page)
{
  g_return_if_fail (HW_IS_START_PAGE (page));
  hw_start_form_focus (HW_START_FORM (page->form));
}

static GtkWidget *
heading (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, "start-heading");
  return label;
}

static GtkWidget *
scrolled (GtkWidget *child)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), child);
  return scroller;
}

static GtkWidget *
make_pictures (HwStartPage *page)
{
  GtkWidget *pictures = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14), *scroller;

  page->own_heading = heading (_ ("Go on with"));
  page->own = hw_picture_wall_new (ROW);
  page->demo_heading = heading ("");
  page->demo = hw_picture_wall_new (0);
  gtk_widget_set_vexpand (page->demo, TRUE);
  gtk_box_append (GTK_BOX (pictures), page->own_heading);
  gtk_box_append (GTK_BOX (pictures), page->own);
  gtk_box_append (GTK_BOX (pictures), page->demo_heading);
  gtk_box_append (GTK_BOX (pictures), page->demo);
  gtk_widget_add_css_class (pictures, "start-pictures");
  scroller = scrolled (pictures);
  gtk_widget_set_vexpand (scroller, TRUE);
  return scroller;
}

/* What is neither new nor a picture. */
static GtkWidget *
make_foot (HwStartPage *page)
{
  GtkWidget *foot = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *open = gtk_button_new_with_label (_ ("Open a scene…"));
  GtkWidget *guide = gtk_button_new_with_label (_ ("Read the guide"));

  page->back = gtk_button_new ();
  g_signal_connect (page->back, "clicked", G_CALLBACK (back_cb), page);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (open), "win.open");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (guide), "win.help");
  gtk_box_append (GTK_BOX (foot), open);
  gtk_box_append (GTK_BOX (foot), guide);
  gtk_box_append (GTK_BOX (foot), page->back);
  gtk_widget_add_css_class (foot, "start-foot");
  return foot;
}

static void
hw_start_page_class_init (HwStartPageClass *klass)
{
  signals[BEGIN] = g_signal_new ("begin", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 1, G_TYPE_POINTER);
  signals[OPEN] = g_signal_new ("open", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 2, G_TYPE_STRING, G_TYPE_BOOLEAN);
  signals[LEAVE] = g_signal_new ("leave", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
hw_start_page_init (HwStartPage *page)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                          gtk_callback_action_new (escape_cb, page, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (page), keys);
  gtk_widget_add_css_class (GTK_WIDGET (page), "start-page");
}

GtkWidget *
hw_start_page_new (HwBench *bench)
{
  HwStartPage *page = g_object_new (HW_TYPE_START_PAGE, NULL);
  GtkWidget *right = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *left;

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (page));
  page->form = hw_start_form_new (bench);
  g_signal_connect (page->form, "begin", G_CALLBACK (begin_cb), page);
  left = scrolled (page->form);
  gtk_widget_set_size_request (left, FORM_WIDTH, -1);
  gtk_widget_add_css_class (left, "start-left");
  gtk_box_append (GTK_BOX (right), make_pictures (page));
  gtk_box_append (GTK_BOX (right), make_foot (page));
  gtk_widget_set_hexpand (right, TRUE);
  gtk_box_append (GTK_BOX (page), left);
  gtk_box_append (GTK_BOX (page), right);
  hang_demos (page);
  return GTK_WIDGET (page);
}
