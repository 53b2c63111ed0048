/* Figures of an answer as JSON. */
#include "json-figures.h"

#include <math.h>

double
hw_json_rounded (double value, int decimals)
{
  double factor = pow (10, decimals);

  return round (value * factor) / factor;
}

void
hw_json_set_number (JsonObject *object, const char *key, double value, int decimals)
{
  if (isfinite (value))
    json_object_set_double_member (object, key, hw_json_rounded (value, decimals));
  else
    json_object_set_null_member (object, key);
}

void
hw_json_set_place (JsonObject *object, const char *key, HwPoint p, int decimals)
{
  JsonArray *pair;

  if (!isfinite (p.x) || !isfinite (p.y))
    {
      json_object_set_null_member (object, key);
      return;
    }
  pair = json_array_new ();
  json_array_add_double_element (pair, hw_json_rounded (p.x, decimals));
  json_array_add_double_element (pair, hw_json_rounded (p.y, decimals));
  json_object_set_array_member (object, key, pair);
}
