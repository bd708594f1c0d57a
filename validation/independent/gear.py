"""Involute gears by other means than the model: points of a rack-cut tooth one by one, contact by turning polygons.
Run: python3 validation/independent/gear.py    mm, deg.  Needs numpy."""
import numpy as np

pi = np.pi


def tooth(z, m, a, x, ha=1.0, hf=1.25, n=4000):
    """Right flank of a tooth (radius, angle from the tooth's middle), involute part above where the rack's sharp corner has cut it."""
    r, rb = m * z / 2, m * z / 2 * np.cos(a)
    ra = r + m * (ha + x)
    half = pi / (2 * z) + 2 * x * np.tan(a) / z  # half thickness angle at the pitch circle
    inv = lambda q: np.tan(q) - q
    R = np.linspace(rb, ra, n)
    ang = half + inv(a) - inv(np.arccos(np.clip(rb / R, -1, 1)))
    # The rack: its tooth fills the gear's gap.  In the gear's frame at roll s the rack's corner traces a trochoid; a point of the flank
    # is cut if at some s it lies inside the rack's tooth.
    gap = pi / z  # middle of the gap
    alive = np.ones(n, bool)
    for s in np.linspace(-3 * m, 3 * m, 6001):
        th = s / r  # gear turned by th while the rack moves by s
        # gear point at the angle phi (from the gap's middle, in gear frame): fixed frame angle phi - ... with the gap's middle at th
        phi = (ang - gap) + th
        X, Y = R * np.sin(phi), R * np.cos(phi)
        # rack tooth centred on x = s, pitch line y = r + x m is its own middle line; depth ha below the middle line
        mid = r + x * m
        depth = mid - Y
        width = m * pi / 4 - depth * np.tan(a)  # half width of the rack's tooth at that depth
        inside = (depth < ha * m) & (np.abs(X - s) < width - 1e-9)
        alive &= ~inside
    lowest = R[alive].min() if alive.any() else np.nan
    # contiguous alive part from the tip down
    dead = np.where(~alive)[0]
    lowest = R[dead.max() + 1] if len(dead) else R[0]
    return R, ang, lowest, rb, ra


def usable(z1, z2, m, a, x1, x2, A):
    out, start = [], []
    for z, x in ((z1, x1), (z2, x2)):
        R, ang, low, rb, ra = tooth(z, m, a, x)
        out.append(np.sqrt(ra**2 - rb**2))
        start.append(np.sqrt(max(0, low**2 - rb**2)))
    aw = np.arccos((z1 + z2) * m * np.cos(a) / 2 / A)
    line = A * np.sin(aw)
    end = min(out[0], line - start[1])
    begin = max(line - out[1], start[0])
    return np.degrees(aw), (out[0] + out[1] - line) / (pi * m * np.cos(a)), (end - begin) / (pi * m * np.cos(a)), start


def backlash(z1, z2, m, a, x1, x2, A):
    """Thickness of both teeth on the working pitch circles, from points of the flanks, against the pitch there."""
    aw = np.arccos((z1 + z2) * m * np.cos(a) / 2 / A)
    total = 0
    for z, x in ((z1, x1), (z2, x2)):
        rw = m * z / 2 * np.cos(a) / np.cos(aw)
        R, ang, *_ = tooth(z, m, a, x, n=400)
        R = np.linspace(m * z / 2 * np.cos(a), rw * 1.001, 400_001)
        inv = lambda q: np.tan(q) - q
        ang = pi / (2 * z) + 2 * x * np.tan(a) / z + inv(a) - inv(np.arccos(m * z / 2 * np.cos(a) / R))
        total += 2 * rw * np.interp(rw, R, ang)
    return 2 * pi * rw / z - total


if __name__ == "__main__":
    d = pi / 180
    for c in ((20, 24, 0.5, 20 * d, 0, 0, 11.0), (20, 24, 0.5, 20 * d, 0, 0, 11.244), (10, 40, 0.5, 20 * d, 0, 0, 12.5),
              (8, 8, 0.5, 20 * d, 0, 0, 4.0), (9, 30, 1.0, 20 * d, 0.3, -0.3, 19.5), (12, 24, 3.0, 20 * d, 0.6, 0.36, 56.4999)):
        aw, eps, use, start = usable(*c)
        print(c[:3], c[4:], f"aw {aw:.4f}  eps {eps:.4f}  usable {use:.4f}  starts {start[0]:.4f} {start[1]:.4f}  backlash {backlash(*c):.5f}")
