/* What is asked of words here. */
#pragma once

#include <glib.h>
#include <string.h>

/* One sentence, that names no line of ours and ends like one. */
static inline gboolean
is_sentence (const GError *error)
{
  return error != NULL && strlen (error->message) > 20 && strchr (error->message, '\n') == NULL
         && g_str_has_suffix (error->message, ".") && g_utf8_validate (error->message, -1, NULL);
}

/* Whether a word is on the command line, which it is taken off. */
static inline gboolean
take_word (int *argc, char **argv, const char *word)
{
  for (int i = 1; i < *argc; i++)
    if (g_str_equal (argv[i], word))
      {
        memmove (argv + i, argv + i + 1, (gsize)(*argc - i) * sizeof *argv);
        (*argc)--;
        return TRUE;
      }
  return FALSE;
}
