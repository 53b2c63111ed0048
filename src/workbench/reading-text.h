/* A figure of a reading as it is typed at the machine: "41.3 l", "1 in away", "-12". */
#pragma once

#include "../geometry/units.h"

G_BEGIN_DECLS

typedef enum
{
  HW_READING_TEXT_EMPTY,
  HW_READING_TEXT_LENGTH,
  HW_READING_TEXT_NONE /* no length */
} HwReadingText;

/* along: towards and away, else right and left. *mm: the length, not negative. *negative (left, away from the person) is changed only where the text says which way, be it a length or not yet:
 * by a word or its first letters, across also by a minus sign, which means left on every machine; along machines differ, so there a minus
 * sign says nothing. */
HwReadingText
hw_reading_text_parse (const char *text, gboolean along, HwUnit unit, double *mm, gboolean *negative);

/* Cuts the word for the way off the end of text: words[0], whole or by its first letters, or words[1], which is the negative one. Where there is
 * none, text and *negative stay. */
void
hw_reading_text_take_way (char *text, const char *const words[2], gboolean *negative);

G_END_DECLS
