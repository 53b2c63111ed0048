"""What stands in the orchard; every design is drawn around its foot, at 0."""
import math

from .climbers import PEAR
from .curves import Course, arc, bend, inside, smooth, turn
from .forms import coils_of, petal, ragged, round_place, seam_coils, sew_coils, shade_coils, tuft
from .work import taper

APPLE = (0.4, 4.6, 6.6, 7.8, 8.3, 8.3, 7.7, 6.4, 4.2, 0.6)


def apple(w, top, size, part, tilt=0):
    axis, length = 90 + tilt, 15.5 * size
    place = round_place(top + turn(axis) * length / 2, axis, length, [x * size for x in APPLE])
    edge = lambda u, j: ragged(0.62 - 1.2 * (u - 0.32) if u > 0.32 else 0.62 - 0.5 * (0.32 - u), 0.2)(u, j)
    bands = [('straw', 0, edge), ('scarlet', lambda u, j: edge(u, j) - 0.05, 1)]
    w.patch(place, 16.6 * size, bands[part : part + 1], length=3.0)


def scattered(w, ring, apart, tries=900):
    """Places inside a ring, nowhere nearer than `apart`."""
    box = (
        min(p.real for p in ring),
        max(p.real for p in ring),
        min(p.imag for p in ring),
        max(p.imag for p in ring),
    )
    out = []
    for _ in range(tries):
        p = complex(w.chance.uniform(box[0], box[1]), w.chance.uniform(box[2], box[3]))
        if inside(p, ring) and all(abs(p - q) >= apart for q in out):
            out.append(p)
    return out


def crown(w, ring, middle, size, threads, apart):
    """Leaves all over a crown, pointing outwards and hanging a little; the darker ones lie behind."""
    places = scattered(w, ring, apart)
    leaves = []
    for p in places:
        out = p - middle
        way = math.degrees(math.atan2(out.imag + 8, out.real)) + w.chance.uniform(-38, 38)
        leaves.append((p, way, size * w.chance.uniform(0.85, 1.15)))
    third = len(leaves) // 3
    groups = (leaves[:third], leaves[third : 2 * third], leaves[2 * third :])
    dark, mid, light = threads
    for thread, half, part in (
        (dark, 1, 0),
        (dark, 1, 1),
        (mid, -1, 0),
        (mid, -1, 1),
        (mid, 1, 2),
        (light, -1, 2),
    ):
        w.thread(thread)
        for n, (p, way, s) in enumerate(groups[part]):
            w.leaf(
                p - turn(way) * s * 0.4,
                p + turn(way) * s * 0.6,
                s * 0.52,
                curve=0.06 if n % 2 else -0.06,
                full=0.45,
                halves=(half,),
            )
    return places


def draw_apple_tree(w):
    fork = -62j
    limbs = [
        smooth([fork + 4j, -16 - 84j, -38 - 104j, -52 - 124j]),
        smooth([fork, -8 - 100j, -14 - 132j, -10 - 158j]),
        smooth([fork + 2j, 16 - 90j, 34 - 112j, 52 - 122j]),
        smooth([-26 - 94j, -48 - 96j, -60 - 98j]),
        smooth([fork - 20j, 14 - 124j, 26 - 150j]),
        smooth([24 - 100j, 44 - 100j, 58 - 98j]),
    ]
    w.thread('bark')
    for k, line in enumerate(limbs):
        w.column(line, taper(7.0 if k < 3 else 4.0, 2.0), lean=0.25)
    w.column(
        smooth([-1 + 0j, 1 - 20j, -1 - 42j, fork - 8j]), lambda t: 12 - 4 * t + 7 * (1 - t) ** 6, lean=0.2
    )
    w.thread('walnut')
    for x, a, b in ((-2.5, -4, -34), (1.5, -12, -52), (3.8, -2, -26)):
        w.run(bend(complex(x, a), complex(x * 0.6, b), 0.03), 2.6)
    outline = smooth(
        [
            -70 - 92j,
            -66 - 122j,
            -44 - 146j,
            -14 - 168j,
            18 - 166j,
            46 - 148j,
            66 - 122j,
            70 - 94j,
            48 - 82j,
            22 - 92j,
            0 - 88j,
            -24 - 86j,
            -48 - 80j,
        ],
        closed=True,
        step=3,
    )
    crown(w, outline, -104j, 17, ('pine', 'moss', 'leaf'), 9.0)
    apples = [
        complex(x, y)
        for x, y in (
            (-52, -104),
            (-30, -124),
            (-6, -146),
            (-16, -102),
            (10, -118),
            (30, -138),
            (52, -112),
            (34, -98),
            (-42, -136),
            (-62, -90),
            (18, -156),
            (60, -92),
            (4, -94),
        )
    ]
    for part in (0, 1):
        for k, p in enumerate(apples):
            apple(w, p, 0.72 + 0.1 * (k % 3), part, (k * 7) % 17 - 8)


