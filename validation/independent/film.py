"""Film figures worked out again by other means than the models: quadrature, root finding and least squares on many points.

Run with python3 and numpy; the numbers it prints stand as expected values in validation/src and in the tests of the models.
SI; widths and lengths are printed in mm, shares in per cent.
"""

import numpy as np

pi = np.pi


def root(f, low, high):
    """Bisection to the last bit: slow, and nothing in it to get wrong."""
    below = f(low) > 0
    for _ in range(200):
        middle = (low + high) / 2
        if (f(middle) > 0) == below:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def mean(values):
    """Trapezium rule over equal steps, divided by the length."""
    return (values.sum() - (values[0] + values[-1]) / 2) / (len(values) - 1)


# Laminate: integrate E and E z^2 through the thickness.
def laminate(layers, nu=0.38):
    edges = np.concatenate([[0], np.cumsum([h for _, h in layers])])
    z, E = [], []
    for (modulus, h), start in zip(layers, edges):
        z.append(start + (np.arange(200_000) + 0.5) * h / 200_000)
        E.append(np.full(200_000, modulus * h / 200_000))
    z, E = np.concatenate(z), np.concatenate(E)
    neutral = (E * z).sum() / E.sum()
    return E.sum(), (E * (z - neutral) ** 2).sum() / (1 - nu**2), neutral


print("laminate 16 um 4.5 GPa + 38 um 0.2 GPa: Eh %.6g  D %.6g  z_n %.6g" % laminate([(4.5e9, 16e-6), (0.2e9, 38e-6)]))
print("laminate 12 + 38:                       Eh %.6g  D %.6g  z_n %.6g" % laminate([(4.5e9, 12e-6), (0.2e9, 38e-6)]))
print("laminate 25 + 30:                       Eh %.6g  D %.6g  z_n %.6g" % laminate([(4.5e9, 25e-6), (0.2e9, 30e-6)]))
print("solid 54 um:                            Eh %.6g  D %.6g  z_n %.6g" % laminate([(4.5e9, 27e-6), (4.5e9, 27e-6)]))

# Side crossing: two quarter turns beside the channel; lengths of 4001 fibres, a straight line taken out by least squares.
width = {8: 5.3, 12: 9.3, 16: 13.3, 24: 21.3, 32: 25.5, 44: 37.5}
height = {8: 2.5, 12: 6.5, 16: 8, 24: 12, 32: 12, 44: 16}


def crossing(W, L, square=False):
    """Points and directions of peel line, side guide and nip. `square`: the film covers its own width on every line."""
    side, H = W / 2 + 2, height[W] + 4
    points = [np.array(p, float) for p in ((0, 0, 1), (-L, -side, -H / 2), (-2 * L, 0, -H - 2))]
    lines = [np.array(u, float) for u in ((0, 1, 0), (0, 0, 1), (0, -1, 0))]
    d = [(q - p) / np.linalg.norm(q - p) for p, q in zip(points, points[1:])]
    reach = [1, 1 if square else 1 / np.sqrt(1 - (d[0] @ lines[1]) ** 2), 1]
    y = np.linspace(-width[W] / 2, width[W] / 2, 4001)
    ends = [p + np.outer(y * k, u) for p, u, k in zip(points, lines, reach)]
    spans = [np.linalg.norm(b - a, axis=1) for a, b in zip(ends, ends[1:])]
    straight = [np.linalg.norm(q - p) for p, q in zip(points, points[1:])]
    return y, spans, straight, d, lines


def left_over(y, l):
    line = np.polyfit(y, l, 1)
    rest = l - np.polyval(line, y)
    return rest.max() - rest.min()


for square in (True, False):
    print("crossing,", "film square on every line" if square else "film covers y/sin(beta) of the side guide")
    for L in (35, 55):
        row = []
        for W in width:
            y, spans, straight, _, _ = crossing(W, L, square)
            row.append(max(left_over(y, l) / s for l, s in zip(spans, straight)) * 100)
        print("  L %d mm, over the middle fibre: " % L, " ".join("%d: %.4f" % (W, m) for W, m in zip(width, row)))
        row = []
        for W in width:
            y, spans, _, _, _ = crossing(W, L, square)
            row.append(max(left_over(y, l) / mean(l) for l in spans) * 100)
        print("  L %d mm, over the mean fibre:   " % L, " ".join("%d: %.4f" % (W, m) for W, m in zip(width, row)))
print("crossing, L 35, flat film by arc length of a helicoid's edge over the shorter span:")
for W in (8, 12, 16, 24, 32):
    _, _, straight, _, _ = crossing(W, 35)
    L, b = min(straight), width[W]
    s = np.linspace(0, L, 2001)
    edge = np.stack([s, b / 2 * np.cos(pi / 2 * s / L), b / 2 * np.sin(pi / 2 * s / L)])
    print("  %d: %.4f" % (W, (np.linalg.norm(np.diff(edge), axis=0).sum() / L - 1) * 100))
