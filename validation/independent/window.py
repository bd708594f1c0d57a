"""A leaf with a window in its middle as a plate: tip deflection of small strokes, against nothing of our own.

Kirchhoff plate of four-node rectangles of twelve unknowns (w, w_x, w_y; Adini, Clough, Melosh), clamped at x = 0, its nose held straight
across and pressed at x = L, a window cut out as missing elements. By symmetry about y = 0 half of the leaf. Prints F/(stroke) in N/m.
Then the same leaves as two strips by quadrature of M^2/EI, and the rule's share of the plate over 72 leaves. numpy and scipy; ten seconds.
"""
import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve


def stiffness(a, b, t, E, nu):
    """Element a by b, by 3 x 3 Gauss points; w in monomials through the nodes."""
    powers = [(0, 0), (1, 0), (0, 1), (2, 0), (1, 1), (0, 2), (3, 0), (2, 1), (1, 2), (0, 3), (3, 1), (1, 3)]

    def d(v, n, k):
        if k == 0:
            return v**n
        if n < k:
            return 0.0
        f = 1.0
        for i in range(k):
            f *= n - i
        return f * v ** (n - k)

    corners = [(0, 0), (a, 0), (a, b), (0, b)]
    C = np.array([[d(x, p, i) * d(y, q, j) for p, q in powers] for x, y in corners for i, j in ((0, 0), (1, 0), (0, 1))])
    Ci = np.linalg.inv(C)
    D = E * t**3 / (12 * (1 - nu**2)) * np.array([[1, nu, 0], [nu, 1, 0], [0, 0, (1 - nu) / 2]])
    g, w = np.polynomial.legendre.leggauss(3)
    K = np.zeros((12, 12))
    for gi, wi in zip(g, w):
        for gj, wj in zip(g, w):
            x, y = (gi + 1) * a / 2, (gj + 1) * b / 2
            B = np.array(
                [
                    [d(x, p, 2) * d(y, q, 0) for p, q in powers],
                    [d(x, p, 0) * d(y, q, 2) for p, q in powers],
                    [2 * d(x, p, 1) * d(y, q, 1) for p, q in powers],
                ]
            ) @ Ci
            K += B.T @ D @ B * wi * wj * a * b / 4
    return K


def rate(L, outer, across, x1, x2, t=0.2e-3, E=185e9, nu=0.3, h=0.2e-3, even=False):
    """F over stroke of the nose. across 0: without a window. even: nose free to curl, force spread evenly."""
    # The grid's lines lie on the window's edges.
    cuts_x = [0, x1, x2, L] if across else [0, L]
    cuts_y = [0, across / 2, outer / 2] if across else [0, outer / 2]
    lines = lambda cuts: np.unique(np.concatenate([np.linspace(p, q, max(2, round((q - p) / h)) + 1) for p, q in zip(cuts, cuts[1:]) if q > p]).round(12))
    x, y = lines(cuts_x), lines(cuts_y)
    nx, ny = len(x) - 1, len(y) - 1
    there = np.ones((nx, ny), bool)
    mid, side = (x[1:] + x[:-1]) / 2, (y[1:] + y[:-1]) / 2
    there[np.ix_((mid > x1) & (mid < x2), side < across / 2)] = False
    node = lambda i, j: i * (ny + 1) + j
    n = 3 * (nx + 1) * (ny + 1)
    I, J = np.nonzero(there)
    dofs = np.concatenate(
        [3 * node(I + p, J + q)[:, None] + np.arange(3) for p, q in ((0, 0), (1, 0), (1, 1), (0, 1))], axis=1
    )
    rows = np.repeat(dofs, 12, axis=1).ravel()
    cols = np.tile(dofs, (1, 12)).ravel()
    kinds = {}
    for i, j in zip(I, J):
        size = (round(x[i + 1] - x[i], 9), round(y[j + 1] - y[j], 9))
        if size not in kinds:
            kinds[size] = stiffness(*size, t, E, nu).ravel()
    each = [kinds[(round(x[i + 1] - x[i], 9), round(y[j + 1] - y[j], 9))] for i, j in zip(I, J)]
    K = coo_matrix((np.concatenate(each), (rows, cols)), shape=(n, n)).tocsr()
    used = np.unique(dofs)
    nose = [node(nx, j) for j in range(ny + 1)]
    fixed = {3 * node(0, j) + c for j in range(ny + 1) for c in range(3)}
    fixed |= {3 * node(i, 0) + 2 for i in range(nx + 1)}
    u = np.zeros(n)
    if even:
        f = np.zeros(n)
        for j in range(ny):  # consistent loads of an even line load of 1 N in all
            hy = y[j + 1] - y[j]
            q = hy / outer
            f[3 * nose[j]] += q / 2
            f[3 * nose[j + 1]] += q / 2
            f[3 * nose[j] + 2] += q * hy / 12
            f[3 * nose[j + 1] + 2] -= q * hy / 12
        free = np.array([d for d in used if d not in fixed])
        u[free] = spsolve(K[free][:, free].tocsc(), f[free])
        return 1 / np.mean([u[3 * p] for p in nose])
    held = {3 * p for p in nose} | {3 * p + 2 for p in nose}
    free = np.array([d for d in used if d not in fixed and d not in held])
    for p in nose:
        u[3 * p] = 1.0
    u[free] = spsolve(K[free][:, free].tocsc(), -(K @ u)[free])
    return 2 * float(sum((K @ u)[3 * p] for p in nose))


def strips(L, outer, across, x1, x2, into, t=0.2e-3, E=185e9, parts=200000):
    """The same rate of beams in series: 1/k is the integral of s^2/EI from the nose, arms counted `into` further at both ends."""
    x = (np.arange(parts) + 0.5) * L / parts
    arms = (x > x1 - into) & (x < x2 + into)
    width = np.where(arms, outer - across, outer)
    return 1 / np.sum((L - x) ** 2 * 12 / (E * width * t**3) * L / parts)


mm = 1e-3
if __name__ == "__main__":
    print("without a window 24 x 5 x 0.2 mm: plate", rate(24 * mm, 5 * mm, 0, 0, 0), "beam", strips(24 * mm, 5 * mm, 0, 0, 0, 0))
    # length, both arms, window across, window from and to off the clamp, mm
    for leaf in [(24, 5, 7.2, 4.8, 15.2), (24, 5, 4.4, 7.0, 13.0), (24, 5, 12, 5.0, 15.0), (30, 8, 16, 6, 24), (24, 5, 18, 2.6, 17.4)]:
        L, b, o, x1, x2 = (v * mm for v in leaf)
        plate = rate(L, b + o, o, x1, x2)
        print(leaf, "plate", plate, "nose free to curl", rate(L, b + o, o, x1, x2, even=True), "strips", strips(L, b + o, o, x1, x2, 0.2 * b))
    shares = []
    for L, b in [(24, 5), (24, 3.2), (24, 8)]:
        for o in (3.2, 6.4, 12, 18):
            for l in (5.6, 10, 14.8):
                for mid in (10, 12.4):
                    leaf = [v * mm for v in (L, b + o, o, mid - l / 2, mid + l / 2)]
                    shares.append((2 * o / b, strips(*leaf, 0.2 * b * mm, parts=4000) / rate(*leaf, h=0.4 * mm)))
    for low, high in ((0, 5), (5, 12)):
        of = [s for q, s in shares if low <= q < high]
        print(f"{len(of)} leaves, window {low} .. {high} arms across: rule over plate {min(of):.3f} .. {max(of):.3f}")
