"""Curves to sew along. A point is a complex number, x + iy, millimetres, y down; a curve is a list of points."""
import bisect
import cmath
import math


def turn(degrees):
    """The factor that turns a point by degrees, clockwise as seen."""
    return cmath.exp(1j * math.radians(degrees))


def smooth(points, closed=False, step=0.6):
    """A curve through the points (centripetal Catmull-Rom), in steps of about `step` mm."""
    n = len(points)
    if n < 3 and not closed:
        return resample(points, step)
    get = (
        (lambda i: points[i % n])
        if closed
        else (
            lambda i: points[i]
            if 0 <= i < n
            else 2 * points[max(0, min(n - 1, i))] - points[0 - i if i < 0 else 2 * n - 2 - i]
        )
    )
    out = []
    for i in range(n if closed else n - 1):
        p0, p1, p2, p3 = get(i - 1), get(i), get(i + 1), get(i + 2)
        t0 = 0.0
        t1 = t0 + math.sqrt(abs(p1 - p0)) + 1e-9
        t2 = t1 + math.sqrt(abs(p2 - p1)) + 1e-9
        t3 = t2 + math.sqrt(abs(p3 - p2)) + 1e-9
        pieces = max(2, int(abs(p2 - p1) / step))
        for k in range(pieces):
            t = t1 + (t2 - t1) * k / pieces
            a1 = (t1 - t) / (t1 - t0) * p0 + (t - t0) / (t1 - t0) * p1
            a2 = (t2 - t) / (t2 - t1) * p1 + (t - t1) / (t2 - t1) * p2
            a3 = (t3 - t) / (t3 - t2) * p2 + (t - t2) / (t3 - t2) * p3
            b1 = (t2 - t) / (t2 - t0) * a1 + (t - t0) / (t2 - t0) * a2
            b2 = (t3 - t) / (t3 - t1) * a2 + (t - t1) / (t3 - t1) * a3
            out.append((t2 - t) / (t2 - t1) * b1 + (t - t1) / (t2 - t1) * b2)
    if not closed:
        out.append(points[-1])
    return out


def resample(points, step):
    """The same line in steps of about `step`."""
    return Course(points).points(max(1, round(Course(points).length / step)))


def arc(centre, radius, start, end, step=0.6):
    """Part of a circle; degrees clockwise as seen, 0 to the right."""
    n = max(2, int(abs(math.radians(end - start)) * radius / step))
    return [centre + radius * turn(start + (end - start) * k / n) for k in range(n + 1)]


def ellipse(centre, a, b, degrees=0, n=72):
    return [
        centre + turn(degrees) * complex(a * math.cos(2 * math.pi * k / n), b * math.sin(2 * math.pi * k / n))
        for k in range(n)
    ]


def bend(start, end, amount, n=24):
    """A gently bent line; amount: how far its middle stands off, as a part of its length, to the right of the way."""
    control = (start + end) / 2 + (end - start) * 1j * amount * 2
    return [
        (1 - t) ** 2 * start + 2 * t * (1 - t) * control + t * t * end for t in (k / n for k in range(n + 1))
    ]


class Course:
    """A line one can walk along: t runs from 0 to 1 over its length."""

    def __init__(self, points):
        self.knots = list(points)
        self.sums = [0.0]
        for a, b in zip(self.knots, self.knots[1:]):
            self.sums.append(self.sums[-1] + abs(b - a))
        self.length = self.sums[-1]

    def _find(self, t):
        s = min(max(t, 0.0), 1.0) * self.length
        i = min(max(bisect.bisect_right(self.sums, s) - 1, 0), len(self.knots) - 2)
        return i, s

    def at(self, t):
        i, s = self._find(t)
        span = self.sums[i + 1] - self.sums[i]
        return self.knots[i] + (self.knots[i + 1] - self.knots[i]) * (
            (s - self.sums[i]) / span if span else 0
        )

    def way(self, t):
        """Unit direction."""
        e = min(0.02, 1.2 / max(self.length, 1e-9))
        d = self.at(min(1, t + e)) - self.at(max(0, t - e))
        return d / abs(d) if abs(d) > 1e-9 else 1 + 0j

    def side(self, t):
        """Unit normal, to the right of the way as seen."""
        return self.way(t) * 1j

    def points(self, n):
        return [self.at(k / n) for k in range(n + 1)]


def nearest(p, lines):
    """The point of some lines that lies nearest to p."""
    return min((q for line in lines for q in line), key=lambda q: abs(q - p))


def inside(p, ring):
    """Even-odd."""
    odd = False
    x, y = p.real, p.imag
    for a, b in zip(ring, ring[1:] + ring[:1]):
        if (a.imag <= y) != (b.imag <= y) and x < a.real + (y - a.imag) / (b.imag - a.imag) * (
            b.real - a.real
        ):
            odd = not odd
    return odd