print("crossing, L 35, lean at the peel line, kink at the side, lean at the nip (deg):")
for W in (8, 24):
    _, _, _, d, u = crossing(W, 35)
    lean = [np.degrees(np.arcsin(a @ b)) for a, b in ((u[0], d[0]), (u[1], d[0]), (u[1], d[1]), (u[2], d[1]))]
    print("  %d: %.4f %.4f %.4f" % (W, lean[0], lean[2] - lean[1], lean[3]))

# Quarter turn in a straight span: length over width for a given mismatch.
for m in (0.01, 0.02):
    chord = root(lambda x: np.hypot(1, np.sin(pi / 4) / x) - 1 - m, 1, 20)
    flat = root(lambda x: np.hypot(1, pi / 4 / x) - 1 - m, 1, 20)
    print("quarter turn, L/b for %.0f %%: chord %.5f, flat film %.5f" % (m * 100, chord, flat))

# First slack fibre of a twisted strip: the pull that exact chords need when the middle fibre just goes slack.
for b, L, P, Eh in ((5.3e-3, 40e-3, 0.5, 79600), (20e-3, 100e-3, 1, 225000), (13.3e-3, 38.5e-3, 0.65, 79600)):
    y = np.linspace(-b / 2, b / 2, 20001)
    pull = lambda phi: Eh * b * mean(np.hypot(1, 2 * np.sin(phi / 2) * y / L) - 1)
    phi = root(lambda x: pull(x) - P, 1e-6, pi)
    small = root(lambda eta: mean((eta * y / b) ** 2 / 2) - P / (Eh * b), 1e-6, 20)
    print("first slack fibre, b %.1f mm: chords phi %.5f, 2 sin(phi/2) %.5f; small strain %.6f, over L/b: %.6f" % (b * 1e3, phi, 2 * np.sin(phi / 2), small * L / b, small))

# Tension-only fibres: one material length l_0 from the pull, by bisection on 200 001 fibres.
def strip(length, b, Eh, P):
    y = np.linspace(-b / 2, b / 2, 200_001)
    l = length(y)
    l0 = root(lambda x: Eh * b * mean(np.maximum(0, l / x - 1)) - P, l.max() * 0.5, l.max())
    t = np.maximum(0, l / l0 - 1)
    return t.max(), mean((l <= l0).astype(float)), mean(t * y) / mean(t)


print("strip, parabola k 700: greatest %.6f slack %.5f offset %.2e" % strip(lambda y: 1 + 700 * y**2, 0.0213, 79600, 0.65))
print("strip, slope 0.4:      greatest %.6f slack %.5f offset %.6f" % strip(lambda y: 1 + 0.4 * y, 0.0213, 79600, 0.65))
print("strip, quarter turn 36.3 mm, 5.3 mm, 0.5 N: greatest %.6f slack %.4f offset %.1e" % strip(lambda y: np.hypot(0.0363, np.sqrt(2) * y), 0.0053, 79600, 0.5))

# Kendall's balance, by its root.
for degrees in (0, 30, 60, 90, 170):
    c = 1 - np.cos(np.radians(degrees))
    P = root(lambda p: (p / 1.4e-3) ** 2 / (2 * 79600) + p / 1.4e-3 * c - 300, 0, 20)
    print("Kendall %3d deg: %.8f N" % (degrees, P), "" if c == 0 else "short of Rivlin by %.3f %%" % ((1 - P * c / (1.4e-3 * 300)) * 100))

# Rope on a bar: integrate dT = mu T dphi in a million steps.
for mu, turn in ((0.3, 180), (0.3, 360), (0.3, 720)):
    n = 1_000_000
    print("rope, mu %.1f over %d deg: %.5f" % (mu, turn, (1 + mu * np.radians(turn) / n) ** n))

# Strip clamped upstream, entering square: solve y'''' = K^2 y'' on 4000 points by its four end conditions.
for KL in (0.01, 1, 20):
    r = np.exp(-KL)
    # y = A + B x + C e^(-K x) + D e^(-K (L - x)), L = 1
    M = np.array([[1, 0, 1, r], [0, 1, -KL, KL * r], [0, 1, -KL * r, KL], [0, 0, KL**2 * r, KL**2]], float)
    if KL > 0.1:
        A, B, C, D = np.linalg.solve(M, [0, 0, 1, 0])
        print("entry ratio, KL %g: %.8f" % (KL, A + B + C * r + D))
    else:
        x = np.linspace(0, 1, 200_001)
        w = np.sinh(KL * (1 - x))
        slope = np.concatenate([[0], np.cumsum((w[1:] + w[:-1]) / 2)])
        print("entry ratio, KL %g: %.8f" % (KL, mean(slope) / slope[-1]))
