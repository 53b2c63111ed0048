/* From a JSON text to its tree, checked first. */
#include "json-root.h"

#include <string.h>

#include "json-check.h"

JsonNode *
hw_json_root (const char *text, gssize length, GQuark domain, int syntax, int content, GError **error)
{
  static const char mark[] = "\xef\xbb\xbf"; /* a byte order mark says nothing in UTF-8 */
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  g_autoptr (GError) problem = NULL;

  if (length < 0)
    length = (gssize)strlen (text);
  if (length >= 3 && memcmp (text, mark, 3) == 0)
    {
      text += 3;
      length -= 3;
    }
  if (hw_json_check (text, (gsize)length, &problem)
      && json_parser_load_from_data (parser, text, length, &problem))
    return json_parser_steal_root (parser);
  g_set_error_literal (error, domain,
                       g_error_matches (problem, HW_JSON_ERROR, HW_JSON_ERROR_NUMBER) ? content : syntax,
                       problem->message);
  return NULL;
}
