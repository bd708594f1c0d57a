"""Motors, worms, heat, supply and parts in open pockets, worked out again by other means than the models: forces on a flank as linear equations, heat by
repeating its balance and by steps in time, circuits by steps in time, a rail as a ladder of resistors, a floor and a stone by steps in time.

Run with python3 and numpy; its numbers stand as expected values in validation/src and in the tests of the models. SI unless said.
"""

import numpy as np

g = 9.80665


def root(f, low, high):
    """Bisection to the last bit."""
    below = f(low) > 0
    for _ in range(200):
        middle = (low + high) / 2
        if (f(middle) > 0) == below:
            low = middle
        else:
            high = middle
    return (low + high) / 2


# Worm: a flank with a normal and a sliding force in three dimensions. x along the worm's axis, y along its circumference, z radial.
def worm(lead, pressure, mu, drives):
    """Efficiency from the forces on one flank: axial and tangential force of a normal force N = 1 and friction mu along the thread."""
    along = np.array([np.sin(lead), np.cos(lead), 0.0])
    normal = np.array([np.cos(pressure) * np.cos(lead), -np.cos(pressure) * np.sin(lead), np.sin(pressure)])
    total = normal - mu * along if drives == "worm" else normal + mu * along
    axial, tangential = total[0], -total[1]
    rise = np.tan(lead)
    return axial * rise / tangential if drives == "worm" else tangential / (axial * rise)


for lead, pressure, mu in ((4.5, 20, 0.12), (4.0, 20, 0.08), (9.0, 14.5, 0.05)):
    l, a = np.radians(lead), np.radians(pressure)
    print("worm, lead %.1f, pressure %.1f deg, friction %.2f: %.6f forward, %.6f backward" % (lead, pressure, mu, worm(l, a, mu, "worm"), worm(l, a, mu, "wheel")))
print("worm, 20 deg: passes 45 %% at 4.5 deg with friction %.5f, at 4.0 deg with %.5f" % tuple(
    root(lambda m: worm(np.radians(d), np.radians(20), m, "worm") - 0.45, 0.01, 0.5) for d in (4.5, 4.0)))


# Heat: repeat the balance until it stands, and find where it never does.
def repeated(power, b, a=0.00393, limit=1e4, base=0.0):
    x = 0.0
    for _ in range(200_000):
        y = base + power * (1 + a * x) / (1 - b * x) ** 2
        if y > limit or b * y >= 1:
            return np.inf
        if abs(y - x) < 1e-12:
            return y
        x = y
    return x


for I in (0.15, 0.20, 0.21):
    print("set torque, R 16, 65 K/W, magnets 0.2 %%/K, %.2f A cold: %.5f K" % (I, repeated(65 * 16 * I * I, 0.002)))
print("set torque, greatest current with an end, A: %.5f" % root(lambda I: 1.0 if np.isfinite(repeated(65 * 16 * I * I, 0.002)) else -1.0, 0.1, 0.4))
print("set torque, 0.15 A cold, and 20 K of starts and stops: %.5f K" % repeated(65 * 16 * 0.15**2, 0.002, base=20.0))
print("set current 0.25 A: %.4f K" % repeated(65 * 16 * 0.0625, 0.0))
x = 0.0
for _ in range(200):
    x = 0.5 * x + 0.5 * 65 * 36 / (16 * (1 + 0.00393 * x))
print("set volts, 6 V on 16 ohm at 65 K/W: %.5f K" % x)
C = np.array([[1 / (20 * 1.5), -1 / (20 * 1.5)], [-1 / (20 * 8), 1 / (20 * 8) + 1 / (45 * 8)]])
print("two nodes: time constants", *("%.4f s" % t for t in sorted(1 / np.linalg.eigvals(C))))
# Held fast for 0.2 s at 10 V on 16 ohm with 1.5 J/K, the case cold: steps in time, resistance and leak counted.
T, dt = 0.0, 1e-5
for _ in range(20_000):
    T += dt * (100 / (16 * (1 + 0.00393 * T)) - T / 20) / 1.5
print("held fast 0.2 s at 10 V, steps in time: %.5f K" % T)


# Circuit: classical Runge-Kutta of fourth order, the greatest current and the greatest volts.
def plugged(V, R, L, C, steps=40_000):
    t_end = 6 * max(np.pi * np.sqrt(L * C), R * C, L / R if R else 0)
    h = t_end / steps
    i = v = 0.0
    most_i = most_v = 0.0
    f = lambda i, v: ((V - R * i - v) / L, i / C)
    for _ in range(steps):
        a = f(i, v)
        b = f(i + h / 2 * a[0], v + h / 2 * a[1])
        c = f(i + h / 2 * b[0], v + h / 2 * b[1])
        d = f(i + h * c[0], v + h * c[1])
        i += h / 6 * (a[0] + 2 * b[0] + 2 * c[0] + d[0])
        v += h / 6 * (a[1] + 2 * b[1] + 2 * c[1] + d[1])
        most_i, most_v = max(most_i, i), max(most_v, v)
    return most_v, most_i


