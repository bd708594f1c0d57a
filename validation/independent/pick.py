"""The pick chain, worked out again by other means than the models: radii by drawing ten million places at random, the bow of an edge by
its exact circle, the turn of a part by turning its corners until they touch.

Run with python3 and numpy (a minute); its numbers stand as expected values in validation/src/accuracy.ts. Any length unit.
"""

import math

import numpy as np

rng = np.random.default_rng(20)
N = 10_000_000


def radius(share, x, y):
    """x, y: (offset, sd of the normal rest, reach of the even cause, reach of the double one)."""
    places = []
    for v, s, a, b in (x, y):
        p = v + s * rng.standard_normal(N)
        if a:
            p += a * rng.uniform(-1, 1, N)
        if b:
            p += b * rng.choice((-1.0, 1.0), N)
        places.append(p)
    return np.quantile(np.hypot(*places), share)


print("radii of 99.7 %")
for x, y in [
    ((0, 0.3, 1, 0), (0, 0.4, 0, 0)),
    ((0.5, 0.3, 1, 0), (0.2, 0.2, 0.5, 0)),
    ((0, 0.05, 1, 0), (0, 0.05, 1, 0)),
    ((0.4, 0.3, 0.6, 0.8), (0, 0.3, 0, 0)),
]:
    print(" ", x, y, round(float(radius(0.997, x, y)), 4))

print("a chain of seven causes, um: turn 12, even 31, 28, 15, 13, 10; either 20 across, even 27, 20")
t = lambda: rng.uniform(-1, 1, N)
along = 18 + 12 * np.sin(np.pi * t()) + 31 * t() + 28 * t() + 15 * t() + 13 * t() + 10 * t()
across = -7 + 20 * rng.choice((-1.0, 1.0), N) + 27 * t() + 20 * t()
print("  radius", round(float(np.quantile(np.hypot(along, across), 0.997)), 2))
print("  sds", round(float(along.std()), 3), round(float(across.std()), 3))

# A bow of 1 mm over 250 mm, 14 mm from one end of a chord of 60 mm.
R = (125**2 + 1) / 2
h = math.sqrt(R * R - 30**2)
print("bow", round(math.sqrt(R * R - (30 - 14) ** 2) - h, 5), "mm")


def turned(A, B, length, width):
    """Angle at which a rectangle first touches a pocket that it lies in the middle of."""

    def out(phi):
        c, s = math.cos(phi), math.sin(phi)
        return max(length * c + width * s - A, length * s + width * c - B)

    low, high = 0.0, 0.5
    for _ in range(100):
        m = (low + high) / 2
        low, high = (m, high) if out(m) < 0 else (low, m)
    return low


for A, B, length, width in [(6.4, 5.2, 6.0, 5.0), (1.85, 2.25, 1.7, 2.1)]:
    print("turn", A, B, round(1e3 * turned(A, B, length, width), 3), "mrad")
