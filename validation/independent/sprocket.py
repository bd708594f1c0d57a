"""The feasible interval of a tape over a toothed wheel, by brute force: outlines of some thousand points with straight chords between
them, 601 angles over one pitch and 201 more about the least.  Points against layers; an involute is drawn by unwinding a string.  Then the opening
that a tooth meets of a round hole and the width of its front that bears, by sampling.  Run: python3 validation/independent/sprocket.py (some minutes)
Lengths in mm.  Needs numpy."""
import numpy as np

pi = np.pi
N = 6_000


def straight(w, r, tip, flank, q=0.0):
    """Front half of the outline, from well below the tape to the middle of the tip: (rho, w)."""
    rho = np.linspace(r - 6 * w, tip, N)
    front = np.column_stack([rho, w - (rho - r) * np.tan(flank)])
    return rounded(close(front), q)


def involute(w, r, tip, q=0.0):
    t = np.linspace(0, 1.5, N * 4)  # length of unwound string over r
    A0 = np.arcsin(w / r)
    # String leaves the circle at the angle A0 - t; its free end lies t*r along the tangent.
    x = r * np.sin(A0 - t) + r * t * np.cos(A0 - t)
    y = r * np.cos(A0 - t) - r * t * np.sin(A0 - t)
    keep = (x >= 0) & (y <= tip)
    stop = np.argmin(keep) if not keep.all() else len(keep)
    front = np.column_stack([y[:stop], x[:stop]])
    # end exactly at the tip
    if stop < len(keep) and y[stop] > tip:
        f = (tip - y[stop - 1]) / (y[stop] - y[stop - 1])
        front = np.vstack([front, [tip, x[stop - 1] + f * (x[stop] - x[stop - 1])]])
    foot = np.column_stack([np.linspace(r - 6 * w, front[0, 0], 20_000), np.full(20_000, w)])
    return rounded(close(np.vstack([foot, front])), q)


def close(front):
    rho, w = front[-1]
    return np.vstack([front, np.column_stack([np.full(4000, rho), np.linspace(w, 0, 4000)])])


def rounded(front, q):
    """Opening of the tooth by a disc of radius q: corners of the tip rounded."""
    if q <= 0:
        return front
    tip = front[:, 0].max()
    flank = front[front[:, 0] < tip - 1e-12]
    # centre: at tip - q and q away from the flank
    lo, hi = 0.0, flank[-1, 1] + q
    for _ in range(80):
        c = (lo + hi) / 2
        gap = np.hypot(flank[:, 0] - (tip - q), flank[:, 1] - c).min()
        if gap > q and c < np.interp(tip - q, flank[:, 0], flank[:, 1]):
            lo = c
        else:
            hi = c
    c = (lo + hi) / 2
    i = np.hypot(flank[:, 0] - (tip - q), flank[:, 1] - c).argmin()
    psi = np.linspace(np.arctan2(flank[i, 0] - (tip - q), flank[i, 1] - c), pi / 2, 20_000)
    arc = np.column_stack([tip - q + q * np.sin(psi), c + q * np.cos(psi)])
    top = np.column_stack([np.full(3000, tip), np.linspace(c, 0, 3000)])
    return np.vstack([flank[:i], arc, top])


def reach(half, a, rb, T, wrap, u):
    """Least and greatest place along the tape of one tooth's outline within the tape; chords are cut at the tape's faces."""
    lo, hi = np.inf, -np.inf
    rn = rb + u * T
    for sign in (1, -1):
        r, A = np.hypot(half[:, 0], half[:, 1]), a + sign * np.arctan2(half[:, 1], half[:, 0])
        side = np.sign(A)
        on = np.abs(A) <= wrap / 2
        B = A - side * wrap / 2
        s = np.where(on, rn * A, side * rn * wrap / 2 + r * np.sin(B))
        h = np.where(on, r - rb, r * np.cos(B) - rb)
        if wrap == 0:
            s, h = r * np.sin(A), r * np.cos(A) - rb
        m = (h >= 0) & (h <= T)
        found = [s[m]] if m.any() else []
        for level in (0.0, T):
            c = np.where((h[:-1] - level) * (h[1:] - level) < 0)[0]
            f = (level - h[c]) / (h[c + 1] - h[c])
            found.append(s[c] + f * (s[c + 1] - s[c]))
        for q in found:
            if len(q):
                lo, hi = min(lo, q.min()), max(hi, q.max())
    return (lo, hi) if hi > -np.inf else None


def interval(theta, half, z, P, T, rb, D, wrap=0.0, u=0.5):
    d = 2 * pi / z
    lo, hi = -np.inf, np.inf
    K = int(np.ceil((np.arccos(min(1, rb / np.hypot(*half[:, :2].T).max())) + wrap / 2) / d)) + 1
    for k in range(-K, K + 1):
        got = reach(half, theta + k * d, rb, T, wrap, u)
        if got:
            lo = max(lo, got[1] - k * P - D / 2)
            hi = min(hi, got[0] - k * P + D / 2)
    return lo, hi


