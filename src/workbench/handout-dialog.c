/* What leaves the program beside paper: needle lists for a converter, tables for a spreadsheet, a picture for a blog or a class. The person chooses
 * what, and one folder; nothing that is there is replaced without a question. */
#include "handout-dialog.h"

#include <glib/gi18n.h>

#include "busy-row.h"
#include "dialog.h"
#include "help-place.h"
#include "handout-work.h"
#include "hooping-words.h"
#include "measure-field.h"
#include "replace-question.h"
#include "settings.h"

#define TICK 100          /* ms between looks at how far writing is */
#define MOST_TOLD 4       /* troubles, one by one */
#define SCREEN_WIDTH 1600 /* pixels */
#define PRINT_DPI 200
#define LINE_OF_HOOPINGS 8
#define TALLEST_HOOPINGS 140 /* px */

typedef struct
{
  HwBench *bench;
  GtkWindow *dialog;
  GtkWidget *needles, *needle_kind, *hoopings; /* a check, its choice, and checks for the hoopings */
  GtkWidget *lists[HW_N_LISTS];
  GtkWidget *picture, *picture_kind, *footprints;
  GtkWidget *folder_button, *told, *save;
  HwBusyRow *busy;
  char *folder;
  GCancellable *writing;
  guint n_files, n_done;
  guint tick; /* source */
  gboolean closed;
} Handing;

static void
handing_free (gpointer data)
{
  Handing *handing = data;

  g_clear_object (&handing->writing);
  g_object_unref (handing->bench);
  g_free (handing->folder);
  g_free (handing);
}

static Handing *
handing_of (gpointer dialog)
{
  return g_object_get_data (G_OBJECT (dialog), "handing");
}

static gboolean
is_on (GtkWidget *check)
{
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (check));
}

/* --- What is chosen */

static GtkWidget *
hooping_check (Handing *handing, guint hooping)
{
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (handing->hoopings), (int)hooping);

  return child != NULL ? gtk_flow_box_child_get_child (child) : NULL;
}

static gboolean
any_chosen (Handing *handing)
{
  const HwPlan *plan = hw_bench_get_plan (handing->bench);
  gboolean any = is_on (handing->picture);

  for (guint kind = 0; kind < HW_N_LISTS; kind++)
    any = any || is_on (handing->lists[kind]);
  for (guint h = 0; plan != NULL && is_on (handing->needles) && h < plan->n_hoopings; h++)
    any = any || is_on (hooping_check (handing, h));
  return any;
}

static void
tell (Handing *handing, const char *sentences, gboolean is_trouble)
{
  gtk_label_set_label (GTK_LABEL (handing->told), sentences != NULL ? sentences : "");
  gtk_widget_set_visible (handing->told, sentences != NULL);
  if (is_trouble)
    gtk_widget_add_css_class (handing->told, "trouble");
  else
    gtk_widget_remove_css_class (handing->told, "trouble");
}

static void
follow_choice (Handing *handing)
{
  gtk_widget_set_sensitive (handing->needle_kind, is_on (handing->needles));
  gtk_widget_set_sensitive (handing->hoopings, is_on (handing->needles));
  gtk_widget_set_sensitive (handing->picture_kind, is_on (handing->picture));
  gtk_widget_set_sensitive (handing->footprints, is_on (handing->picture));
  gtk_widget_set_sensitive (handing->save, hw_bench_get_ready_plan (handing->bench, NULL) != NULL
                                               && handing->writing == NULL && any_chosen (handing));
}

static void
choice_cb (GObject *check, GParamSpec *pspec, Handing *handing)
{
  follow_choice (handing);
}

