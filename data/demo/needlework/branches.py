"""The two branches that hang into the garden from above: fig and quince."""
from .curves import Course, bend, nearest, smooth, turn
from .forms import LobedLeaf, petal, ragged, round_place
from .work import taper

FIG = (0.3, 1.5, 2.7, 4.6, 7.0, 9.2, 10.6, 10.8, 9.9, 7.6, 4.6, 0.4)
QUINCE = (1.0, 6.2, 8.4, 9.6, 11.2, 12.8, 13.4, 13.0, 11.6, 9.4, 6.0, 0.8)


def fig_fruit(w, stalk, axis, size, part):
    length = 25 * size
    place = round_place(stalk + turn(axis) * (length / 2), axis, length, [x * size for x in FIG])
    edge1 = lambda u, j: ragged(0.30 + 0.22 * abs(u - 0.35), 0.07)(u, j)
    edge2 = lambda u, j: ragged(0.62 - 0.5 * (u - 0.5), 0.09)(u, j)
    bands = [
        ('lime', 0, edge1),
        ('plum', lambda u, j: edge1(u, j) - 0.05, edge2),
        ('fig', lambda u, j: edge2(u, j) - 0.05, 1),
    ]
    w.patch(place, 21.6 * size, bands[part : part + 1], length=3.2)


def draw_fig(w):
    """From the left edge up along the arch and to the middle."""
    limb = smooth([67 + 147j, 92 + 128j, 126 + 108j, 164 + 97j, 204 + 94j, 244 + 90j, 284 + 93j])
    twigs = [
        (smooth([118 + 112j, 134 + 134j, 140 + 158j, 150 + 178j]), taper(4.6, 2.0)),
        (smooth([186 + 95j, 202 + 116j, 212 + 138j]), taper(3.8, 1.8)),
        (smooth([228 + 92j, 246 + 104j, 262 + 122j]), taper(3.2, 1.8)),
        (smooth([84 + 133j, 86 + 150j, 92 + 168j]), taper(3.6, 1.8)),
    ]
    w.thread('bark')
    for line, width in twigs:
        w.column(line, width, lean=0.3)
    w.column(limb, taper(8.8, 2.4, 0.8), lean=0.25)
    w.thread('oak')
    for a, b, off in ((0.02, 0.4, -1.6), (0.3, 0.7, -1.0), (0.08, 0.3, 1.4)):
        course = Course(limb)
        w.run([course.at(a + (b - a) * k / 20) + course.side(a) * off for k in range(21)], 2.6)
    deep = [
        LobedLeaf(*x)
        for x in (
            (150 + 178j, 62, 42),
            (110 + 116j, -112, 36),
            (212 + 138j, 100, 44),
            (284 + 93j, 14, 38),
            (92 + 168j, 112, 40),
            (74 + 142j, -60, 28),
        )
    ]
    fresh = [
        LobedLeaf(*x)
        for x in (
            (140 + 158j, -10, 36),
            (166 + 97j, -74, 34),
            (262 + 122j, 66, 38),
            (226 + 92j, -52, 32),
            (160 + 98j, 64, 36),
            (106 + 120j, 50, 30),
            (238 + 90j, 92, 32),
        )
    ]
    w.thread('pine')
    for leaf in deep:
        leaf.sew_half(w, 1)
    w.thread('moss')
    for leaf in deep:
        leaf.sew_half(w, 0)
    for leaf in fresh:
        leaf.sew_half(w, 1)
    w.thread('leaf')
    for leaf in fresh:
        leaf.sew_half(w, 0)
    w.thread('lime')
    for leaf in deep + fresh:
        leaf.sew_veins(w)
    figs = (
        (96 + 127j, 92, 0.95),
        (130 + 122j, 70, 0.9),
        (192 + 98j, 116, 1.0),
        (214 + 94j, 76, 0.9),
        (272 + 92j, 86, 0.95),
    )
    for part in range(3):
        for fruit in figs:
            fig_fruit(w, *fruit, part)


def quince_fruit(w, stalk, axis, size, part):
    length = 27 * size
    place = round_place(stalk + turn(axis) * (length / 2), axis, length, [x * size for x in QUINCE])
    edge = lambda u, j: ragged(0.86 - 0.75 * u * u, 0.12)(u, j)
    edge2 = lambda u, j: ragged(0.30 - 0.9 * max(0, u - 0.42) + 0.1, 0.10)(u, j)
    bands = [
        ('wheat', 0, lambda u, j: edge2(u, j) if u < 0.75 else 0),
        ('straw', lambda u, j: edge2(u, j) - 0.06, edge),
        ('honey', lambda u, j: edge(u, j) - 0.06, 1),
    ]
    w.patch(place, 26.8 * size, bands[part : part + 1], length=3.2)


