/* The part of the paper dialog that puts right a printer that is not true to size, in three steps: print, measure, type. */
#include "printer-truth.h"

#include <glib/gi18n.h>

#include "../paper/test-sheet.h"
#include "dialog.h"
#include "measure-field.h"
#include "printer-memory.h"
#include "settings.h"

struct _HwPrinterTruth
{
  GtkBox parent_instance;

  const HwSheetSize *sheet;
  HwUnit unit;
  GtkWidget *printer;
  GtkWidget *state;  /* what is applied */
  GtkWidget *forget; /* and its button */
  GtkWidget *captions[2];
  GtkWidget *lengths[2]; /* across, down */
  GtkWidget *remember;
  GtkWidget *trouble;
  char **names; /* of printers, in the list's order */
};

G_DEFINE_FINAL_TYPE (HwPrinterTruth, hw_printer_truth, GTK_TYPE_BOX)

enum
{
  CHANGED,
  PRINT_TEST,
  SAVE_TEST,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
tell (HwPrinterTruth *truth, const char *sentence)
{
  gtk_widget_add_css_class (truth->trouble, "trouble");
  gtk_label_set_label (GTK_LABEL (truth->trouble), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (truth->trouble, sentence != NULL);
}

static void
show_state (HwPrinterTruth *truth)
{
  const char *printer = hw_printer_truth_get_printer (truth);
  g_autofree char *sentence = hw_printer_memory_sentence (printer);

  gtk_label_set_label (GTK_LABEL (truth->state), sentence);
  gtk_widget_set_visible (truth->forget, hw_printer_memory_knows (printer));
}

static void
follow_lengths (HwPrinterTruth *truth)
{
  gboolean typed = TRUE;

  for (guint i = 0; i < 2; i++)
    typed = typed && *gtk_editable_get_text (GTK_EDITABLE (truth->lengths[i])) != '\0';
  gtk_widget_set_sensitive (truth->remember, typed);
}

static void
clear_lengths (HwPrinterTruth *truth)
{
  for (guint i = 0; i < 2; i++)
    gtk_editable_set_text (GTK_EDITABLE (truth->lengths[i]), "");
}

static void
printer_cb (HwPrinterTruth *truth)
{
  hw_settings_set_text (HW_SETTING_PRINTER, hw_printer_truth_get_printer (truth));
  tell (truth, NULL);
  show_state (truth);
  g_signal_emit (truth, signals[CHANGED], 0);
}

/* FALSE, and told, when one of the two is no length. */
static gboolean
read_lengths (HwPrinterTruth *truth, double *across, double *down)
{
  double *const into[] = { across, down };

  for (guint i = 0; i < 2; i++)
    if (!hw_length_parse (gtk_editable_get_text (GTK_EDITABLE (truth->lengths[i])), truth->unit, into[i])
        || !(*into[i] > 0))
      {
        tell (truth, truth->unit == HW_UNIT_INCH ? _ ("Please type what the ruler said, such as 7 1/2 in.")
                                                 : _ ("Please type what the ruler said, such as 179.5 mm."));
        gtk_widget_grab_focus (truth->lengths[i]);
        return FALSE;
      }
  return TRUE;
}

static void
remember_cb (HwPrinterTruth *truth)
{
  g_autoptr (GError) error = NULL;
  double across, down, x, y;

  if (!read_lengths (truth, &across, &down))
    return;
  if (!hw_test_sheet_stretch (truth->sheet, truth->unit, across, down, &x, &y, &error))
    {
      tell (truth, error->message);
      return;
    }
  hw_printer_memory_set (hw_printer_truth_get_printer (truth), x, y);
  tell (truth, NULL);
  clear_lengths (truth);
  show_state (truth);
  g_signal_emit (truth, signals[CHANGED], 0);
}

/* Return in a field goes on to the other while that is empty. */
static void
typed_cb (GtkEntry *entry, HwPrinterTruth *truth)
{
  GtkWidget *other = truth->lengths[GTK_WIDGET (entry) == truth->lengths[0] ? 1 : 0];

  if (*gtk_editable_get_text (GTK_EDITABLE (other)) == '\0')
    gtk_widget_grab_focus (other);
  else
    remember_cb (truth);
}

static void
forget_cb (HwPrinterTruth *truth)
{
  hw_printer_memory_forget (hw_printer_truth_get_printer (truth));
  tell (truth, NULL);
  show_state (truth);
  g_signal_emit (truth, signals[CHANGED], 0);
}

static void
print_test_cb (HwPrinterTruth *truth)
{
  g_signal_emit (truth, signals[PRINT_TEST], 0);
}

static void
save_test_cb (HwPrinterTruth *truth)
{
  g_signal_emit (truth, signals[SAVE_TEST], 0);
}

static void
hw_printer_truth_finalize (GObject *object)
{
  g_clear_pointer (&HW_PRINTER_TRUTH (object)->names, g_strfreev);
  G_OBJECT_CLASS (hw_printer_truth_parent_class)->finalize (object);
}

static void
hw_printer_truth_class_init (HwPrinterTruthClass *klass)
{
  static const char *const names[] = { "changed", "print-test", "save-test" };

  G_OBJECT_CLASS (klass)->finalize = hw_printer_truth_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
}

/* Fills the list of printers and chooses one. */
static void
offer_printers (HwPrinterTruth *truth, const char *chosen)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  guint place = 0;

  g_clear_pointer (&truth->names, g_strfreev);
  truth->names = hw_printer_memory_names ();
  for (guint i = 0; truth->names[i] != NULL; i++)
    {
      gtk_string_list_append (words, hw_printer_words (truth->names[i]));
      if (g_str_equal (truth->names[i], chosen))
        place = i;
    }
  g_signal_handlers_block_by_func (truth->printer, printer_cb, truth);
  gtk_drop_down_set_model (GTK_DROP_DOWN (truth->printer), G_LIST_MODEL (words));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (truth->printer), place);
  g_signal_handlers_unblock_by_func (truth->printer, printer_cb, truth);
}

