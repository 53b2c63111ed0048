"""The Walled Garden: a wall hanging of eleven motifs."""
import math
import os

from . import birds, borders, branches, climbers, masonry
from .curves import arc
from .scene import Motif, write_needles, write_scene

DESIGNS = [
    ('wall-west', 'West wall', masonry.draw_wall_west, {'shift': -10j}),
    ('wall-east', 'East wall', masonry.draw_wall_east, {'shift': -10j}),
    ('gate', 'Garden gate', masonry.draw_gate, {'shift': -10j}),
    ('pear', 'Espalier pear', climbers.draw_pear, {'shift': -10j}),
    ('rose', 'Climbing rose', climbers.draw_rose, {'shift': -10j}),
    ('fig-branch', 'Fig branch', branches.draw_fig, {'shift': 16j}),
    ('quince-branch', 'Quince branch', branches.draw_quince, {'shift': 16j}),
    ('wren', 'Wren', birds.draw_wren, {'shift': -1j}),
    ('foxgloves', 'Foxgloves', borders.draw_foxgloves, {'shift': -3j}),
    ('lavender', 'Lavender and can', borders.draw_lavender, {}),
    ('hive', 'Straw hive', borders.draw_hive, {}),
]


def edge_line():
    """A cloth with a low arch for its upper edge."""
    rise, half, spring = 60, 302, 104
    radius = (half**2 + rise**2) / (2 * rise)
    spread = math.degrees(math.asin(half / radius))
    top = arc(complex(350, spring - rise + radius), radius, -90 - spread, -90 + spread, step=26)
    points = [complex(48, 500)] + top + [complex(652, 500)]
    return [[round(p.real, 1), round(p.imag, 1)] for p in points]


def write(folder):
    motifs = []
    for ident, name, draw, how in DESIGNS:
        m = Motif(ident, name, draw, **how)
        print(
            f'{name}: {sum(s for _, s in m.blocks)} stitches, {len(m.blocks)} threads, '
            f'{m.size[0]:.0f} x {m.size[1]:.0f} mm, outline {[len(r) for r in m.outline]}'
        )
        write_needles(os.path.join(folder, 'walled-garden'), m)
        motifs.append(m)
    write_scene(
        os.path.join(folder, 'walled-garden.hoopscene'),
        {
            'format': 'hoopwright-scene',
            'version': 1,
            'name': 'The Walled Garden',
            'fabric': {'width': 700, 'height': 540, 'colour': '#ddd2bb', 'hold': 'floated'},
            'edge_line': {'points': edge_line(), 'margin': 3.0},
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
                    'id': 'long',
                    'name': 'Long, 160 x 270',
                    'field': [160, 270],
                    'frame': [206, 340],
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
            'motifs': [
                m.record(f'walled-garden/{m.ident}.csv', ident=f'm{i + 1}') for i, m in enumerate(motifs)
            ],
        },
    )
