/* Scene files with work at the machine in them, to test with. */
#pragma once

#include "scene-texts.h"

/* All that a scene may carry of the work at the machine, as the program writes it, with keys on every level that it does not know. */
static const char worked[]
    = "{\n"
      "  \"format\": \"hoopwright-scene\",\n"
      "  \"version\": 1,\n"
      "  \"name\": \"Harbour steps\",\n"
      "  \"fabric\": {\"width\": 700, \"height\": 540, \"colour\": \"#d8cbb0\", \"hold\": \"floated\"},\n"
      "  \"edge_line\": {\"points\": [[60, 40], [640, 40], [640, 500], [60, 500]], \"margin\": 2},\n"
      "  \"hoops\": [\n"
      "    {\"id\": \"h1\", \"name\": \"130 x 180\", \"field\": [130, 180], \"frame\": [170, 240], "
      "\"clearance\": 2, \"turn\": \"any\"}\n"
      "  ],\n"
      "  \"motifs\": [\n"
      "    {\n"
      "      \"id\": \"m1\",\n"
      "      \"name\": \"Rope\",\n"
      "      \"outline\": [[[-40, -30], [40, -30], [0, 35]]],\n"
      "      \"position\": [180, 150],\n"
      "      \"angle\": 0,\n"
      "      \"scale\": 1,\n"
      "      \"mirrored\": false,\n"
      "      \"threads\": []\n"
      "    },\n"
      "    {\n"
      "      \"id\": \"m2\",\n"
      "      \"name\": \"Gull\",\n"
      "      \"outline\": [[[-20, -10], [20, -10], [20, 10], [-20, 10]]],\n"
      "      \"position\": [300, 200],\n"
      "      \"angle\": 0,\n"
      "      \"scale\": 1,\n"
      "      \"mirrored\": false,\n"
      "      \"threads\": []\n"
      "    }\n"
      "  ],\n"
      "  \"pins\": [\n"
      "    {\n"
      "      \"hoop\": \"h1\",\n"
      "      \"centre\": [300, 200],\n"
      "      \"angle\": 12.5,\n"
      "      \"motifs\": [\"m2\"],\n"
      "      \"marks\": [{\"id\": \"A\", \"at\": [270.5, 180], \"drawn_with\": \"chalk\"}, {\"id\": \"B\", "
      "\"at\": [330, 220]}],\n"
      "      \"work\": {\n"
      "        \"step\": \"template-off\",\n"
      "        \"threads_done\": 2,\n"
      "        \"readings\": [\n"
      "          {\"mark\": \"A\", \"design\": [-33.6, -13.1], \"at\": [-32, -13], \"id\": \"on\"},\n"
      "          {\"mark\": \"B\", \"design\": [33.6, 13], \"at\": [99, 13], \"left_out\": true, \"by\": "
      "\"photo\"}\n"
      "        ],\n"
      "        \"correction\": {\"shift\": [1.6, 0.1], \"turn\": -1, \"typed\": \"twice\"},\n"
      "        \"notes\": {\"mark\": \"chalk is faint\", \"done\": \"pressed\\nfrom behind\", \"iron\": "
      "\"warm\"},\n"
      "        \"begun\": \"2026-11-25T17:00:00Z\",\n"
      "        \"ended\": \"2026-11-25T17:40:05Z\",\n"
      "        \"weather\": {\"rain\": true}\n"
      "      },\n"
      "      \"why\": \"seam\"\n"
      "    }\n"
      "  ],\n"
      "  \"held_marks\": [\n"
      "    {\"motif\": \"m2\", \"at\": [270.5, 180]},\n"
      "    {\"motif\": \"m1\", \"at\": [1, -2], \"with\": \"pencil\"}\n"
      "  ],\n"
      "  \"wishes\": {\n"
      "    \"best\": \"fewest\",\n"
      "    \"interleave\": false,\n"
      "    \"density_limit\": 5,\n"
      "    \"scale_range\": [0.8, 1.2],\n"
      "    \"tolerance\": 0.7,\n"
      "    \"marks\": 4,\n"
      "    \"draw_in\": 0.25\n"
      "  },\n"
      "  \"progress\": {\n"
      "    \"frozen\": [\n"
      "      {\"hoop\": \"h1\", \"centre\": [180, 150], \"angle\": 0, \"motifs\": [\"m1\"], \"work\": "
      "{\"step\": \"done\"}}\n"
      "    ],\n"
      "    \"log\": [\n"
      "      {\"at\": \"2026-11-25T17:00:00Z\", \"what\": \"begun\", \"motif\": \"m2\", \"text\": \"Hooping "
      "2 "
      "begun.\"},\n"
      "      {\"at\": \"2026-11-25T17:20:00Z\", \"what\": \"thread-broke\", \"motif\": \"long-gone\", "
      "\"shade\": "
      "3},\n"
      "      {\"at\": \"1970-01-01T00:00:00Z\", \"what\": \"laid-aside\"}\n"
      "    ],\n"
      "    \"mood\": \"calm\"\n"
      "  }\n"
      "}\n";

/* The described example with more keys. Returns: (transfer full) */
static inline char *
with (const char *keys)
{
  g_autofree char *start = g_strdup_printf ("\"version\": 1, %s,", keys);

  return replaced (contract, "\"version\": 1,", start);
}

/* The described example with a pin that has more keys. Returns: (transfer full) */
static inline char *
with_pin (const char *keys)
{
  g_autofree char *pins = g_strdup_printf (
      "\"pins\": [{\"hoop\": \"h1\", \"centre\": [180, 150], \"motifs\": [\"m1\"], %s}]", keys);

  return with (pins);
}

static inline char *
with_work (const char *keys)
{
  g_autofree char *work = g_strdup_printf ("\"work\": {%s}", keys);

  return with_pin (work);
}
