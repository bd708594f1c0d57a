"""Rare events by OpenTURNS, 20 seeds each, as one line of JSON a case and method: mean of the answers over the truth, their scatter, how many
are off by more than a factor of 2, calls and CPU seconds a run. One combined formula a case; settings by default save where written here.
"""
import json
import math
import sys
import time

import openturns as ot

ot.Log.Show(ot.Log.NONE)
ot.TBB.Disable()
SEEDS = int(sys.argv[1]) if len(sys.argv) > 1 else 20
four = "min(min(3+0.1*(x0-x1)^2-(x0+x1)/sqrt(2),3+0.1*(x0-x1)^2+(x0+x1)/sqrt(2)),min(x0-x1+7/sqrt(2),x1-x0+7/sqrt(2)))"
CASES = {
    "four-branch": (four, 2, 2.22279506619444e-3),
    "linear10": ("5*sqrt(10)-(" + "+".join(f"x{i}" for i in range(10)) + ")", 10, 2.866515718791933e-7),
    "RP25": ("max(x0^2-8*x1+16,-16*x0+x1+32)", 2, 4.148566293759747e-5),
}


def first_order_sampling(event, n):
    search = ot.AbdoRackwitz()
    search.setMaximumIterationNumber(100)
    if hasattr(search, "setCheckStatus"):
        search.setCheckStatus(False)
    form = ot.FORM(search, event, [0.1] * n)
    form.run()
    point = form.getResult().getStandardSpaceDesignPoint()
    about = ot.ImportanceSamplingExperiment(ot.Normal(point, ot.CovarianceMatrix(n)))
    draws = ot.ProbabilitySimulationAlgorithm(ot.StandardEvent(event), about)
    draws.setMaximumOuterSampling(2000)
    draws.setBlockSize(50)
    draws.setMaximumCoefficientOfVariation(0.05)
    draws.run()
    return draws.getResult().getProbabilityEstimate()


def subset(event, n):
    run = ot.SubsetSampling(event)
    run.setMaximumOuterSampling(1000)
    run.setBlockSize(1)
    run.run()
    return run.getResult().getProbabilityEstimate()


def directional(event, n):
    way = ot.OrthogonalDirection() if n > 2 else ot.RandomDirection()
    run = ot.DirectionalSampling(event, ot.MediumSafe(), way)
    run.setMaximumOuterSampling(400)
    run.setBlockSize(1)
    run.setMaximumCoefficientOfVariation(0.05)
    run.run()
    return run.getResult().getProbabilityEstimate()


print(json.dumps({"version": ot.__version__}), flush=True)
for case, (formula, n, truth) in CASES.items():
    for method in (first_order_sampling, subset, directional):
        answers, calls, spent = [], 0, 0.0
        for seed in range(SEEDS):
            ot.RandomGenerator.SetSeed(seed)
            f = ot.SymbolicFunction([f"x{i}" for i in range(n)], [formula])
            vector = ot.CompositeRandomVector(f, ot.RandomVector(ot.ComposedDistribution([ot.Normal()] * n)))
            event = ot.ThresholdEvent(vector, ot.Less(), 0.0)
            begun = time.process_time()
            try:
                answers.append(method(event, n))
            except Exception:  # noqa: BLE001
                answers.append(0.0)
            spent += time.process_time() - begun
            calls += f.getEvaluationCallsNumber() + f.getGradientCallsNumber() * 2 * n
        mean = sum(answers) / SEEDS
        sd = math.sqrt(sum((p - mean) ** 2 for p in answers) / max(1, SEEDS - 1))
        print(
            json.dumps(
                {
                    "case": case,
                    "method": method.__name__.replace("_", " "),
                    "mean": mean / truth,
                    "scatter": sd / truth,
                    "off": sum(not truth / 2 < p < 2 * truth for p in answers),
                    "calls": calls / SEEDS,
                    "seconds": spent / SEEDS,
                }
            ),
            flush=True,
        )
