/* What the program remembers from one day to the next: unit, paper, window size, what is unfolded. */
#pragma once

#include <gio/gio.h>

#include "../geometry/units.h"

G_BEGIN_DECLS

#define HW_SETTING_UNIT "unit"
#define HW_SETTING_PAPER "paper"
#define HW_SETTING_PAPER_KIND "paper-kind"
#define HW_SETTING_PAPER_LOOK "paper-look"
#define HW_SETTING_PAPER_NESTED "paper-nested"
#define HW_SETTING_PAPER_UNIT "paper-unit"
#define HW_SETTING_PAPER_LANGUAGE "paper-language"
#define HW_SETTING_PRINTER "printer"
#define HW_SETTING_LAST_FOLDER "last-folder"
#define HW_SETTING_MOTIF_FOLDER "motif-folder"
#define HW_SETTING_COME_TO_REST "come-to-rest"

/* The one settings object, or NULL when the program's schema is not installed: then defaults hold and nothing is
 * remembered. (transfer none) */
GSettings *
hw_settings_get (void);
HwUnit
hw_settings_get_unit (void);
void
hw_settings_set_unit (HwUnit unit);
/* Returns: (transfer full): "" when nothing is remembered */
char *
hw_settings_get_text (const char *key);
void
hw_settings_set_text (const char *key, const char *text);
gboolean
hw_settings_get_flag (const char *key, gboolean otherwise);
void
hw_settings_set_flag (const char *key, gboolean flag);
/* A place in a list of choices. */
guint
hw_settings_get_place (const char *key);
void
hw_settings_set_place (const char *key, guint place);

G_END_DECLS
