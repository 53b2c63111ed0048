/* What the workbench reads in again and again; see below.h. */
#include <gtk/gtk.h>
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>
