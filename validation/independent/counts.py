"""Radii, counts and beliefs by other means than the models: adaptive integrals, convolution, grids, other libraries' laws.

python3 counts.py      needs numpy and scipy; some seconds
"""
import numpy as np
from scipy import stats, special
from scipy.integrate import quad
from scipy.optimize import brentq


def within(R, vx, vy, sx, sy):
    """P(r < R) by one integral over the angle of a chord."""
    def f(t):
        x, c = R*np.sin(t), R*np.cos(t)
        return stats.norm.pdf((x-vx)/sx)/sx*c*(special.ndtr((c-vy)/sy)-special.ndtr((-c-vy)/sy))
    cuts = np.linspace(-np.pi/2, np.pi/2, 41)
    return sum(quad(f, a, b, epsabs=0, epsrel=1e-12)[0] for a, b in zip(cuts[:-1], cuts[1:]))


def rice():
    print("Rice: mean, share, 99 % radius")
    for v, R in ((1, 2), (3, 4)):
        mean = quad(lambda r: stats.ncx2.sf(r*r, 2, v*v), 0, 40, epsabs=0, epsrel=1e-12, limit=400)[0]
        print(" ", v, repr(float(mean)), repr(float(stats.ncx2.cdf(R*R, 2, v*v))), repr(float(np.sqrt(stats.ncx2.ppf(.99, 2, v*v)))))


def radii():
    print("unequal: vx vy sx sy R P")
    for case in ((0, 0, 1, .5, 2), (1, .5, 1, .4, 2.5), (.03, -.02, .02, .012, .05), (2, 1, .3, 1.2, 2), (0, 0, 1, .02, 1.5), (.5, 3, 1, .05, 3.2)):
        print(" ", [*case, float(within(case[4], *case[:4]))], ",")


def rectangles():
    """Four laws even between -sqrt 3 and sqrt 3, convolved on a fine grid; the 97.5 % point straight between steps."""
    n = 200000
    t = np.sqrt(3)
    # sum of two is a triangle: convolve it with itself by its exact integral
    tri = lambda x: np.maximum(0, 2*t-abs(x))/(4*t*t)
    def beyond(h):
        # P(A + B > h), A and B triangles: integral of tri(a) * P(B > h - a)
        def up(y):
            y = np.clip(y, -2*t, 2*t)
            return np.where(y > 0, (2*t-y)**2/(8*t*t), 1-(2*t+y)**2/(8*t*t))
        a = (np.arange(n)+.5)/n*4*t-2*t
        return float(np.sum(tri(a)*up(h-a))*4*t/n)
    print("rectangles", brentq(lambda h: beyond(h)-.025, 3, 5, xtol=1e-13))


def capability():
    print("Cpk and Cp limits")
    for n, m, s, lo, hi in ((50, 16, 1.2, 10, 20), (35, 55.5, .9, 50, 60)):
        c = min(hi-m, m-lo)/(3*s)
        half = stats.norm.ppf(.975)*c*np.sqrt(1/(9*n*c*c)+1/(2*(n-1)))
        print(" ", c, c-half, c+half)
    cp = 24/(6*1.75)
    print(" ", cp, cp*np.sqrt(stats.chi2.ppf(.025, 19)/19), cp*np.sqrt(stats.chi2.ppf(.975, 19)/19))


def counts():
    print("Fisher, 0 of 300 against k", [float(stats.hypergeom.sf(k-1, 600, k, 300)) for k in (3, 4, 5, 6)])
    print("gamma", float(stats.gamma.ppf(.95, 1.5)/32000))
    for m in (1, 4, 20):
        n = 20000//m
        f = lambda mu: m*(special.betaln(mu*999, (1-mu)*999+n)-special.betaln(mu*999, (1-mu)*999))-np.log(.05)
        print("bb", m, brentq(f, 1e-9, .1, xtol=1e-16))
    for k in (0, 2):
        z = np.linspace(-9, 9, 400001)  # half a step of the running sum is left out below
        l = np.log(1e-5)+1.5*z
        w = np.exp(-z*z/2+k*l+(20000-k)*np.log1p(-np.exp(np.minimum(l, -1e-12)))-k*np.log(1e-4))
        c = (np.cumsum(w)-w/2)/w.sum()
        print("mixed", k, np.exp(np.interp([.5, .95], c, l)))
    x = np.log([.42, .45, .39, .47, .44])
    v = 1/(1/.25+5/.01)
    m = v*(np.log(.6)/.25+x.sum()/.01)
    print("next unit", np.exp(m+stats.norm.ppf([.025, .975])*np.sqrt(v+.01)))
    for u in (0, .5, 1, 2, 3):
        print("unit loss", u, quad(lambda x: special.ndtr(-x), u, 40, epsabs=0, epsrel=1e-12)[0])
    for e in (0, 2):
        s = 4/np.sqrt(4+e*e)
        print("worth", e, s*quad(lambda x: special.ndtr(-x), 1/s, 40, epsabs=0, epsrel=1e-12)[0])


def unlike():
    """95 % bound of the mean rate of lognormal units of known spread, ln mu even between 1e-3/N and 0.5, by fine integrals."""
    print("unlike: failures in 4000 each, log sd, bound")
    for ks, s in (((1, 0, 2), 1.0), ((0, 3, 1, 0, 7), 1.5), ((2, 2, 1), 0.5)):
        N = 4000*len(ks)
        l = np.linspace(np.log(1e-3/N), np.log(.5), 4001)
        z = np.linspace(-9, 9, 3001)
        post = np.ones_like(l)
        for k in ks:
            lam = 4000*np.exp(l[:, None]+s*z[None, :]-s*s/2)
            post *= np.trapezoid(stats.norm.pdf(z)*np.exp(k*np.log(lam)-lam-special.gammaln(k+1)), z, axis=1)
        c = np.concatenate([[0], np.cumsum((post[1:]+post[:-1])/2)])
        print(" ", [list(ks), s, float(np.exp(np.interp(.95, c/c[-1], l)))], ",")


if __name__ == "__main__":
    rice(); radii(); rectangles(); capability(); counts(); unlike()
