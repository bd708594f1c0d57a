"""The pick chain of speed/src/pick-chain.ts in numpy, blocks of 16384, one thread: draw, model, tally.

Prints the versions, then a line a run: draws a second in millions of processor time, mean, share beyond the limit.
"""

import sys
import time

import numpy as np

block = 16384


def chain(g, n):
    normal, uniform = g.standard_normal, g.random
    x = (
        0.015 * normal(n) + 0.017 * normal(n) + 0.05 * uniform(n)
        + (0.012 + 0.003 * normal(n)) * np.sin(2 * np.pi * uniform(n))
        + 0.006 * normal(n) + 0.02 * uniform(n) - 0.01 + 0.008 * normal(n) + 0.006 * normal(n) - 0.025
    )
    y = (
        0.033 * normal(n) + 0.017 * normal(n) + 0.1 * uniform(n) - 0.05
        + 0.3 * normal(n) * 0.0576 + 0.12 * uniform(n) - 0.06
    )
    return np.hypot(x, y)


blocks = int(sys.argv[1]) // block
print(f"Python {sys.version.split()[0]}, numpy {np.__version__}")
for k in range(4):
    g = np.random.Generator(np.random.SFC64(k))
    started = time.process_time()
    total, beyond = 0.0, 0
    for _ in range(blocks):
        r = chain(g, block)
        total += r.sum()
        beyond += np.count_nonzero(r > 0.15)
    spent = time.process_time() - started
    n = blocks * block
    print(f"{n / spent / 1e6:.4f} {total / n:.6f} {beyond / n:.6f}")
