"""Clearances by looking everywhere: pockets, flange and film laid down point by point, distances from corner to side.

Run with python3 and numpy; its numbers stand as expected values in validation/src/clearance.ts. mm, radians. Nothing here knows a closed form:
the route is walked in steps, a pocket's front end is found by bisection, a film is a grid of points.
"""

from math import asin, atan2, cos, hypot, pi, sin, sqrt

import numpy as np


def walk(start, pieces, step=0.001):
    """Points of a route every `step`, with arc length and heading."""
    x, z, h = start
    out = [(0.0, x, z, h)]
    s = 0.0
    for piece in pieces:
        length = piece[0] if len(piece) == 1 else piece[0] * abs(piece[1])
        n = int(round(length / step))
        d = length / n
        bend = 0.0 if len(piece) == 1 else piece[1] / length
        for _ in range(n):
            # The chord of a little arc leaves at half its turn.
            half = bend * d / 2
            run = d if half == 0 else d * sin(half) / half
            x += run * cos(h + half)
            z += run * sin(h + half)
            h += bend * d
            s += d
            out.append((s, x, z, h))
    return np.array(out)


def side_distance(p, a, b):
    """Distance of points p (n, 2) to the side from a to b."""
    e = b - a
    t = np.clip(((p - a) @ e) / (e @ e), 0, 1)
    return np.hypot(*(p - a - t[:, None] * e).T)


def inside(p, ring):
    """Points within a convex ring, corners anticlockwise."""
    ok = np.ones(len(p), bool)
    for a, b in zip(ring, np.roll(ring, -1, 0)):
        ok &= (b[0] - a[0]) * (p[:, 1] - a[1]) - (b[1] - a[1]) * (p[:, 0] - a[0]) >= 0
    return ok


def rings_gap(p, q):
    """Gap of two convex rings; an overlap by trying five hundred directions to part them, then the sides' own."""
    best = min(min(side_distance(p, a, b).min() for a, b in zip(q, np.roll(q, -1, 0))), min(side_distance(q, a, b).min() for a, b in zip(p, np.roll(p, -1, 0))))
    normals = [np.array((b[1] - a[1], a[0] - b[0])) / np.hypot(*(b - a)) for ring, sign in ((p, 1), (q, -1)) for a, b in zip(ring, np.roll(ring, -1, 0))]
    apart = max(max((q @ n).min() - (p @ n).max(), (p @ n).min() - (q @ n).max()) for n in normals)
    return best if apart > 0 else apart


def box(x0, z0, x1, z1):
    return np.array([(x0, z0), (x1, z0), (x1, z1), (x0, z1)], float)


def combined(plane, across):
    return hypot(plane, across) if plane > 0 and across > 0 else max(plane, across)


def y_gap(a, b):
    return max(b[0] - a[1], a[0] - b[1])


def pockets(route, length, drop, every=0.02):
    """Corners of the pocket in every pose, its front end by bisection on the walked points."""
    s, x, z = route[:, 0], route[:, 1], route[:, 2]
    out = []
    i = 0
    while i < len(route):
        far = np.hypot(x[i:] - x[i], z[i:] - z[i])
        k = int(np.argmax(far >= length))
        if far[k] < length:
            break
        k += i
        t = (length - far[k - i - 1]) / (far[k - i] - far[k - i - 1])
        bx, bz = x[k - 1] + t * (x[k] - x[k - 1]), z[k - 1] + t * (z[k] - z[k - 1])
        c, d = (bx - x[i]) / length, (bz - z[i]) / length
        out.append([(x[i] + d * drop, z[i] - c * drop), (bx + d * drop, bz - c * drop), (bx, bz), (x[i], z[i])])
        i += int(round(every / (s[1] - s[0])))
    return np.array(out)


