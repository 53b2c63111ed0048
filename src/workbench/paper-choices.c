/* The choices of the paper dialog: first the paper and its sheet, the rarer ones folded below. What is chosen is remembered; but templates for the back
 * of the cloth are asked for each time, since one laid on the right side would put a motif the wrong way round. */
#include "paper-choices.h"

#include "../geometry/language.h"
#include "dialog.h"
#include "measure-field.h"
#include "section.h"
#include "settings.h"

#define SHEET_MARGIN 10 /* mm */
#define TILE_OVERLAP 10 /* mm */

/* As they are listed; what is remembered is the place in HwPaperKind. */
static const HwPaperKind listed[] = { HW_PAPER_TEMPLATES, HW_PAPER_HOOPING_TEMPLATES, HW_PAPER_LAYOUT,
                                      HW_PAPER_BENCH_SHEET, HW_PAPER_DAY_LOG };
#define N_LISTED G_N_ELEMENTS (listed)

struct _HwPaperChoices
{
  GtkBox parent_instance;

  GtkWidget *kinds[N_LISTED];
  GtkWidget *sheet;
  GtkWidget *unit; /* as in the window, then HwUnit */
  GtkWidget *part; /* the whole plan, then the parts */
  GtkWidget *part_choice;
  GtkWidget *look;
  GtkWidget *looks; /* all that is about templates */
  GtkWidget *nested;
  GtkWidget *mirrored;
  GtkWidget *language;  /* as in the window, then languages */
  GPtrArray *languages; /* HwLanguage */
};

G_DEFINE_FINAL_TYPE (HwPaperChoices, hw_paper_choices, GTK_TYPE_BOX)

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static HwPaperKind
kind_of (HwPaperChoices *choices)
{
  for (guint i = 0; i < N_LISTED; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->kinds[i])))
      return listed[i];
  return HW_PAPER_TEMPLATES;
}

static const HwSheetSize *
sheet_of (HwPaperChoices *choices)
{
  return &hw_sheet_sizes ()[gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->sheet))];
}

/* NULL: as in the window */
static const char *
language_of (HwPaperChoices *choices)
{
  guint place = gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->language));

  return place > 0 && place <= choices->languages->len
             ? hw_language_code (g_ptr_array_index (choices->languages, place - 1))
             : NULL;
}

static void
follow_kind (HwPaperChoices *choices)
{
  HwPaperKind kind = kind_of (choices);
  gboolean templates = kind == HW_PAPER_TEMPLATES || kind == HW_PAPER_HOOPING_TEMPLATES;

  gtk_widget_set_sensitive (choices->looks, templates);
  gtk_widget_set_visible (choices->nested, kind == HW_PAPER_TEMPLATES);
}

static void
remember (HwPaperChoices *choices)
{
  static const char *const units[] = { "", "mm", "in" };

  hw_settings_set_place (HW_SETTING_PAPER_KIND, kind_of (choices));
  hw_settings_set_text (HW_SETTING_PAPER, sheet_of (choices)->name);
  hw_settings_set_text (
      HW_SETTING_PAPER_UNIT,
      units[gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->unit)) % G_N_ELEMENTS (units)]);
  hw_settings_set_place (HW_SETTING_PAPER_LOOK, gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->look)));
  hw_settings_set_flag (HW_SETTING_PAPER_NESTED,
                        gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->nested)));
  hw_settings_set_text (HW_SETTING_PAPER_LANGUAGE,
                        language_of (choices) != NULL ? language_of (choices) : "");
}

static void
changed_cb (HwPaperChoices *choices)
{
  follow_kind (choices);
  remember (choices);
  g_signal_emit (choices, signals[CHANGED], 0);
}

/* One goes off where another goes on. */
static void
kind_cb (GtkCheckButton *check, HwPaperChoices *choices)
{
  if (gtk_check_button_get_active (check))
    changed_cb (choices);
}

static const char *
kind_sentence (HwPaperKind kind)
{
  switch (kind)
    {
    case HW_PAPER_TEMPLATES:
      return _ ("Each motif at true size with its cross mark, to cut out and lay on the cloth.");
    case HW_PAPER_HOOPING_TEMPLATES:
      return _ ("All that one hooping stitches, in its field, with the marks to prick through.");
    case HW_PAPER_LAYOUT:
      return _ ("The whole picture at true size, to join from sheets.");
    case HW_PAPER_BENCH_SHEET:
      return _ ("The marks to draw, then what to do at the machine, hooping by hooping.");
    case HW_PAPER_DAY_LOG:
      return _ ("What happened at the machine, with readings and corrections.");
    case HW_PAPER_TEST_SHEET:
    default:
      g_return_val_if_reached ("");
    }
}

