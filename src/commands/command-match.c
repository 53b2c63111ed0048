/* hoopwright match: the threads of a scene beside the person's own, and what must be bought. */
#include "command-scene.h"

#include "../geometry/language.h"
#include "../formats/match-json.h"
#include "../formats/palette-csv.h"

typedef struct
{
  gboolean help;
  char **rest;
} Words;

static void
words_clear (Words *words)
{
  g_strfreev (words->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, words_clear)

static GOptionContext *
make_context (Words *words)
{
  const GOptionEntry entries[]
      = { { "help", 'h', 0, G_OPTION_ARG_NONE, &words->help, N_ ("Show this help"), NULL },
          { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &words->rest, NULL, NULL },
          { NULL } };
  g_autofree char *files = g_strdup_printf ("%s %s", _ ("SCENE"), _ ("THREADS.csv"));
  GOptionContext *context = g_option_context_new (files);

  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_summary (context,
                                _ ("Matches the threads of a scene with those at hand, and prints as JSON "
                                   "the nearest three of each, how far off "
                                   "their colours are, and what must be bought."));
  g_option_context_set_description (
      context, _ ("THREADS.csv has a header row and the columns name, number, colour "
                  "(#rrggbb) or lightness, a and b (CIELAB), "
                  "and metres left; name and a colour are enough. Differences are "
                  "CIEDE2000. A thread at hand serves when it "
                  "differs by less than 5. Metres follow from the stitches where they are known, "
                  "else 5 m of needle thread are reckoned to 1000 of them, the usual figure of "
                  "the trade; bobbin thread comes on top. What is stitched already needs "
                  "none. It ends with 0 when there is an "
                  "answer, and with 2 when the input cannot be used."));
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  return context;
}

/* It plans nothing and speaks of no lengths of the cloth, so it has no time and no unit. FALSE when there is nothing more to do. */
static gboolean
read_line (HwCommandLine *line, int argc, char **argv, int *status)
{
  g_auto (Words) words = { 0 };
  g_autoptr (GOptionContext) context = make_context (&words);
  guint n;

  if (!hw_command_parse (context, &words.help, argc, argv, status))
    return FALSE;
  n = words.rest != NULL ? g_strv_length (words.rest) : 0;
  if (n != 2)
    {
      hw_command_complain (_ ("%s: name the scene file and %s, found %u. hoopwright %s --help says more."),
                           argv[0], _ ("THREADS.csv"), n, argv[0]);
      return FALSE;
    }
  line->scene = g_strdup (words.rest[0]);
  line->second = g_strdup (words.rest[1]);
  return TRUE;
}

int
hw_command_match (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_autoptr (HwSnapshot) snapshot = NULL;
  g_autoptr (GPtrArray) palette = NULL;
  g_autoptr (GPtrArray) needs = NULL;
  g_autoptr (GPtrArray) purchases = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  int status;

  if (!read_line (&line, argc, argv, &status))
    return status;
  snapshot = hw_command_load (&line);
  if (snapshot == NULL)
    return HW_EXIT_BAD;
  palette = hw_palette_csv_load (line.second, &error);
  if (palette == NULL)
    return hw_command_complain ("%s", error->message);
  needs = hw_thread_needs (snapshot, palette);
  purchases = hw_thread_purchases (needs, palette);
  text = hw_match_json_text (needs, purchases, palette);
  return hw_command_output (text, HW_EXIT_PLANNED);
}