def swept(poses, body):
    """Least gap of the poses to a ring, or to a circle (x, z, r)."""
    least = 1e9
    for p in poses:
        if isinstance(body, tuple):
            c = np.array([body[:2]], float)
            d = min(side_distance(c, a, b)[0] for a, b in zip(p, np.roll(p, -1, 0)))
            least = min(least, (-d if inside(c, p)[0] else d) - body[2])
        else:
            if np.hypot(*(p.mean(0) - body.mean(0))) - 40 > least:
                continue
            least = min(least, rings_gap(p, body))
    return least


# A route down and up, the pocket 11.4 long and 4 deep; the tape 24 wide, 0.36 thick with its film. Placed at its start.
ROUTE = walk((0, 0, 0), [(30,), (50, -0.6), (20,), (40, 0.8), (30,)])
POSES = pockets(ROUTE, 11.4, 4)
POCKET = (1.75 + 11.5 - 5.3, 1.75 + 11.5 + 5.3)
BODIES = [
    ("drum", (30.0, -50.0, 40.0), (0, 24)),
    ("roller", (55.0, -30.0, 6.0), (0, 24)),
    ("post", box(60, -22, 66, -19), (0, 24)),
    ("beam", box(20, 1, 45, 9), (0, 24)),
    ("wall", box(0, -40, 120, 10), (19, 21)),
    ("edge", box(70, -60, 110, -31), (19.5, 26)),
    ("stop", box(90, -40, 96, -8), (10, 14)),
    ("cap", (75.0, -12.0, 5.0), (0, 24)),
]
for name, body, y in BODIES:
    print("pocket, %s: %.4f" % (name, combined(swept(POSES, body), y_gap(POCKET, y))))


def band_gap(route, lower, upper, body):
    """Gap of what lies between two lines beside the route: nearest of its faces' points, or the way over the nearer face."""
    up = np.stack([-np.sin(route[:, 3]), np.cos(route[:, 3])], 1)
    mid = route[:, 1:3]
    faces = [mid + lower * up, mid + upper * up]
    ends = [np.linspace(f0, f1, 400) for f0, f1 in zip(faces[0][[0, -1]], faces[1][[0, -1]])]
    pts = np.concatenate(faces + ends)
    if isinstance(body, tuple):
        d = np.hypot(*(pts - np.array(body[:2])).T) - body[2]
        heights = None
    else:
        d = np.min([side_distance(pts, a, b) for a, b in zip(body, np.roll(body, -1, 0))], 0)
        d = np.where(inside(pts, body), -1, d)
    if d.min() > 0:
        return d.min()
    # Overlapping: the least and the greatest height of the body over the route, at places of the route that are square below it.
    edge = np.concatenate([np.linspace(a, b, 4000) for a, b in zip(body, np.roll(body, -1, 0))])
    low, high = 1e9, -1e9
    for e in edge[::10]:
        k = np.argmin(np.hypot(*(mid - e).T))
        if 0 < k < len(mid) - 1:
            w = (e - mid[k]) @ up[k]
            low, high = min(low, w), max(high, w)
    return max(low - upper, lower - high)


COARSE = ROUTE[::2]
for name, body, y in BODIES:
    print("tape, %s: %.4f" % (name, combined(band_gap(COARSE, 0, 0.36, body), y_gap((0, 24), y))))


# Reach of a pocket outside a bend: r 30, 11.2 long, 2 deep; a level line, then up by 1.4 rad about (0, 30).
up = walk((-35, 0, 0), [(35,), (30, 1.4), (20,)])
outer = pockets(up, 11.2, 2, every=0.01)
print("outside reach: %.4f" % max(np.hypot(p[:, 0], p[:, 1] - 30).max() for p in outer if np.hypot(p[0, 0], p[0, 1] - 30) > 0 and p[0, 0] > 1 and p[1, 0] < 25))


