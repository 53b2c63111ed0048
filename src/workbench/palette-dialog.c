/* Threads at hand. The person's list is loaded from a CSV file and kept with the scene. Beside each thread of the scene stand the three that come nearest,
 * with the difference in words; one of them can take its place. Below is what must be bought. */
#include "palette-dialog.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../formats/palette-csv.h"
#include "../scene/thread-needs.h"
#include "dialog.h"
#include "help-place.h"
#include "settings.h"
#include "palette-swatch.h"

#define WIDTH 860 /* px */
#define HEIGHT 640
#define SWATCH 34

typedef struct
{
  HwBench *bench;
  GtkWindow *window;
  GtkWidget *have, *told, *threads, *purchases, *purchases_heading, *undo;
  guint n_steps; /* done here, which can be undone here */
  GtkFileChooserNative *chooser;
} Dialog;

/* What a button stands for. */
typedef struct
{
  Dialog *dialog;
  char *name;
  HwColour colour;
  guint thread;
} Choice;

static void
choice_free (gpointer data, GClosure *closure)
{
  Choice *choice = data;

  g_free (choice->name);
  g_free (choice);
}

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  if (dialog->chooser != NULL)
    g_signal_handlers_disconnect_by_data (dialog->chooser, dialog);
  g_clear_object (&dialog->chooser);
  g_signal_handlers_disconnect_by_data (dialog->bench, dialog);
  g_object_unref (dialog->bench);
  g_free (dialog);
}

static void
tell (Dialog *dialog, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (dialog->told), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (dialog->told, sentence != NULL);
}

static GtkWidget *
words (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

/* "1.8 m", or NULL when it is not known. */
static char *
metres_text (double metres)
{
  return isnan (metres) ? NULL : g_strdup_printf (_ ("%.1f m"), metres);
}

/* Name and number as the person knows the thread. */
static char *
thread_text (const char *name, const char *number)
{
  return number != NULL ? g_strdup_printf ("%s · %s", name, number) : g_strdup (name);
}

static GtkWidget *
swatch_and_words (HwColour colour, const char *first, const char *second)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_box_append (GTK_BOX (lines), words (first, NULL));
  if (second != NULL)
    gtk_box_append (GTK_BOX (lines), words (second, "caption"));
  gtk_widget_set_valign (lines, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (lines, TRUE);
  gtk_box_append (GTK_BOX (row), hw_palette_swatch_new (colour, SWATCH));
  gtk_box_append (GTK_BOX (row), lines);
  return row;
}

static void
count_steps (Dialog *dialog, int by)
{
  dialog->n_steps += (guint)by;
  gtk_widget_set_sensitive (dialog->undo, dialog->n_steps > 0);
}

static void
use_cb (GtkButton *button, Choice *choice)
{
  Dialog *dialog = choice->dialog;

  /* The choice goes with its row when the scene changes. */
  if (!hw_bench_is_editing (dialog->bench)
      && hw_bench_use_thread (dialog->bench, choice->name, choice->colour, choice->thread))
    count_steps (dialog, 1);
}

/* One of the nearest at hand, to be taken. */
static GtkWidget *
match_row (Dialog *dialog, const HwThreadNeed *need, const HwThreadMatch *match)
{
  GPtrArray *palette = hw_scene_get_palette (hw_bench_get_scene (dialog->bench));
  const HwPaletteThread *thread = g_ptr_array_index (palette, match->thread);
  g_autofree char *name = thread_text (thread->name, thread->number);
  g_autofree char *metres = metres_text (thread->metres);
  g_autofree char *more
      = metres != NULL ? g_strdup_printf (_ ("%s · %s left"), hw_difference_words (match->difference), metres)
                       : g_strdup (hw_difference_words (match->difference));
  HwColour colour = hw_lab_colour (thread->lab);
  HwThreadBlock now = { .name = need->name, .colour = need->colour },
                then = { .name = thread->name, .colour = colour };
  GtkWidget *row = swatch_and_words (colour, name, more);

  if (hw_thread_same (&now, &then))
    {
      gtk_box_append (GTK_BOX (row), words (_ ("in use"), "caption"));
      return row;
    }
  GtkWidget *use = gtk_button_new_with_label (_ ("Use this"));
  g_autofree char *label = g_strdup_printf (_ ("Use %s for %s"), name, need->name);
  Choice *choice = g_new0 (Choice, 1);
  choice->dialog = dialog;
  choice->name = g_strdup (need->name);
  choice->colour = need->colour;
  choice->thread = match->thread;
  gtk_widget_set_valign (use, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (use, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (use), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect_data (use, "clicked", G_CALLBACK (use_cb), choice, choice_free, 0);
  gtk_box_append (GTK_BOX (row), use);
  return row;
}

static GtkWidget *
need_row (Dialog *dialog, const HwThreadNeed *need)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *matches = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  g_autofree char *metres = metres_text (need->metres);
  guint n = g_strv_length (need->motifs);
  g_autofree char *where = g_strdup_printf (ngettext ("in %u motif", "in %u motifs", n), n);
  g_autofree char *more = metres == NULL     ? g_strdup (where)
                          : need->metres > 0 ? g_strdup_printf (_ ("%s · takes about %s"), where, metres)
                                             : g_strdup_printf (_ ("%s · stitched already"), where);

  GtkWidget *mine = swatch_and_words (need->colour, need->name, more);
  gtk_widget_set_valign (mine, GTK_ALIGN_START);
  for (guint i = 0; i < need->n_nearest; i++)
    gtk_box_append (GTK_BOX (matches), match_row (dialog, need, &need->nearest[i]));
  if (need->n_nearest == 0)
    gtk_box_append (GTK_BOX (matches), words (_ ("nothing at hand yet"), "caption"));
  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  gtk_widget_add_css_class (row, "thread-need");
  gtk_box_append (GTK_BOX (row), mine);
  gtk_box_append (GTK_BOX (row), matches);
  return row;
}

static void
clear (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)) != NULL)
    gtk_box_remove (GTK_BOX (box), child);
}

