/* hoopwright outline: what is drawn in a file of artwork, how large it is, and where its edge runs. */
#include "command-scene.h"

#include "../geometry/language.h"
#include "../formats/artwork-json.h"

#define GREATEST_PAGE 1000000

typedef struct
{
  gboolean help;
  gboolean keep_paper;
  char *page;
  char *pixels_per_mm;
  char **rest;
} Words;

static void
words_clear (Words *words)
{
  g_free (words->page);
  g_free (words->pixels_per_mm);
  g_strfreev (words->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, words_clear)

static GOptionContext *
make_context (Words *words)
{
  const GOptionEntry entries[] = {
    { "page", 'n', 0, G_OPTION_ARG_STRING, &words->page, N_ ("The page of a PDF (1)"), N_ ("N") },
    { "pixels-per-mm", 'x', 0, G_OPTION_ARG_STRING, &words->pixels_per_mm,
      N_ ("How fine a PNG or JPEG is, where it does not say so itself"), N_ ("X") },
    { "keep-paper", 'k', 0, G_OPTION_ARG_NONE, &words->keep_paper,
      N_ ("Count the paper's colour as part of the motif"), NULL },
    { "help", 'h', 0, G_OPTION_ARG_NONE, &words->help, N_ ("Show this help"), NULL },
    { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &words->rest, NULL, NULL },
    { NULL },
  };
  GOptionContext *context = g_option_context_new (_ ("ARTWORK"));

  /* Help of one's own: GLib's would end the program itself. */
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_summary (
      context,
      _ ("Finds the outline of a motif in a file of artwork, and prints it as JSON in millimetres."));
  g_option_context_set_description (
      context,
      _ ("ARTWORK is a needle list (CSV), an SVG, PNG or JPEG picture, or a PDF. What is clear or has "
         "the paper's colour is left out. It ends with 0 when there is an outline, and with 2 when "
         "the input cannot be used."));
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  return context;
}

static gboolean
read_wishes (const Words *words, HwArtworkWishes *wishes)
{
  char *end = NULL;

  wishes->transparent_only = words->keep_paper;
  if (words->page != NULL)
    {
      guint64 page;

      if (!g_ascii_string_to_unsigned (words->page, 10, 1, GREATEST_PAGE, &page, NULL))
        {
          hw_command_complain (_ ("--page: expected the number of a page, found \"%s\"."), words->page);
          return FALSE;
        }
      wishes->page = (guint)page;
    }
  if (words->pixels_per_mm == NULL)
    return TRUE;
  wishes->pixels_per_mm = g_ascii_strtod (words->pixels_per_mm, &end);
  if (end != words->pixels_per_mm && *end == '\0' && wishes->pixels_per_mm > 0
      && wishes->pixels_per_mm < G_MAXDOUBLE)
    return TRUE;
  hw_command_complain (_ ("--pixels-per-mm: expected a number above 0, found \"%s\"."), words->pixels_per_mm);
  return FALSE;
}

/* FALSE when there is nothing more to do. */
static gboolean
read_line (Words *words, int argc, char **argv, int *status)
{
  g_autoptr (GOptionContext) context = make_context (words);
  guint n;

  if (!hw_command_parse (context, &words->help, argc, argv, status))
    return FALSE;
  n = words->rest != NULL ? g_strv_length (words->rest) : 0;
  if (n == 1)
    return TRUE;
  hw_command_complain (
      _ ("outline: name one file of artwork, found %u. hoopwright outline --help says more."), n);
  return FALSE;
}

int
hw_command_outline (int argc, char **argv)
{
  g_auto (Words) words = { 0 };
  HwArtworkWishes wishes = { 0 };
  g_autoptr (HwArtwork) artwork = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  int status;

  if (!read_line (&words, argc, argv, &status))
    return status;
  if (!read_wishes (&words, &wishes))
    return HW_EXIT_BAD;
  artwork = hw_artwork_load (words.rest[0], &wishes, &error);
  if (artwork == NULL)
    return hw_command_complain ("%s", error->message);
  text = hw_artwork_json_text (artwork);
  return hw_command_output (text, HW_EXIT_PLANNED);
}
