/* Keys of a scene file that this version does not know, shared between snapshots. */
#include "unknown.h"

HwUnknown *
hw_unknown_new (JsonObject *members)
{
  HwUnknown *unknown;

  g_return_val_if_fail (members != NULL, NULL);

  unknown = g_new0 (HwUnknown, 1);
  g_atomic_ref_count_init (&unknown->ref_count);
  unknown->members = members;
  return unknown;
}

HwUnknown *
hw_unknown_ref (const HwUnknown *unknown)
{
  HwUnknown *shared = (HwUnknown *)unknown;

  if (shared != NULL)
    g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_unknown_unref (HwUnknown *unknown)
{
  if (unknown == NULL || !g_atomic_ref_count_dec (&unknown->ref_count))
    return;
  json_object_unref (unknown->members);
  g_free (unknown);
}

gboolean
hw_unknown_equal (const HwUnknown *a, const HwUnknown *b)
{
  if (a == b)
    return TRUE;
  return a != NULL && b != NULL && json_object_equal (a->members, b->members);
}
