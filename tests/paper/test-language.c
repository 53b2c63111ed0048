/* Paper in a language and unit of its own, read back from the PDF: whatever the screen speaks, no sentence of it stays on the page. */
#include "geometry/language.h"

#include <string.h>

#include "formats/scene-file.h"
#include "garden.h"
#include "paper/table-lengths.h"
#include "paper/words.h"
#include "planning/planner.h"
#include "printed.h"
#include "registration/correction.h"

/* Asked by the leak sanitizer. Cairo 1.16 forgets one table of each font of the kind that Japanese is drawn in (CFF, keyed by CID) when it embeds the font
 * into a PDF: _cairo_array_grow_by, below cairo_surface_finish. A print of one line in that font, by cairo and Pango alone, loses the same 768 bytes. */
const char *
__lsan_default_suppressions (void);

const char *
__lsan_default_suppressions (void)
{
  return "leak:libcairo\n";
}

#define LEAST_LETTERS 12 /* of a piece of a sentence that is looked for */

/* All text of a print, its words set apart by single spaces. */
static char *
all_text (PopplerDocument *document)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (GStrv) words = NULL;

  for (int i = 0; i < poppler_document_get_n_pages (document); i++)
    {
      g_autofree char *page = printed_text (document, i);

      g_string_append_printf (text, "%s\n", page);
    }
  words = g_strsplit_set (text->str, " \n\t", -1);
  g_string_truncate (text, 0);
  for (guint i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0')
      g_string_append_printf (text, "%s ", words[i]);
  return g_strdup (text->str);
}

/* The wall garden with a motif that lies over the edge line and is scaled too far, planned for a screen in millimetres. */
static HwPlan *
troubled_plan (void)
{
  g_autofree char *path
      = g_test_build_filename (G_TEST_DIST, "..", "data", "demo", "walled-garden.hoopscene", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) scene = hw_scene_file_load (path, &error);
  HwPlanOptions options = { .seconds = 0.2, .unit = HW_UNIT_MM };
  HwPlanner *planner = hw_planner_new ();
  HwMotif *motif;
  HwPlan *plan;

  g_assert_no_error (error);
  motif = hw_motif_copy (hw_snapshot_motif (scene, 7));
  motif->placement.scale = 1.35;
  motif->placement.position.y -= 120;
  hw_motif_unref (scene->motifs->pdata[7]);
  scene->motifs->pdata[7] = motif;
  plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
  hw_planner_free (planner);
  return plan;
}

static char *
print_text (const HwPlan *plan, HwPaperKind kind, const char *language, HwUnit unit)
{
  HwPaperOptions options = { .kind = kind,
                             .sheet = hw_sheet_size_find ("A4"),
                             .unit = unit,
                             .sheet_margin = 10,
                             .tile_overlap = 10,
                             .language = language };
  g_autoptr (PopplerDocument) document = printed_with (plan, &options, NULL);

  return all_text (document);
}