def draw_pear_tree(w):
    w.thread('bark')
    for line in (
        smooth([-52j, -12 - 76j, -22 - 106j, -20 - 134j]),
        smooth([-58j, 14 - 84j, 22 - 112j, 18 - 146j]),
        smooth([-40j, 2 - 90j, -2 - 140j, 0 - 172j]),
        smooth([-14 - 82j, -30 - 90j, -38 - 94j]),
        smooth([15 - 86j, 30 - 92j, 38 - 98j]),
    ):
        w.column(line, taper(5.6, 1.8), lean=0.25)
    w.column(smooth([1 + 0j, -1 - 18j, 0.5 - 50j]), lambda t: 10 - 3 * t + 6 * (1 - t) ** 6, lean=0.2)
    outline = smooth(
        [
            -44 - 84j,
            -46 - 108j,
            -34 - 140j,
            -18 - 168j,
            0 - 188j,
            18 - 170j,
            34 - 140j,
            46 - 106j,
            42 - 80j,
            18 - 70j,
            -20 - 70j,
        ],
        closed=True,
        step=3,
    )
    crown(w, outline, -110j, 15.5, ('moss', 'leaf', 'lime'), 9.2)
    pears = [
        complex(x, y)
        for x, y in (
            (-34, -106),
            (-22, -132),
            (-6, -158),
            (10, -134),
            (28, -112),
            (-12, -100),
            (8, -96),
            (34, -88),
            (-30, -82),
            (16, -162),
        )
    ]
    for part in (0, 1):
        for k, p in enumerate(pears):
            axis = 90 + (k * 5) % 13 - 6
            place = round_place(p + turn(axis) * 8.5, axis, 17, [x * 0.62 for x in PEAR])
            edge = lambda u, j: ragged(0.95 - 1.1 * (u - 0.3) if u > 0.3 else 0.95, 0.22)(u, j)
            bands = [('straw', 0, edge), ('honey', lambda u, j: edge(u, j) - 0.05, 1)]
            w.patch(place, 11.6, bands[part : part + 1], length=3.0)


def draw_ladder(w):
    w.thread('oak')
    for k in range(10):
        y = -12 - 15 * k
        half = 15.5 - 0.72 * k
        w.column([complex(-half, y), complex(half, y)], 2.6, lean=0.2)
    w.thread('bark')
    for side in (-1, 1):
        w.column([complex(side * 16.5, 0), complex(side * 8.5, -160)], 4.2, lean=0.2)
    w.thread('walnut')
    for k in range(10):
        y = -12 - 15 * k
        for side in (-1, 1):
            w.dot(complex(side * (16 - 0.74 * k), y), 1.0)


def draw_basket(w):
    wide = lambda t: 25 + 7 * t  # half width from the bottom to the rim
    low, high = 0.0, -30.0
    apples = [
        (-19 - 41j, 1.0, -6),
        (1 - 45j, 1.05, 4),
        (20 - 41j, 1.0, 8),
        (-9 - 37j, 1.0, -3),
        (11 - 37j, 0.98, 6),
        (27 - 35j, 0.8, 10),
        (-27 - 35j, 0.82, -8),
    ]
    w.thread('oak')
    w.column(smooth([-30 - 30j, -29 - 52j, -16 - 68j, 0 - 72j, 16 - 68j, 29 - 52j, 30 - 30j]), 4.2, lean=0.35)
    for part in (0, 1):
        for p, s, tilt in apples:
            apple(w, p, s, part, tilt)
    w.thread('leaf')
    for p, way in ((-3 - 44j, -150), (16 - 42j, -30), (-20 - 41j, -100)):
        w.leaf(p, p + turn(way) * 11, 5.5, full=0.45)
    rows, cells = 6, 9
    for thread, odd in (('oak', 0), ('straw', 1)):
        w.thread(thread)
        for r in range(rows):
            t0, t1 = r / rows, (r + 1) / rows
            for c in range(cells):
                if (r + c) % 2 != odd:
                    continue
                a, b = -1 + 2 * c / cells, -1 + 2 * (c + 1) / cells
                bow = lambda u: 2.6 * (1 - u * u)
                corner = lambda u, t: complex(u * wide(t), low + (high - low) * t + bow(u) - 2)
                w.fill(
                    [corner(a, t0) + 0.15, corner(a, t1) + 0.15, corner(b, t1) - 0.15, corner(b, t0) - 0.15],
                    90 if odd == 0 else 0,
                    row=0.45,
                    length=6.0,
                )
    w.thread('straw')
    for y, half in ((high, 33), (low, 26)):
        w.column(
            [complex(half * k / 12, y + 2.6 * (1 - (k / 12) ** 2) - 2) for k in range(-12, 13)], 4.0, lean=0.6
        )


