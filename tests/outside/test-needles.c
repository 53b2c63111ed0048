/* The needle list of a hooping read by others: the SVG is parsed by Python's own XML parser, its size taken by the rule of CSS Values and Units 3, 6.2 (1 in is
 * 96 px or 25.4 mm), its paths laid back on the cloth by affine transforms and held against the motifs' outlines by Shapely (GEOS); then the whole drawing is
 * painted by librsvg and its ink looked up in the outlines. The CSV is read by Python's csv module (RFC 4180). */
#include <glib/gstdio.h>

#include "python-road.h"

#include "formats/lists-csv.h"
#include "formats/needle-write.h"
#include "formats/scene-file.h"
#include "planning/planner.h"

/* Reads scene, SVG, CSV, hoop centre and angle, motifs in the hooping; writes what the checks below ask for. */
static const char script[]
    = "import csv, json, re, sys, xml.etree.ElementTree as ET\n"
      "import numpy, gi\n"
      "gi.require_version('GdkPixbuf', '2.0')\n"
      "from gi.repository import GdkPixbuf\n"
      "from shapely import affinity, geometry, ops, prepared, vectorized\n"
      "scene, svg, table, cx, cy, angle, *ids = sys.stdin.read().split('\\n')\n"
      "cx, cy, angle = float(cx), float(cy), float(angle)\n"
      "outlines = {}\n"
      "for m in json.load(open(scene))['motifs']:\n"
      "    if m['id'] not in ids: continue\n"
      "    shape = ops.unary_union([geometry.Polygon(r).buffer(0) for r in m['outline']])\n"
      "    s = m.get('scale', 1)\n"
      "    shape = affinity.scale(shape, -s if m.get('mirrored') else s, s, origin=(0, 0))\n"
      "    shape = affinity.rotate(shape, m.get('angle', 0), origin=(0, 0))\n" /* y down: shapely's anticlockwise is clockwise as seen */
      "    outlines.setdefault(m['name'], []).append(affinity.translate(shape, *m['position']))\n"
      "outlines = {name: ops.unary_union(shapes) for name, shapes in outlines.items()}\n"
      "wider = {name: prepared.prep(shape.buffer(0.2)) for name, shape in outlines.items()}\n"
      "root = ET.parse(svg).getroot()\n"
      "ns = '{http://www.w3.org/2000/svg}'\n"
      "x0, y0, w, h = map(float, root.get('viewBox').split())\n"
      "sizes = [float(re.fullmatch('([0-9.]+)mm', root.get(k))[1]) for k in ('width', 'height')]\n"
      "print(w, h, *sizes, x0, y0)\n"
      "worst, stitches, places = 0, 0, []\n"
      "for path in root.findall(f\".//{ns}g[@id='stitches']/{ns}path\"):\n"
      "    outline = outlines[path.get('data-motif')]\n"
      "    for line in path.get('d').split('M')[1:]:\n"
      "        flat = list(map(float, line.split()))\n"
      "        points = list(zip(flat[::2], flat[1::2]))\n"
      "        stitches += len(points) - 1\n"
      "        places += points[1:]\n"
      "        on_cloth = affinity.translate(affinity.rotate(geometry.MultiPoint(points[1:]), angle, "
      "origin=(0, 0)), cx, cy)\n"
      "        if not wider[path.get('data-motif')].contains(on_cloth):\n"
      "            worst = max(worst, max(outline.distance(p) for p in on_cloth.geoms))\n"
      "print(worst, stitches)\n"
      "rows = list(csv.DictReader(open(table, newline='', encoding='utf-8')))\n"
      "sewn = [(float(r['x_mm']), float(r['y_mm'])) for r in rows if r['action'] == 'stitch']\n"
      "print(len(sewn), max(max(abs(a[0] - b[0]), abs(a[1] - b[1])) for a, b in zip(sewn, places)))\n"
      "changes = sum(a['thread'] != b['thread'] for a, b in zip(rows, rows[1:]))\n"
      "print(changes, sum(r['action'] == 'colour' for r in rows))\n"
      "print(max(abs(float(r['x_mm'])) for r in rows), max(abs(float(r['y_mm'])) for r in rows))\n"
      "scale = 4\n" /* pixels to the millimetre */
      "picture = GdkPixbuf.Pixbuf.new_from_file_at_scale(svg, int(w * scale), int(h * scale), False)\n"
      "pixels = numpy.frombuffer(picture.get_pixels(), numpy.uint8).reshape(picture.get_height(), -1)\n"
      "inked = pixels[:, 3:picture.get_width() * 4:4] > 200\n"
      "v, u = numpy.nonzero(inked[8:-8, 8:-8])\n" /* without the line around the field */
      "u, v = (u + 8.5) / scale + x0, (v + 8.5) / scale + y0\n"
      "away = numpy.hypot(u, v) > 6\n" /* and without the cross */
      "a = numpy.radians(angle)\n"
      "x, y = cx + u * numpy.cos(a) - v * numpy.sin(a), cy + u * numpy.sin(a) + v * numpy.cos(a)\n"
      "everything = ops.unary_union(list(outlines.values())).buffer(0.5)\n"
      "print(vectorized.contains(everything, x[away], y[away]).mean(), len(u) / scale ** 2 / "
      "everything.area)\n";

