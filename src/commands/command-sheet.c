/* hoopwright sheet: the bench sheet, an overview, the marks to draw and a page for each hooping; or the log of the days. */
#include "commands.h"

#include "command-paper.h"
#include "../geometry/language.h"

int
hw_command_sheet (int argc, char **argv)
{
  const HwPaperCommand command = {
    .kind = HW_PAPER_BENCH_SHEET,
    .others
    = { { "log", HW_PAPER_DAY_LOG,
          N_ ("Instead of the bench sheet, the log of the days: what happened, readings, corrections") } },
    .summary = _ ("Writes the bench sheet as a PDF: the whole plan, the marks to draw, then each "
                  "hooping with its steps."),
  };

  return hw_command_print (argc, argv, &command);
}
