import {
  betaQuantile,
  capability,
  chanceToPass,
  countInterval,
  cyclesToShow,
  Deviates,
  designEffect,
  effectiveCycles,
  fisherExact,
  gammaRate,
  gauge,
  lnBeta,
  meanRadius,
  meanRateAtMost,
  measured,
  measuredWithScatter,
  mixedChance,
  mixedClean,
  mixedMoments,
  operatingPoint,
  promise,
  radiusHolding,
  rateAtMost,
  rateShownByClean,
  rateWithModel,
  rectangularReach,
  roundedDown,
  sdOfRectangle,
  sdOfSum,
  sequentialLines,
  sequentialStep,
  shareOfWorst,
  shortestSpan,
  sorted,
  squaredRadius,
  stack,
  summary,
  survival,
  unlikeUnits,
  weibullFit,
  withinRadius,
} from "@tapeworthy/core";
import { countsProgram, type How, type Near, type Row, reviewNotes, row, sureNotes } from "./row.ts";

type Add = (
  id: string,
  model: string,
  expected: number,
  got: number,
  near: Near,
  source: string,
  how: How,
  unit?: string,
) => void;

const jcgm = "Supplement 1 to the guide to measurement uncertainty, JCGM 101:2008";

function accuracyRows(add: Add): void {
  add("gum.add.normal u", "sum of sds", 2, sdOfSum([1, 1, 1, 1]), { share: 1e-12 }, `${jcgm}, 9.2.2`, "memory");
  add(
    "gum.add.normal 95 %",
    "sum of sds",
    3.92,
    1.959963984540054 * sdOfSum([1, 1, 1, 1]),
    { printedTo: 0.01 },
    `${jcgm}, 9.2.2`,
    "memory",
  );
  const even = Math.sqrt(3);
  add(
    "gum.add.rect u",
    "sum of sds",
    2,
    sdOfSum([even, even, even, even].map(sdOfRectangle)),
    { share: 1e-12 },
    `${jcgm}, 9.2.3`,
    "memory",
  );
  const reach = rectangularReach([even, even, even, even]);
  add("gum.add.rect 95 %", "rectangular reach", 3.88, reach, { printedTo: 0.01 }, `${jcgm}, 9.2.3`, "memory");
  add(
    "gum.add.rect 95 %, exact",
    "rectangular reach",
    3.879406741397,
    reach,
    { share: 1e-9 },
    `${countsProgram}: the four laws convolved step by step`,
    "derived",
  );
  // Mass calibration: (mRc + dRc)(1 + (rhoa - 1.2)(1/rhoW - 1/rhoR)) - mnom, in mg, by draws.
  const draws = 1_000_000;
  const deviates = new Deviates(20080917);
  const z = (name: string): Float64Array => deviates.normal(`mass ${name}`, draws);
  const t = (name: string): Float64Array => deviates.between(`mass ${name}`, draws);
  const [reference, change, air, weight, other] = [z("mRc"), z("dRc"), t("rhoa"), t("rhoW"), t("rhoR")];
  const off = Float64Array.from(
    { length: draws },
    (_, i) =>
      (1e5 + 0.05 * reference[i]! + 1.234 + 0.02 * change[i]!) *
        (1 + 0.1 * air[i]! * (1 / (8000 + 1000 * weight[i]!) - 1 / (8000 + 50 * other[i]!))) -
      1e5,
  );
  const { mean, sd } = summary(off);
  const [low, high] = shortestSpan(sorted(off), 0.95);
  const table = `${jcgm}, 9.3, table 6, itself by draws; within 0.004 mg`;
  add("gum.mass estimate", "deviates, summary", 1.2341, mean, { within: 0.0004 }, table, "memory", "mg");
  add("gum.mass u", "deviates, summary", 0.0754, sd!, { within: 0.0004 }, table, "memory", "mg");
  add("gum.mass low", "shortest span", 1.0834, low, { within: 0.004 }, table, "memory", "mg");
  add("gum.mass high", "shortest span", 1.3825, high, { within: 0.004 }, table, "memory", "mg");
  for (const [x, y, u] of [
    [0, 5e-5, 5e-5],
    [0.01, 1.5e-4, 1.12e-4],
    [0.05, 2.551e-3, 5.02e-4],
  ] as const) {
    const got = squaredRadius({ vx: x, vy: 0, sx: 0.005, sy: 0.005 });
    const source = `${jcgm}, 9.4, table 7, by draws: x1 ${x}`;
    add(`gum.loss.${x} estimate`, "squared radius", y, got.mean, { share: 1e-3 }, source, "memory");
    add(`gum.loss.${x} u`, "squared radius", u, got.sd, { share: 6e-3 }, source, "memory");
  }
  const four = stack([
    { size: 40, tolerance: 0.1 },
    { size: 25, by: -1, tolerance: 0.05 },
    { size: 2, by: -1, tolerance: 0.03 },
    { size: 10, by: -1, tolerance: 0.05 },
  ]);
  const example = "tolerance stack-up, a worked example on a page of engineering notes";
  add("stack.four nominal", "stack", 3, four.nominal, { share: 1e-12 }, example, "read", "mm");
  add("stack.four worst case", "stack", 0.23, four.worst, { share: 1e-12 }, example, "read", "mm");
  add(
    "stack.four root sum of squares",
    "stack",
    0.1261,
    four.rss,
    { printedTo: 1e-4 },
    `${example}; by hand`,
    "derived",
    "mm",
  );
  const ten = stack(Array.from({ length: 10 }, () => ({ size: 1, tolerance: 0.1 })));
  const note = "a public note on root sum of squares, table of ten parts";
  add("stack.ten worst case", "stack", 1, ten.worst, { share: 1e-12 }, note, "read", "mm");
  add("stack.ten root sum of squares", "stack", 0.316, ten.rss, { printedTo: 1e-3 }, note, "read", "mm");
  add(
    "stack.ten each by worst case",
    "stack",
    0.0316,
    shareOfWorst(ten.rss, 10),
    { printedTo: 1e-4 },
    note,
    "read",
    "mm",
  );

  const round = { vx: 0, vy: 0, sx: 1, sy: 1 };
  const rayleigh = "Rayleigh's law, closed form";
  add(
    "radius.rayleigh mean",
    "mean radius",
    1.2533141373155001,
    meanRadius(0, 1),
    { share: 1e-12 },
    rayleigh,
    "derived",
  );
  for (const [share, radius] of [
    [0.5, 1.1774100225154747],
    [0.95, 2.447746830680816],
    [0.99, 3.0348542587702925],
    [0.9973, 3.4393323497364543],
  ] as const)
    add(
      `radius.rayleigh ${share}`,
      "radius holding",
      radius,
      radiusHolding(share, round),
      { share: 1e-12 },
      rayleigh,
      "derived",
    );
  const rice = `Rice's law by noncentral chi-square, ${countsProgram}`;
  for (const [v, mean, R, P, q] of [
    [1, 1.5485724605511453, 2, 0.73098793996409, 3.5844939965311617],
    [3, 3.172577287900718, 4, 0.8034878106115921, 5.449368252056856],
  ] as const) {
    // The same offset on either axis and askew: three ways through the rim.
    for (const [name, vx, vy] of [
      ["along", v, 0],
      ["across", 0, -v],
      ["askew", 0.6 * v, 0.8 * v],
    ] as const) {
      const spread = { vx, vy, sx: 1, sy: 1 };
      add(
        `radius.rice offset ${v} ${name}, share within ${R}`,
        "within radius",
        P,
        withinRadius(R, spread),
        { share: 1e-11 },
        rice,
        "derived",
      );
      add(
        `radius.rice offset ${v} ${name}, 99 %`,
        "radius holding",
        q,
        radiusHolding(0.99, spread),
        { share: 1e-11 },
        rice,
        "derived",
      );
    }
    add(`radius.rice offset ${v} mean`, "mean radius", mean, meanRadius(v, 1), { share: 1e-11 }, rice, "derived");
  }
  for (const [vx, vy, sx, sy, R, P] of unequalRadii)
    add(
      `radius.unequal ${vx} ${vy} ${sx} ${sy} within ${R}`,
      "within radius",
      P,
      withinRadius(R, { vx, vy, sx, sy }),
      { share: 1e-9 },
      `offset and unequal sd: one integral, ${countsProgram}`,
      "derived",
    );

  const bissell = "Bissell's limits as two method pages have them; inputs from a textbook exercise on capability";
  const c50 = capability({ n: 50, mean: 16, sd: 1.2, low: 10, high: 20 });
  const c35 = capability({ n: 35, mean: 55.5, sd: 0.9, low: 50, high: 60 });
  for (const [name, got, cpk, lo, hi] of [
    ["cpk.50", c50, 1.1111111111111112, 0.8725113241024012, 1.3497108981198211],
    ["cpk.35", c35, 1.6666666666666665, 1.255427752148672, 2.0779055811846607],
  ] as const) {
    add(`${name}`, "capability", cpk, got.cpk, { share: 1e-12 }, bissell, "read");
    add(`${name} low`, "capability", lo, got.interval![0], { share: 1e-9 }, `${bissell}; ${countsProgram}`, "derived");
    add(`${name} high`, "capability", hi, got.interval![1], { share: 1e-9 }, `${bissell}; ${countsProgram}`, "derived");
  }
  const c20 = capability({ n: 20, mean: 50, sd: 1.75, low: 38, high: 62 });
  const montgomery = "Montgomery, Introduction to Statistical Quality Control, worked example on Cp";
  add("cp.20", "capability", 2.29, c20.cp!, { printedTo: 0.01 }, montgomery, "memory");
  add(
    "cp.20 low",
    "capability",
    1.57,
    c20.cpInterval![0],
    { within: 0.006 },
    `${montgomery}; exact from the rounded chi-square 1.5649`,
    "memory",
  );
  add(
    "cp.20 low, exact",
    "capability",
    1.5649450045377398,
    c20.cpInterval![0],
    { share: 1e-10 },
    countsProgram,
    "derived",
  );
  add("cp.20 high", "capability", 3.01, c20.cpInterval![1], { printedTo: 0.01 }, montgomery, "memory");
  add(
    "cp.20 high, exact",
    "capability",
    3.0055794297420433,
    c20.cpInterval![1],
    { share: 1e-10 },
    countsProgram,
    "derived",
  );
}
/** vx, vy, sx, sy, R, P(r < R) by adaptive integrals. */
const unequalRadii: readonly (readonly [number, number, number, number, number, number])[] = [
  [0, 0, 1, 0.5, 2, 0.9454545785998165],
  [1, 0.5, 1, 0.4, 2.5, 0.9199851854784407],
  [0.03, -0.02, 0.02, 0.012, 0.05, 0.7439590116163421],
  [2, 1, 0.3, 1.2, 2, 0.19451412500315796],
  [0, 0, 1, 0.02, 1.5, 0.8663510444617183],
  [0.5, 3, 1, 0.05, 3.2, 0.668920872516035],
];

