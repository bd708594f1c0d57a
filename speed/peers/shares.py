"""Sobol' shares of Ishigami's function: Jansen's estimators in numpy over scipy's scrambled Sobol' points, and OpenTURNS' Saltelli.

Prints one JSON object: versions, and for each the milliseconds of processor time of the best of some runs with the worst error of its six shares over them.
"""

import json
import sys
import time

import numpy as np

n = int(sys.argv[1])
runs = 5
exact = [0.31390519114781146, 0.4424111447900409, 0.0, 0.5575888552099592, 0.4424111447900409, 0.24368366406214773]
out = {"versions": f"Python {sys.version.split()[0]}, numpy {np.__version__}"}


def timed(once):
    spent, errors = [], []
    for k in range(runs):
        started = time.process_time()
        shares = once(k)
        spent.append(time.process_time() - started)
        errors.append(max(abs(a - b) for a, b in zip(shares, exact)))
    return {"ms": 1e3 * min(spent), "error": sorted(errors)[runs // 2]}


def ishigami(x):
    return np.sin(x[:, 0]) + 7 * np.sin(x[:, 1]) ** 2 + 0.1 * x[:, 2] ** 4 * np.sin(x[:, 0])


try:
    import scipy
    from scipy.stats import qmc

    out["versions"] += f", scipy {scipy.__version__}"

    def jansen(seed):
        u = qmc.Sobol(6, seed=seed).random(n) * 2 * np.pi - np.pi
        a, b = u[:, :3], u[:, 3:]
        fa, fb = ishigami(a), ishigami(b)
        v = np.concatenate([fa, fb]).var()
        first, total = [], []
        for i in range(3):
            c = a.copy()
            c[:, i] = b[:, i]
            fc = ishigami(c)
            first.append(1 - ((fb - fc) ** 2).mean() / 2 / v)
            total.append(((fa - fc) ** 2).mean() / 2 / v)
        return first + total

    out["numpy"] = timed(jansen)
except ImportError:
    pass

try:
    import openturns as ot

    out["versions"] += f", OpenTURNS {ot.__version__}"
    ot.ResourceMap.SetAsUnsignedInteger("TBB-ThreadsNumber", 1) if ot.ResourceMap.HasKey("TBB-ThreadsNumber") else None
    f = ot.SymbolicFunction(["a", "b", "c"], ["sin(a)+7*sin(b)^2+0.1*c^4*sin(a)"])
    law = ot.ComposedDistribution([ot.Uniform(-np.pi, np.pi)] * 3)

    def saltelli(seed):
        ot.RandomGenerator.SetSeed(seed)
        e = ot.SobolIndicesExperiment(law, n).generate()
        s = ot.SaltelliSensitivityAlgorithm(e, f(e), n)
        return list(s.getFirstOrderIndices()) + list(s.getTotalOrderIndices())

    out["openturns"] = timed(saltelli)
except ImportError:
    pass

print(json.dumps(out))
