/* A motif of the live scene: a ready-made design and how it lies on the cloth. */
#include "scene-private.h"

#include "../geometry/one-line.h"
#include "record-compare.h"

struct _HwSceneMotif
{
  GObject parent_instance;

  HwScene *scene; /* not owned */
  HwMotif *record;
  HwOutline *placed; /* the outline on the cloth, or NULL until asked for */
};

enum
{
  PROP_0,
  PROP_ID,
  PROP_NAME,
  PROP_X,
  PROP_Y,
  PROP_ANGLE,
  PROP_SCALE,
  PROP_MIRRORED,
  PROP_LOCKED,
  PROP_NOTE,
  PROP_WIDTH,
  PROP_HEIGHT,
  PROP_PERCENT,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HwSceneMotif, hw_scene_motif, G_TYPE_OBJECT)

static double
own_width (const HwMotif *record)
{
  return record->outline != NULL ? record->outline->box.x1 - record->outline->box.x0 : 0;
}

static double
own_height (const HwMotif *record)
{
  return record->outline != NULL ? record->outline->box.y1 - record->outline->box.y0 : 0;
}

static void
hw_scene_motif_finalize (GObject *object)
{
  HwSceneMotif *self = HW_SCENE_MOTIF (object);

  g_clear_pointer (&self->record, hw_motif_unref);
  g_clear_pointer (&self->placed, hw_outline_unref);

  G_OBJECT_CLASS (hw_scene_motif_parent_class)->finalize (object);
}

