/* hoopwright match: the threads of a scene beside the person's own, and what must be bought. */
#include "command-scene.h"

#include "../geometry/language.h"
#include "../formats/match-json.h"
#include "../formats/palette-csv.h"

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

  if (!hw_command_line_read_two (&line, argc, argv, _ ("THREADS.csv"), NULL,
                                 _ ("Matches the threads of a scene with those at hand, and prints as JSON "
                                    "the nearest three of each, how far off "
                                    "their colours are, and what must be bought."),
                                 _ ("THREADS.csv has a header row and the columns name, number, colour "
                                    "(#rrggbb) or lightness, a and b (CIELAB), "
                                    "and metres left; name and a colour are enough. Differences are "
                                    "CIEDE2000. A thread at hand serves when it "
                                    "differs by less than 5. Metres are reckoned at 5 m of needle thread to "
                                    "1000 stitches, the usual figure of "
                                    "the trade; bobbin thread comes on top. What is stitched already needs "
                                    "none. It ends with 0 when there is an "
                                    "answer, and with 2 when the input cannot be used."),
                                 &status))
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
