/* What the rooms below the workbench read in again and again, for compilers that keep it ready (-Dkept_headers=true). Files include what they need all the same. */
#include <gio/gio.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>
