/* The headless commands: which there are, and what the program says of itself. */
#include "commands.h"

#include <string.h>

#include "command-scene.h"
#include "../geometry/language.h"

static const struct
{
  const char *name;
  int (*run) (int argc, char **argv);
  const char *summary;
} commands[] = {
  { "plan", hw_command_plan, N_ ("Plan the hoopings and print the plan as JSON") },
  { "templates", hw_command_templates, N_ ("Write the true-size paper templates as a PDF") },
  { "sheet", hw_command_sheet, N_ ("Write the bench sheet as a PDF") },
  { "needles", hw_command_needles, N_ ("Write the needle list of a hooping as CSV or SVG") },
  { "lists", hw_command_lists, N_ ("Write hoopings, threads, marks and what to buy as CSV") },
  { "supplies", hw_command_supplies,
    N_ ("Print what the plan takes of thread, stabiliser and cloth as JSON") },
  { "picture", hw_command_picture, N_ ("Write the plan as a picture, PNG or SVG") },
  { "check", hw_command_check, N_ ("Say in sentences how the scene can be stitched") },
  { "correct", hw_command_correct, N_ ("Work out what to enter at the machine from needle readings") },
  { "follow", hw_command_follow, N_ ("Work out how the cloth drew in, and let the scene follow it") },
  { "square", hw_command_square, N_ ("Find how a photo lies on the cloth, and put it square") },
  { "match", hw_command_match, N_ ("Match the scene's threads with those at hand") },
  { "outline", hw_command_outline, N_ ("Find the outline of a motif in a picture, drawing or list") },
};

static gboolean
is_help (const char *word)
{
  return g_str_equal (word, "--help") || g_str_equal (word, "-h");
}

/* A scene to open: a file that is there, or the address of one. */
static gboolean
is_file (const char *word)
{
  return strstr (word, "://") != NULL || g_file_test (word, G_FILE_TEST_EXISTS);
}

gboolean
hw_commands_wanted (int argc, char **argv)
{
  const char *word;

  if (argc < 2)
    return FALSE;
  word = argv[1];
  if (is_help (word) || g_str_equal (word, "--version"))
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      if (g_str_equal (word, commands[i].name))
        return TRUE;
    }
  /* Neither a command nor a file: better one line here than a window that cannot say what was meant. */
  return word[0] != '-' && !is_file (word);
}

static int
print_help (void)
{
  g_print ("%s\n  hoopwright [%s…]\n  hoopwright %s [%s…] %s\n\n", _ ("Usage:"), _ ("SCENE"), _ ("COMMAND"),
           _ ("OPTION"), _ ("SCENE"));
  g_print ("%s\n\n%s\n", _ ("Without a command the workbench opens. The commands need no display:"),
           _ ("Commands:"));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    g_print ("  %-12s %s\n", commands[i].name, _ (commands[i].summary));
  g_print ("\n%s\n  --new-scene  %s\n  --open-scene %s\n  --help       %s\n  --version    %s\n\n%s\n",
           _ ("Options:"), _ ("Open the workbench on a new scene"),
           _ ("Open the workbench and ask for a scene"), _ ("Show this help"), _ ("Show the version"),
           _ ("hoopwright COMMAND --help says more about a command."));
  return 0;
}

int
hw_commands_run (int argc, char **argv)
{
  g_return_val_if_fail (argc >= 2, HW_EXIT_BAD);

  if (is_help (argv[1]))
    return print_help ();
  if (g_str_equal (argv[1], "--version"))
    {
      g_print ("Hoopwright %s\n", HW_VERSION);
      return 0;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      if (g_str_equal (argv[1], commands[i].name))
        return commands[i].run (argc - 1, argv + 1);
    }
  return hw_command_complain (
      _ ("\"%s\" is neither a command nor a file that exists. hoopwright --help names the commands."),
      argv[1]);
}