static void
show_purchases (Dialog *dialog, GPtrArray *needs, GPtrArray *palette)
{
  g_autoptr (GPtrArray) purchases = hw_thread_purchases (needs, palette);

  clear (dialog->purchases);
  gtk_label_set_label (GTK_LABEL (dialog->purchases_heading),
                       purchases->len > 0 ? _ ("To be bought") : _ ("Nothing must be bought"));
  for (guint i = 0; i < purchases->len; i++)
    {
      const HwThreadPurchase *purchase = g_ptr_array_index (purchases, i);
      g_autofree char *name = thread_text (purchase->name, purchase->number);
      g_autofree char *metres = metres_text (purchase->metres);
      g_autofree char *more = metres == NULL
                                  ? g_strdup (_ ("how much is not known: its stitches are not counted"))
                              : purchase->thread >= 0 ? g_strdup_printf (_ ("%s more than is left"), metres)
                                                      : g_strdup_printf (_ ("about %s"), metres);

      gtk_box_append (GTK_BOX (dialog->purchases), swatch_and_words (purchase->colour, name, more));
    }
}

static void
update (Dialog *dialog)
{
  HwScene *scene = hw_bench_get_scene (dialog->bench);
  GPtrArray *palette = hw_scene_get_palette (scene);
  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (scene);
  g_autoptr (GPtrArray) needs = hw_thread_needs (snapshot, palette);
  g_autofree char *have
      = palette->len > 0
            ? g_strdup_printf (ngettext ("%u thread at hand", "%u threads at hand", palette->len),
                               palette->len)
            : g_strdup (_ ("Load your list of threads: a CSV file whose first row names its columns, such as "
                           "name, number, colour, metres."));

  gtk_label_set_label (GTK_LABEL (dialog->have), have);
  clear (dialog->threads);
  for (guint i = 0; i < needs->len; i++)
    gtk_box_append (GTK_BOX (dialog->threads), need_row (dialog, g_ptr_array_index (needs, i)));
  if (needs->len == 0)
    gtk_box_append (GTK_BOX (dialog->threads), words (_ ("The scene has no threads yet."), NULL));
  show_purchases (dialog, needs, palette);
}

static void
scene_changed_cb (HwBench *bench, guint flags, Dialog *dialog)
{
  const guint shown = HW_SCENE_CHANGE_THREADS | HW_SCENE_CHANGE_PALETTE | HW_SCENE_CHANGE_MOTIF_LIST
                      | HW_SCENE_CHANGE_PINS | HW_SCENE_CHANGE_SUPPLIES;

  if (flags & shown)
    update (dialog);
}

/* Loading the list that is there already is no step to be undone. */
static gboolean
same_palette (GPtrArray *a, GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!hw_palette_thread_equal (a->pdata[i], b->pdata[i]))
      return FALSE;
  return TRUE;
}

