"""Birds."""
from .curves import Course, bend, smooth
from .work import taper


def _wing(w, o, thread):
    """Long feathers under short ones."""
    shoulder = o + complex(7, -6)
    w.thread(thread)
    for k in range(5):
        if thread == 'bark':
            w.leaf(
                shoulder + complex(-3, 1.5 * k),
                o + complex(-26 + 2.4 * k, 2 + 2.6 * k),
                5.4,
                curve=-0.06,
                full=0.6,
            )
        else:
            w.leaf(
                shoulder + complex(1, 1.7 * k),
                o + complex(-9 + 1.6 * k, -1 + 3.2 * k),
                5.0,
                curve=-0.08,
                full=0.6,
            )


def draw_wren(w):
    """On the rose, tail up, singing."""
    o = 352 + 176j
    at = lambda *xy: [o + complex(x, y) for x, y in xy]
    back = Course(smooth(at((27, -16), (21, -22), (13, -19), (4, -12), (-8, -8), (-19, -3), (-25, 2))))
    belly = Course(smooth(at((27, -13.5), (25, -6), (20, 6), (10, 16), (-4, 19), (-16, 13), (-25, 5))))
    body = lambda u, t: back.at(t) + (belly.at(t) - back.at(t)) * u
    # Tail feathers first, they lie behind.
    w.thread('walnut')
    for k, (tip, wide) in enumerate((((-41, -27), 5), ((-37, -31), 5), ((-32, -33), 5))):
        w.leaf(o + complex(-21 + k, 1 - k), o + complex(*tip), wide, curve=0.05, full=0.7)
    w.leaf(o + complex(-20, -1), o + complex(-35, -33), 5.5, curve=0.02, full=0.72)
    # Body, from the pale breast to the dark back.
    limits = lambda low, high: (
        lambda u, j: 0 if low - 0.05 * ((j * 2) % 3) / 2 <= u < high + 0.05 * (j % 3) / 2 else 1
    )
    w.patch(
        body,
        30,
        [
            ('wheat', limits(0.60, 1.1), 1),
            ('oak', limits(0.30, 0.62), 1),
            ('bark', limits(-0.1, 0.32), 1),
        ],
        length=3.0,
    )
    _wing(w, o, 'bark')
    w.thread('russet')
    for k in range(6):
        p = body(0.72 + 0.06 * (k % 2), 0.48 + 0.07 * k)
        w.run(bend(p - 2, p + 2 + 1.5j, 0.15), 1.4)
    shoulder = o + complex(7, -6)
    _wing(w, o, 'russet')
    w.thread('walnut')
    for k in range(5):
        spine = Course(bend(shoulder + complex(-3, 1.5 * k), o + complex(-26 + 2.4 * k, 2 + 2.6 * k), -0.06))
        for t in (0.5, 0.66, 0.82):
            p = spine.at(t)
            w.run([p - spine.side(t) * 1.9, p + spine.side(t) * 1.9, p - spine.side(t) * 1.7], 1.9)
    for k in range(3):
        spine = Course(bend(o + complex(-20 + k, 0 - k), o + complex(-39 + 4 * k, -28 - 2 * k), 0.04))
        for t in (0.35, 0.55, 0.75, 0.92):
            p = spine.at(t)
            w.run([p - spine.side(t) * 1.8, p + spine.side(t) * 1.8], 1.8)
    # Head: brow, eye, open beak.
    w.thread('slate')
    w.leaf(o + complex(26, -15.6), o + complex(37, -20), 2.6, curve=-0.08, full=0.3)
    w.leaf(o + complex(26, -13.8), o + complex(35, -13.4), 2.2, curve=0.08, full=0.3)
    w.run(at((6, 17), (8, 27), (13, 29)), 1.6, double=True)
    w.run(at((8, 27), (3, 29)), 1.4, double=True)
    w.run(at((-3, 18), (-4, 27), (1, 30)), 1.6, double=True)
    w.run(at((-4, 27), (-9, 29)), 1.4, double=True)
    w.thread('ink')
    w.column(smooth(at((25, -14.5), (21, -13), (14, -11))), taper(1.0, 0.7), lean=0.5)
    w.dot(o + complex(20.5, -14), 1.9)
    w.thread('cream')
    w.column(smooth(at((26, -16.5), (21, -17.5), (15, -15.5), (9, -11))), taper(1.8, 0.9), lean=0.5)
    w.column(smooth(at((24, -9), (21, -5), (17, -2))), taper(2.0, 0.9), lean=0.5)
    w.run(at((20, -14.8), (20.9, -14.6), (20.1, -14.5)), 0.8)
