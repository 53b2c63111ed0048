/* The dialog that puts the plan on paper: what to print, on which sheets, with a look at every page before; then the printer, or a PDF. */
#include "paper-dialog.h"

#include <glib/gi18n.h>
#include <string.h>

#include "dialog.h"
#include "measure-field.h"
#include "page-preview.h"
#include "printing.h"
#include "settings.h"

#define SHEET_MARGIN 10 /* mm */
#define TILE_OVERLAP 10 /* mm */
#define N_KINDS 4

typedef struct
{
  HwBench *bench;
  GtkWidget *kinds[N_KINDS]; /* in the order of HwPaperKind */
  GtkWidget *part;           /* a choice with the whole plan first */
  GtkWidget *part_choice;
  GtkWidget *sheet;
  GtkWidget *unit;
  GtkWidget *preview;
  GtkWidget *trouble;
  GtkWidget *print;
  GtkWidget *save;
  HwPlan *shown; /* the plan in the preview */
} Paper;

static void
paper_free (gpointer data)
{
  Paper *paper = data;

  g_clear_pointer (&paper->shown, hw_plan_unref);
  g_object_unref (paper->bench);
  g_free (paper);
}

static HwPaperKind
kind_of (Paper *paper)
{
  for (guint i = 0; i < N_KINDS; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (paper->kinds[i])))
      return (HwPaperKind)i;
  return HW_PAPER_TEMPLATES;
}

static const HwSheetSize *
sheet_of (Paper *paper)
{
  return &hw_sheet_sizes ()[gtk_drop_down_get_selected (GTK_DROP_DOWN (paper->sheet))];
}

static HwPrintJob *
lay_out (Paper *paper, GError **error)
{
  HwPaperOptions options = {
    .kind = kind_of (paper),
    .sheet = sheet_of (paper),
    .unit = gtk_drop_down_get_selected (GTK_DROP_DOWN (paper->unit)) == 1 ? HW_UNIT_INCH : HW_UNIT_MM,
    .sheet_margin = SHEET_MARGIN,
    .tile_overlap = TILE_OVERLAP,
    .part
    = MIN (gtk_drop_down_get_selected (GTK_DROP_DOWN (paper->part)), paper->shown->snapshot->parts->len),
  };

  return hw_print_job_new (paper->shown, &options, error);
}

static void
part_cb (GObject *object, GParamSpec *pspec, Paper *paper);

static void
tell (Paper *paper, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (paper->trouble), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (paper->trouble, sentence != NULL);
}

/* Offers the parts of the plan that is shown; the choice stays by its place. */
static void
offer_parts (Paper *paper)
{
  const GPtrArray *parts = paper->shown->snapshot->parts;
  GtkStringList *names = GTK_STRING_LIST (gtk_drop_down_get_model (GTK_DROP_DOWN (paper->part)));
  guint n = g_list_model_get_n_items (G_LIST_MODEL (names));
  gboolean same = n == parts->len + 1;

  for (guint p = 0; p < parts->len && same; p++)
    same = g_str_equal (gtk_string_list_get_string (names, p + 1), ((const HwPart *)parts->pdata[p])->name);
  gtk_widget_set_visible (paper->part_choice, parts->len > 0);
  if (same)
    return;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  guint chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (paper->part));

  for (guint p = 0; p < parts->len; p++)
    g_strv_builder_add (builder, ((const HwPart *)parts->pdata[p])->name);
  g_auto (GStrv) fresh = g_strv_builder_end (builder);
  g_signal_handlers_block_by_func (paper->part, part_cb, paper);
  gtk_string_list_splice (names, 1, n - 1, (const char *const *)fresh);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (paper->part), chosen <= parts->len ? chosen : 0);
  g_signal_handlers_unblock_by_func (paper->part, part_cb, paper);
}

static void
update (Paper *paper)
{
  g_autoptr (GError) error = NULL;
  const HwPlan *plan = hw_bench_get_plan (paper->bench);
  HwPrintJob *job = NULL;

  g_clear_pointer (&paper->shown, hw_plan_unref);
  if (plan != NULL)
    {
      paper->shown = hw_plan_ref (plan);
      offer_parts (paper);
      job = lay_out (paper, &error);
      tell (paper, error != NULL ? error->message : NULL);
    }
  else
    tell (paper, _ ("The plan is not ready yet."));
  gtk_widget_set_sensitive (paper->print, job != NULL);
  gtk_widget_set_sensitive (paper->save, job != NULL);
  hw_page_preview_take_job (HW_PAGE_PREVIEW (paper->preview), job);
}

static void
kind_cb (GtkCheckButton *check, Paper *paper)
{
  if (gtk_check_button_get_active (check))
    update (paper);
}

