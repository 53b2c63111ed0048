/* Scene files to test with. */
#pragma once

#include "formats/scene-file.h"

/* The example of the file's description, word for word. */
static const char contract[]
    = "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"The Walled Garden\",\n"
      " \"fabric\": {\"width\": 700, \"height\": 540, \"colour\": \"#d8cbb0\", \"hold\": \"floated\"},\n"
      " \"edge_line\": {\"points\": [[60, 40], [640, 40], [640, 500], [60, 500]], \"margin\": 2.0},\n"
      " \"hoops\": [{\"id\": \"h1\", \"name\": \"130 x 180\", \"field\": [130, 180], \"frame\": [170, 240], "
      "\"clearance\": 2.0, \"turn\": \"any\"}],\n"
      " \"motifs\": [{\"id\": \"m1\", \"name\": \"Fig branch\", \"outline\": [[[-40, -30], [40, -30], [0, "
      "35]]],\n"
      "             \"position\": [180, 150], \"angle\": 0, \"scale\": 1.0, \"mirrored\": false,\n"
      "             \"threads\": [{\"name\": \"moss\", \"colour\": \"#335522\", \"stitches\": 1200}]}]}\n";

/* Everything a scene may carry, as the program writes it, with keys on every level that it does not know. */
static const char full[]
    = "{\n"
      "  \"format\": \"hoopwright-scene\",\n"
      "  \"version\": 1,\n"
      "  \"name\": \"Harbour steps \\\"at low tide\\\" – é\",\n"
      "  \"fabric\": {\"width\": 700.5, \"height\": 540, \"colour\": \"#d8cbb0\", \"hold\": \"clamped\", "
      "\"weave\": "
      "\"linen\"},\n"
      "  \"edge_line\": {\n"
      "    \"points\": [[60, 40], [640, 40], [640, 500], [60, 500]],\n"
      "    \"margin\": 2.25,\n"
      "    \"shape\": \"rounded\",\n"
      "    \"corner_radius\": 12.5,\n"
      "    \"drawn_with\": [\"chalk\", null, true, 1e-07]\n"
      "  },\n"
      "  \"hoops\": [\n"
      "    {\"id\": \"h1\", \"name\": \"130 x 180\", \"field\": [130, 180], \"frame\": [170, 240], "
      "\"clearance\": 2, "
      "\"turn\": \"any\"},\n"
      "    {\"id\": \"h2\", \"name\": \"Square\", \"field\": [100, 100], \"frame\": [140, 140], "
      "\"clearance\": 1.5, "
      "\"turn\": \"any\", \"at\": 3},\n"
      "    {\"id\": \"h3\", \"name\": \"Old\", \"field\": [80, 80], \"frame\": [99, 99], \"clearance\": 1, "
      "\"turn\": \"any\", \"set_aside\": true}\n"
      "  ],\n"
      "  \"motifs\": [\n"
      "    {\n"
      "      \"id\": \"m1\",\n"
      "      \"name\": \"Rope\",\n"
      "      \"outline\": [[[-40, -30], [40, -30], [0, 35]], [[-5, -10], [5, -10], [0, 5]]],\n"
      "      \"position\": [180.1, 150],\n"
      "      \"angle\": -12.5,\n"
      "      \"scale\": 1.1,\n"
      "      \"mirrored\": true,\n"
      "      \"threads\": [\n"
      "        {\"name\": \"hemp\", \"colour\": \"#335522\", \"stitches\": 1200, \"weight\": 40},\n"
      "        {\"name\": \"tar\", \"colour\": \"#111111\", \"stitches\": 30}\n"
      "      ],\n"
      "      \"artwork\": {\"path\": \"art/rope.csv\", \"kind\": \"needles\", \"made\": \"by hand\"},\n"
      "      \"before\": [\"m2\"],\n"
      "      \"locked\": true,\n"
      "      \"note\": \"Own drawing.\\nFree to use.\",\n"
      "      \"season\": {\"from\": \"May\"}\n"
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
      "    },\n"
      "    {\n"
      "      \"id\": \"m3\",\n"
      "      \"name\": \"Buoy\",\n"
      "      \"outline\": [[[-10, -10], [10, -10], [10, 10], [-10, 10]]],\n"
      "      \"position\": [420, 260],\n"
      "      \"angle\": 0,\n"
      "      \"scale\": 1,\n"
      "      \"mirrored\": false,\n"
      "      \"threads\": []\n"
      "    }\n"
      "  ],\n"
      "  \"parts\": [\n"
      "    {\"name\": \"Upper\", \"motifs\": [\"m1\", \"m3\"], \"day\": \"Monday\"},\n"
      "    {\"name\": \"Lower\", \"motifs\": []}\n"
      "  ],\n"
      "  \"pins\": [\n"
      "    {\"hoop\": \"h2\", \"centre\": [300, 200], \"angle\": 90, \"motifs\": [\"m2\"], \"why\": "
      "\"seam\"},\n"
      "    {\"hoop\": \"h1\", \"centre\": [420, 250.5], \"keep\": \"grain\", \"motifs\": [\"m3\"]}\n"
      "  ],\n"
      "  \"apart\": [[\"m1\", \"m3\"], [\"m3\", \"m2\"]],\n"
      "  \"wishes\": {\n"
      "    \"best\": \"least-time\",\n"
      "    \"interleave\": true,\n"
      "    \"density_limit\": 4.5,\n"
      "    \"scale_range\": [0.85, 1.2],\n"
      "    \"tolerance\": 0.5,\n"
      "    \"mood_of_the_person_who_stitches_it_today\": \"calm\"\n"
      "  },\n"
      "  \"machine\": {\n"
      "    \"stitches_per_minute\": 650,\n"
      "    \"turn_step\": 0.5,\n"
      "    \"shift_step\": 0.1,\n"
      "    \"minutes_per_change\": 1.5,\n"
      "    \"minutes_per_hooping\": 8,\n"
      "    \"colour_of_the_thread_on_its_bobbin_today\": \"white\"\n"
      "  },\n"
      "  \"progress\": {\n"
      "    \"frozen\": [\n"
      "      {\"hoop\": \"h1\", \"centre\": [180, 150], \"angle\": 0, \"motifs\": [\"m1\"]}\n"
      "    ],\n"
      "    \"readings\": [{\"mark\": \"A\", \"at\": [0.3, -0.2]}]\n"
      "  },\n"
      "  \"palette\": [\n"
      "    {\"name\": \"hemp\", \"number\": \"17\", \"lab\": [33.25, -20.5, 27], \"metres\": 120.5, "
      "\"shelf\": \"third\"},\n"
      "    {\"name\": \"tar\", \"lab\": [5, 0, 0]}\n"
      "  ],\n"
      "  \"photo\": {\n"
      "    \"shown\": 1,\n"
      "    \"fade\": 0.25,\n"
      "    \"stack\": [\n"
      "      {\"name\": \"before\", \"taken\": \"2026-11-24\", \"path\": \"wall.jpg\", \"weather\": "
      "\"dull\"},\n"
      "      {\n"
      "        \"name\": \"after\",\n"
      "        \"points\": [{\"px\": [10.5, 20], \"mm\": [0, 0]}, {\"px\": [900, 25], \"mm\": [210, 0]}],\n"
      "        \"bow\": -0.02,\n"
      "        \"brightness\": 0.1,\n"
      "        \"strength\": 0.75,\n"
      "        \"data\": \"/9j/4A==\"\n"
      "      }\n"
      "    ],\n"
      "    \"lamp\": \"north window\"\n"
      "  },\n"
      "  \"seen_by\": [\"the harbour master\"]\n"
      "}\n";

/* text with the first `from` made `to`. Returns: (transfer full) */
static inline char *
replaced (const char *text, const char *from, const char *to)
{
  const char *at = g_strstr_len (text, -1, from);

  g_assert_nonnull (at);
  return g_strdup_printf ("%.*s%s%s", (int)(at - text), text, to, at + strlen (from));
}

/* The sentence that refuses it. Returns: (transfer full) */
static inline char *
refusal (const char *text, gssize length)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) snapshot = hw_scene_file_parse (text, length, NULL, &error);

  g_assert_null (snapshot);
  g_assert_nonnull (error);
  g_assert_true (error->domain == HW_SCENE_FILE_ERROR);
  return g_strdup (error->message);
}

/* Returns: (transfer full) */
static inline HwSnapshot *
accepted (const char *text)
{
  g_autoptr (GError) error = NULL;
  HwSnapshot *snapshot = hw_scene_file_parse (text, -1, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (snapshot);
  return snapshot;
}