def draw_hive(w):
    tall = 54.0
    w.thread('stone')
    for x0, x1, y in ((-36, -2, 0), (0, 36, 0), (-30, 30, -9.6)):
        w.fill(
            [complex(x0, y), complex(x0 + 1.4, y - 8.4), complex(x1 - 1.4, y - 8.4), complex(x1, y)],
            4 if x0 < -31 else -4,
            row=0.45,
            length=4.0,
        )
    seat = -19.5
    coils, thick = coils_of(complex(0, seat), 29.0, tall, 9)
    w.thread('straw')
    sew_coils(w, coils, thick)
    shade_coils(w, coils, thick)
    w.thread('bark')
    seam_coils(w, coils, thick)
    w.thread('walnut')
    w.fill(
        smooth(
            [
                complex(-7, seat),
                complex(-7, seat - 7),
                complex(0, seat - 12),
                complex(7, seat - 7),
                complex(7, seat),
            ]
        )
        + [complex(-7, seat)],
        90,
        length=3.4,
    )
    w.column(arc(complex(0, seat - tall - 0.5), 2.6, 180, 360), 1.5)


def draw_bough(w):
    """Hangs from above; its cut end at the left."""
    limb = smooth([-84 - 14j, -52 - 4j, -18 + 0j, 16 - 4j, 50 + 4j, 80 + 20j])
    twigs = [
        smooth([-40 - 2j, -30 + 14j, -24 + 28j]),
        smooth([4 - 3j, 16 + 14j, 20 + 30j]),
        smooth([-16 + 0j, -4 - 12j, 8 - 18j]),
        smooth([40 + 1j, 52 - 10j, 64 - 14j]),
    ]
    w.thread('walnut')
    for line in twigs:
        w.column(line, taper(2.8, 1.2), lean=0.3)
    w.column(limb, taper(6.4, 1.8), lean=0.25)
    leaves = [
        (-24 + 28j, 70, 17),
        (-28 + 20j, 150, 15),
        (20 + 30j, 100, 17),
        (18 + 22j, 20, 15),
        (8 - 18j, -40, 15),
        (64 - 14j, -20, 16),
        (80 + 20j, 40, 17),
        (70 + 14j, 100, 15),
        (-58 - 6j, -70, 15),
        (-62 - 8j, 110, 16),
        (30 - 1j, -90, 15),
        (52 + 5j, 110, 16),
        (-2 - 10j, -110, 14),
        (-34 - 1j, -100, 14),
        (36 + 1j, 80, 15),
    ]
    for thread, half in (('moss', 1), ('leaf', -1)):
        w.thread(thread)
        for n, (p, way, size) in enumerate(leaves):
            w.leaf(
                p, p + turn(way) * size, size * 0.5, curve=0.07 if n % 2 else -0.07, full=0.45, halves=(half,)
            )
    flowers = [
        (-46 - 6j, 10, 9),
        (-30 + 8j, 40, 8.4),
        (-12 - 3j, 0, 9.4),
        (12 + 8j, 25, 8.6),
        (24 - 6j, 50, 9),
        (46 + 0j, 15, 9),
        (66 + 10j, 35, 8.6),
        (2 - 14j, 60, 7.6),
        (-22 + 24j, 20, 7.6),
        (56 - 12j, 5, 7.4),
        (20 + 26j, 45, 7.8),
    ]
    for thread, part in (('shell', flowers[::2]), ('blush', flowers[1::2])):
        w.thread(thread)
        for p, tilt, size in part:
            for k in range(5):
                petal(w, p, tilt + 72 * k, size * 0.16, size, 73, notch=0.06)
    w.thread('rose')
    for p, tilt, size in flowers:
        for k in range(5):
            w.run([p, p + turn(tilt + 36 + 72 * k) * size * 0.38], 1.5, double=True)
        w.dot(p, size * 0.14)