static GtkWidget *
kind_choice (HwPaperChoices *choices, guint i)
{
  GtkWidget *check = gtk_check_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *label = gtk_label_new (hw_paper_kind_words (listed[i]));
  GtkWidget *more = hw_dialog_words (kind_sentence (listed[i]));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "card-title");
  gtk_widget_add_css_class (more, "quiet");
  gtk_label_set_max_width_chars (GTK_LABEL (more), 40);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), more);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (check), box);
  gtk_widget_add_css_class (check, "choice");
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  hw_paper_kind_words (listed[i]), -1);
  if (i > 0)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (check), GTK_CHECK_BUTTON (choices->kinds[0]));
  choices->kinds[i] = check;
  return check;
}

static GtkWidget *
choice_of (const char *label, const char *const *names, guint chosen)
{
  GtkWidget *choice = gtk_drop_down_new_from_strings (names);

  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), chosen);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return choice;
}

static GtkWidget *
sheet_choice (void)
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
  return choice_of (_ ("Paper size"), (const char *const *)names, chosen);
}

static GtkWidget *
unit_choice (void)
{
  const char *const names[] = { _ ("As in the window"), _ ("Millimetres"), _ ("Inches"), NULL };
  g_autofree char *remembered = hw_settings_get_text (HW_SETTING_PAPER_UNIT);

  return choice_of (_ ("Lengths in"), names,
                    g_str_equal (remembered, "mm")   ? 1 + HW_UNIT_MM
                    : g_str_equal (remembered, "in") ? 1 + HW_UNIT_INCH
                                                     : 0);
}

static GtkWidget *
language_choice (HwPaperChoices *choices)
{
  g_autofree char *remembered = hw_settings_get_text (HW_SETTING_PAPER_LANGUAGE);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  guint chosen = 0;

  choices->languages = hw_language_list ();
  g_strv_builder_add (builder, _ ("As in the window"));
  for (guint i = 0; i < choices->languages->len; i++)
    {
      const HwLanguage *language = g_ptr_array_index (choices->languages, i);

      g_strv_builder_add (builder, hw_language_name (language));
      if (g_str_equal (hw_language_code (language), remembered))
        chosen = i + 1;
    }
  g_auto (GStrv) names = g_strv_builder_end (builder);
  return choice_of (_ ("Language of the paper"), (const char *const *)names, chosen);
}

static GtkWidget *
look_choices (HwPaperChoices *choices)
{
  const char *const names[] = { _ ("Artwork, pale"), _ ("Outline alone"), _ ("Every stitch"), NULL };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  choices->look
      = choice_of (_ ("Templates show"), names, MIN (hw_settings_get_place (HW_SETTING_PAPER_LOOK), 2));
  choices->nested = gtk_check_button_new_with_label (_ ("Several small ones share a sheet"));
  choices->mirrored = gtk_check_button_new_with_label (_ ("For the back of the cloth, mirrored"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choices->nested),
                               hw_settings_get_flag (HW_SETTING_PAPER_NESTED, FALSE));
  gtk_box_append (GTK_BOX (box), hw_captioned (_ ("Templates show"), choices->look));
  gtk_box_append (GTK_BOX (box), choices->nested);
  gtk_box_append (GTK_BOX (box), choices->mirrored);
  return box;
}

static GtkWidget *
rare_choices (HwPaperChoices *choices)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *section, *speaks;

  choices->looks = look_choices (choices);
  choices->unit = unit_choice ();
  choices->language = language_choice (choices);
  speaks = hw_captioned (_ ("Language of the paper"), choices->language);
  gtk_widget_set_visible (speaks, choices->languages->len > 1);
  gtk_box_append (GTK_BOX (box), choices->looks);
  gtk_box_append (GTK_BOX (box), hw_captioned (_ ("Lengths in"), choices->unit));
  gtk_box_append (GTK_BOX (box), speaks);
  gtk_widget_add_css_class (box, "section-content");
  section = hw_section_new (_ ("Looks, lengths and language"), box);
  hw_section_set_open (HW_SECTION (section), FALSE);
  return section;
}

static void
choose_remembered (HwPaperChoices *choices)
{
  guint remembered = hw_settings_get_place (HW_SETTING_PAPER_KIND), chosen = 0;

  for (guint i = 0; i < N_LISTED; i++)
    if (listed[i] == remembered)
      chosen = i;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choices->kinds[chosen]), TRUE);
  follow_kind (choices);
}

