"""The outline of a piece of needlework: the true contour of the stitched area, a little grown, few points, never
crossing itself. Found on a fine grid: distances after Felzenszwalb and Huttenlocher 2012, "Distance transforms of sampled
functions", Theory of Computing 8(19); thinned after Douglas and Peucker 1973."""
import math

CELL = 0.5  # mm
FAR = 1e12


def _line_distances(f):
    n = len(f)
    v, z, k = [0] * n, [0.0] * (n + 1), 0
    z[0], z[1] = -FAR, FAR
    for q in range(1, n):
        s = ((f[q] + q * q) - (f[v[k]] + v[k] * v[k])) / (2 * q - 2 * v[k])
        while s <= z[k]:
            k -= 1
            s = ((f[q] + q * q) - (f[v[k]] + v[k] * v[k])) / (2 * q - 2 * v[k])
        k += 1
        v[k], z[k], z[k + 1] = q, s, FAR
    out, k = [0.0] * n, 0
    for q in range(n):
        while z[k + 1] < q:
            k += 1
        out[q] = (q - v[k]) ** 2 + f[v[k]]
    return out


def _distances(mask, w, h):
    """Squared distance in cells from each cell to the nearest marked one."""
    columns = [_line_distances([0.0 if mask[y * w + x] else FAR for y in range(h)]) for x in range(w)]
    rows = [_line_distances([columns[x][y] for x in range(w)]) for y in range(h)]
    return [d for row in rows for d in row]


def _trace(mask, w, h):
    """Outer rings of the marked cells, along cell borders, clockwise as seen; holes are left out."""
    steps = {}
    for y in range(h):
        for x in range(w):
            if not mask[y * w + x]:
                continue
            if not mask[(y - 1) * w + x]:
                steps.setdefault((x, y), []).append((x + 1, y))
            if not mask[y * w + x + 1]:
                steps.setdefault((x + 1, y), []).append((x + 1, y + 1))
            if not mask[(y + 1) * w + x]:
                steps.setdefault((x + 1, y + 1), []).append((x, y + 1))
            if not mask[y * w + x - 1]:
                steps.setdefault((x, y + 1), []).append((x, y))
    rings = []
    while steps:
        start = min(steps)
        ring, here, before = [], start, None
        while True:
            ways = steps[here]
            if len(ways) > 1 and before is not None:
                dx, dy = here[0] - before[0], here[1] - before[1]
                ways.sort(key=lambda p: (p[0] - here[0]) * -dy + (p[1] - here[1]) * dx)
                following = ways.pop()
            else:
                following = ways.pop()
            if not ways:
                del steps[here]
            ring.append(complex(*here))
            before, here = here, following
            if here == start:
                break
        if _area(ring) > 0:
            rings.append(ring)
    return rings


def _area(ring):
    return sum(a.real * b.imag - b.real * a.imag for a, b in zip(ring, ring[1:] + ring[:1])) / 2


def _thin(ring, tolerance):
    far = max(range(len(ring)), key=lambda i: abs(ring[i] - ring[0]))

    def part(points):
        keep, stack = {0, len(points) - 1}, [(0, len(points) - 1)]
        while stack:
            i, j = stack.pop()
            a, b = points[i], points[j]
            d, best, at = b - a, tolerance, None
            for k in range(i + 1, j):
                p = points[k] - a
                off = abs((p.real * d.imag - p.imag * d.real) / abs(d)) if abs(d) > 1e-9 else abs(p)
                if off > best:
                    best, at = off, k
            if at is not None:
                keep.add(at)
                stack += [(i, at), (at, j)]
        return [points[k] for k in sorted(keep)]

    return part(ring[: far + 1])[:-1] + part(ring[far:] + ring[:1])[:-1]


def _in_triangle(p, a, b, c):
    side = lambda u, v: (v.real - u.real) * (p.imag - u.imag) - (v.imag - u.imag) * (p.real - u.real)
    x, y, z = side(a, b), side(b, c), side(c, a)
    return (x >= 0 and y >= 0 and z >= 0) or (x <= 0 and y <= 0 and z <= 0)