def film(peel, guides, b, n_t=4001, n_y=241):
    """Grid of points of each span: straight fibres between lines, the film square at both its ends; a line is turned so that it turns less."""
    spans = []
    point, line, reach = np.array(peel, float), np.array((0, 1.0, 0)), 1.0
    for i, (through, along) in enumerate(guides):
        through, along = np.array(through, float), np.array(along, float) / np.linalg.norm(along)
        run = through - point
        d = run / np.linalg.norm(run)
        if (line - (line @ d) * d) @ (along - (along @ d) * d) < -sqrt(0.5) * np.linalg.norm(line - (line @ d) * d) * np.linalg.norm(along - (along @ d) * d) - 1e-12:
            along = -along
        meet = 1.0 if i + 1 == len(guides) else 1 / sqrt(1 - (along @ d) ** 2)
        y = np.linspace(-b / 2, b / 2, n_y)[None, :, None]
        t = np.linspace(0, 1, n_t)[:, None, None]
        spans.append((point + y * line * reach) * (1 - t) + (through + y * along * meet) * t)
        point, line, reach = through, along, meet
    return spans


def point_to_box(p, x, y, z):
    """Distance of points to a box that fills three ranges; negative within, the nearest face."""
    d = [np.maximum(lo - p[..., i], p[..., i] - hi) for i, (lo, hi) in enumerate((x, y, z))]
    out = np.sqrt(sum(np.maximum(v, 0) ** 2 for v in d))
    return np.where(np.maximum(np.maximum(d[0], d[1]), d[2]) < 0, np.maximum(np.maximum(d[0], d[1]), d[2]), out)


# A side crossing on 12 mm tape: peel line 40 before the place, back edge, shoulder beside the channel, nip below. Film 9.5 wide, tape 0.36 thick.
CROSSING = film((-40, 7.25, 0.3), [((-47, 7.25, 3), (0, 1, 0)), ((-95, 14.2, -2), (0, 0, -1)), ((-145, 7.25, -14), (0, 1, 0))], 9.5)


def way_out(spans, x, y, z):
    """Four ways out of a box that is long along x: how far the film must move for each; the least. By the film's points."""
    worst = None
    for p in spans:
        at = (p[..., 0] >= x[0]) & (p[..., 0] <= x[1])
        level = at & (p[..., 2] >= z[0]) & (p[..., 2] <= z[1])
        over = at & (p[..., 1] >= y[0]) & (p[..., 1] <= y[1])
        if not (level & over).any():
            continue
        ways = [(z[1] - p[..., 2])[over].max(), (p[..., 2] - z[0])[over].max(), (y[1] - p[..., 1])[level].max(), (p[..., 1] - y[0])[level].max()]
        worst = min(ways) if worst is None else max(worst, min(ways))
    return worst


print("film over the tape's edge: %.3f" % way_out(CROSSING[1:], (-200, 40), (0, 12), (0, 0.36)))
out = way_out(CROSSING[1:], (-200, 40), (4.35, 10.15), (-2.1, 0))
print("film in the pockets' lane: %s" % (out if out is None else "%.3f" % out))
if out is None:
    print("film from the pockets' lane: %.3f" % min(point_to_box(p, (-200, 40), (4.35, 10.15), (-2.1, 0)).min() for p in CROSSING[1:]))
print("film to a box (-80..-60, 16..20, -9..9): %.3f" % min(point_to_box(p, (-80, -60), (16, 20), (-9, 9)).min() for p in CROSSING))
print("film to a bar (-120..-100, 0..12, 4..9): %.3f" % min(point_to_box(p, (-120, -100), (0, 12), (4, 9)).min() for p in CROSSING))
print("film above the tape plane: %.4f" % max(p[..., 2].max() for p in CROSSING))

# A roller of 6 about (0, 6) that lifts by 3 degrees about (-14, 2), against a bridge at z 12.5: turned in ten thousand steps.
least = 1e9
for k in range(10001):
    a = 3 * pi / 180 * k / 10000
    z = 2 + 14 * sin(a) + 4 * cos(a)
    least = min(least, 12.5 - z - 6)
print("lifting roller: %.5f" % least)