/* The pieces between the figures and names of the program's own sentences, as its catalogue lists them. */
static GPtrArray *
sentence_pieces (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "po", "de.po", NULL), *text = NULL;
  g_autoptr (GRegex) joins = g_regex_new ("\"\\n\"", 0, 0, NULL);
  g_autoptr (GRegex) msgid = g_regex_new ("^msgid(?:_plural)? \"(.*)\"$", G_REGEX_MULTILINE, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  GPtrArray *pieces = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *joined = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  joined = g_regex_replace_literal (joins, text, -1, 0, "", 0, NULL);
  for (g_regex_match (msgid, joined, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    {
      g_autofree char *sentence = g_match_info_fetch (match, 1);
      g_auto (GStrv) parts = g_regex_split_simple ("%[-+'0-9.$]*[a-z]|\\\\n", sentence, 0, 0);

      for (guint i = 0; parts[i] != NULL; i++)
        {
          g_strstrip (parts[i]);
          if (strlen (parts[i]) >= LEAST_LETTERS && strchr (parts[i], ' ') != NULL
              && !g_str_equal (parts[i], "The Walled Garden")) /* the scene's own name, which stays */
            g_ptr_array_add (pieces, g_strdup (parts[i]));
        }
    }
  g_assert_cmpuint (pieces->len, >, 1000);
  return pieces;
}

static guint
count_pieces (const char *text, const GPtrArray *pieces, gboolean none)
{
  guint n = 0;

  for (guint i = 0; i < pieces->len; i++)
    if (strstr (text, pieces->pdata[i]) != NULL)
      {
        n++;
        if (none)
          g_test_message ("still there: %s", (const char *)pieces->pdata[i]);
      }
  return n;
}

/* A point between a figure and one or two digits is no German decimal sign; three digits after it are thousands. */
static void
assert_no_decimal_point (const char *text)
{
  g_autoptr (GRegex) licence = g_regex_new ("CC0 1\\.0", 0, 0, NULL);
  g_autofree char *own = g_regex_replace_literal (licence, text, -1, 0, "", 0, NULL);

  g_assert_false (g_regex_match_simple ("[0-9]\\.[0-9]{1,2}(?![0-9])", own, 0, 0));
}

/* Words a paper must hold. */
typedef struct
{
  HwPaperKind kind;
  const char *words[4];
} Told;

/* Every paper says its words, and nothing in English. point: whether the language's decimal sign is a point */
static void
assert_speaks (const char *language, const Told *told, guint n_told, gboolean point)
{
  g_autoptr (HwPlan) troubled = troubled_plan (), garden = garden_plan ();
  g_autoptr (GPtrArray) pieces = sentence_pieces ();

  for (guint i = 0; i < n_told; i++)
    {
      const HwPlan *plan = told[i].kind == HW_PAPER_BENCH_SHEET ? troubled : garden;
      g_autofree char *text = print_text (plan, told[i].kind, language, HW_UNIT_MM);

      for (guint k = 0; k < G_N_ELEMENTS (told[i].words) && told[i].words[k] != NULL; k++)
        if (strstr (text, told[i].words[k]) == NULL)
          g_error ("\"%s\" is missing in: %s", told[i].words[k], text);
      g_assert_cmpuint (count_pieces (text, pieces, TRUE), ==, 0);
      if (!point)
        assert_no_decimal_point (text);
    }
}

static void
test_german (void)
{
  static const Told told[] = {
    { HW_PAPER_BENCH_SHEET, { "7 Einspannungen", "Garne der Reihe nach", "Am Tisch", "Vor dem Zeichnen" } },
    { HW_PAPER_TEMPLATES, { "vor dem ersten Stich abnehmen", "Vorlage 1 von 5" } },
    { HW_PAPER_LAYOUT, { "Auslegeplan" } },
    { HW_PAPER_HOOPING_TEMPLATES, { "Stickfeld", "Zielringen durchstechen" } },
    { HW_PAPER_TEST_SHEET, { "Druckt dieser Drucker in wahrer Gr\303\266\303\237e?" } },
  };

  assert_speaks ("de", told, G_N_ELEMENTS (told), FALSE);
}

static void
test_french (void)
{
  static const Told told[] = {
    { HW_PAPER_BENCH_SHEET, { "7 mises en cadre", "Fils dans l’ordre", "À la table", "Avant de tracer" } },
    { HW_PAPER_TEMPLATES, { "avant le premier point", "gabarit 1 sur 5" } },
    { HW_PAPER_LAYOUT, { "Dessin d’ensemble" } },
    { HW_PAPER_HOOPING_TEMPLATES, { "champ", "Percez aux croix et aux cibles" } },
    { HW_PAPER_TEST_SHEET, { "Cette imprimante est-elle à l’échelle" } },
  };
  g_autoptr (HwPlan) stitched = garden_plan_stitched ();
  g_autofree char *log = print_text (stitched, HW_PAPER_DAY_LOG, "fr", HW_UNIT_MM);

  assert_speaks ("fr", told, G_N_ELEMENTS (told), FALSE);
  g_assert_nonnull (strstr (log, "mercredi 25 novembre 2026"));
}

static void
test_spanish (void)
{
  static const Told told[] = {
    { HW_PAPER_BENCH_SHEET, { "7 montajes", "Hilos por orden", "En la mesa", "izquierda" } },
    { HW_PAPER_TEMPLATES, { "antes de la primera puntada", "plantilla 1 de 5" } },
    { HW_PAPER_LAYOUT, { "Plano de conjunto" } },
    { HW_PAPER_HOOPING_TEMPLATES, { "campo", "Pinche en las cruces" } },
    { HW_PAPER_TEST_SHEET, { "¿Imprime esta impresora a tamaño real?" } },
  };
  g_autoptr (HwPlan) garden = garden_plan (), stitched = garden_plan_stitched ();
  g_autofree char *sheet = print_text (garden, HW_PAPER_BENCH_SHEET, "es", HW_UNIT_INCH);
  g_autofree char *log = print_text (stitched, HW_PAPER_DAY_LOG, "es", HW_UNIT_MM);

  assert_speaks ("es", told, G_N_ELEMENTS (told), FALSE);
  g_assert_nonnull (strstr (sheet, "° antihorario"));
  g_assert_nonnull (strstr (log, "miércoles, 25 de noviembre de 2026"));
}

/* A column of directions is as wide as the longest of them, whatever it was before. */
static void
test_long_directions (void)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR, NULL);
  cairo_t *cr = cairo_create (surface);
  HwWriter writer = { .measure = cr };
  HwLettering how = { .size = HW_TYPE_TEXT };
  const HwLanguage *before = hw_language_enter (hw_language_open ("es", NULL));
  double word;

  hw_letter_measure (cr, &how, "izquierda", &word, NULL);
  g_assert_cmpfloat (word, >, 11);
  g_assert_cmpfloat_with_epsilon (hw_table_way_width (&writer, FALSE, 11), word, 0.01);
  g_assert_cmpfloat_with_epsilon (hw_table_way_width (&writer, FALSE, 100), 100, 0.01);
  hw_language_leave (before);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
test_day_log (void)
{
  g_autoptr (HwPlan) plan = garden_plan_stitched ();
  g_autofree char *german = print_text (plan, HW_PAPER_DAY_LOG, "de", HW_UNIT_MM);

  g_assert_nonnull (strstr (german, "Tagebuch"));
  g_assert_nonnull (strstr (german, "Mittwoch, 25. November 2026"));
  g_assert_nonnull (strstr (german, "Ablesungen und Korrekturen"));
}

/* A language without spaces between words, with one form for every number. Its letters are the stand-in's for the typeface of the paper. */
static void
test_japanese (void)
{
  static const Told told[] = {
    { HW_PAPER_BENCH_SHEET, { "枠張り7回", "糸（使う順）", "機械で", "描く前に" } },
    { HW_PAPER_TEMPLATES, { "この型紙を外してください", "型紙1／5" } },
    { HW_PAPER_LAYOUT, { "配置図" } },
    { HW_PAPER_HOOPING_TEMPLATES, { "刺しゅう範囲", "針で穴をあけて" } },
    { HW_PAPER_TEST_SHEET, { "プリンターは実物大に印刷しますか？" } },
  };
  g_autoptr (HwPlan) stitched = garden_plan_stitched ();
  g_autofree char *log = print_text (stitched, HW_PAPER_DAY_LOG, "ja", HW_UNIT_MM);

  assert_speaks ("ja", told, G_N_ELEMENTS (told), TRUE);
  g_assert_nonnull (strstr (log, "2026年11月25日（水曜日）"));
}

/* What there is to look at was said when the plan was made, in the screen's language and unit. */
static void
test_problems (void)
{
  g_autoptr (HwPlan) plan = troubled_plan (), again = NULL;
  g_autofree char *text = print_text (plan, HW_PAPER_BENCH_SHEET, "de", HW_UNIT_INCH);
  const HwLanguage *before = hw_language_enter (hw_language_open ("de", NULL));

  again = hw_plan_said_again (plan, HW_UNIT_INCH);
  hw_language_leave (before);
  g_assert_cmpuint (again->problems->len, >=, 2);
  for (guint i = 0; i < again->problems->len; i++)
    {
      const char *own = ((const HwProblem *)again->problems->pdata[i])->text;

      if (strstr (text, own) == NULL)
        g_error ("\"%s\" is missing in: %s", own, text);
    }
  g_assert_nonnull (strstr (text, again->proof));
  g_assert_nonnull (strstr (text, " in über die Randlinie hinaus (oben)"));
}

/* Printing leaves the screen's words as they are; and pieces of them are found where they are. */
static void
test_screen_stays (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (GPtrArray) pieces = sentence_pieces ();
  g_autofree char *before = print_text (plan, HW_PAPER_BENCH_SHEET, NULL, HW_UNIT_MM);
  g_autofree char *german = print_text (plan, HW_PAPER_BENCH_SHEET, "de", HW_UNIT_INCH);
  g_autofree char *after = print_text (plan, HW_PAPER_BENCH_SHEET, NULL, HW_UNIT_MM);
  g_autofree char *english = print_text (plan, HW_PAPER_BENCH_SHEET, "en", HW_UNIT_MM);

  g_assert_cmpuint (count_pieces (before, pieces, FALSE), >, 20);
  g_assert_cmpstr (before, ==, after);
  g_assert_cmpstr (before, !=, german);
  g_assert_nonnull (strstr (english, "Marks to draw before you start"));
  g_assert_null (hw_language_now ());
}

/* A degree and a half is several in English, German and Spanish and not yet two in French (Unicode CLDR, Language Plural Rules). */
static void
test_degrees (void)
{
  static const struct
  {
    const char *language;
    double turn;
    const char *words;
  } all[] = {
    { "en", 1.5, "1.5 degrees" }, { "en", 1, "1 degree " }, { "en", 2.5, "2.5 degrees" },
    { "fr", 1.5, "1,5 degré " },  { "fr", 1, "1 degré " },  { "fr", 2.5, "2,5 degrés " },
    { "es", 1.5, "1,5 grados " }, { "es", 1, "1 grado " },  { "es", 2.5, "2,5 grados " },
    { "de", 1.5, "1,5 Grad " },   { "ja", 1.5, "1.5" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      const HwLanguage *before = hw_language_enter (hw_language_open (all[i].language, NULL));
      HwCorrection correction = { .turn = all[i].turn };
      g_autofree char *text = hw_correction_text (&correction, HW_UNIT_MM);

      hw_language_leave (before);
      if (strstr (text, all[i].words) == NULL)
        g_error ("\"%s\" is missing in: %s", all[i].words, text);
    }
}

/* A job that cannot be laid out is told of on the screen, in its language. */
static void
test_errors (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (GError) unknown = NULL, small = NULL;
  HwSheetSize sheet = { "stamp", 40, 40 };
  HwPaperOptions options
      = { .kind = HW_PAPER_BENCH_SHEET, .sheet = &sheet, .sheet_margin = 10, .language = "de" };

  g_assert_null (hw_print_job_new (plan, &options, &small));
  g_assert_error (small, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET);
  g_assert_nonnull (strstr (small->message, "is too small for the bench sheet"));
  options.language = "tlh";
  g_assert_null (hw_print_job_new (plan, &options, &unknown));
  g_assert_error (unknown, HW_LANGUAGE_ERROR, HW_LANGUAGE_ERROR_UNKNOWN);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  hw_language_set_folder (g_getenv ("HOOPWRIGHT_CATALOGUE_DIR"));
  g_test_add_func ("/paper/language/german", test_german);
  g_test_add_func ("/paper/language/french", test_french);
  g_test_add_func ("/paper/language/day-log", test_day_log);
  g_test_add_func ("/paper/language/japanese", test_japanese);
  g_test_add_func ("/paper/language/spanish", test_spanish);
  g_test_add_func ("/paper/language/long-directions", test_long_directions);
  g_test_add_func ("/paper/language/problems", test_problems);
  g_test_add_func ("/paper/language/screen-stays", test_screen_stays);
  g_test_add_func ("/paper/language/degrees", test_degrees);
  g_test_add_func ("/paper/language/errors", test_errors);
  return g_test_run ();
}