static void
show_folder (Handing *handing)
{
  g_autofree char *name = g_filename_display_basename (handing->folder);
  g_autofree char *path = g_filename_display_name (handing->folder);
  g_autofree char *words = g_strdup_printf (_ ("Folder: %s. Choose another"), name);

  gtk_label_set_label (GTK_LABEL (g_object_get_data (G_OBJECT (handing->folder_button), "name")), name);
  gtk_widget_set_tooltip_text (handing->folder_button, path);
  gtk_accessible_update_property (GTK_ACCESSIBLE (handing->folder_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words, -1);
}

/* A check for each hooping; what was chosen of those that stay is kept. */
static void
offer_hoopings (Handing *handing)
{
  const HwPlan *plan = hw_bench_get_plan (handing->bench);
  guint n = plan != NULL ? plan->n_hoopings : 0, have = 0;

  while (hooping_check (handing, have) != NULL)
    have++;
  for (; have > n; have--)
    gtk_flow_box_remove (GTK_FLOW_BOX (handing->hoopings), hooping_check (handing, have - 1));
  for (; have < n; have++)
    {
      g_autofree char *number = g_strdup_printf ("%u", have + 1);
      GtkWidget *check = gtk_check_button_new_with_label (number);

      gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
      g_signal_connect (check, "notify::active", G_CALLBACK (choice_cb), handing);
      gtk_flow_box_append (GTK_FLOW_BOX (handing->hoopings), check);
      gtk_widget_set_focusable (gtk_widget_get_parent (check), FALSE);
    }
  for (guint h = 0; h < n; h++)
    {
      g_autofree char *motifs = hw_hooping_motifs_text (plan, h);
      /* Translators: "Hooping 3: Pear, Plum" */
      g_autofree char *words = g_strdup_printf (_ ("Hooping %u: %s"), h + 1, motifs);

      gtk_widget_set_tooltip_text (hooping_check (handing, h), words);
      gtk_accessible_update_property (GTK_ACCESSIBLE (hooping_check (handing, h)),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
    }
}

static void
update (Handing *handing)
{
  const char *why;

  offer_hoopings (handing);
  hw_bench_get_ready_plan (handing->bench, &why);
  if (handing->writing == NULL)
    tell (handing, why, FALSE);
  follow_choice (handing);
}

static void
plan_changed_cb (HwBench *bench, GtkWindow *dialog)
{
  update (handing_of (dialog));
}

/* Returns: (transfer full) (nullable): NULL without a plan */
static HwHandout *
chosen_files (Handing *handing)
{
  const HwPlan *plan = hw_bench_get_ready_plan (handing->bench, NULL);
  guint needle_kind = gtk_drop_down_get_selected (GTK_DROP_DOWN (handing->needle_kind));
  guint picture_kind = gtk_drop_down_get_selected (GTK_DROP_DOWN (handing->picture_kind));
  HwPlanPictureOptions options = { .stage = -1, .plain = !is_on (handing->footprints) };
  HwHandout *handout;

  if (plan == NULL)
    return NULL;
  handout = hw_handout_new (plan, handing->folder);
  for (guint h = 0; is_on (handing->needles) && h < plan->n_hoopings; h++)
    if (is_on (hooping_check (handing, h)))
      hw_handout_add_needles (handout, h, needle_kind == 0 ? "csv" : "svg");
  for (guint kind = 0; kind < HW_N_LISTS; kind++)
    if (is_on (handing->lists[kind]))
      hw_handout_add_list (handout, (HwListKind)kind);
  options.width = picture_kind == 0 ? SCREEN_WIDTH : 0;
  options.dpi = PRINT_DPI;
  if (is_on (handing->picture))
    hw_handout_add_picture (handout, &options, picture_kind == 2 ? "svg" : "png");
  return handout;
}

/* --- Writing */

static gboolean
tick_cb (gpointer data)
{
  Handing *handing = data;

  hw_busy_row_set_done (handing->busy, (guint)g_atomic_int_get ((gint *)&handing->n_done), handing->n_files);
  return G_SOURCE_CONTINUE;
}

static char *
result_text (Handing *handing, const HwHandoutResult *result, gboolean stopped)
{
  g_autofree char *folder = g_filename_display_basename (handing->folder);
  GString *text = g_string_new (NULL);

  if (result->n_written > 0)
    g_string_append_printf (
        text, ngettext ("%u file was saved in “%s”.", "%u files were saved in “%s”.", result->n_written),
        result->n_written, folder);
  else
    g_string_append (text, _ ("Nothing was saved."));
  if (stopped)
    g_string_append_printf (text, " %s", _ ("It was stopped before the others."));
  hw_append_few (text, result->troubles, MOST_TOLD);
  return g_string_free (text, FALSE);
}

static void
written_cb (GObject *source, GAsyncResult *async, gpointer user_data)
{
  g_autoptr (GtkWindow) dialog = user_data;
  Handing *handing = handing_of (dialog);
  g_autoptr (HwHandoutResult) result = hw_handout_write_finish (async);
  gboolean stopped = g_cancellable_is_cancelled (handing->writing)
                     && result->n_written + result->troubles->len < handing->n_files;
  g_autofree char *text = result_text (handing, result, stopped);

  g_clear_handle_id (&handing->tick, g_source_remove);
  g_clear_object (&handing->writing);
  if (handing->closed)
    return;
  hw_busy_row_end (handing->busy);
  tell (handing, text, result->troubles->len > 0);
  follow_choice (handing);
}

static void
write_files (Handing *handing)
{
  HwHandout *handout = chosen_files (handing);

  if (handout == NULL || handing->writing != NULL)
    {
      g_clear_pointer (&handout, hw_handout_free);
      return;
    }
  handing->writing = g_cancellable_new ();
  handing->n_files = hw_handout_n_files (handout);
  tell (handing, NULL, FALSE);
  follow_choice (handing);
  hw_busy_row_begin (handing->busy, _ ("The files are written…"));
  handing->tick = g_timeout_add (TICK, tick_cb, handing);
  hw_handout_write_async (handout, &handing->n_done, handing->writing, written_cb,
                          g_object_ref (handing->dialog));
}

static void
replace (GtkWindow *dialog)
{
  write_files (handing_of (dialog));
}

static void
save_cb (GtkButton *button, Handing *handing)
{
  g_autoptr (HwHandout) handout = chosen_files (handing);
  g_autoptr (GPtrArray) there = handout != NULL ? hw_handout_there_already (handout) : NULL;

  if (handout == NULL)
    return;
  if (there->len > 0)
    hw_ask_to_replace (handing->dialog, handing->folder, there, replace);
  else
    write_files (handing);
}

/* --- The folder */

static void
folder_response_cb (GtkNativeDialog *chooser, int response, GtkWindow *dialog)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  Handing *handing = handing_of (dialog);

  gtk_native_dialog_hide (chooser);
  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    {
      g_free (handing->folder);
      handing->folder = g_steal_pointer (&path);
      show_folder (handing);
      tell (handing, NULL, FALSE);
    }
  g_object_unref (chooser);
}

static void
choose_folder_cb (GtkButton *button, Handing *handing)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (
      _ ("The folder to save in"), handing->dialog, GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, NULL, NULL);
  g_autoptr (GFile) folder = g_file_new_for_path (handing->folder);

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_chooser_set_file (GTK_FILE_CHOOSER (chooser), folder, NULL);
  g_signal_connect_object (chooser, "response", G_CALLBACK (folder_response_cb), handing->dialog, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* Beside the scene, or where the last one was. */
static char *
first_folder (HwBench *bench)
{
  g_autofree char *last = hw_settings_get_text (HW_SETTING_LAST_FOLDER);
  const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
  const char *path = hw_bench_get_path (bench);

  if (path != NULL)
    return g_path_get_dirname (path);
  if (*last != '\0' && g_file_test (last, G_FILE_TEST_IS_DIR))
    return g_steal_pointer (&last);
  return g_strdup (documents != NULL ? documents : g_get_home_dir ());
}

static void
stop_cb (Handing *handing)
{
  g_cancellable_cancel (handing->writing);
}

static void
closed_cb (GtkWidget *dialog, Handing *handing)
{
  handing->closed = TRUE;
  g_cancellable_cancel (handing->writing);
  g_clear_handle_id (&handing->tick, g_source_remove);
}

/* --- The dialog */

static GtkWidget *
add_check (Handing *handing, GtkWidget *box, const char *label, gboolean on)
{
  GtkWidget *check = gtk_check_button_new_with_label (label);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), on);
  g_signal_connect (check, "notify::active", G_CALLBACK (choice_cb), handing);
  gtk_box_append (GTK_BOX (box), check);
  return check;
}

