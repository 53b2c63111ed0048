/* Edits in any order: undone all together they give the scene there was, redone the scene they had made, and at every turn the file holds the scene. */
#include <string.h>

#include "../../src/formats/scene-file.h"
#include "../workbench/bench-fixture.h"
#include "fuzz.h"

#define MOST_EDITS 40

static char *
text_of_scene (HwBench *bench)
{
  g_autoptr (HwSnapshot) scene = hw_scene_snapshot (hw_bench_get_scene (bench));

  return hw_scene_file_text (scene);
}

static void
select_some (HwBench *bench, FuzzBytes *bytes)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (bench));
  guint n = g_list_model_get_n_items (motifs);

  if (n == 0)
    return;
  g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, fuzz_choice (bytes, n));
  if (fuzz_choice (bytes, 3) == 0)
    hw_bench_select_all (bench);
  else if (fuzz_choice (bytes, 2))
    hw_bench_select_only (bench, hw_scene_motif_get_record (motif)->id);
  else
    hw_bench_select_toggle (bench, hw_scene_motif_get_record (motif)->id);
}

static void
change_workroom (HwBench *bench, FuzzBytes *bytes)
{
  HwSupplyFacts facts = *hw_scene_get_supplies (hw_bench_get_scene (bench));

  facts.bobbin_metres = fuzz_between (bytes, 1, 200);
  hw_bench_set_supplies (bench, &facts);
}

static void
change_cloth (HwBench *bench, FuzzBytes *bytes)
{
  HwScene *scene = hw_bench_get_scene (bench);
  HwFabric fabric = *hw_scene_get_fabric (scene);

  fabric.width = fuzz_between (bytes, 10, 900);
  hw_bench_begin_edit (bench, "change the cloth", fuzz_choice (bytes, 2));
  hw_scene_set_fabric (scene, &fabric);
  if (fuzz_choice (bytes, 4) == 0)
    hw_bench_cancel_edit (bench);
  else
    hw_bench_end_edit (bench);
}

static void
edit (HwBench *bench, FuzzBytes *bytes)
{
  switch (fuzz_choice (bytes, 16))
    {
    case 0:
      hw_bench_nudge (bench, fuzz_between (bytes, -50, 50), fuzz_between (bytes, -50, 50));
      break;
    case 1:
      hw_bench_bring_forward (bench);
      break;
    case 2:
      hw_bench_send_back (bench);
      break;
    case 3:
      hw_bench_mirror (bench);
      break;
    case 4:
      hw_bench_duplicate (bench);
      break;
    case 5:
      hw_bench_delete (bench);
      break;
    case 6:
      hw_bench_set_locked (bench, fuzz_choice (bytes, 2));
      break;
    case 7:
      hw_bench_set_best (bench, fuzz_choice (bytes, 2) ? HW_BEST_LEAST_TIME : HW_BEST_FEWEST);
      break;
    case 8:
      hw_bench_set_interleave (bench, fuzz_choice (bytes, 2));
      break;
    case 9:
      hw_bench_keep_apart (bench);
      break;
    case 10:
      hw_bench_let_share (bench);
      break;
    case 11:
      change_workroom (bench, bytes);
      break;
    case 12:
      change_cloth (bench, bytes);
      break;
    case 13:
      hw_bench_undo (bench);
      break;
    case 14:
      hw_bench_redo (bench);
      break;
    default:
      select_some (bench, bytes);
      break;
    }
}

static gboolean
has_step (HwBench *bench, const char *which)
{
  g_autofree char *name = NULL;

  g_object_get (bench, which, &name, NULL);
  return name != NULL;
}

static void
assert_file_holds (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) read = hw_scene_file_parse_awaiting (text, -1, &error);
  g_autofree char *again = NULL;

  g_assert_no_error (error);
  again = hw_scene_file_text (read);
  g_assert_cmpstr (again, ==, text);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  FuzzBytes bytes = { data, size };
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *start = text_of_scene (bench), *end = NULL, *back = NULL, *forth = NULL;

  for (guint i = 0; i < MOST_EDITS && bytes.left > 0; i++)
    edit (bench, &bytes);
  while (has_step (bench, "redo-name"))
    hw_bench_redo (bench);
  end = text_of_scene (bench);
  assert_file_holds (end);
  while (has_step (bench, "undo-name"))
    hw_bench_undo (bench);
  back = text_of_scene (bench);
  g_assert_cmpstr (back, ==, start);
  while (has_step (bench, "redo-name"))
    hw_bench_redo (bench);
  forth = text_of_scene (bench);
  g_assert_cmpstr (forth, ==, end);
  return 0;
}