function countRows(add: Add): void {
  const page = "table of exact binomial limits on a public calculator page";
  for (const [k, n, C, low, high] of [
    [3, 20, 0.95, 0.0321, 0.3789],
    [12, 30, 0.9, 0.2495, 0.5661],
    [42, 100, 0.95, 0.322, 0.5229],
  ] as const) {
    const got = countInterval(k, n, C);
    add(`cpearson.${k}.${n} low`, "count interval", low, got[0], { printedTo: 1e-4 }, page, "read");
    add(`cpearson.${k}.${n} high`, "count interval", high, got[1], { printedTo: 1e-4 }, page, "read");
  }
  for (const [n, high] of [
    [10, 0.2588655508930522],
    [100, 0.02951304960703993],
    [1000, 0.0029912495450952954],
    [1e5, 2.9956874019427947e-5],
  ] as const) {
    add(`cpearson.zero ${n}`, "rate at most", high, rateAtMost(0, n), { share: 1e-12 }, "1 - (1 - C)^(1/n)", "derived");
    add(
      `cpearson.zero ${n}, clean`,
      "rate shown by clean",
      high,
      rateShownByClean(n),
      { share: 1e-12 },
      "1 - (1 - C)^(1/n)",
      "derived",
    );
  }
  add(
    "cpearson.zero two-sided",
    "count interval",
    0.3084971078187608,
    countInterval(0, 10)[1],
    { share: 1e-12 },
    "1 - 0.025^(1/10)",
    "derived",
  );
  const runs = "success-run tables; n = ln(1 - C)/ln(1 - p)";
  for (const [p, C, n] of [
    [0.1, 0.95, 29],
    [0.05, 0.95, 59],
    [0.01, 0.9, 230],
    [0.01, 0.95, 299],
    [0.01, 0.99, 459],
    [0.001, 0.95, 2995],
    [1e-5, 0.95, 299572],
  ] as const)
    add(`demo.zero ${p} at ${C}`, "cycles to show", n, cyclesToShow(p, C), { within: 0 }, runs, "memory");
  [299, 473, 628, 773].forEach((n, k) => {
    add(
      `demo.k ${k}`,
      "cycles to show",
      n,
      cyclesToShow(0.01, 0.95, k),
      { within: 0 },
      "binomial demonstration tables, 1 %, 95 %",
      "memory",
    );
  });
  const hundred = "a hundred clean feeds, by hand";
  for (const [C, p] of [
    [0.95, 0.02951304960703993],
    [0.9, 0.02276277904418933],
    [0.5, 0.006907504562964073],
  ] as const)
    add(
      `demo.hundred at ${C}`,
      "rate shown by clean",
      p,
      rateShownByClean(100, C),
      { share: 1e-12 },
      hundred,
      "derived",
    );
  add(
    "demo.hundred passes at 1 %",
    "chance to pass",
    0.3660323412732292,
    chanceToPass(0.01, 100),
    { share: 1e-12 },
    hundred,
    "derived",
  );
  add(
    "demo.hundred passes at 0.1 %",
    "chance to pass",
    0.9047921471137089,
    chanceToPass(0.001, 100),
    { share: 1e-12 },
    hundred,
    "derived",
  );

  const handbook = "NIST/SEMATECH handbook, 6.2.6, item-by-item plan";
  const plan = { good: 0.01, bad: 0.1, refuseGood: 0.05, passBad: 0.1 };
  const lines = sequentialLines(plan);
  add("sprt.nist h1", "sequential lines", 0.939, lines.h1, { printedTo: 1e-3 }, handbook, "memory");
  add("sprt.nist h2", "sequential lines", 1.205, lines.h2, { printedTo: 1e-3 }, handbook, "memory");
  add("sprt.nist slope", "sequential lines", 0.0397, lines.slope, { printedTo: 1e-4 }, handbook, "memory");
  add("sprt.nist first pass", "sequential lines", 24, lines.firstPass, { within: 0 }, handbook, "memory");
  add("sprt.nist first refusal", "sequential lines", 2, lines.firstRefusal, { within: 0 }, handbook, "memory");
  add(
    "sprt.nist first pass, walked",
    "sequential step",
    24,
    1 + Array.from({ length: 100 }, (_, n) => sequentialStep(plan, 0, n + 1)).indexOf("pass"),
    { within: 0 },
    handbook,
    "memory",
  );
  const feeder = { good: 1e-4, bad: 1e-3 };
  add(
    "sprt clean cycles",
    "sequential lines",
    3270,
    sequentialLines(feeder).firstPass,
    { within: 10 },
    `${sureNotes}, 5`,
    "derived",
  );
  add(
    "sprt mean if good",
    "operating point",
    3950,
    operatingPoint(feeder, 1e-4).cycles,
    { within: 10 },
    `${sureNotes}, 5; ${reviewNotes}`,
    "derived",
  );
  add(
    "sprt mean if bad",
    "operating point",
    1890,
    operatingPoint(feeder, 1e-3).cycles,
    { within: 10 },
    `${sureNotes}, 5; ${reviewNotes}`,
    "derived",
  );
  add(
    "sprt passes if good",
    "operating point",
    0.95,
    operatingPoint(feeder, 1e-4).pass,
    { share: 1e-9 },
    "Wald's approximation: 1 - a at the good rate",
    "derived",
  );
  add(
    "sprt passes if bad",
    "operating point",
    0.05,
    operatingPoint(feeder, 1e-3).pass,
    { share: 1e-9 },
    "Wald's approximation: b at the bad rate",
    "derived",
  );

  const tea = "Fisher, The Design of Experiments, 1935, the tea; 0.2429 printed by a statistics program";
  add(
    "fisher.tea 3 1, printed",
    "fisher exact",
    0.2429,
    fisherExact(3, 1, 1, 3).higher,
    { printedTo: 1e-4 },
    tea,
    "read",
  );
  for (const [id, p, got] of [
    ["3 1, one side", 17 / 70, fisherExact(3, 1, 1, 3).higher],
    ["4 0, one side", 1 / 70, fisherExact(4, 0, 0, 4).higher],
    ["3 1, two sides", 34 / 70, fisherExact(3, 1, 1, 3).twoSided],
    ["4 0, two sides", 2 / 70, fisherExact(4, 0, 0, 4).twoSided],
  ] as const)
    add(`fisher.tea ${id}`, "fisher exact", p, got, { share: 1e-12 }, "counted by hand, of 70", "derived");
  [0.12437395659432388, 0.06187448091878424, 0.030729607973087474, 0.015235687986656815].forEach((p, i) => {
    add(
      `fisher.feeds ${i + 3}`,
      "fisher exact",
      p,
      fisherExact(i + 3, 297 - i, 0, 300).higher,
      { share: 1e-12 },
      `hypergeometric law, ${countsProgram}`,
      "derived",
    );
  });

  const failed = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386];
  const stopped = failed.map(() => 500);
  const life = weibullFit(failed, stopped);
  const lives = "NIST/SEMATECH handbook, 8.4.1.3";
  add("weibull.nist eta", "weibull fit", 606.528, life.eta, { printedTo: 1e-3 }, lives, "read", "h");
  add("weibull.nist beta", "weibull fit", 1.7208, life.beta, { printedTo: 1e-4 }, lives, "read");
  add("weibull.nist log-likelihood", "weibull fit", -75.135, life.logLikelihood, { printedTo: 1e-3 }, lives, "read");
  add("weibull.nist mean", "weibull fit", 540.737, life.mean, { printedTo: 1e-3 }, lives, "read", "h");
  add("weibull.nist sd", "weibull fit", 323.806, life.sd, { printedTo: 1e-3 }, lives, "read", "h");
  survival(failed, stopped).forEach(({ share }, i) => {
    add(
      `weibull.km ${i + 1}`,
      "survival",
      (19 - i) / 20,
      share,
      { share: 1e-12 },
      "product limit: no unit was stopped before the last failure",
      "derived",
    );
  });

  const ranges = gauge(gaugeReadings);
  const manual =
    "measurement systems analysis, reference manual, its example of 10 parts, 3 people, 3 trials; its steps are rounded";
  for (const [name, printed, got] of [
    ["mean range", 0.3417, ranges.meanRange],
    ["between people", 0.4446, ranges.persons],
    ["ev", 0.20188, ranges.ev],
    ["av", 0.22963, ranges.av],
    ["grr", 0.30575, ranges.grr],
    ["pv", 1.10456, ranges.pv],
    ["tv", 1.1461, ranges.tv],
  ] as const)
    add(`grr.range ${name}`, "gauge", printed, got, { share: 2e-3 }, manual, "memory");
}
const gaugeReadings = [
  [
    [0.29, -0.56, 1.34, 0.47, -0.8, 0.02, 0.59, -0.31, 2.26, -1.36],
    [0.41, -0.68, 1.17, 0.5, -0.92, -0.11, 0.75, -0.2, 1.99, -1.25],
    [0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31],
  ],
  [
    [0.08, -0.47, 1.19, 0.01, -0.56, -0.2, 0.47, -0.63, 1.8, -1.68],
    [0.25, -1.22, 0.94, 1.03, -1.2, 0.22, 0.55, 0.08, 2.12, -1.62],
    [0.07, -0.68, 1.34, 0.2, -1.28, 0.06, 0.83, -0.34, 2.19, -1.5],
  ],
  [
    [0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49],
    [-0.11, -1.13, 1.09, 0.2, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77],
    [-0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16],
  ],
];

