"""The Orchard Frieze: twenty-four motifs from nine designs, mirrored, scaled and turned along a long cloth."""
import os

from . import orchard_shapes as shapes
from .scene import Motif, write_needles, write_scene

DESIGNS = {
    'hurdle': ('Hurdle', shapes.draw_hurdle),
    'apple-tree': ('Apple tree', shapes.draw_apple_tree),
    'pear-tree': ('Pear tree', shapes.draw_pear_tree),
    'bough': ('Blossom bough', shapes.draw_bough),
    'ladder': ('Ladder', shapes.draw_ladder),
    'hive': ('Hive', shapes.draw_hive),
    'basket': ('Basket', shapes.draw_basket),
    'hen': ('Hen', shapes.draw_hen),
    'grasses': ('Meadow grass', shapes.draw_grasses),
}
GROUND = 270

# Design, where its foot stands (x, mm above the ground), angle, scale, mirrored; back to front.
PLACES = [
    ('hurdle', 318, 8, 0, 1.0, False),
    ('hurdle', 1186, 8, 0, 1.0, True),
    ('apple-tree', 168, 4, 0, 1.0, False),
    ('pear-tree', 448, 4, 0, 1.0, False),
    ('apple-tree', 752, 4, 0, 1.04, True),
    ('pear-tree', 1052, 4, 0, 1.0, True),
    ('apple-tree', 1334, 4, 0, 0.98, True),
    ('bough', 318, 196, 4, 1.0, False),
    ('bough', 594, 192, -3, 1.0, True),
    ('bough', 908, 192, 3, 1.0, False),
    ('bough', 1188, 196, -4, 1.0, True),
    ('ladder', 110, 0, 14, 0.95, False),
    ('ladder', 820, 0, -15, 1.0, False),
    ('hive', 588, 4, 0, 1.0, False),
    ('hive', 930, 4, 0, 1.0, True),
    ('basket', 236, -4, 0, 0.9, False),
    ('basket', 690, -4, 0, 0.9, True),
    ('basket', 1270, -4, 0, 0.9, False),
    ('hen', 380, -2, 0, 1.0, True),
    ('hen', 520, -2, -3, 0.95, False),
    ('hen', 1120, -2, 0, 1.0, False),
    ('grasses', 310, -6, 0, 1.0, False),
    ('grasses', 1000, -6, 0, 1.0, True),
    ('grasses', 1396, -6, 0, 0.96, False),
]


def write(folder):
    designs = {}
    for ident, (name, draw) in DESIGNS.items():
        designs[ident] = m = Motif(ident, name, draw)
        print(
            f'{name}: {sum(s for _, s in m.blocks)} stitches, {len(m.blocks)} threads, '
            f'{m.size[0]:.0f} x {m.size[1]:.0f} mm, outline {[len(r) for r in m.outline]}'
        )
        write_needles(os.path.join(folder, 'orchard-frieze'), m)
    motifs, counts = [], {}
    for n, (ident, x, up, angle, scale, mirrored) in enumerate(PLACES):
        m = designs[ident]
        counts[ident] = counts.get(ident, 0) + 1
        # The design's own middle, carried along as the design is mirrored, scaled and turned about its foot.
        position = complex(x, GROUND - up) + m.placed_middle(angle, scale, mirrored)
        motifs.append(
            m.record(
                f'orchard-frieze/{ident}.csv',
                ident=f'm{n + 1}',
                name=f'{m.name} {counts[ident]}',
                position=position,
                angle=angle,
                scale=scale,
                mirrored=mirrored,
            )
        )
    write_scene(
        os.path.join(folder, 'orchard-frieze.hoopscene'),
        {
            'format': 'hoopwright-scene',
            'version': 1,
            'name': 'The Orchard Frieze',
            'fabric': {'width': 1500, 'height': 320, 'colour': '#e0d6c1', 'hold': 'floated'},
            'edge_line': {'points': [[34, 26], [1466, 26], [1466, 294], [34, 294]], 'margin': 3.0},
            'hoops': [
                {
                    'id': 'small',
                    'name': 'Small, 100 x 100',
                    'field': [100, 100],
                    'frame': [138, 152],
                    'clearance': 2.0,
                    'turn': 'quarter',
                },
                {
                    'id': 'middle',
                    'name': 'Middle, 130 x 180',
                    'field': [130, 180],
                    'frame': [172, 244],
                    'clearance': 2.0,
                    'turn': 'any',
                },
                {
                    'id': 'great',
                    'name': 'Great, 240 x 300',
                    'field': [240, 300],
                    'frame': [290, 376],
                    'clearance': 2.0,
                    'turn': 'any',
                },
            ],
            'motifs': motifs,
        },
    )
