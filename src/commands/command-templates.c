/* hoopwright templates: one true-size template for each motif, or with --layout the whole scene at true size. */
#include "commands.h"

#include "command-paper.h"
#include "../geometry/language.h"

int
hw_command_templates (int argc, char **argv)
{
  const HwOtherPaper layout
      = { "layout", HW_PAPER_LAYOUT,
          N_ ("Instead of the templates, the whole scene at true size, spread over pages") };

  return hw_command_print (
      argc, argv, HW_PAPER_TEMPLATES, &layout,
      _ ("Writes a template for each motif at its true size, as a PDF."),
      _ ("Print it without fitting it to the page, and lay a ruler on the bar at the foot of the "
         "sheet before you cut."));
}
