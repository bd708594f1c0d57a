"""Neighbouring pockets inside a bend, as rigid boxes laid on a circle: the radius at which two of them just touch.

Run with python3; its numbers stand as expected values in validation/src and in the tests of the channel. mm.
"""

from math import asin, cos, hypot, sin, sqrt


def gap(r, drop, length, pitch, thickness):
    """Least distance across the mirror line between two neighbours. A pocket is a chord of the underside, a land an arc of the middle."""
    half = length / 2
    sunk = sqrt(r * r - half * half)
    step = 2 * asin(half / r) + (pitch - length) / (r + thickness / 2)
    corners = [(sunk, half), (sunk - drop, half)]
    return min(2 * (radius * sin(step / 2) - along * cos(step / 2)) for radius, along in corners)


def touching(drop, length, pitch, thickness):
    low, high = length, 1000.0
    for _ in range(200):
        r = (low + high) / 2
        low, high = (low, r) if gap(r, drop, length, pitch, thickness) > 0 else (r, high)
    return r


print("drop 2.9, length 11.15, pitch 12: touch at %.3f, formula %.3f" % (touching(2.9, 11.15, 12, 0.3), 2.9 / (1 - 11.15 / 12)))
for name, A0, K0, pitch in (("SOIC-16 wide", 10.75, 2.7, 12), ("SOIC-20 wide", 10.8, 2.7, 12), ("TO-252", 6.9, 2.7, 8), ("SOT-223", 7.05, 1.9, 8)):
    drop, length = K0 + 0.2 - 0.3, A0 + 0.4
    print("%s: drop %.2f, formula %.3f, boxes %.3f" % (name, drop, drop / (1 - length / pitch), touching(drop, length, pitch, 0.3)))

# Depth of a chord: the arc's height over its own ends, from the angle it spans.
for r, length in ((30, 11.2), (15, 4), (32, 12)):
    print("chord, r %g, length %g: %.6f" % (r, length, r * (1 - cos(asin(length / 2 / r)))))
print("outside a bend, r 30, length 20, drop 8: corner at %.4f of %.4f" % (hypot(sqrt(900 - 100) + 8, 10), 38))

# Bow of an edge that is a circle: 1 mm over 250 mm seen over 100 mm and 60 mm, from the circle itself.
for L in (100, 60):
    R = (125**2 + 1) / 2
    print("bow over %d mm: %.6f" % (L, R - sqrt(R * R - L * L / 4)))