def draw_hen(w):
    """Walks to the right, pecking at nothing in particular."""
    back = Course(smooth([30 - 44j, 25 - 46j, 20 - 38j, 8 - 33j, -6 - 33j, -18 - 38j, -27 - 46j]))
    belly = Course(smooth([31 - 40j, 28 - 32j, 25 - 20j, 12 - 10j, -6 - 9j, -20 - 18j, -30 - 36j]))
    body = lambda u, t: back.at(t) + (belly.at(t) - back.at(t)) * u
    w.thread('walnut')
    for k, (x, y) in enumerate(((-36, -34), (-40, -42), (-39, -50), (-34, -56))):
        w.leaf(complex(-18, -30), complex(x, y), 7, curve=0.12, full=0.7)
    limits = lambda low, high: (
        lambda u, j: 0 if low - 0.06 * ((j * 2) % 3) / 2 <= u < high + 0.06 * (j % 3) / 2 else 1
    )
    w.patch(body, 26, [('oak', limits(0.5, 1.1), 1), ('russet', limits(-0.1, 0.52), 1)], length=3.2)
    w.thread('walnut')
    for k in range(6):
        w.leaf(
            complex(10 - 1.6 * k, -30 + 2.2 * k),
            complex(-14 + 1.0 * k, -30 + 3.2 * k),
            5.2,
            curve=-0.10,
            full=0.6,
        )
    w.thread('oak')
    for k in range(4):
        w.leaf(
            complex(12 - 1.2 * k, -30 + 2.4 * k),
            complex(-1 + 0.8 * k, -30 + 3.4 * k),
            4.4,
            curve=-0.10,
            full=0.6,
        )
    w.thread('scarlet')
    for a, b in (((26, -46), (23, -53)), ((28, -46), (28, -54)), ((30, -45), (33, -52))):
        w.lozenge(complex(*a), complex(*b), 3.0)
    w.lozenge(complex(31, -39), complex(31, -32), 3.0)
    w.thread('honey')
    w.lozenge(complex(31, -42), complex(37, -41), 2.2)
    for x in (2, 11):
        w.stem([complex(x, -11), complex(x + 1, -1)], 1.2)
        for d in (-4, 1, 5):
            w.run([complex(x + 1, -1), complex(x + 1 + d, 1)], 1.4, double=True)
    w.thread('ink')
    w.dot(complex(28, -42.4), 1.2)


def draw_grasses(w):
    for thread, n, height in (('moss', 9, 30), ('leaf', 8, 38), ('sage', 7, 26)):
        w.thread(thread)
        for k in range(n):
            x = -52 + 104 * (k + 0.5 + w.chance.uniform(-0.2, 0.2)) / n
            tuft(w, complex(x, 0), height * w.chance.uniform(0.75, 1.05), 6, 34, width=1.7)
    flowers = ((-38, -44, 8), (-16, -36, 7.4), (6, -48, 8.4), (27, -38, 7.6), (44, -46, 7.6))
    w.thread('leaf')
    for x, y, s in flowers:
        w.run(bend(complex(x * 0.94, -2), complex(x, y), 0.05), 2.0, double=True)
    w.thread('scarlet')
    for n, (x, y, s) in enumerate(flowers):
        for k in range(4):
            petal(w, complex(x, y), n * 25 + 90 * k, s * 0.14, s, 98, notch=0.06)
    w.thread('ink')
    for x, y, s in flowers:
        w.dot(complex(x, y), s * 0.24)


def draw_hurdle(w):
    """A fence of woven rods."""
    stakes = [-62 + 20.6 * k for k in range(7)]
    w.thread('bark')
    for k, x in enumerate(stakes):
        w.column([complex(x, 2), complex(x, -62 - 3 * (k % 2))], 5.2, lean=0.2)
    rows = 12
    for thread, odd in (('oak', 0), ('clay', 1)):
        w.thread(thread)
        for r in range(odd, rows, 2):
            y = -8 - 4.4 * r
            for k in range(len(stakes) - 1):
                # Over every second stake; behind the others.
                a = stakes[k] + (3.4 if (k + r // 2 + odd) % 2 else -3.4)
                b = stakes[k + 1] + (3.4 if (k + 1 + r // 2 + odd) % 2 == 0 else -3.4)
                w.column(
                    [complex(a, y), complex((a + b) / 2, y + 0.5 * (-1) ** k), complex(b, y)], 3.9, lean=0.35
                )
