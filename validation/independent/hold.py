"""The tape as a spring, its route, its reel and the evenness of a nip, worked out again by other means than the models: beams of many finite
elements, the hereditary integral step by step, the elastica and the rope integrated along the tape, a mass on a spring step by step, brute force.

Run with python3, numpy and scipy (a few seconds); its numbers stand as expected values in validation/src and in the tests of the models.
"""

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq


# Beams of two-node elements, small slopes: stiffness of one, with an even foundation k and a tension S.
def element(EI, h, k=0.0, S=0.0):
    bend = EI / h**3 * np.array([[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h], [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]])
    soil = k * h / 420 * np.array([[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h], [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]])
    pull = S / (30 * h) * np.array([[36, 3 * h, -36, 3 * h], [3 * h, 4 * h * h, -3 * h, -h * h], [-36, -3 * h, 36, -3 * h], [3 * h, -h * h, -3 * h, 4 * h * h]])
    return bend + soil + pull


def assembled(EI, l, n, k=0.0, S=0.0):
    K = np.zeros((2 * n + 2, 2 * n + 2))
    e = element(EI, l / n, k, S)
    for i in range(n):
        K[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += e
    return K


def solved(K, f, fixed):
    """Nodal values; `fixed` gives some of them."""
    u = np.zeros(len(f))
    for i, v in fixed.items():
        u[i] = v
    free = [i for i in range(len(f)) if i not in fixed]
    u[free] = np.linalg.solve(K[np.ix_(free, free)], (f - K @ u)[free])
    return u


# Natural curvature kappa loads a beam by end moments EI kappa: a span bows up.
def natural(EI, kappa, n):
    f = np.zeros(2 * n + 2)
    f[1], f[-1] = EI * kappa, -EI * kappa
    return f


n = 240
EI, Rs, L = 2e-5, 0.03, 0.04
K = assembled(EI, L, n)
free = solved(K, natural(EI, 1 / Rs, n), {0: 0, 2 * n: 0})
print("bow of the free span %.6f mm" % (free[n] * 1e3))
flat = solved(K, natural(EI, 1 / Rs, n), {0: 0, n: 0, 2 * n: 0})
force = (natural(EI, 1 / Rs, n) - K @ flat)[n]
print("force that flattens its middle %.6f N, rest bow %.6f of L^2/Rs at %.4f L" % (force, flat[::2].max() * Rs / L**2, flat[::2].argmax() / n))
EI, Rs, L, S = 34.2e-6, 0.06, 0.04, 0.5
taut = solved(assembled(EI, L, n, S=S), natural(EI, 1 / Rs, n), {0: 0, 2 * n: 0})
print("bow under 0.5 N %.6f mm" % (taut[n] * 1e3))
# The tail of a cantilever with natural curvature, and what presses it back to its tangent.
EI, kappa, a = 40e-6, 10.0, 0.012
tail = solved(assembled(EI, a, n), np.r_[np.zeros(2 * n + 1), EI * kappa], {0: 0, 1: 0})
held = assembled(EI, a, n) @ solved(assembled(EI, a, n), np.r_[np.zeros(2 * n + 1), EI * kappa], {0: 0, 1: 0, 2 * n: 0})
print("tail of 12 mm rises %.6f mm; pressed back with %.6f N" % (tail[2 * n] * 1e3, abs(held[2 * n])))

# An arch between two faces: the force that its middle takes, its feet anywhere, the greatest over where they stand.
EI, kappa, room = 63e-6, 7.2, 0.35e-3
feet = np.linspace(1e-3, 0.2, 200001)
forces = 48 * EI / feet**3 * (kappa * feet**2 / 8 - room)
print("arch presses with %.6f N on feet %.3f mm apart" % (forces.max(), feet[forces.argmax()] * 1e3))


# Coil set: a strip bent to curvature 1 for the time t, then free of moment: the hereditary integral of a power law, step by step.
def kept(n_, t, s, steps=4000):
    E = lambda u: u ** (-n_)
    grid = np.r_[0, np.geomspace(s * 1e-9, s, steps)]
    curvature = np.zeros(steps + 1)
    change = np.zeros(steps + 1)
    for j in range(1, steps + 1):
        # Within a step the change grows evenly; the weight of a past step is the mean of E over it.
        from_, to = grid[j] - grid[1 : j + 1], grid[j] - grid[:j]
        mean = (to ** (1 - n_) - np.maximum(from_, 0) ** (1 - n_)) / (1 - n_) / (to - from_)
        past = (change[1:j] * mean[: j - 1]).sum()
        step = E(t + grid[j])
        change[j] = -(step + past) / mean[j - 1]
        curvature[j] = curvature[j - 1] + change[j]
    return 1 + curvature[-1]


for n_, t, s in ((0.03, 1e7, 1), (0.03, 1e7, 1e5), (0.06, 1e7, 1e3), (0.05, 1e6, 1e6), (0.08, 1e6, 1e7)):
    x = s / t
    exact = 1 - np.sin(n_ * np.pi) / np.pi * quad(lambda v: 1 / (1 + v ** (1 / n_)), 0, x**n_, epsabs=1e-13)[0] / n_
    print("set n %.2f, %g s of %g s: step by step %.5f, by quadrature %.8f" % (n_, s, t, kept(n_, t, s), exact))


# A stiff tape over a bend: outside the arc the elastica theta'' = (T/EI) sin(theta) runs out to a straight pull; inside the rope, N' = mu N/R.
def past_bend(T1, EI, R, phi, kappa, mu):
    k = 1 / R - kappa

    def lift(T):
        """Angle at which the moment EI k has run out on a long free end under tension T, by integrating back from far away."""
        q = np.sqrt(T / EI)
        run = solve_ivp(lambda s, y: [y[1], q * q * np.sin(y[0])], [0, 60 / q], [1e-9, q * 1e-9], rtol=1e-11, atol=1e-14, events=lambda s, y: y[1] - k)
        return run.y_events[0][0][0]

    def behind(T2):
        a1, a2 = lift(T1), lift(T2)
        # Forces along the arc at its two ends: the far pull turned by the lift-off angle, its cross part rubs.
        N = T1 * np.cos(a1) + mu * T1 * np.sin(a1)
        wrap = phi - a1 - a2
        steps = 200000
        N *= (1 + mu * wrap / steps) ** steps
        return T2 * np.cos(a2) - mu * T2 * np.sin(a2) - N

    T2 = brentq(behind, T1 * 1.0000001, 10 * T1 * np.exp(mu * phi), xtol=1e-13)
    return T2, lift(T1), lift(T2)


for T1, EI, R, phi, kappa, mu in ((0.5, 34.2e-6, 0.015, np.pi / 2, 0, 0.25), (0.3, 63e-6, 0.04, 0.8, 7.2, 0.25), (0.6, 130e-6, 0.05, 1.1, -7.2, 0.3)):
    T2, a1, a2 = past_bend(T1, EI, R, phi, kappa, mu)
    print("bend R %g: %.6f N after %g N, lifts off at %.4f and %.4f deg" % (R, T2, T1, np.degrees(a1), np.degrees(a2)))


# Reel: a mass met by a spring at speed v, and running on.
m, k, v = 0.29, 2000.0, 0.09
run = solve_ivp(lambda t, y: [y[1], k * max(0, v * t - y[0]) / m], [0, 0.2], [0, 0], max_step=2e-5)
pull = k * np.maximum(0, v * run.t - run.y[0])
print("snatch %.4f N, reel runs at %.4f times the tape's speed" % (pull.max(), run.y[1].max() / v))
drag = 0.1566
slow = solve_ivp(lambda t, y: [y[1], -drag / m if y[1] > 0 else 0], [0, 2], [0, 2 * v], max_step=1e-4)
print("a drag of %.4f N stops it from 2 v in %.3f mm" % (drag, slow.y[0].max() * 1e3))


# Nip: a shaft on a foundation of springs, its roots sprung, its far end free, borne or hooked with play.
def nip(lambda_l, kappa=None, end="free", play=0.0, hook=None, n=400):
    l, EI = 1.0, 1.0
    k = 4 * lambda_l**4
    K = assembled(EI, l, n, k)
    f = np.zeros(2 * n + 2)
    fixed = {0: 1.0}
    if kappa is None:
        fixed[1] = 0.0
    elif kappa > 0:
        K[1, 1] += kappa * EI * lambda_l
    if end == "borne":
        fixed[2 * n] = 1.0
    if end == "hooked":
        loose = solved(K, f, fixed)[2 * n]
        if 1 - loose > play:
            if hook is None:
                fixed[2 * n] = 1 - play
            else:
                stiff = hook * EI * lambda_l**3
                K[2 * n, 2 * n] += stiff
                f[2 * n] += stiff * (1 - play)
    v = solved(K, f, fixed)[::2]
    h = l / n
    return v[-1], v.min(), (v[:-1] + v[1:]).sum() * h / 2


for what, got in (
    ("clamped, free, 1", nip(1)),
    ("clamped, free, 1.5", nip(1.5)),
    ("root 1, 0.5", nip(0.5, 1)),
    ("root 5, 1", nip(1, 5)),
    ("root 0.3, 0.8", nip(0.8, 0.3)),
    ("hooked, 2", nip(2, end="hooked")),
    ("hooked, 3", nip(3, end="hooked")),
    ("hooked, 2, play 0.1", nip(2, end="hooked", play=0.1)),
    ("hooked on a spring of 5, 2, play 0.05", nip(2, end="hooked", play=0.05, hook=5)),
    ("hooked, 1, root 2", nip(1, 2, end="hooked")),
    ("two bearings, 1", nip(1, 0, end="borne")),
    ("two bearings, 2.5", nip(2.5, 0, end="borne")),
):
    print("nip %s: tip %.6f, least %.6f, mean %.6f" % ((what,) + got))

# The same on springs that can't pull: those that would are let go until all that hold press.
def touches(L, kappa=None, n=800):
    h = L / n
    beam = assembled(0.25, L, n)  # k = 1, lambda = 1
    holds = np.ones(n + 1, bool)
    weight = np.full(n + 1, h)
    weight[[0, -1]] = h / 2
    for _ in range(100):
        K = beam.copy()
        K[range(0, 2 * n + 2, 2), range(0, 2 * n + 2, 2)] += weight * holds
        fixed = {0: 1.0}
        if kappa is None:
            fixed[1] = 0.0
        else:
            K[1, 1] += kappa * 0.25
        v = solved(K, np.zeros(2 * n + 2), fixed)[::2]
        now = v > 0
        if (now == holds).all():
            break
        holds = now
    return holds.sum() * h


print("one-sided nip of 2.2 touches over %.4f clamped, %.4f on a root of 1" % (touches(2.2), touches(2.2, 1)))

# Hard nip: springs side by side along the line, pressed by N and turned by a carrier that would stand askew.
N, l, k_phi, phi0 = 8.0, 0.021, 0.49, 0.010
y = (np.arange(20000) + 0.5) / 20000 * l - l / 2
# A line of very stiff springs takes the sum N and the moment k_phi phi0: least squares on its two unknowns.
A = np.array([[len(y), y.sum()], [y.sum(), (y * y).sum()]])
p0, p1 = np.linalg.solve(A, [N, k_phi * phi0])
print("hard nip %.5f" % ((p0 - p1 * l / 2) / (p0 + p1 * l / 2)))

# Column with ends that may turn: least load at which beam elements lose their stiffness.
EI, l = 34.2e-6, 0.02
keep = [i for i in range(2 * 60 + 2) if i not in (0, 120)]
bend = assembled(EI, l, 60)[np.ix_(keep, keep)]
geometric = (assembled(EI, l, 60, S=1.0) - assembled(EI, l, 60))[np.ix_(keep, keep)]
print("column buckles at %.5f N" % (1 / np.linalg.eigvals(np.linalg.solve(bend, geometric)).real.max()))

# A tape's flexibility, averaged over where the pocket and where the hole stands along it.
E, T, W, B1, D0, P0, P1, Lp = 1.9e9, 0.3e-3, 12e-3, 5.8e-3, 1.55e-3, 4e-3, 8e-3, 7e-3
hole = (np.arange(4000) + 0.5) / 4000 * P0 < D0
pocket = (np.arange(4000) + 0.5) / 4000 * P1 < Lp
width = W - B1 * pocket[:, None] - D0 * hole[None, :]
print("stiffness: walls that give way %.5f N mm2" % (1e6 * E * T**3 / 12 / (1 / width).mean()))
# Section through a pocket as fibres: flange, floor, walls between the two.
t, K0 = 0.3e-3, 2.1e-3
fibres = lambda b, top, bottom, n=20000: (np.full(n, b * (top - bottom) / n), bottom + (np.arange(n) + 0.5) / n * (top - bottom))
a, z = map(np.concatenate, zip(fibres(W - B1, T / 2, -T / 2), fibres(B1, -K0 + t / 2, -K0 - t / 2), fibres(2 * t, 0, -K0)))
box = (a * (z - (a * z).sum() / a.sum()) ** 2).sum()
print("walls that hold %.5f N mm2" % (1e6 * E / np.where(pocket[:, None], 1 / box, 12 / T**3 / width).mean()))