def study(half, z, P, T, rb, D, wrap=0.0, u=0.5):
    d = 2 * pi / z
    th = np.linspace(0, d, 601)
    both = np.array([interval(t, half, z, P, T, rb, D, wrap, u) for t in th])
    i = int(np.argmin(both[:, 1] - both[:, 0]))
    fine = th[i] + np.linspace(-1, 1, 201) * (th[1] - th[0])
    least = min(np.subtract(*interval(t, half, z, P, T, rb, D, wrap, u)[::-1]) for t in fine)
    lo = both[:, 0]
    off = lo - P * th / d
    half_step = np.abs(lo[300:] - lo[:301] - P / 2).max()
    return least, off.max() - off.min(), half_step


def opening(D, b, y0, rc):
    """Half length of the longest rounded rectangle, b across and y0 off, in a circle: points of its outline."""
    t = np.linspace(0, 2 * pi, 40_001)

    def room(half):
        cx = np.where(np.cos(t) >= 0, half - rc, -(half - rc)) + rc * np.cos(t)
        cy = np.where(np.sin(t) >= 0, y0 + b / 2 - rc, y0 - b / 2 + rc) + rc * np.sin(t)
        return D / 2 - np.hypot(cx, cy).max()

    low, high = rc, D / 2
    for _ in range(60):
        mid = (low + high) / 2
        low, high = (mid, high) if room(mid) > 0 else (low, mid)
    return 2 * low


def bearing(D, b, rc, past):
    """Width of a rounded front over the wall of a hole once it is pushed `past` first touch: 400 001 strips."""
    y = np.linspace(-b / 2, b / 2, 400_001)
    e = np.maximum(np.abs(y) - (b / 2 - rc), 0)
    front = -(rc - np.sqrt(np.maximum(rc * rc - e * e, 0)))
    wall = np.sqrt(D * D / 4 - y * y)
    return (front + (wall - front).min() + past > wall).sum() * (y[1] - y[0])


if __name__ == "__main__":
    print("case                                      least play mm   error um   half step um")
    rad = np.radians
    z, P = 24, 4.0
    rp = z * P / 2 / pi
    rb = rp - 0.15
    D = 2 * np.sqrt(0.75**2 - 0.4**2)
    cases = {
        "straight 20, T 0.3, flat": (straight(0.55, rp, rb + 1.2, rad(20)), z, P, 0.3, rb, D),
        "straight 20, T 0.3, wrap 90": (straight(0.55, rp, rb + 1.2, rad(20)), z, P, 0.3, rb, D, pi / 2),
        "straight 20, T 0.6, wrap 90": (straight(0.55, rp, rb + 1.2, rad(20)), z, P, 0.6, rb, D, pi / 2),
        "involute, T 0.3, flat": (involute(0.55, rp, rb + 1.2), z, P, 0.3, rb, D),
        "involute, T 0.6, wrap 90": (involute(0.55, rp, rb + 1.2), z, P, 0.6, rb, D, pi / 2),
        "involute, tip rounded 0.1, T 0.3, flat": (involute(0.55, rp, rb + 1.2, 0.1), z, P, 0.3, rb, D),
        "straight 15, rounded 0.15, T 0.3, flat": (straight(0.55, rp, rb + 1.2, rad(15), 0.15), z, P, 0.3, rb, D),
        "straight 15, rounded 0.15, T 0.3, wrap 30": (straight(0.55, rp, rb + 1.2, rad(15), 0.15), z, P, 0.3, rb, D, pi / 6),
        "straight 12, 8 teeth, T 0.3, flat": (
            straight(0.5, 8 * P / 2 / pi, 8 * P / 2 / pi + 0.9, rad(12)), 8, P, 0.3, 8 * P / 2 / pi - 0.15, 1.4),
        "straight 22, pitch 4.02, T 0.3, flat": (straight(0.55, rp, rb + 1.1, rad(22)), z, 4.02, 0.3, rb, 1.494),
    }
    for name, c in cases.items():
        least, error, half_step = study(*c)
        print(f"{name:42s} {least:12.6f} {error * 1e3:12.3f} {half_step * 1e3:12.3f}")
    print("opening of a hole: D, across, off, corner")
    for c in ((1.5, 0.8, 0, 0.0), (1.5, 0.8, 0.2, 0.0), (1.5, 0.8, 0.2, 0.4), (1.5, 0.6, 0.15, 0.1), (1.6, 0.8, 0.1, 0.0)):
        print(c, f"{opening(*c):.5f}")
    print("front that bears at 4 % of the hole: D, across, corner")
    for c in ((1.5, 0.8, 0.0), (1.5, 0.8, 0.15), (1.5, 0.8, 0.4), (1.5, 0.7, 0.3), (1.5, 1.2, 0.6)):
        print(c, f"{bearing(*c, 0.04 * c[0]):.5f}")
