/* The families of made-up scenes that are measured: those of the tests and one with many hoops. */
#pragma once

#include "../planning/random-scenes.h"

#define FAMILIES (SCENE_KINDS + 1)

static const char *const family_names[FAMILIES]
    = { "scattered wall", "frieze", "many small", "long chain", "oblique", "mixed hoops" };

/* Motif for motif the same for the same family, number and seed. */
static inline HwSnapshot *
family_scene (guint family, guint n, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  HwSnapshot *scene = scene_random (rand, family < SCENE_KINDS ? (SceneKind)family : SCENE_WALL, n, 1.2);

  if (family < SCENE_KINDS)
    return scene;
  g_ptr_array_set_size (scene->hoops, 0);
  scene_add_hoop (scene, "small", 100, 100, HW_TURN_QUARTER);
  scene_add_hoop (scene, "usual", 130, 180, HW_TURN_ANY);
  scene_add_hoop (scene, "long", 110, 260, HW_TURN_ANY);
  scene_add_hoop (scene, "large", 200, 200, HW_TURN_QUARTER);
  return scene;
}