static void
hw_scene_motif_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  const HwMotif *record = HW_SCENE_MOTIF (object)->record;
  const HwPlacement *placement = &record->placement;

  switch (prop_id)
    {
    case PROP_ID:
      g_value_set_string (value, record->id);
      break;
    case PROP_NAME:
      g_value_set_string (value, record->name);
      break;
    case PROP_X:
      g_value_set_double (value, placement->position.x);
      break;
    case PROP_Y:
      g_value_set_double (value, placement->position.y);
      break;
    case PROP_ANGLE:
      g_value_set_double (value, placement->angle);
      break;
    case PROP_SCALE:
      g_value_set_double (value, placement->scale);
      break;
    case PROP_MIRRORED:
      g_value_set_boolean (value, placement->mirrored);
      break;
    case PROP_LOCKED:
      g_value_set_boolean (value, record->locked);
      break;
    case PROP_NOTE:
      g_value_set_string (value, record->note);
      break;
    case PROP_WIDTH:
      g_value_set_double (value, own_width (record) * placement->scale);
      break;
    case PROP_HEIGHT:
      g_value_set_double (value, own_height (record) * placement->scale);
      break;
    case PROP_PERCENT:
      g_value_set_double (value, placement->scale * 100);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static double
scale_for (double size, double own_size)
{
  return own_size > 0 ? CLAMP (size / own_size, HW_SMALLEST_SCALE, HW_LARGEST_SCALE) : 1;
}

/* Returns FALSE when the property is none of the placement. */
static gboolean
change_placement (HwPlacement *placement, const HwMotif *record, guint prop_id, const GValue *value)
{
  switch (prop_id)
    {
    case PROP_X:
      placement->position.x = g_value_get_double (value);
      return TRUE;
    case PROP_Y:
      placement->position.y = g_value_get_double (value);
      return TRUE;
    case PROP_ANGLE:
      placement->angle = g_value_get_double (value);
      return TRUE;
    case PROP_SCALE:
      placement->scale = g_value_get_double (value);
      return TRUE;
    case PROP_MIRRORED:
      placement->mirrored = g_value_get_boolean (value);
      return TRUE;
    case PROP_WIDTH:
      placement->scale = scale_for (g_value_get_double (value), own_width (record));
      return TRUE;
    case PROP_HEIGHT:
      placement->scale = scale_for (g_value_get_double (value), own_height (record));
      return TRUE;
    case PROP_PERCENT:
      placement->scale = g_value_get_double (value) / 100;
      return TRUE;
    default:
      return FALSE;
    }
}

static void
hw_scene_motif_set_property (GObject *object, guint prop_id, const GValue *value, GParamSpec *pspec)
{
  HwSceneMotif *self = HW_SCENE_MOTIF (object);
  HwPlacement placement = self->record->placement;
  g_autoptr (HwMotif) record = NULL;

  if (change_placement (&placement, self->record, prop_id, value))
    {
      hw_scene_motif_set_placement (self, &placement);
      return;
    }

  record = hw_motif_copy (self->record);
  switch (prop_id)
    {
    case PROP_NAME:
      g_free (record->name);
      record->name
          = g_value_get_string (value) != NULL ? hw_one_line_name (g_value_get_string (value)) : NULL;
      break;
    case PROP_LOCKED:
      record->locked = g_value_get_boolean (value);
      break;
    case PROP_NOTE:
      g_free (record->note);
      record->note = g_value_dup_string (value);
      if (record->note != NULL && record->note[0] == '\0')
        g_clear_pointer (&record->note, g_free);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
  hw_scene_motif_set_record (self, record);
}

static void
hw_scene_motif_class_init (HwSceneMotifClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const double far = HW_LARGEST_MM;
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->finalize = hw_scene_motif_finalize;
  object_class->get_property = hw_scene_motif_get_property;
  object_class->set_property = hw_scene_motif_set_property;

  properties[PROP_ID]
      = g_param_spec_string ("id", NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_NAME] = g_param_spec_string ("name", NULL, NULL, NULL, flags);
  properties[PROP_X] = g_param_spec_double ("x", NULL, NULL, -far, far, 0, flags);
  properties[PROP_Y] = g_param_spec_double ("y", NULL, NULL, -far, far, 0, flags);
  properties[PROP_ANGLE] = g_param_spec_double ("angle", NULL, NULL, -36000, 36000, 0, flags);
  properties[PROP_SCALE]
      = g_param_spec_double ("scale", NULL, NULL, HW_SMALLEST_SCALE, HW_LARGEST_SCALE, 1, flags);
  properties[PROP_MIRRORED] = g_param_spec_boolean ("mirrored", NULL, NULL, FALSE, flags);
  properties[PROP_LOCKED] = g_param_spec_boolean ("locked", NULL, NULL, FALSE, flags);
  properties[PROP_NOTE] = g_param_spec_string ("note", NULL, NULL, NULL, flags);
  properties[PROP_WIDTH] = g_param_spec_double ("width", NULL, NULL, 0, far, 0, flags);
  properties[PROP_HEIGHT] = g_param_spec_double ("height", NULL, NULL, 0, far, 0, flags);
  properties[PROP_PERCENT] = g_param_spec_double ("percent", NULL, NULL, HW_SMALLEST_SCALE * 100,
                                                  HW_LARGEST_SCALE * 100, 100, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
hw_scene_motif_init (HwSceneMotif *self)
{
}

HwSceneMotif *
hw_scene_motif_new (const HwMotif *record)
{
  HwSceneMotif *self;

  g_return_val_if_fail (record != NULL, NULL);

  self = g_object_new (HW_TYPE_SCENE_MOTIF, NULL);
  self->record = hw_motif_ref (record);
  return self;
}

const HwMotif *
hw_scene_motif_get_record (HwSceneMotif *self)
{
  g_return_val_if_fail (HW_IS_SCENE_MOTIF (self), NULL);

  return self->record;
}

static void
notify_differences (HwSceneMotif *self, const HwMotif *old, const HwMotif *new)
{
  const HwPlacement *was = &old->placement, *is = &new->placement;
  const gboolean differs[N_PROPS] = {
    [PROP_ID] = g_strcmp0 (old->id, new->id) != 0,
    [PROP_NAME] = g_strcmp0 (old->name, new->name) != 0,
    [PROP_X] = was->position.x != is->position.x,
    [PROP_Y] = was->position.y != is->position.y,
    [PROP_ANGLE] = was->angle != is->angle,
    [PROP_SCALE] = was->scale != is->scale,
    [PROP_MIRRORED] = was->mirrored != is->mirrored,
    [PROP_LOCKED] = old->locked != new->locked,
    [PROP_NOTE] = g_strcmp0 (old->note, new->note) != 0,
    [PROP_WIDTH] = own_width (old) * was->scale != own_width (new) * is->scale,
    [PROP_HEIGHT] = own_height (old) * was->scale != own_height (new) * is->scale,
    [PROP_PERCENT] = was->scale != is->scale,
  };

  g_object_freeze_notify (G_OBJECT (self));
  for (guint i = 1; i < N_PROPS; i++)
    {
      if (differs[i])
        g_object_notify_by_pspec (G_OBJECT (self), properties[i]);
    }
  g_object_thaw_notify (G_OBJECT (self));
}

static void
take_record (HwSceneMotif *self, const HwMotif *record, guint changes)
{
  g_autoptr (HwMotif) old = self->record;
  HwScene *scene = self->scene; /* a listener may take the motif out of it meanwhile */

  self->record = hw_motif_ref (record);
  if (changes & (HW_SCENE_CHANGE_PLACEMENT | HW_SCENE_CHANGE_ARTWORK))
    g_clear_pointer (&self->placed, hw_outline_unref);

  hw_scene_begin_change (scene, changes);
  notify_differences (self, old, record);
  hw_scene_end_change (scene);
}

void
hw_scene_motif_set_record (HwSceneMotif *self, const HwMotif *record)
{
  guint changes;

  g_return_if_fail (HW_IS_SCENE_MOTIF (self));
  g_return_if_fail (record != NULL);

  changes = hw_motif_difference (self->record, record);
  if (changes != 0)
    take_record (self, record, changes);
}

void
hw_scene_motif_set_placement (HwSceneMotif *self, const HwPlacement *placement)
{
  g_autoptr (HwMotif) record = NULL;

  g_return_if_fail (HW_IS_SCENE_MOTIF (self));
  g_return_if_fail (placement != NULL && placement->scale > 0);

  if (hw_placement_equal (&self->record->placement, placement))
    return;
  record = hw_motif_copy (self->record);
  record->placement = *placement;
  take_record (self, record, HW_SCENE_CHANGE_PLACEMENT);
}

const HwOutline *
hw_scene_motif_get_placed (HwSceneMotif *self)
{
  g_return_val_if_fail (HW_IS_SCENE_MOTIF (self), NULL);

  if (self->placed == NULL && self->record->outline != NULL)
    self->placed = hw_outline_place (self->record->outline, &self->record->placement);
  return self->placed;
}

void
hw_scene_motif_set_scene (HwSceneMotif *self, HwScene *scene)
{
  self->scene = scene;
}

HwScene *
hw_scene_motif_get_scene (HwSceneMotif *self)
{
  return self->scene;
}