static void
listen (HwPaperChoices *choices)
{
  GtkWidget *const chosen[]
      = { choices->sheet, choices->unit, choices->part, choices->look, choices->language };

  for (guint i = 0; i < N_LISTED; i++)
    g_signal_connect (choices->kinds[i], "toggled", G_CALLBACK (kind_cb), choices);
  for (guint i = 0; i < G_N_ELEMENTS (chosen); i++)
    g_signal_connect_swapped (chosen[i], "notify::selected", G_CALLBACK (changed_cb), choices);
  g_signal_connect_swapped (choices->nested, "toggled", G_CALLBACK (changed_cb), choices);
  g_signal_connect_swapped (choices->mirrored, "toggled", G_CALLBACK (changed_cb), choices);
}

static void
hw_paper_choices_finalize (GObject *object)
{
  g_clear_pointer (&HW_PAPER_CHOICES (object)->languages, g_ptr_array_unref);
  G_OBJECT_CLASS (hw_paper_choices_parent_class)->finalize (object);
}

static void
hw_paper_choices_class_init (HwPaperChoicesClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_paper_choices_finalize;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
hw_paper_choices_init (HwPaperChoices *choices)
{
  const char *const whole[] = { _ ("The whole plan"), NULL };

  gtk_orientable_set_orientation (GTK_ORIENTABLE (choices), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (choices), 10);
  for (guint i = 0; i < N_LISTED; i++)
    gtk_box_append (GTK_BOX (choices), kind_choice (choices, i));
  choices->sheet = sheet_choice ();
  choices->part = choice_of (_ ("What of the plan"), whole, 0);
  choices->part_choice = hw_captioned (_ ("What of the plan"), choices->part);
  gtk_box_append (GTK_BOX (choices), hw_captioned (_ ("Paper"), choices->sheet));
  gtk_box_append (GTK_BOX (choices), choices->part_choice);
  gtk_box_append (GTK_BOX (choices), rare_choices (choices));
  choose_remembered (choices);
  listen (choices);
}

GtkWidget *
hw_paper_choices_new (void)
{
  return g_object_new (HW_TYPE_PAPER_CHOICES, NULL);
}

void
hw_paper_choices_offer_parts (HwPaperChoices *choices, const HwSnapshot *snapshot)
{
  const GPtrArray *parts = snapshot->parts;
  GtkStringList *names;
  guint n, chosen;
  gboolean same;

  g_return_if_fail (HW_IS_PAPER_CHOICES (choices));

  names = GTK_STRING_LIST (gtk_drop_down_get_model (GTK_DROP_DOWN (choices->part)));
  n = g_list_model_get_n_items (G_LIST_MODEL (names));
  same = n == parts->len + 1;
  for (guint p = 0; p < parts->len && same; p++)
    same = g_str_equal (gtk_string_list_get_string (names, p + 1), ((const HwPart *)parts->pdata[p])->name);
  gtk_widget_set_visible (choices->part_choice, parts->len > 0);
  if (same)
    return;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  for (guint p = 0; p < parts->len; p++)
    g_strv_builder_add (builder, ((const HwPart *)parts->pdata[p])->name);
  g_auto (GStrv) fresh = g_strv_builder_end (builder);
  chosen = gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->part));
  g_signal_handlers_block_by_func (choices->part, changed_cb, choices);
  gtk_string_list_splice (names, 1, n - 1, (const char *const *)fresh);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choices->part), chosen <= parts->len ? chosen : 0);
  g_signal_handlers_unblock_by_func (choices->part, changed_cb, choices);
}

void
hw_paper_choices_use_sheet (HwPaperChoices *choices, const char *name)
{
  const HwSheetSize *sizes = hw_sheet_sizes ();

  g_return_if_fail (HW_IS_PAPER_CHOICES (choices));
  g_return_if_fail (name != NULL);

  for (guint i = 0; sizes[i].name != NULL; i++)
    if (g_str_equal (sizes[i].name, name))
      gtk_drop_down_set_selected (GTK_DROP_DOWN (choices->sheet), i);
}

void
hw_paper_choices_read (HwPaperChoices *choices, HwUnit unit, HwPaperOptions *options)
{
  guint own_unit;

  g_return_if_fail (HW_IS_PAPER_CHOICES (choices) && options != NULL);

  own_unit = gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->unit));
  *options = (HwPaperOptions){
    .kind = kind_of (choices),
    .sheet = sheet_of (choices),
    .unit = own_unit > 0 ? (HwUnit)(own_unit - 1) : unit,
    .sheet_margin = SHEET_MARGIN,
    .tile_overlap = TILE_OVERLAP,
    .part = gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->part)),
    .look = (HwTemplateLook)gtk_drop_down_get_selected (GTK_DROP_DOWN (choices->look)),
    .mirrored = gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->mirrored)),
    .language = language_of (choices),
  };
  options->nested = options->kind == HW_PAPER_TEMPLATES
                    && gtk_check_button_get_active (GTK_CHECK_BUTTON (choices->nested));
}