for V, R, L, C in ((10, 0.08, 1e-6, 10e-6), (10, 0.15, 1e-6, 220e-6), (10, 0.03, 0.5e-6, 220e-6)):
    print("plugged in, %.0f V, %.0f mohm, %.1f uH, %.0f uF: %.5f V, %.4f A" % (V, R * 1e3, L * 1e6, C * 1e6, *plugged(V, R, L, C)))


# Free rotor: Runge-Kutta of current and speed.
def rotor(V, R, L, k, J, t, steps=20_000):
    h = t / steps
    i = w = 0.0
    f = lambda i, w: ((V - R * i - k * w) / L, k * i / J)
    for _ in range(steps):
        a = f(i, w)
        b = f(i + h / 2 * a[0], w + h / 2 * a[1])
        c = f(i + h / 2 * b[0], w + h / 2 * b[1])
        d = f(i + h * c[0], w + h * c[1])
        i += h / 6 * (a[0] + 2 * b[0] + 2 * c[0] + d[0])
        w += h / 6 * (a[1] + 2 * b[1] + 2 * c[1] + d[1])
    return w


print("free rotor, 10 V, 16 ohm, 1.5 mH, 3 mN m/A, 10 g mm2, after 20 ms: %.4f rad/s" % rotor(10, 16, 1.5e-3, 3e-3, 1e-8, 0.02))
print("free rotor that rings, 10 V, 2 ohm, 4 mH, 6 mN m/A, 4 g mm2, after 5 ms: %.4f rad/s" % rotor(10, 2, 4e-3, 6e-3, 4e-9, 0.005))


# Rail: a ladder of forty units, nodes by linear equations; the last four start.
def ladder(V, n, starting, I_start, I_mean, R_cable, R_bar):
    A = np.zeros((n, n))
    rhs = np.zeros(n)
    r = R_bar / n
    for k in range(n):
        left = 1 / (r + (R_cable if k == 0 else 0))
        A[k, k] += left
        if k == 0:
            rhs[k] += V * left
        else:
            A[k, k - 1] -= left
        if k < n - 1:
            A[k, k] += 1 / r
            A[k, k + 1] -= 1 / r
        rhs[k] -= I_start if k >= n - starting else I_mean
    return np.linalg.solve(A, rhs)[-1]


rho = 1.72e-8
cable, bar = 2 * rho * 1.5 / 4e-6, 2 * rho * 0.7 / 4e-6
print("rail, 40 units, 4 starting with 1.25 A, 0.12 A else, 1.5 m and 0.7 m of 4 mm2: %.5f V at the last" % ladder(10, 40, 4, 1.25, 0.12, cable, bar))
print("rail, all 40 starting: %.5f V at the last" % ladder(10, 40, 40, 1.25, 0.12, cable, bar))


# Part: floor as a sine, part as a stone, in steps of time; top of the flight over the floor at rest.
def hop(n, f):
    w = 2 * np.pi * f
    t0 = np.arcsin(1 / n) / w
    v, z = n * g / w * np.cos(w * t0), g / w**2
    t = np.linspace(0, 2 * v / g, 2_000_001)
    path = z + v * t - g * t * t / 2
    floor = n * g / w**2 * np.sin(w * (t0 + t))
    touched = np.argmax((path < floor)[10:]) + 10 if (path < floor)[10:].any() else len(t)
    return path[:touched].max(), (path - floor)[:touched].max()


for n, f in ((2, 100), (5, 100), (10, 100), (2, 300), (5, 1000)):
    print("hop, %d g at %d Hz: %.3f um over the floor at rest, at most %.3f um over the floor" % (n, f, *(1e6 * h for h in hop(n, f))))


# Tipping: a block rocks about its foot; least speed that carries its middle over the foot, by angular momentum and steps of the swing.
def tips(L, H):
    m_I = (L * L + H * H) / 3
    R = np.hypot(L, H) / 2

    def passes(v):
        angle, rate = np.arctan2(H, L), v * (H / 2) / m_I
        h = 2e-6
        for _ in range(2_000_000):
            rate_mid = rate - h / 2 * g * R * np.cos(angle) / m_I
            angle_mid = angle + h / 2 * rate
            rate -= h * g * R * np.cos(angle_mid) / m_I
            angle += h * rate_mid
            if angle >= np.pi / 2:
                return True
            if rate < 0:
                return False
        return False

    low, high = 0.01, 3.0
    for _ in range(20):
        v = (low + high) / 2
        low, high = (low, v) if passes(v) else (v, high)
    return high


for L, H in ((0.6, 0.3), (1.6, 0.8), (1.0, 0.35)):
    print("tips, %.1f x %.2f mm: %.3f mm/s" % (L, H, 1e3 * tips(L * 1e-3, H * 1e-3)))


# Floor of a pocket: the cubic by bisection.
for a, t in ((10, 0.2), (16, 0.2), (24, 0.2)):
    D = 2e9 * (t * 1e-3) ** 3 / (12 * (1 - 0.35**2))
    F = lambda w: w * D / (0.0056 * (a * 1e-3) ** 2) + 2.8 * 2e9 * t * 1e-3 * w**3 / (a * 1e-3) ** 2 - 1
    print("floor of %d mm, %.1f mm thick, 2 GPa, 1 N: %.5f mm" % (a, t, 1e3 * root(F, 0, 0.02)))
