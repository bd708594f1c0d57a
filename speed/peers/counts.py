"""Exact binomial intervals by scipy: python3 counts.py INPUT OUTPUT ROUNDS. INPUT holds failures, then cycles, as doubles."""
import json
import sys
import time
import numpy as np
import scipy
from scipy.special import betaincinv
from scipy.stats import beta

both = np.fromfile(sys.argv[1])
k, n = both[:len(both)//2], both[len(both)//2:]
rounds = int(sys.argv[3])


def special():
    return np.where(k > 0, betaincinv(np.maximum(k, 1), n-k+1, .025), 0), np.where(k < n, betaincinv(k+1, np.maximum(n-k, 1), .975), 1)


def stats():
    return np.where(k > 0, beta.ppf(.025, np.maximum(k, 1), n-k+1), 0), np.where(k < n, beta.ppf(.975, k+1, np.maximum(n-k, 1)), 1)


def best(way):
    times = []
    for _ in range(rounds):
        begun = time.perf_counter()
        way()
        times.append(time.perf_counter()-begun)
    return min(times)


low, high = special()
np.concatenate([low, high]).tofile(sys.argv[2])
begun = time.perf_counter()
for i in range(300):
    beta.ppf(.025, max(k[i], 1), n[i]-k[i]+1)
    beta.ppf(.975, k[i]+1, n[i]-k[i])
scalar = (time.perf_counter()-begun)/300*1e6
print(json.dumps({
    "versions": f"Python {sys.version.split()[0]}, numpy {np.__version__}, scipy {scipy.__version__}",
    "threads": 1,
    "seconds": {"special.betaincinv": best(special), "stats.beta.ppf": best(stats)},
    "scalar": scalar,
}))