typedef struct
{
  HwSnapshot *snapshot;
  HwPlan *plan;
  char *scene, *folder, *svg, *csv;
} Garden;

static void
garden_set_up (Garden *garden, gconstpointer data)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (GError) error = NULL;

  garden->scene = g_test_build_filename (G_TEST_DIST, "..", "data", "demo", "walled-garden.hoopscene", NULL);
  garden->snapshot = hw_scene_file_load (garden->scene, &error);
  g_assert_no_error (error);
  garden->plan = hw_planner_plan (planner, garden->snapshot, NULL, NULL, NULL, NULL);
  garden->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  garden->svg = g_build_filename (garden->folder, "list.svg", NULL);
  garden->csv = g_build_filename (garden->folder, "list.csv", NULL);
}

static void
garden_tear_down (Garden *garden, gconstpointer data)
{
  g_unlink (garden->svg);
  g_unlink (garden->csv);
  g_assert_cmpint (g_rmdir (garden->folder), ==, 0);
  hw_plan_unref (garden->plan);
  hw_snapshot_unref (garden->snapshot);
  g_free (garden->scene);
  g_free (garden->folder);
  g_free (garden->svg);
  g_free (garden->csv);
}

static char *
question (const Garden *garden, guint hooping)
{
  const HwHooping *of = &garden->plan->hoopings[hooping];
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s\n%s\n%s", garden->scene, garden->svg, garden->csv);
  for (guint i = 0; i < 3; i++)
    {
      g_string_append_c (text, '\n');
      append_number (text, i == 0 ? of->centre.x : i == 1 ? of->centre.y : of->angle);
    }
  for (guint m = 0; m < of->n_motifs; m++)
    g_string_append_printf (text, "\n%s", hw_snapshot_motif (garden->snapshot, of->motifs[m])->id);
  return g_string_free (text, FALSE);
}

