/* The scene being worked on: cloth, edge line, hoops, motifs back to front. It hands out snapshots of itself and
 * says what changed since the last one. */
#include "scene-private.h"

#include "../geometry/one-line.h"
#include "record-compare.h"

enum
{
  PROP_0,
  PROP_NAME,
  PROP_CLOTH_WIDTH,
  PROP_CLOTH_HEIGHT,
  PROP_CLOTH_COLOUR,
  PROP_HOLD,
  N_PROPS
};

enum
{
  CHANGED,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HwScene, hw_scene, G_TYPE_OBJECT)

static void
set_name (HwScene *self, const char *name)
{
  g_autofree char *clean = hw_one_line_name (name != NULL ? name : "");

  if (g_strcmp0 (self->name, clean) == 0)
    return;
  g_free (self->name);
  self->name = g_steal_pointer (&clean);

  hw_scene_begin_change (self, HW_SCENE_CHANGE_WORDS);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_NAME]);
  hw_scene_end_change (self);
}

static void
hw_scene_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  HwScene *self = HW_SCENE (object);

  switch (prop_id)
    {
    case PROP_NAME:
      g_value_set_string (value, self->name);
      break;
    case PROP_CLOTH_WIDTH:
      g_value_set_double (value, self->fabric.width);
      break;
    case PROP_CLOTH_HEIGHT:
      g_value_set_double (value, self->fabric.height);
      break;
    case PROP_CLOTH_COLOUR:
      g_value_take_string (value, hw_colour_text (self->fabric.colour));
      break;
    case PROP_HOLD:
      g_value_set_int (value, self->fabric.hold);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
hw_scene_set_property (GObject *object, guint prop_id, const GValue *value, GParamSpec *pspec)
{
  HwScene *self = HW_SCENE (object);
  HwFabric fabric = self->fabric;

  switch (prop_id)
    {
    case PROP_NAME:
      set_name (self, g_value_get_string (value));
      return;
    case PROP_CLOTH_WIDTH:
      fabric.width = g_value_get_double (value);
      break;
    case PROP_CLOTH_HEIGHT:
      fabric.height = g_value_get_double (value);
      break;
    case PROP_CLOTH_COLOUR:
      hw_colour_parse (g_value_get_string (value), &fabric.colour);
      break;
    case PROP_HOLD:
      fabric.hold = g_value_get_int (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
  hw_scene_set_fabric (self, &fabric);
}

static void
hw_scene_finalize (GObject *object)
{
  HwScene *self = HW_SCENE (object);

  /* Whoever still holds a motif or hoop must not reach a scene that is gone. */
  for (guint i = 0; i < hw_item_list_length (self->motifs); i++)
    hw_scene_motif_set_scene (motif_at (self, i), NULL);
  for (guint i = 0; i < hw_item_list_length (self->hoops); i++)
    hw_scene_hoop_set_scene (hoop_at (self, i), NULL);
  g_clear_object (&self->motifs);
  g_clear_object (&self->hoops);
  g_clear_pointer (&self->snapshot, hw_snapshot_unref);
  g_clear_pointer (&self->edge_line, hw_edge_line_unref);
  g_clear_pointer (&self->pins, g_ptr_array_unref);
  g_clear_pointer (&self->frozen, g_ptr_array_unref);
  g_clear_pointer (&self->apart, g_ptr_array_unref);
  g_clear_pointer (&self->held_marks, g_ptr_array_unref);
  g_clear_pointer (&self->log, g_ptr_array_unref);
  g_clear_pointer (&self->photos, g_ptr_array_unref);
  g_clear_pointer (&self->palette, g_ptr_array_unref);
  g_clear_pointer (&self->parts, g_ptr_array_unref);
  hw_unknown_unref (self->fabric.unknown);
  hw_unknown_unref (self->machine.unknown);
  hw_unknown_unref (self->wishes.unknown);
  hw_unknown_unref (self->supplies.unknown);
  hw_unknown_unref (self->unknown);
  g_free (self->name);

  G_OBJECT_CLASS (hw_scene_parent_class)->finalize (object);
}

static void
hw_scene_class_init (HwSceneClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->finalize = hw_scene_finalize;
  object_class->get_property = hw_scene_get_property;
  object_class->set_property = hw_scene_set_property;

  properties[PROP_NAME] = g_param_spec_string ("name", NULL, NULL, "", flags);
  properties[PROP_CLOTH_WIDTH]
      = g_param_spec_double ("cloth-width", NULL, NULL, 1, HW_LARGEST_MM, 700, flags);
  properties[PROP_CLOTH_HEIGHT]
      = g_param_spec_double ("cloth-height", NULL, NULL, 1, HW_LARGEST_MM, 540, flags);
  properties[PROP_CLOTH_COLOUR] = g_param_spec_string ("cloth-colour", NULL, NULL, "#d8cbb0", flags);
  properties[PROP_HOLD]
      = g_param_spec_int ("hold", NULL, NULL, HW_HOLD_FLOATED, HW_HOLD_CLAMPED, HW_HOLD_FLOATED, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[CHANGED] = g_signal_new ("changed", HW_TYPE_SCENE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
hw_scene_init (HwScene *self)
{
  g_autoptr (HwSnapshot) empty = hw_snapshot_new ();

  self->name = g_strdup (empty->name);
  self->fabric = empty->fabric;
  self->edge_line = hw_edge_line_ref (empty->edge_line);
  self->machine = empty->machine;
  self->wishes = empty->wishes;
  self->supplies = empty->supplies;
  self->pins = g_ptr_array_ref (empty->pins);
  self->frozen = g_ptr_array_ref (empty->frozen);
  self->apart = g_ptr_array_ref (empty->apart);
  self->held_marks = g_ptr_array_ref (empty->held_marks);
  self->log = g_ptr_array_ref (empty->log);
  self->photos = g_ptr_array_ref (empty->photos);
  self->photo_shown = empty->photo_shown;
  self->palette = g_ptr_array_ref (empty->palette);
  self->parts = g_ptr_array_ref (empty->parts);
  self->motifs = hw_item_list_new (HW_TYPE_SCENE_MOTIF);
  self->hoops = hw_item_list_new (HW_TYPE_SCENE_HOOP);
}

HwScene *
hw_scene_new (void)
{
  return g_object_new (HW_TYPE_SCENE, NULL);
}

void
hw_scene_begin_change (HwScene *self, guint changes)
{
  if (self == NULL)
    return;
  g_clear_pointer (&self->snapshot, hw_snapshot_unref);
  self->pending |= changes;
  self->held++;
}

void
hw_scene_end_change (HwScene *self)
{
  if (self != NULL)
    hw_scene_release (self);
}

void
hw_scene_hold (HwScene *self)
{
  g_return_if_fail (HW_IS_SCENE (self));

  self->held++;
}

void
hw_scene_release (HwScene *self)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (self->held > 0);

  self->held--;
  if (self->held == 0 && self->pending != 0)
    {
      guint changes = self->pending;

      self->pending = 0;
      g_signal_emit (self, signals[CHANGED], 0, changes);
    }
}

GListModel *
hw_scene_get_motifs (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return G_LIST_MODEL (self->motifs);
}

GListModel *
hw_scene_get_hoops (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return G_LIST_MODEL (self->hoops);
}

const HwFabric *
hw_scene_get_fabric (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return &self->fabric;
}

void
hw_scene_set_fabric (HwScene *self, const HwFabric *fabric)
{
  HwFabric old;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (fabric != NULL);

  old = self->fabric;
  if (hw_fabric_difference (&old, fabric) == 0)
    return;
  self->fabric = *fabric;
  hw_unknown_ref (self->fabric.unknown);

  hw_scene_begin_change (self, HW_SCENE_CHANGE_FABRIC);
  g_object_freeze_notify (G_OBJECT (self));
  if (old.width != self->fabric.width)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_CLOTH_WIDTH]);
  if (old.height != self->fabric.height)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_CLOTH_HEIGHT]);
  if (!hw_colour_equal (old.colour, self->fabric.colour))
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_CLOTH_COLOUR]);
  if (old.hold != self->fabric.hold)
    g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_HOLD]);
  g_object_thaw_notify (G_OBJECT (self));
  hw_unknown_unref (old.unknown);
  hw_scene_end_change (self);
}

const HwEdgeLine *
hw_scene_get_edge_line (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->edge_line;
}

void
hw_scene_set_edge_line (HwScene *self, const HwEdgeLine *edge)
{
  HwEdgeLine *old;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (edge != NULL);

  if (hw_edge_line_difference (self->edge_line, edge) == 0)
    return;
  old = self->edge_line;
  self->edge_line = hw_edge_line_ref (edge);
  hw_edge_line_unref (old);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_EDGE_LINE);
  hw_scene_end_change (self);
}

const HwMachine *
hw_scene_get_machine (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return &self->machine;
}

void
hw_scene_set_machine (HwScene *self, const HwMachine *machine)
{
  HwUnknown *old;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (machine != NULL);

  if (hw_machine_difference (&self->machine, machine) == 0)
    return;
  old = self->machine.unknown;
  self->machine = *machine;
  hw_unknown_ref (self->machine.unknown);
  hw_unknown_unref (old);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_MACHINE);
  hw_scene_end_change (self);
}
