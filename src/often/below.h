/* What the rooms below the workbench read in again and again, for compilers that keep it ready (-Db_pch=true). Files include what they need all the same. */
#include <gio/gio.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>