def _fewer(rings, most, shave=0.3):
    """Takes points away, the least important first (after Visvalingam and Whyatt 1993), bridging bays rather than cutting
    corners: a corner may lose no more than `shave` mm."""
    rings = [list(ring) for ring in rings]

    def cost(ring, i):
        a, b, c = ring[i - 1], ring[i], ring[(i + 1) % len(ring)]
        area = ((b - a).real * (c - b).imag - (b - a).imag * (c - b).real) / 2
        if area <= 0:  # a bay
            price = -area
        elif 2 * area / max(abs(c - a), 1e-9) <= shave:  # a corner that hardly stands out
            price = 6 * area
        else:
            return FAR
        if any(q not in (a, b, c) and _in_triangle(q, a, b, c) for other in rings for q in other):
            return FAR
        return price

    costs = [[cost(ring, i) for i in range(len(ring))] for ring in rings]
    while sum(map(len, rings)) > most:
        price, r, i = min(
            (min((p, i) for i, p in enumerate(row))[0], r, min((p, i) for i, p in enumerate(row))[1])
            for r, row in enumerate(costs)
            if len(row) > 4
        )
        if price >= FAR:
            return None
        del rings[r][i], costs[r][i]
        n = len(rings[r])
        for k in (i - 2, i - 1, i, i + 1):
            costs[r][k % n] = cost(rings[r], k % n)
    return rings


def _crosses(ring):
    def turn_of(a, b, c):
        return (b.real - a.real) * (c.imag - a.imag) - (b.imag - a.imag) * (c.real - a.real)

    n = len(ring)
    for i in range(n):
        a, b = ring[i], ring[(i + 1) % n]
        for j in range(i + 2, n):
            if i == 0 and j == n - 1:
                continue
            c, d = ring[j], ring[(j + 1) % n]
            if (
                max(a.real, b.real) < min(c.real, d.real)
                or max(c.real, d.real) < min(a.real, b.real)
                or max(a.imag, b.imag) < min(c.imag, d.imag)
                or max(c.imag, d.imag) < min(a.imag, b.imag)
            ):
                continue
            if turn_of(a, b, c) * turn_of(a, b, d) <= 0 and turn_of(c, d, a) * turn_of(c, d, b) <= 0:
                return True
    return False


def _least_gap(rings, holes):
    """The least distance from a needle hole to the outline; below 0 when a hole lies outside."""
    least = FAR
    rows = {}
    edges = [(a, b) for ring in rings for a, b in zip(ring, ring[1:] + ring[:1])]
    for a, b in edges:
        for y in range(math.floor(min(a.imag, b.imag)) - 1, math.ceil(max(a.imag, b.imag)) + 2):
            rows.setdefault(y, []).append((a, b))
    for p in holes:
        odd = False
        for a, b in rows.get(math.floor(p.imag), ()):
            if (a.imag <= p.imag) != (b.imag <= p.imag) and p.real < a.real + (p.imag - a.imag) / (
                b.imag - a.imag
            ) * (b.real - a.real):
                odd = not odd
            d = b - a
            t = max(0.0, min(1.0, ((p - a) * d.conjugate()).real / abs(d) ** 2))
            least = min(least, abs(p - a - d * t))
        if not odd:
            return -1.0
    return least


def contour(points, grow=0.5, close=2.5, most=110):
    """Rings of complex points around all stitches of a needle list (points as in Work)."""
    holes, lines, before = [], [], None
    for p, action, _ in points:
        if action == 'stitch':
            holes += [before, p]
            lines.append((before, p))
        if action in ('stitch', 'jump'):
            before = p
    pad = grow + close + 12
    x0, y0 = min(p.real for p in holes) - pad, min(p.imag for p in holes) - pad
    w = int((max(p.real for p in holes) + pad - x0) / CELL) + 2
    h = int((max(p.imag for p in holes) + pad - y0) / CELL) + 2
    mask = bytearray(w * h)
    for a, b in lines:
        n = max(1, int(abs(b - a) / (CELL * 0.7)))
        for k in range(n + 1):
            p = a + (b - a) * k / n
            mask[int((p.imag - y0) / CELL) * w + int((p.real - x0) / CELL)] = 1
    near = _distances(mask, w, h)
    slack = 0.35
    while True:
        reach = ((grow + slack + close) / CELL) ** 2
        wide = bytearray(1 if d <= reach else 0 for d in near)
        outside = bytearray(0 if m else 1 for m in wide)
        deep = _distances(outside, w, h)
        final = bytearray(1 if d > (close / CELL) ** 2 else 0 for d in deep)
        rings = [
            [complex(x0 + p.real * CELL, y0 + p.imag * CELL) for p in ring] for ring in _trace(final, w, h)
        ]
        thin = _fewer([_thin(ring, 0.25) for ring in rings if len(ring) > 12], most) or []
        thin = [
            [complex(round(p.real, 2), round(p.imag, 2)) for p in ring] for ring in thin if len(ring) >= 3
        ]
        if thin and not any(_crosses(ring) for ring in thin) and _least_gap(thin, holes) > 0.2:
            return thin
        # Too many bays for so few points: stand off a little, then close them over.
        slack += 0.2
        if slack > 1.0:
            slack, close = 0.35, close + 1.0
        if close > 9:
            raise ValueError('no outline of so few points encloses these stitches')
