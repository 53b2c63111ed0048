/* What the workroom uses up: the usual figures, and what follows from them. All of the defaults are common practice, no source. */
#include "supply-facts.h"

#include "lockstitch.h"

void
hw_supply_facts_set_defaults (HwSupplyFacts *facts)
{
  g_return_if_fail (facts != NULL);

  *facts = (HwSupplyFacts){
    .fabric_thickness = 0.4,
    .stabiliser_thickness = 0.25,
    .stabiliser_sheets = 1,
    .roll_width = 500,
    .reach = 20,
    .needle_tex = 26.7,
    .bobbin_tex = 16.7,
    .bobbin_share = 0.4,
    .bobbin_metres = 80,
    .packing = 0.5,
    .needle_hours = 8,
    .beyond_edge = 50,
    .beyond_frames = 10,
  };
}

gboolean
hw_supply_facts_know_bobbin (const HwSupplyFacts *facts)
{
  g_return_val_if_fail (facts != NULL, FALSE);

  return facts->bobbin_outer > facts->bobbin_inner && facts->bobbin_width > 0;
}

double
hw_supply_facts_full_bobbin (const HwSupplyFacts *facts)
{
  g_return_val_if_fail (facts != NULL, 0);

  if (!hw_supply_facts_know_bobbin (facts))
    return facts->bobbin_metres;
  return hw_wound_metres (facts->bobbin_outer, facts->bobbin_inner, facts->bobbin_width,
                          hw_thread_diameter (facts->bobbin_tex), facts->packing);
}

double
hw_supply_facts_thickness (const HwSupplyFacts *facts)
{
  g_return_val_if_fail (facts != NULL, 0);

  return facts->fabric_thickness + facts->stabiliser_sheets * facts->stabiliser_thickness;
}
