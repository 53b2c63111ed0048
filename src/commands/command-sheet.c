/* hoopwright sheet: the bench sheet, an overview and then a page for each hooping. */
#include "commands.h"

#include <glib/gi18n.h>

#include "command-paper.h"

int
hw_command_sheet (int argc, char **argv)
{
  return hw_command_print (
      argc, argv, HW_PAPER_BENCH_SHEET, FALSE,
      _ ("Writes the bench sheet as a PDF: the whole plan, then each hooping with its steps."), NULL);
}