def blossom(w, centre, size, tilt, part):
    if part == 0:
        for k in range(5):
            petal(w, centre, tilt + 72 * k, size * 0.16, size, 72 * 1.02, notch=0.05)
    else:
        for k in range(5):
            w.run([centre, centre + turn(tilt + 36 + 72 * k) * size * 0.36], 1.4, double=True)
        w.dot(centre, size * 0.14)


def draw_quince(w):
    limb = smooth([633 + 147j, 606 + 124j, 572 + 106j, 536 + 98j, 498 + 95j, 458 + 88j, 420 + 90j])
    twigs = [
        (smooth([588 + 114j, 576 + 138j, 566 + 160j, 560 + 182j]), taper(4.4, 1.8)),
        (smooth([520 + 97j, 506 + 116j, 500 + 134j]), taper(3.6, 1.6)),
        (smooth([470 + 90j, 452 + 104j, 440 + 120j]), taper(3.0, 1.6)),
        (smooth([616 + 132j, 616 + 154j, 608 + 176j]), taper(3.4, 1.6)),
    ]
    w.thread('walnut')
    for line, width in twigs:
        w.column(line, width, lean=0.3)
    w.column(limb, taper(8.2, 2.2, 0.8), lean=0.25)
    deep = [
        (560 + 182j, 104, 34),
        (566 + 160j, 40, 28),
        (604 + 123j, -78, 28),
        (500 + 134j, 70, 30),
        (548 + 100j, -76, 30),
        (440 + 120j, 118, 28),
        (420 + 90j, 168, 30),
        (478 + 91j, -108, 27),
        (608 + 176j, 60, 30),
        (574 + 140j, 152, 30),
        (616 + 150j, 160, 26),
        (628 + 142j, -110, 26),
        (532 + 98j, 60, 28),
        (458 + 100j, -170, 26),
    ]
    pale = [
        (600 + 120j, -138, 26),
        (566 + 160j, 170, 30),
        (520 + 97j, -122, 30),
        (502 + 122j, 20, 26),
        (500 + 134j, 132, 28),
        (454 + 102j, 30, 26),
        (440 + 120j, 62, 26),
        (440 + 89j, -58, 26),
        (578 + 106j, -62, 24),
        (608 + 176j, 118, 27),
        (630 + 146j, 72, 26),
        (562 + 172j, 70, 26),
        (508 + 96j, -40, 24),
        (604 + 122j, 150, 26),
    ]
    for thread, leaves, half in (
        ('moss', deep, 1),
        ('sage', deep, -1),
        ('sage', pale, -1),
        ('mist', pale, 1),
    ):
        w.thread(thread)
        for n, (base, way, size) in enumerate(leaves):
            start = base + turn(way) * 2
            w.leaf(
                start,
                base + turn(way) * size,
                size * 0.60,
                curve=0.07 if n % 2 else -0.07,
                full=0.46,
                halves=(half,),
            )
    w.thread('pine')
    stems = [limb] + [line for line, _ in twigs]
    for n, (base, way, size) in enumerate(deep + pale):
        w.stem(bend(nearest(base, stems), base + turn(way) * 3, 0.05), 1.0)
        w.run(
            bend(
                base,
                base + turn(way) * size * 0.8,
                (0.07 if (n if n < len(deep) else n - len(deep)) % 2 else -0.07),
            ),
            2.2,
        )
    quinces = (
        (588 + 118j, 100, 1.0),
        (540 + 101j, 86, 1.05),
        (514 + 108j, 118, 0.85),
        (476 + 94j, 96, 0.95),
        (616 + 146j, 84, 0.8),
    )
    for part in range(3):
        for fruit in quinces:
            quince_fruit(w, *fruit, part)
    w.thread('walnut')
    for stalk, axis, size in quinces:
        eye = stalk + turn(axis) * (27 * size - 1.5)
        for k in (-50, -15, 20, 50):
            w.run([eye, eye + turn(axis + k) * 3.2], 1.2, double=True)
    blossoms = ((428 + 92j, 9.5, 10), (555 + 176j, 9.0, 40), (497 + 92j, 9.0, 0), (450 + 118j, 8.0, 25))
    w.thread('shell')
    for b in blossoms:
        blossom(w, *b, 0)
    w.thread('rose')
    for b in blossoms:
        blossom(w, *b, 1)
