/* hoopwright templates: one true-size template for each motif; or one for each hooping, or the whole scene at true size, or the sheet by
 * which a printer is measured. */
#include "commands.h"

#include "command-paper.h"
#include "../geometry/language.h"

int
hw_command_templates (int argc, char **argv)
{
  const HwPaperCommand command = {
    .kind = HW_PAPER_TEMPLATES,
    .others = { { "layout", HW_PAPER_LAYOUT,
                  N_ ("Instead of the templates, the whole scene at true size, spread over pages") },
                { "hoopings", HW_PAPER_HOOPING_TEMPLATES,
                  N_ ("Instead of the templates, one for each whole hooping, with its field and marks") },
                { "test-sheet", HW_PAPER_TEST_SHEET,
                  N_ ("Instead of the templates, a sheet to measure a printer by; it needs no SCENE") } },
    .of_templates = TRUE,
    .summary = _ ("Writes a template for each motif at its true size, as a PDF."),
    .more
    = _ ("Print it without fitting it to the page, and lay a ruler on the bar at the foot of the "
         "sheet before you cut. Where the bar is not true, print the test sheet, measure its two lines, and "
         "give their lengths with --measured, on the same --paper and in the same --unit."),
  };

  return hw_command_print (argc, argv, &command);
}
