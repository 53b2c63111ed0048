/* Figures of an answer as JSON: rounded to what they are worth, and never what JSON cannot hold. Private to this room. */
#pragma once

#include <json-glib/json-glib.h>

#include "../geometry/point.h"

G_BEGIN_DECLS

#define HW_JSON_PLACE_DECIMALS 6
#define HW_JSON_ANGLE_DECIMALS 8
#define HW_JSON_MEASURE_DECIMALS 3

double
hw_json_rounded (double value, int decimals);
/* A number JSON cannot hold is told as null. */
void
hw_json_set_number (JsonObject *object, const char *key, double value, int decimals);
/* [x, y]; null when JSON cannot hold it. */
void
hw_json_set_place (JsonObject *object, const char *key, HwPoint p, int decimals);

G_END_DECLS