function unlikeRows(add: Add): void {
  const grid = `posterior on a grid of its own, ${countsProgram}`;
  for (const [k, median, atMost] of [
    [0, 6.2914e-6, 4.1281e-5],
    [2, 5.2089e-5, 1.619e-4],
  ] as const) {
    const got = rateWithModel({ median: 1e-5 }, { failed: k, run: 20_000 });
    add(`mixed.prior ${k} median`, "rate with model", median, got.median, { share: 2e-3 }, grid, "derived");
    add(`mixed.prior ${k} at most`, "rate with model", atMost, got.atMost, { share: 2e-3 }, grid, "derived");
  }
  add(
    "bb.zero",
    "beta-binomial clean",
    0.5770614095312759,
    mixedClean(1000, 0.5, 499.5),
    { share: 1e-10 },
    "B(a, b + n)/B(a, b)",
    "derived",
  );
  add(
    "bb.zero, alike",
    "chance to pass",
    0.36769542477096373,
    chanceToPass(0.001, 1000),
    { share: 1e-12 },
    "(1 - p)^n, by hand",
    "derived",
  );
  [0.24623115577889065, 0.24998086881105716, 0.1893987705022505].forEach((p, k) => {
    add(
      `bb.pmf ${k}`,
      "beta-binomial",
      p,
      mixedChance(k, 100, 2, 98),
      { share: 1e-11 },
      "closed form, by products of fractions",
      "derived",
    );
  });
  add(
    "bb.pmf variance",
    "beta-binomial",
    3.881188118811881,
    mixedMoments(100, 2, 98).variance,
    { share: 1e-12 },
    "closed form, by hand",
    "derived",
  );
  const kish = "Kish, design effect, by hand";
  add(
    "cluster.deff 4 x 5000 at 0.001",
    "effective cycles",
    3333.888981496916,
    effectiveCycles([5000, 5000, 5000, 5000], 0.001),
    { share: 1e-12 },
    kish,
    "derived",
  );
  add(
    "cluster.deff 4 x 5000 at 0.01",
    "effective cycles",
    392.2337713277113,
    effectiveCycles([5000, 5000, 5000, 5000], 0.01),
    { share: 1e-12 },
    kish,
    "derived",
  );
  add(
    "cluster.deff 1 x 20000 at 0.01",
    "effective cycles",
    99.50743818100402,
    effectiveCycles([20_000], 0.01),
    { share: 1e-12 },
    kish,
    "derived",
  );
  add("cluster.deff 5000 at 0.01", "design effect", 50.99, designEffect(5000, 0.01), { share: 1e-12 }, kish, "derived");
  for (const [units, rate] of [
    [1, 0.0009843454834493539],
    [4, 0.00041807331724172966],
    [20, 0.00021606182030844742],
  ] as const)
    add(
      `bb.promise ${units}`,
      "mean rate at most",
      rate,
      meanRateAtMost(units, 20_000 / units, 0.001),
      { share: 1e-8 },
      `root of m ln[B(a, b + n)/B(a, b)] = ln 0.05, ${countsProgram}`,
      "derived",
    );
  add(
    "bb.promise alike",
    "rate at most",
    0.00014977539622296285,
    rateAtMost(0, 20_000),
    { share: 1e-10 },
    "1 - 0.05^(1/20000)",
    "derived",
  );
  const conjugate = gammaRate({ shape: 0.5, cycles: 2000 }, { failed: 1, run: 30_000 });
  add("gamma.mix mean", "gamma rate", 4.6875e-5, conjugate.mean, { share: 1e-12 }, "by hand, 1.5/32000", "derived");
  add(
    "gamma.mix at most",
    "gamma rate",
    0.00012210512348829967,
    conjugate.atMost,
    { share: 1e-11 },
    countsProgram,
    "derived",
  );

  const readings = [0.42, 0.45, 0.39, 0.47, 0.44];
  const known = measuredWithScatter({ median: 0.6, sd: 0.5 }, readings, 0.1);
  const logs = `normal law on the logarithm, ${countsProgram}`;
  add(
    "update.lognormal median",
    "measured with scatter",
    0.4342488626093754,
    known.median,
    { share: 1e-12 },
    logs,
    "derived",
  );
  add(
    "update.lognormal log sd",
    "measured with scatter",
    0.044543540318737404,
    known.sd,
    { share: 1e-12 },
    logs,
    "derived",
  );
  add(
    "update.lognormal next low",
    "measured with scatter",
    0.3503934041767492,
    known.next(0.95)[0],
    { share: 1e-12 },
    logs,
    "derived",
  );
  add(
    "update.lognormal next high",
    "measured with scatter",
    0.5381724439721892,
    known.next(0.95)[1],
    { share: 1e-12 },
    logs,
    "derived",
  );
  const unknown = measured({ median: 0.6, scatter: 0.15 }, readings);
  add(
    "update.unknown median",
    "measured",
    0.457,
    unknown.median,
    { printedTo: 1e-3 },
    `${sureNotes}, 6: scatter unknown, guessed 0.15`,
    "derived",
  );
  add(
    "update.unknown next low",
    "measured",
    0.313,
    unknown.next(0.95)[0],
    { within: 1e-3 },
    `${sureNotes}, 6`,
    "derived",
  );
  add(
    "update.unknown next high",
    "measured",
    0.668,
    unknown.next(0.95)[1],
    { within: 1e-3 },
    `${sureNotes}, 6`,
    "derived",
  );

  // The second of these was printed once as 9.999990969783097e-6 by a library; the closed form is 1 - 0.05^(1/299572).
  const quantiles = "another library's beta quantile";
  add(
    "num.betainv 4 17",
    "beta quantile",
    0.37892682654531396,
    betaQuantile(0.975, 4, 17),
    { share: 1e-12 },
    quantiles,
    "derived",
  );
  add(
    "num.betainv 1 299572",
    "beta quantile",
    -Math.expm1(Math.log(0.05) / 299572),
    betaQuantile(0.95, 1, 299572),
    { share: 1e-14 },
    "1 - 0.05^(1/299572)",
    "derived",
  );
  add(
    "num.betainv 1 299572, printed",
    "beta quantile",
    9.999990969783097e-6,
    betaQuantile(0.95, 1, 299572),
    { share: 1e-10 },
    `${quantiles}, right to 10 digits; the exact value is the row before`,
    "derived",
  );
  add(
    "num.betainv 0.5 0.5",
    "beta quantile",
    0.5,
    betaQuantile(0.5, 0.5, 0.5),
    { share: 1e-12 },
    "the law is symmetric about a half",
    "derived",
  );
  add(
    "num.betainv 1200 3",
    "beta quantile",
    0.994002493287919,
    betaQuantile(0.025, 1200, 3),
    { share: 1e-13 },
    quantiles,
    "derived",
  );
  add(
    "num ln beta 0.5 0.5",
    "ln beta",
    Math.log(Math.PI),
    lnBeta(0.5, 0.5),
    { share: 1e-13 },
    "B(1/2, 1/2) = pi",
    "derived",
  );

  for (const [m, share] of [
    [1, 0.95],
    [3, 0.6315968501359612],
    [10, 0.25886555089305224],
    [59, 0.0495076],
  ] as const)
    add(
      `promise bad units of ${m}`,
      "rate shown by clean",
      share,
      rateShownByClean(m),
      { share: 1e-5 },
      `${sureNotes}, 7: 95, 63, 26 and 5 %`,
      "derived",
    );
  const clean = promise({
    units: [5000, 5000, 5000, 5000].map((run) => ({ failed: 0, run })),
    reels: 4,
    model: { median: 1e-5 },
  });
  const two = promise({
    units: [1, 1, 0, 0].map((k) => ({ failed: k, run: 5000 })),
    reels: 4,
    model: { median: 1e-5 },
  });
  const rounding = `${reviewNotes}: the notes' own 24 000, 6 600 and 6 100 break their rule of 1, 2, 5`;
  add(
    "promise 0 in 20 000 with the model",
    "promise",
    20_000,
    clean.withModel!.oneIn,
    { within: 0 },
    rounding,
    "derived",
  );
  add("promise 0 in 20 000 by test alone", "promise", 5000, clean.alike.oneIn, { within: 0 }, rounding, "derived");
  add("promise 2 in 20 000 with the model", "promise", 5000, two.withModel!.oneIn, { within: 0 }, rounding, "derived");
  add("promise rounding of 24 000", "rounded down", 20_000, roundedDown(24_000), { within: 0 }, rounding, "derived");
  add("promise rounding of 6 600", "rounded down", 5000, roundedDown(6600), { within: 0 }, rounding, "derived");
  // Known spread: the grid against an integral of its own.
  for (const [ks, s, atMost] of unlikeBounds)
    add(
      `unlike ${ks.join(" ")} at log sd ${s}`,
      "unlike units",
      atMost,
      unlikeUnits(
        ks.map((failed) => ({ failed, run: 4000 })),
        { logSd: s },
      ).atMost,
      { share: 2e-2 },
      `posterior by fine integrals, ${countsProgram}; the grid is good to 2 %`,
      "derived",
    );
}
/** Failures in 4000 cycles of each unit, log sd, 95 % bound of the mean. */
const unlikeBounds: readonly (readonly [readonly number[], number, number])[] = [
  [[1, 0, 2], 1.0, 0.0010763172768060753],
  [[0, 3, 1, 0, 7], 1.5, 0.0028223077327395353],
  [[2, 2, 1], 0.5, 0.0009528594340523349],
];

/** Accuracy, counts and beliefs: every function the "how sure" pages rest on. */
export function sureRows(): Row[] {
  const rows: Row[] = [];
  const add: Add = (id, model, expected, got, near, source, how, unit = "1") => {
    rows.push(row({ id: `sure.${id}`, model, expected, got, near, source, how, unit }));
  };
  accuracyRows(add);
  countRows(add);
  unlikeRows(add);
  return rows;
}
