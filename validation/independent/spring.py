"""Figures of bent leaves by other means than the beam solver: elliptic integrals, shooting, quadrature. mm, N, MPa.

    python3 validation/independent/spring.py

needs numpy and scipy. Prints what validation/src/spring.ts and the tests of packages/core/src/spring hold the solver to.
"""
import glob
import os

import numpy as np
from scipy.integrate import quad, solve_bvp, solve_ivp
from scipy.optimize import brentq, fsolve
from scipy.special import ellipe, ellipeinc, ellipk, ellipkinc, jv


def cantilever(a):
    """Dead load across the tip, a = P L^2/EI: side, shortening, angle of the tip, all of the length."""
    if a == 0:
        return 0.0, 0.0, 0.0

    def alpha(tip):
        m = (1 + np.sin(tip)) / 2
        return ellipk(m) - ellipkinc(np.arcsin(1 / np.sqrt(2 * m)), m)

    tip = brentq(lambda th: alpha(th) - np.sqrt(a), 1e-9, np.pi / 2 - 1e-9, xtol=1e-15)
    m = (1 + np.sin(tip)) / 2
    low = np.arcsin(1 / np.sqrt(2 * m))
    side = 1 - 2 / np.sqrt(a) * (ellipe(m) - ellipeinc(low, m))
    return side, 1 - np.sqrt(2 * np.sin(tip) / a), tip


def column(tip):
    """Fixed and free column under an end load that keeps its direction, tip angle given."""
    m = np.sin(tip / 2) ** 2
    K, E = ellipk(m), ellipe(m)
    return (2 * K / np.pi) ** 2, 2 * E / K - 1, 2 * np.sqrt(m) / K


def heavy(b):
    """Horizontal cantilever under its own weight, b = w L^3/EI."""
    def end(k):
        return solve_ivp(lambda s, y: [y[1], b * (1 - s) * np.cos(y[0]), np.cos(y[0]), np.sin(y[0])], [0, 1], [0, k, 0, 0],
                         rtol=1e-12, atol=1e-13).y[:, -1]
    # sagging: theta'' = b (1 - s) cos theta with theta(0) = 0, theta'(1) = 0
    k = brentq(lambda k: end(k)[1], -b, 0)
    th, _, x, y = end(k)
    return x, y, th


EI = 200e3 * 5 * 0.2**3 / 12


def pin(lift, mu, guess):
    """Leaf of 20 x 5 x 0.2 mm, 200 GPa, over a pin of radius 1 mm at x 15 mm, lifted; friction drags the leaf to its tip."""
    cx, cy, off = 15.0, -1.1 + lift, 1.1

    def state(u):
        M0, s, p, th = u
        n = np.array([-np.sin(th), np.cos(th)])
        tau = np.array([np.cos(th), np.sin(th)])
        F = p * (n + mu * tau)
        y = solve_ivp(lambda _, y: [np.cos(y[2]), np.sin(y[2]), y[3] / EI, F[0] * np.sin(y[2]) - F[1] * np.cos(y[2])],
                      [0, s], [0, 0, 0, M0], rtol=1e-11, atol=1e-12).y[:, -1]
        return y, n, F

    def miss(u):
        y, n, _ = state(u)
        return [y[3], y[0] - cx - off * n[0], y[1] - cy - off * n[1], y[2] - u[3]]

    u = fsolve(miss, guess, xtol=1e-13)
    _, _, F = state(u)
    assert np.max(np.abs(miss(u))) < 1e-8
    return F[0], F[1], u[3], u[1]


def wrap(P, R=40.0, L=20.0):
    """Leaf that lies on a cylinder from its clamp and is pulled down at its tip."""
    def tip(s):
        th0, x0, y0 = -s / R, R * np.sin(s / R), R * (np.cos(s / R) - 1)
        return solve_ivp(lambda _, y: [np.cos(y[2]), np.sin(y[2]), y[3] / EI, P * np.cos(y[2])], [s, L],
                         [x0, y0, th0, -EI / R], rtol=1e-11, atol=1e-12).y[:, -1]
    s = brentq(lambda s: tip(s)[3], 0.1, L - 0.1)
    x, y, th, _ = tip(s)
    return s, x, y, th


def curl_moment(b, t, R, nu):
    """Strip bent to a radius by its transverse balance D w'''' + E t w/R^2 = 0, edges free; moment over D b/R. E = 1."""
    D = t**3 / (12 * (1 - nu**2))
    k = 1 / R
    y = np.linspace(0, b / 2, 201)
    # half the width: even about the middle; at the edge w'' = nu k (curls back), w''' = 0
    sol = solve_bvp(lambda y, w: np.vstack([w[1], w[2], w[3], -t * k**2 / D * w[0]]),
                    lambda a, e: np.array([a[1], a[3], e[2] + nu * k, e[3]]), y, np.zeros((4, y.size)), tol=1e-10, max_nodes=100000)
    w = sol.sol
    plate = quad(lambda y: D * (k + nu * w(y)[2]), 0, b / 2, epsabs=1e-14, epsrel=1e-11)[0]
    hoop = quad(lambda y: t * k * w(y)[0] ** 2, 0, b / 2, epsabs=1e-16, epsrel=1e-11)[0]
    lam = (3 * (1 - nu**2)) ** 0.25 * b / np.sqrt(R * t)
    return lam, 2 * (plate + hoop) / (D * b * k)


def shells():
    """Mean tip displacement along x and z of the shell models in ccx/, which anyone can run again: ccx leaf1, and so on."""
    here = os.path.join(os.path.dirname(__file__), "ccx")
    for name in sorted(glob.glob(os.path.join(here, "*.dat"))):
        rows = [line.split() for line in open(name) if len(line.split()) == 4]
        u = np.array([[float(v) for v in row[1:]] for row in rows if row[0].isdigit()])
        print(os.path.basename(name), "u_x", u[:, 0].mean(), "u_z", u[:, 2].mean(), "edge to middle", u[:, 2].min(), u[:, 2].max())


if __name__ == "__main__":
    for a in (0.37, 1, 2, 10):
        print("cantilever", a, *cantilever(a))
    h = 1e-5
    dw = cantilever(1 + h)[0] - cantilever(1 - h)[0]
    arm = lambda a: a * (1 - cantilever(a)[1])
    print("cantilever 1: dF/dw in EI/L^3", 2 * h / dw, " dM/dw in EI/L^2", (arm(1 + h) - arm(1 - h)) / dw)
    for deg in (20, 60, 100, 140):
        print("column", deg, *column(np.radians(deg)))
    for b in (1, 2, 5):
        print("heavy", b, *heavy(b))
    j = brentq(lambda x: jv(-1 / 3, x), 1.5, 2.2)
    print("heavy column", 9 / 4 * j**2)
    print("pin deep", *pin(10, 0.0, [60, 17.7, 3.9, 0.9]))
    print("pin rub", *pin(6, 0.25, [40, 15.8, 3.0, 0.5]))
    print("wrap", *wrap(1.5))
    for b in (1, 3, 10):
        print("curl", b, *curl_moment(b, 0.2, 10, 0.3))
    for n in (0.02, 0.1):
        print("E(t) D(t)", n, np.sin(n * np.pi) / (n * np.pi))
    print("n PC, PA", np.log(2200 / 1900) / np.log(1000), np.log(1400 / 930) / np.log(1000))
    shells()