static GtkWidget *
text_button (HwPrinterTruth *truth, const char *label, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  g_signal_connect_swapped (button, "clicked", clicked, truth);
  return button;
}

static GtkWidget *
length_field (HwPrinterTruth *truth, guint i, const char *label)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  truth->captions[i] = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (truth->captions[i]), 0);
  gtk_widget_add_css_class (truth->captions[i], "caption");
  truth->lengths[i] = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (truth->lengths[i]), 8);
  gtk_accessible_update_property (GTK_ACCESSIBLE (truth->lengths[i]), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  g_signal_connect_swapped (truth->lengths[i], "changed", G_CALLBACK (follow_lengths), truth);
  g_signal_connect (truth->lengths[i], "activate", G_CALLBACK (typed_cb), truth);
  gtk_box_append (GTK_BOX (box), truth->captions[i]);
  gtk_box_append (GTK_BOX (box), truth->lengths[i]);
  return box;
}

static void
hw_printer_truth_init (HwPrinterTruth *truth)
{
  g_autofree char *last = hw_settings_get_text (HW_SETTING_PRINTER);
  GtkWidget *step;

  gtk_orientable_set_orientation (GTK_ORIENTABLE (truth), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (truth), 10);
  truth->printer = gtk_drop_down_new (NULL, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (truth->printer), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Printer"), -1);
  truth->state = hw_dialog_words (NULL);
  truth->forget = text_button (truth, _ ("Forget what was measured"), G_CALLBACK (forget_cb));
  truth->remember = text_button (truth, _ ("Remember these lengths"), G_CALLBACK (remember_cb));
  truth->trouble = hw_dialog_words (NULL);
  gtk_widget_add_css_class (truth->trouble, "trouble");
  gtk_widget_set_visible (truth->trouble, FALSE);

  gtk_box_append (GTK_BOX (truth), hw_captioned (_ ("Printer"), truth->printer));
  gtk_box_append (GTK_BOX (truth), truth->state);
  gtk_box_append (GTK_BOX (truth), truth->forget);
  step = hw_dialog_words (
      _ ("Few printers are quite true. Print the test sheet, measure its two lines with a ruler, and "
         "type what it says; from then on paper comes out true."));
  gtk_widget_add_css_class (step, "quiet");
  gtk_box_append (GTK_BOX (truth), step);
  gtk_box_append (GTK_BOX (truth),
                  hw_dialog_pair (text_button (truth, _ ("Print test sheet…"), G_CALLBACK (print_test_cb)),
                                  text_button (truth, _ ("Save it as PDF…"), G_CALLBACK (save_test_cb))));
  gtk_box_append (GTK_BOX (truth), hw_dialog_pair (length_field (truth, 0, _ ("Measured across")),
                                                   length_field (truth, 1, _ ("Measured down"))));
  gtk_box_append (GTK_BOX (truth), truth->remember);
  gtk_box_append (GTK_BOX (truth), truth->trouble);

  offer_printers (truth, last);
  g_signal_connect_swapped (truth->printer, "notify::selected", G_CALLBACK (printer_cb), truth);
  follow_lengths (truth);
  show_state (truth);
}

GtkWidget *
hw_printer_truth_new (void)
{
  return g_object_new (HW_TYPE_PRINTER_TRUTH, NULL);
}

void
hw_printer_truth_set_sheet (HwPrinterTruth *truth, const HwSheetSize *sheet, HwUnit unit)
{
  double lengths[2];

  g_return_if_fail (HW_IS_PRINTER_TRUTH (truth) && sheet != NULL);

  truth->sheet = sheet;
  truth->unit = unit;
  hw_test_sheet_lengths (sheet, unit, &lengths[0], &lengths[1]);
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *length = hw_length_text (lengths[i], unit);
      /* Translators: how long a line of the test sheet is drawn, above the field for how long it was measured */
      g_autofree char *caption = i == 0 ? g_strdup_printf (_ ("The %s across measured"), length)
                                        : g_strdup_printf (_ ("The %s down measured"), length);

      gtk_label_set_label (GTK_LABEL (truth->captions[i]), caption);
    }
}

const char *
hw_printer_truth_get_printer (HwPrinterTruth *truth)
{
  guint place;

  g_return_val_if_fail (HW_IS_PRINTER_TRUTH (truth), "");

  place = gtk_drop_down_get_selected (GTK_DROP_DOWN (truth->printer));
  return place < g_strv_length (truth->names) ? truth->names[place] : "";
}

void
hw_printer_truth_use_printer (HwPrinterTruth *truth, const char *printer, gboolean tested)
{
  g_autofree char *sentence = NULL;

  g_return_if_fail (HW_IS_PRINTER_TRUTH (truth) && printer != NULL);

  hw_settings_set_text (HW_SETTING_PRINTER, printer);
  offer_printers (truth, printer);
  show_state (truth);
  if (tested)
    sentence = *printer != '\0' ? g_strdup_printf (
                   _ ("The test sheet goes to %s. Measure its two lines and type the lengths here."), printer)
                                : g_strdup (_ ("Print the saved test sheet at 100 %, no fitting to the page; "
                                               "then measure its two lines."));
  tell (truth, sentence);
  gtk_widget_remove_css_class (truth->trouble, "trouble"); /* good news */
  g_signal_emit (truth, signals[CHANGED], 0);
}