static void
picked_cb (GtkNativeDialog *native, int response, Dialog *dialog)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));

  gtk_native_dialog_hide (native);
  if (response == GTK_RESPONSE_ACCEPT && file != NULL && g_file_peek_path (file) != NULL)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) palette = hw_palette_csv_load (g_file_peek_path (file), &error);

      tell (dialog, palette == NULL ? error->message : NULL);
      if (palette != NULL)
        {
          gboolean other = !same_palette (hw_scene_get_palette (hw_bench_get_scene (dialog->bench)), palette);

          hw_bench_set_palette (dialog->bench, palette);
          if (other)
            count_steps (dialog, 1);
        }
    }
  g_clear_object (&dialog->chooser);
}

static void
load_cb (GtkButton *button, Dialog *dialog)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  g_autofree char *last = hw_settings_get_text (HW_SETTING_LAST_FOLDER);

  if (dialog->chooser != NULL)
    return;
  dialog->chooser = gtk_file_chooser_native_new (_ ("List of threads"), dialog->window,
                                                 GTK_FILE_CHOOSER_ACTION_OPEN, NULL, NULL);
  gtk_file_filter_set_name (filter, _ ("Lists (CSV)"));
  gtk_file_filter_add_suffix (filter, "csv");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog->chooser), filter);
  if (*last != '\0' && g_file_test (last, G_FILE_TEST_IS_DIR))
    {
      g_autoptr (GFile) folder = g_file_new_for_path (last);

      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (dialog->chooser), folder, NULL);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog->chooser), TRUE);
  g_signal_connect (dialog->chooser, "response", G_CALLBACK (picked_cb), dialog);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog->chooser));
}

static void
close_cb (GtkButton *button, Dialog *dialog)
{
  gtk_window_close (dialog->window);
}

static void
undo_cb (GtkButton *button, Dialog *dialog)
{
  if (dialog->n_steps == 0 || hw_bench_is_editing (dialog->bench))
    return;
  hw_bench_undo (dialog->bench);
  count_steps (dialog, -1);
}

static GtkWidget *
make_list (Dialog *dialog)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *lists = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);

  dialog->threads = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  dialog->purchases = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  dialog->purchases_heading = words (NULL, "heading");
  gtk_box_append (GTK_BOX (lists), dialog->threads);
  gtk_box_append (GTK_BOX (lists), dialog->purchases_heading);
  gtk_box_append (GTK_BOX (lists), dialog->purchases);
  gtk_widget_set_margin_end (lists, 14);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), lists);
  gtk_widget_set_vexpand (scroller, TRUE);
  return scroller;
}

static GtkWidget *
make_content (Dialog *dialog)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  GtkWidget *top = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *foot = hw_dialog_foot ();
  GtkWidget *load = gtk_button_new_with_label (_ ("Load a list…"));
  GtkWidget *done = gtk_button_new_with_label (_ ("Close"));

  dialog->undo = gtk_button_new_with_label (_ ("Undo"));
  gtk_widget_set_sensitive (dialog->undo, FALSE);
  dialog->have = hw_dialog_words (NULL);
  dialog->told = hw_dialog_words (NULL);
  gtk_widget_set_hexpand (dialog->have, TRUE);
  gtk_widget_add_css_class (dialog->told, "told");
  gtk_widget_set_visible (dialog->told, FALSE);
  gtk_widget_set_valign (load, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (top), dialog->have);
  gtk_box_append (GTK_BOX (top), load);
  gtk_box_append (GTK_BOX (foot), dialog->undo);
  gtk_box_append (GTK_BOX (foot), done);
  g_signal_connect (load, "clicked", G_CALLBACK (load_cb), dialog);
  g_signal_connect (dialog->undo, "clicked", G_CALLBACK (undo_cb), dialog);
  g_signal_connect (done, "clicked", G_CALLBACK (close_cb), dialog);
  gtk_box_append (GTK_BOX (content), top);
  gtk_box_append (GTK_BOX (content), dialog->told);
  gtk_box_append (GTK_BOX (content), make_list (dialog));
  gtk_box_append (GTK_BOX (content), foot);
  return content;
}

void
hw_palette_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Dialog *dialog = g_new0 (Dialog, 1);

  dialog->bench = g_object_ref (bench);
  GtkWidget *content = make_content (dialog);
  dialog->window = hw_dialog_new (parent, _ ("Threads at hand"), content, WIDTH, HEIGHT);
  hw_help_mark (dialog->window, "threads-at-hand");
  g_object_set_data_full (G_OBJECT (dialog->window), "dialog", dialog, dialog_free);
  g_signal_connect (bench, "scene-changed", G_CALLBACK (scene_changed_cb), dialog);
  update (dialog);
  gtk_window_present (dialog->window);
}