/* A part of the dialog under its heading, with a sentence. Returns the box to fill. */
static GtkWidget *
add_part (GtkWidget *content, const char *heading, const char *sentence)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *title = hw_dialog_words (heading), *words = hw_dialog_words (sentence);

  gtk_widget_add_css_class (title, "card-title");
  gtk_widget_add_css_class (words, "quiet");
  gtk_label_set_max_width_chars (GTK_LABEL (words), 62);
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (content), box);
  return box;
}

static void
add_needles (Handing *handing, GtkWidget *content)
{
  const char *const kinds[] = { _ ("as tables (CSV)"), _ ("as drawings (SVG)"), NULL };
  GtkWidget *box
      = add_part (content, _ ("Needle lists"),
                  _ ("All stitches of a hooping in their order, as they lie in the hoop: for a converter "
                     "to make your machine’s file of."));
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18), *scrolled = gtk_scrolled_window_new ();

  handing->needles = add_check (handing, row, _ ("Of these hoopings:"), TRUE);
  gtk_widget_set_hexpand (handing->needles, TRUE);
  handing->needle_kind = gtk_drop_down_new_from_strings (kinds);
  gtk_accessible_update_property (GTK_ACCESSIBLE (handing->needle_kind), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Needle lists"), -1);
  gtk_box_append (GTK_BOX (row), handing->needle_kind);
  handing->hoopings = gtk_flow_box_new ();
  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (handing->hoopings), GTK_SELECTION_NONE);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (handing->hoopings), LINE_OF_HOOPINGS);
  gtk_flow_box_set_min_children_per_line (GTK_FLOW_BOX (handing->hoopings), LINE_OF_HOOPINGS);
  gtk_flow_box_set_homogeneous (GTK_FLOW_BOX (handing->hoopings), TRUE);
  gtk_widget_set_margin_start (scrolled, 24);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), TALLEST_HOOPINGS);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), handing->hoopings);
  gtk_box_append (GTK_BOX (box), row);
  gtk_box_append (GTK_BOX (box), scrolled);
}

