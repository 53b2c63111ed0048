/* A hoop of the live scene: a sewing field, the frame around it, and how it may be turned. */
#include "scene-private.h"

#include "../geometry/one-line.h"
#include "record-compare.h"

struct _HwSceneHoop
{
  GObject parent_instance;

  HwScene *scene; /* not owned */
  HwHoop *record;
};

enum
{
  PROP_0,
  PROP_ID,
  PROP_NAME,
  PROP_FIELD_WIDTH,
  PROP_FIELD_HEIGHT,
  PROP_FRAME_WIDTH,
  PROP_FRAME_HEIGHT,
  PROP_CLEARANCE,
  PROP_TURN,
  PROP_SET_ASIDE,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HwSceneHoop, hw_scene_hoop, G_TYPE_OBJECT)

static void
hw_scene_hoop_finalize (GObject *object)
{
  g_clear_pointer (&HW_SCENE_HOOP (object)->record, hw_hoop_unref);

  G_OBJECT_CLASS (hw_scene_hoop_parent_class)->finalize (object);
}

static void
hw_scene_hoop_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  const HwHoop *record = HW_SCENE_HOOP (object)->record;

  switch (prop_id)
    {
    case PROP_ID:
      g_value_set_string (value, record->id);
      break;
    case PROP_NAME:
      g_value_set_string (value, record->name);
      break;
    case PROP_FIELD_WIDTH:
      g_value_set_double (value, record->field_width);
      break;
    case PROP_FIELD_HEIGHT:
      g_value_set_double (value, record->field_height);
      break;
    case PROP_FRAME_WIDTH:
      g_value_set_double (value, record->frame_width);
      break;
    case PROP_FRAME_HEIGHT:
      g_value_set_double (value, record->frame_height);
      break;
    case PROP_CLEARANCE:
      g_value_set_double (value, record->clearance);
      break;
    case PROP_TURN:
      g_value_set_int (value, record->turn);
      break;
    case PROP_SET_ASIDE:
      g_value_set_boolean (value, record->set_aside);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
hw_scene_hoop_set_property (GObject *object, guint prop_id, const GValue *value, GParamSpec *pspec)
{
  HwSceneHoop *self = HW_SCENE_HOOP (object);
  g_autoptr (HwHoop) record = hw_hoop_copy (self->record);

  switch (prop_id)
    {
    case PROP_NAME:
      g_free (record->name);
      record->name
          = g_value_get_string (value) != NULL ? hw_one_line_name (g_value_get_string (value)) : NULL;
      break;
    case PROP_FIELD_WIDTH:
      record->field_width = g_value_get_double (value);
      break;
    case PROP_FIELD_HEIGHT:
      record->field_height = g_value_get_double (value);
      break;
    case PROP_FRAME_WIDTH:
      record->frame_width = g_value_get_double (value);
      break;
    case PROP_FRAME_HEIGHT:
      record->frame_height = g_value_get_double (value);
      break;
    case PROP_CLEARANCE:
      record->clearance = g_value_get_double (value);
      break;
    case PROP_TURN:
      record->turn = g_value_get_int (value);
      break;
    case PROP_SET_ASIDE:
      record->set_aside = g_value_get_boolean (value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
      return;
    }
  /* A frame is never smaller than its field: the one just set pushes the other. */
  if (prop_id == PROP_FRAME_WIDTH || prop_id == PROP_FRAME_HEIGHT)
    {
      record->field_width = MIN (record->field_width, record->frame_width);
      record->field_height = MIN (record->field_height, record->frame_height);
    }
  else
    {
      record->frame_width = MAX (record->frame_width, record->field_width);
      record->frame_height = MAX (record->frame_height, record->field_height);
    }
  hw_scene_hoop_set_record (self, record);
}

static void
hw_scene_hoop_class_init (HwSceneHoopClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->finalize = hw_scene_hoop_finalize;
  object_class->get_property = hw_scene_hoop_get_property;
  object_class->set_property = hw_scene_hoop_set_property;

  properties[PROP_ID]
      = g_param_spec_string ("id", NULL, NULL, NULL, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_NAME] = g_param_spec_string ("name", NULL, NULL, NULL, flags);
  properties[PROP_FIELD_WIDTH]
      = g_param_spec_double ("field-width", NULL, NULL, 0.1, HW_LARGEST_MM, 130, flags);
  properties[PROP_FIELD_HEIGHT]
      = g_param_spec_double ("field-height", NULL, NULL, 0.1, HW_LARGEST_MM, 180, flags);
  properties[PROP_FRAME_WIDTH]
      = g_param_spec_double ("frame-width", NULL, NULL, 0.1, HW_LARGEST_MM, 170, flags);
  properties[PROP_FRAME_HEIGHT]
      = g_param_spec_double ("frame-height", NULL, NULL, 0.1, HW_LARGEST_MM, 220, flags);
  properties[PROP_CLEARANCE] = g_param_spec_double ("clearance", NULL, NULL, 0, HW_LARGEST_MM, 2, flags);
  properties[PROP_TURN]
      = g_param_spec_int ("turn", NULL, NULL, HW_TURN_ANY, HW_TURN_QUARTER, HW_TURN_ANY, flags);
  properties[PROP_SET_ASIDE] = g_param_spec_boolean ("set-aside", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
hw_scene_hoop_init (HwSceneHoop *self)
{
}

HwSceneHoop *
hw_scene_hoop_new (const HwHoop *record)
{
  HwSceneHoop *self;

  g_return_val_if_fail (record != NULL, NULL);

  self = g_object_new (HW_TYPE_SCENE_HOOP, NULL);
  self->record = hw_hoop_ref (record);
  return self;
}

const HwHoop *
hw_scene_hoop_get_record (HwSceneHoop *self)
{
  g_return_val_if_fail (HW_IS_SCENE_HOOP (self), NULL);

  return self->record;
}

static void
notify_differences (HwSceneHoop *self, const HwHoop *old, const HwHoop *new)
{
  const gboolean differs[N_PROPS] = {
    [PROP_ID] = g_strcmp0 (old->id, new->id) != 0,
    [PROP_NAME] = g_strcmp0 (old->name, new->name) != 0,
    [PROP_FIELD_WIDTH] = old->field_width != new->field_width,
    [PROP_FIELD_HEIGHT] = old->field_height != new->field_height,
    [PROP_FRAME_WIDTH] = old->frame_width != new->frame_width,
    [PROP_FRAME_HEIGHT] = old->frame_height != new->frame_height,
    [PROP_CLEARANCE] = old->clearance != new->clearance,
    [PROP_TURN] = old->turn != new->turn,
    [PROP_SET_ASIDE] = old->set_aside != new->set_aside,
  };

  g_object_freeze_notify (G_OBJECT (self));
  for (guint i = 1; i < N_PROPS; i++)
    {
      if (differs[i])
        g_object_notify_by_pspec (G_OBJECT (self), properties[i]);
    }
  g_object_thaw_notify (G_OBJECT (self));
}

void
hw_scene_hoop_set_record (HwSceneHoop *self, const HwHoop *record)
{
  g_autoptr (HwHoop) old = NULL;
  HwScene *scene; /* a listener may take the hoop out of it meanwhile */
  guint changes;

  g_return_if_fail (HW_IS_SCENE_HOOP (self));
  g_return_if_fail (record != NULL);

  if (record == self->record)
    return;
  changes = hw_hoop_difference (self->record, record);
  if (changes == 0)
    return;

  old = self->record;
  scene = self->scene;
  self->record = hw_hoop_ref (record);

  hw_scene_begin_change (scene, changes);
  notify_differences (self, old, record);
  hw_scene_end_change (scene);
}

void
hw_scene_hoop_set_scene (HwSceneHoop *self, HwScene *scene)
{
  self->scene = scene;
}

HwScene *
hw_scene_hoop_get_scene (HwSceneHoop *self)
{
  return self->scene;
}
