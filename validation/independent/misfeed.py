"""The made-up feeder of 20 numbers of the reliability set, by plain draws: what its five ways of failing come to.

    python3 misfeed.py [draws]      default 4e7, about a minute

numpy alone; shares no code with the models. Prints the chance that any way fails and its standard error, as given and with every way
farther off, and the chance of each way alone.
"""
import sys
import numpy as np

SHIFT = np.array([0.45, 0.55, 0.035, 1.2, 0.06])


def ways(z):
    peel = 0.55 * np.exp(0.22 * z[0]) * 16 ** (0.15 + 0.03 * z[1]) * (1 + 0.12 * z[12])
    grips = 0.6 * np.exp(0.08 * z[11]) * (4 + 0.3 * z[5])
    drag = 0.4 * np.exp(0.25 * z[15])
    thick = 0.3 * np.exp(0.05 * z[4])
    return (
        grips - peel,
        9.5 + 0.7 * z[14] - 1.35 * grips * 2 + 0.2,
        0.17 - abs(0.02 * z[2]) - 0.02 * np.exp(0.3 * z[6]) * (1 + np.sin(z[13])) - abs(0.006 * z[17]) - abs(0.015 * z[3]),
        10 * (1.2 + 0.1 * z[16] - np.maximum(0.35 * (peel + drag), 0.2 + 0.4 * drag) - 0.05 * np.maximum(0, z[19]))
        - np.maximum(0, thick + 0.05 - (0.45 + 0.02 * z[7])) * 30,
        (24 - 0.8 * abs(z[10])) * (1 + 0.05 * z[8]) / (1 + 0.04 * z[9]) / 24 - 0.3 * (peel + drag) - 0.12,
    )


def main():
    total = int(float(sys.argv[1])) if len(sys.argv) > 1 else 40_000_000
    rng = np.random.default_rng(20)
    block = 200_000
    n = 0
    any_, any_shifted = 0, 0
    each = np.zeros(5)
    while n < total:
        g = np.array(ways(rng.standard_normal((20, block))))
        any_ += int((g < 0).any(axis=0).sum())
        any_shifted += int((g + SHIFT[:, None] < 0).any(axis=0).sum())
        each += (g < 0).sum(axis=1)
        n += block
    for name, k in (("as given", any_), ("farther off", any_shifted)):
        print(f"{name}: {k / n:.5e} within {1 / np.sqrt(max(k, 1)):.2%} (one standard error), {n} draws")
    print("each way alone:", " ".join(f"{k / n:.3e}" for k in each))


main()