static void
add_lists (Handing *handing, GtkWidget *content)
{
  GtkWidget *box
      = add_part (content, _ ("Tables for a spreadsheet"), _ ("Comma-separated, in millimetres and metres."));
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);

  for (guint kind = 0; kind < HW_N_LISTS; kind++)
    handing->lists[kind] = add_check (handing, row, hw_handout_list_words ((HwListKind)kind), TRUE);
  gtk_box_append (GTK_BOX (box), row);
}

static void
add_picture (Handing *handing, GtkWidget *content)
{
  g_autofree char *screen = g_strdup_printf (_ ("for a screen (PNG, %d pixels wide)"), SCREEN_WIDTH);
  g_autofree char *print = g_strdup_printf (_ ("to print at true size (PNG, %d dots per inch)"), PRINT_DPI);
  const char *const kinds[] = { screen, print, _ ("as a drawing (SVG)"), NULL };
  GtkWidget *box = add_part (content, _ ("A picture"), _ ("The cloth as it will be, for a blog or a class."));
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);

  handing->picture = add_check (handing, row, _ ("The picture"), TRUE);
  gtk_widget_set_hexpand (handing->picture, TRUE);
  handing->picture_kind = gtk_drop_down_new_from_strings (kinds);
  gtk_accessible_update_property (GTK_ACCESSIBLE (handing->picture_kind), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("A picture"), -1);
  gtk_box_append (GTK_BOX (row), handing->picture_kind);
  gtk_box_append (GTK_BOX (box), row);
  handing->footprints = add_check (handing, box, _ ("with the hoopings"), TRUE);
  gtk_widget_set_margin_start (handing->footprints, 24);
}

static GtkWidget *
make_folder_button (Handing *handing)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *name = gtk_label_new (NULL);

  handing->folder_button = gtk_button_new ();
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_MIDDLE);
  gtk_label_set_max_width_chars (GTK_LABEL (name), 30);
  gtk_box_append (GTK_BOX (row), gtk_image_new_from_icon_name ("hw-basket-symbolic"));
  gtk_box_append (GTK_BOX (row), name);
  gtk_button_set_child (GTK_BUTTON (handing->folder_button), row);
  g_object_set_data (G_OBJECT (handing->folder_button), "name", name);
  g_signal_connect (handing->folder_button, "clicked", G_CALLBACK (choose_folder_cb), handing);
  gtk_widget_set_halign (handing->folder_button, GTK_ALIGN_START);
  return hw_captioned (_ ("Save in the folder"), handing->folder_button);
}

static void
add_foot (Handing *handing, GtkWidget *content)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18), *foot = hw_dialog_foot ();
  GtkWidget *folder = make_folder_button (handing);

  handing->told = hw_dialog_words (NULL);
  gtk_label_set_max_width_chars (GTK_LABEL (handing->told), 62);
  gtk_label_set_selectable (GTK_LABEL (handing->told), TRUE);
  gtk_widget_set_focusable (handing->told, FALSE);
  handing->busy = HW_BUSY_ROW (hw_busy_row_new ());
  handing->save = gtk_button_new_with_label (_ ("Save"));
  gtk_widget_add_css_class (handing->save, "suggested-action");
  g_signal_connect (handing->save, "clicked", G_CALLBACK (save_cb), handing);
  g_signal_connect_swapped (handing->busy, "stop", G_CALLBACK (stop_cb), handing);
  gtk_box_append (GTK_BOX (foot), handing->save);
  gtk_widget_set_hexpand (folder, TRUE);
  gtk_widget_set_valign (foot, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (row), folder);
  gtk_box_append (GTK_BOX (row), foot);
  gtk_box_append (GTK_BOX (content), row);
  gtk_box_append (GTK_BOX (content), handing->told);
  gtk_box_append (GTK_BOX (content), GTK_WIDGET (handing->busy));
}

void
hw_handout_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Handing *handing = g_new0 (Handing, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 22);

  handing->bench = g_object_ref (bench);
  handing->folder = first_folder (bench);
  handing->dialog = hw_dialog_new (parent, _ ("Take along"), content, 620, -1);
  hw_help_mark (handing->dialog, "take-along");
  g_object_set_data_full (G_OBJECT (handing->dialog), "handing", handing, handing_free);
  add_needles (handing, content);
  add_lists (handing, content);
  add_picture (handing, content);
  add_foot (handing, content);
  show_folder (handing);
  update (handing);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), handing->dialog, 0);
  g_signal_connect (handing->dialog, "destroy", G_CALLBACK (closed_cb), handing);
  gtk_window_set_focus (handing->dialog, handing->save);
  gtk_window_present (handing->dialog);
}