static void
check_hooping (const Garden *garden, guint hooping)
{
  const HwHooping *of = &garden->plan->hoopings[hooping];
  const HwHoop *hoop = hw_snapshot_hoop (garden->snapshot, of->hoop);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwHoopingNeedles) needles = hw_hooping_needles_new (garden->plan, hooping, NULL, &error);
  g_autofree char *asked = question (garden, hooping);
  g_auto (GStrv) lines = NULL;
  double n[6];

  g_assert_no_error (error);
  g_assert_true (hw_hooping_needles_save (needles, garden->svg, &error));
  g_assert_true (hw_hooping_needles_save (needles, garden->csv, &error));
  lines = python_road (script, asked);
  g_assert_cmpuint (g_strv_length (lines), ==, 6);

  /* The page is the field, in millimetres about its centre. */
  g_assert_cmpuint (read_numbers (lines[0], n, 6), ==, 6);
  g_assert_cmpfloat (n[0], ==, hoop->field_width);
  g_assert_cmpfloat (n[1], ==, hoop->field_height);
  g_assert_cmpfloat (n[2], ==, hoop->field_width);
  g_assert_cmpfloat (n[3], ==, hoop->field_height);
  g_assert_cmpfloat (n[4], ==, -hoop->field_width / 2);
  g_assert_cmpfloat (n[5], ==, -hoop->field_height / 2);
  /* Every stitch lies in the outline of its motif as it is placed on the cloth; outlines are traced to 0.5 mm. */
  g_assert_cmpuint (read_numbers (lines[1], n, 2), ==, 2);
  g_assert_cmpfloat (n[0], <, 1.0);
  g_assert_cmpfloat (n[1], ==, of->stitches);
  /* CSV and SVG hold the same stitches. */
  g_assert_cmpuint (read_numbers (lines[2], n, 2), ==, 2);
  g_assert_cmpfloat (n[0], ==, of->stitches);
  g_assert_cmpfloat (n[1], ==, 0);
  /* A colour stands where the thread changes, and nowhere else: as often as the plan counts, who counts the first thread of a
   * hooping too when another was in before. */
  g_assert_cmpuint (read_numbers (lines[3], n, 2), ==, 2);
  g_assert_cmpfloat (n[0], ==, n[1]);
  g_assert_cmpfloat (n[1], <=, of->thread_changes);
  g_assert_cmpfloat (n[1] + 1, >=, of->thread_changes);
  /* Nothing goes outside the field. */
  g_assert_cmpuint (read_numbers (lines[4], n, 2), ==, 2);
  g_assert_cmpfloat (n[0], <=, hoop->field_width / 2);
  g_assert_cmpfloat (n[1], <=, hoop->field_height / 2);
  /* The ink of the painted drawing lies in the outlines, and fills a good part of them. */
  g_assert_cmpuint (read_numbers (lines[5], n, 2), ==, 2);
  g_assert_cmpfloat (n[0], >, 0.999);
  g_assert_cmpfloat (n[1], >, 0.3);
  g_test_message ("hooping %u: %.5f of the ink within, %.2f of the outlines inked", hooping + 1, n[0], n[1]);
}

static void
stitches_lie_in_the_placed_outlines (Garden *garden, gconstpointer data)
{
  g_assert_cmpuint (garden->plan->n_hoopings, >, 1);
  for (guint h = 0; h < garden->plan->n_hoopings; h += 3)
    check_hooping (garden, h);
}

/* A table of a plan read by Python's csv module, which stops at the first thing that is no CSV when it is strict: the number of its columns, line by line, and
 * its first column. */
static void
tables_are_csv_to_others (Garden *garden, gconstpointer data)
{
  static const char reads[] = "import csv, sys\n"
                              "rows = list(csv.reader(sys.stdin.read().splitlines(True), strict=True))\n"
                              "print(*sorted({len(row) for row in rows}))\n"
                              "print(*[row[0] for row in rows[1:]])\n";

  for (int kind = 0; kind < HW_N_LISTS; kind++)
    {
      g_autofree char *text = hw_list_csv_text ((HwListKind)kind, garden->plan);
      g_auto (GStrv) lines = python_road (reads, text);
      double columns[2] = { 0 };

      g_assert_cmpuint (read_numbers (lines[0], columns, 2), ==, 1);
      g_assert_cmpfloat (columns[0], >=, 5);
      if (kind == HW_LIST_HOOPINGS)
        g_assert_true (g_str_has_prefix (lines[1], "1 2 3"));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/outside/needles/stitches_lie_in_the_placed_outlines", Garden, NULL, garden_set_up,
              stitches_lie_in_the_placed_outlines, garden_tear_down);
  g_test_add ("/outside/needles/tables_are_csv_to_others", Garden, NULL, garden_set_up,
              tables_are_csv_to_others, garden_tear_down);
  return g_test_run ();
}