static void
part_cb (GObject *object, GParamSpec *pspec, Paper *paper)
{
  update (paper);
}

static void
choice_cb (GObject *object, GParamSpec *pspec, Paper *paper)
{
  hw_settings_set_text (HW_SETTING_PAPER, sheet_of (paper)->name);
  update (paper);
}

static void
plan_changed_cb (HwBench *bench, GtkWindow *dialog)
{
  update (g_object_get_data (G_OBJECT (dialog), "paper"));
}

static const char *
kind_words (HwPaperKind kind)
{
  switch (kind)
    {
    case HW_PAPER_LAYOUT:
      return _ ("Layout");
    case HW_PAPER_BENCH_SHEET:
      return _ ("Bench sheet");
    case HW_PAPER_DAY_LOG:
      return _ ("Log of the days");
    case HW_PAPER_TEMPLATES:
    default:
      return _ ("Templates");
    }
}

static char *
title_of (Paper *paper)
{
  const GPtrArray *parts = paper->shown->snapshot->parts;
  guint part = gtk_drop_down_get_selected (GTK_DROP_DOWN (paper->part));

  if (part > 0 && part <= parts->len)
    return g_strdup_printf ("%s, %s, %s", paper->shown->snapshot->name, kind_words (kind_of (paper)),
                            ((const HwPart *)parts->pdata[part - 1])->name);
  return g_strdup_printf ("%s, %s", paper->shown->snapshot->name, kind_words (kind_of (paper)));
}

static void
failed (GtkWindow *dialog, const char *sentence)
{
  tell (g_object_get_data (G_OBJECT (dialog), "paper"), sentence);
}

static void
print_cb (GtkButton *button, Paper *paper)
{
  g_autoptr (GError) error = NULL;
  HwPrintJob *job = lay_out (paper, &error);
  g_autofree char *title = title_of (paper);

  if (job == NULL)
    {
      tell (paper, error->message);
      return;
    }
  hw_printing_run (GTK_WINDOW (gtk_widget_get_root (paper->print)), job, sheet_of (paper), title, failed);
}

static void
save_pdf (Paper *paper, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwPrintJob) job = lay_out (paper, &error);
  g_autofree char *title = title_of (paper);

  if (job == NULL || !hw_print_jobs_write_pdf (&job, 1, title, path, NULL, &error))
    {
      tell (paper, error->message);
      return;
    }
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *sentence
      = g_strdup_printf (_ ("Saved as “%s”. Print it at true size: 100 %%, no fitting to the page."), name);
  tell (paper, sentence);
}

static void
save_response_cb (GtkNativeDialog *chooser, int response, GtkWindow *dialog)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  gtk_native_dialog_hide (chooser);
  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    save_pdf (g_object_get_data (G_OBJECT (dialog), "paper"), path);
  g_object_unref (chooser);
}

static void
save_cb (GtkButton *button, Paper *paper)
{
  GtkWindow *dialog = GTK_WINDOW (gtk_widget_get_root (paper->save));
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (_ ("Save as PDF"), dialog, GTK_FILE_CHOOSER_ACTION_SAVE, NULL, NULL);
  g_autofree char *title = title_of (paper);
  g_autofree char *name = g_strconcat (title, ".pdf", NULL);
  g_autofree char *last = hw_settings_get_text (HW_SETTING_LAST_FOLDER);

  g_strdelimit (name, "/\\", '-');
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), name);
  if (*last != '\0' && g_file_test (last, G_FILE_TEST_IS_DIR))
    {
      g_autoptr (GFile) folder = g_file_new_for_path (last);
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), folder, NULL);
    }
  g_signal_connect_object (chooser, "response", G_CALLBACK (save_response_cb), dialog, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

static GtkWidget *
kind_choice (Paper *paper, HwPaperKind kind, const char *words)
{
  GtkWidget *check = gtk_check_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *label = gtk_label_new (kind_words (kind));
  GtkWidget *more = hw_dialog_words (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "card-title");
  gtk_widget_add_css_class (more, "quiet");
  gtk_label_set_max_width_chars (GTK_LABEL (more), 30);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), more);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (check), box);
  gtk_widget_add_css_class (check, "choice");
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, kind_words (kind),
                                  -1);
  paper->kinds[kind] = check;
  if (kind != HW_PAPER_TEMPLATES)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (check),
                                GTK_CHECK_BUTTON (paper->kinds[HW_PAPER_TEMPLATES]));
  return check;
}

