/* Which plural form a number takes: the formula that a catalogue of translations carries in its header. Private to this room. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _HwPluralRule HwPluralRule;

/* Reads "nplurals=3; plural=n%10==1 ? 0 : 1;" with whatever stands around it. Returns: (transfer full) (nullable): NULL when it is no formula or
 * nested beyond all sense */
HwPluralRule *
hw_plural_rule_new (const char *header);
void
hw_plural_rule_free (HwPluralRule *rule);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPluralRule, hw_plural_rule_free)

/* The form for n, from 0; always less than hw_plural_rule_forms(). */
guint
hw_plural_rule_form (const HwPluralRule *rule, gulong n);
guint
hw_plural_rule_forms (const HwPluralRule *rule);

G_END_DECLS