static GtkWidget *
sheet_choice (Paper *paper)
{
  const HwSheetSize *sizes = hw_sheet_sizes ();
  g_autofree char *remembered = hw_settings_get_text (HW_SETTING_PAPER);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  guint chosen = 0;

  for (guint i = 0; sizes[i].name != NULL; i++)
    {
      g_strv_builder_add (builder, sizes[i].name);
      if (g_ascii_strcasecmp (sizes[i].name, remembered) == 0)
        chosen = i;
    }
  g_auto (GStrv) names = g_strv_builder_end (builder);
  paper->sheet = gtk_drop_down_new_from_strings ((const char *const *)names);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (paper->sheet), chosen);
  gtk_accessible_update_property (GTK_ACCESSIBLE (paper->sheet), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Paper size"), -1);
  return paper->sheet;
}

static GtkWidget *
make_choices (Paper *paper)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  const char *units[] = { _ ("Millimetres"), _ ("Inches"), NULL };
  const char *whole[] = { _ ("The whole plan"), NULL };

  gtk_box_append (
      GTK_BOX (box),
      kind_choice (paper, HW_PAPER_TEMPLATES,
                   _ ("Each motif at true size with its cross mark, to cut out and lay on the cloth.")));
  gtk_box_append (GTK_BOX (box), kind_choice (paper, HW_PAPER_LAYOUT,
                                              _ ("The whole picture at true size, to join from sheets.")));
  gtk_box_append (GTK_BOX (box),
                  kind_choice (paper, HW_PAPER_BENCH_SHEET,
                               _ ("The marks to draw, then what to do at the machine, hooping by hooping.")));
  gtk_box_append (GTK_BOX (box),
                  kind_choice (paper, HW_PAPER_DAY_LOG,
                               _ ("What happened at the machine, with readings and corrections.")));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (paper->kinds[HW_PAPER_TEMPLATES]), TRUE);

  paper->unit = gtk_drop_down_new_from_strings (units);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (paper->unit),
                              hw_bench_get_unit (paper->bench) == HW_UNIT_INCH ? 1 : 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (paper->unit), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Lengths in"), -1);
  gtk_box_append (GTK_BOX (box), hw_dialog_pair (hw_captioned (_ ("Paper"), sheet_choice (paper)),
                                                 hw_captioned (_ ("Lengths in"), paper->unit)));

  paper->part = gtk_drop_down_new_from_strings (whole);
  gtk_accessible_update_property (GTK_ACCESSIBLE (paper->part), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("What of the plan"), -1);
  paper->part_choice = hw_captioned (_ ("What of the plan"), paper->part);
  gtk_box_append (GTK_BOX (box), paper->part_choice);

  paper->trouble = hw_dialog_words (NULL);
  gtk_widget_add_css_class (paper->trouble, "trouble");
  gtk_widget_set_visible (paper->trouble, FALSE);
  gtk_box_append (GTK_BOX (box), paper->trouble);
  gtk_widget_set_size_request (box, 330, -1);
  return box;
}

static GtkWidget *
make_foot (Paper *paper)
{
  GtkWidget *foot = hw_dialog_foot ();

  paper->save = gtk_button_new_with_label (_ ("Save as PDF…"));
  paper->print = gtk_button_new_with_label (_ ("Print…"));
  gtk_widget_add_css_class (paper->print, "suggested-action");
  g_signal_connect (paper->save, "clicked", G_CALLBACK (save_cb), paper);
  g_signal_connect (paper->print, "clicked", G_CALLBACK (print_cb), paper);
  gtk_box_append (GTK_BOX (foot), paper->save);
  gtk_box_append (GTK_BOX (foot), paper->print);
  return foot;
}

void
hw_paper_dialog_show (GtkWindow *parent, HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  Paper *paper = g_new0 (Paper, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);

  paper->bench = g_object_ref (bench);
  paper->preview = hw_page_preview_new ();
  gtk_box_append (GTK_BOX (columns), make_choices (paper));
  gtk_box_append (GTK_BOX (columns), paper->preview);
  gtk_widget_set_vexpand (columns, TRUE);
  gtk_box_append (GTK_BOX (content), columns);
  gtk_box_append (GTK_BOX (content), make_foot (paper));

  for (guint i = 0; i < N_KINDS; i++)
    g_signal_connect (paper->kinds[i], "toggled", G_CALLBACK (kind_cb), paper);
  g_signal_connect (paper->part, "notify::selected", G_CALLBACK (part_cb), paper);
  g_signal_connect (paper->sheet, "notify::selected", G_CALLBACK (choice_cb), paper);
  g_signal_connect (paper->unit, "notify::selected", G_CALLBACK (choice_cb), paper);

  GtkWindow *dialog = hw_dialog_new (parent, _ ("On paper"), content, 820, 620);
  g_object_set_data_full (G_OBJECT (dialog), "paper", paper, paper_free);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_changed_cb), dialog, 0);
  update (paper);
  gtk_window_present (dialog);
}
