import type { EmbossedWidth } from "./embossed.ts";
import type { Figure, Range } from "./figure.ts";
import { derived, fact, memory, memoryRange, min, most, pm, read, readRange } from "./figure.ts";

/**
 * Cover film: size, peel limits and their test, break, kinds, ageing. Peel forces are totals over both seal tracks.
 * What the film is made of, how it slides, tears and peels with speed stands in film-material.ts.
 * Looked for and not found: a maker's curve of peel force against speed, humidity or age; figures for ageing in heat
 * and damp.
 */

const byRule = "W - 6.5, as the rows from 32 to 72 mm suggest (both hole rows left bare); no figure was read";

/** Film width b, mm. Only 8 and 24 are read. */
export const filmWidth: Readonly<Record<EmbossedWidth, Figure | Range>> = {
  8: read(5.2, ["SOT-23 rev C"], { tol: pm(0.3) }),
  12: memoryRange(9.2, 9.5, { confidence: "medium" }),
  16: memoryRange(13, 13.5, { confidence: "medium" }),
  24: read(21.3, ["28-pin SOP 2008"], { tol: pm(0.1) }),
  32: memory(25.5, { confidence: "medium" }),
  44: memory(37.5, { confidence: "medium" }),
  56: memory(49.5, { confidence: "medium" }),
  72: memory(65.5, { confidence: "low" }),
  88: derived(81.5, { confidence: "low", note: byRule }),
  104: derived(97.5, { confidence: "low", note: byRule }),
  120: derived(113.5, { confidence: "low", note: byRule }),
  136: derived(129.5, { confidence: "low", note: byRule }),
  152: derived(145.5, { confidence: "low", note: byRule }),
  168: derived(161.5, { confidence: "low", note: byRule }),
  184: derived(177.5, { confidence: "low", note: byRule }),
  200: derived(193.5, { confidence: "low", note: byRule }),
};

/** Thickness, mm. The standards' upper limit T1 stands in every-width.ts. */
export const filmThickness = {
  blister8: read(0.06, ["SOT-23 rev C"], { tol: pm(0.02), note: "8 mm blister tape" }),
  paper: read(0.05, ["IEC 286-3 sheet"], { tol: pm(0.01), note: "upper and lower film of cardboard tape" }),
  psaCarrier: readRange(0.025, 0.05, ["PSA film article"], { note: "pressure-sensitive film without its adhesive" }),
} as const;

/** Seal tracks: one inboard of the sprocket holes, one at the far edge. Width of each in mm; none was read. */
export const sealTracks = {
  count: memory(2, { confidence: "low" }),
  width: memoryRange(0.3, 0.8, { confidence: "low" }),
} as const;

const to56 = readRange(0.1, 1.3, ["forum 2010"]);
const to200 = readRange(0.1, 1.5, ["forum 2010"]);

/** Peel force by EIA-481 clause 4.11, N: quoted second hand; for 8 and 12 mm a sheet of IEC 60286-3 form agrees. */
export const peelLimit: Readonly<Record<EmbossedWidth, Range>> = {
  8: readRange(0.1, 1, ["forum 2010", "28704"]),
  12: readRange(0.1, 1.3, ["forum 2010", "28704"]),
  16: to56,
  24: to56,
  32: to56,
  44: to56,
  56: to56,
  72: to200,
  88: to200,
  104: to200,
  120: to200,
  136: to200,
  152: to200,
  168: to200,
  184: to200,
  200: to200,
};

/** Other windows for the peel force. */
export const otherPeelLimits = {
  /** IEC 286-3, second edition, N: by test speed, cardboard and blister tape. */
  at120mmPerMin: readRange(0.1, 0.7, ["IEC 286-3 sheet"]),
  at300mmPerMin: readRange(0.2, 1, ["IEC 286-3 sheet"]),
  /** One capacitor maker's own limit at 12 and 16 mm, N. */
  maker12and16: memoryRange(0.1, 1.4, { confidence: "medium", note: "the page did not turn up" }),
  /** The quoted clause in its own gram-force, 12 to 56 mm, gf. */
  inGramForce: readRange(10, 130, ["forum 2010"], { note: "rounded: 1 N is 102 gf" }),
  /** Window of a carrier maker, gf. */
  tradePractice: readRange(20, 80, ["carrier maker on cracks"], {
    note: "shop practice, 0.20 to 0.78 N, though put down to the standard, whose clause is wider",
  }),
} as const;

/** How the standards measure peel. */
export const peelTest = {
  /** Between film and carrier, film drawn back over the tape, degrees. */
  angle: readRange(165, 180, ["IEC 286-3 sheet", "28704"], { note: "an article says 165 ±10 instead" }),
  /** mm/min */
  speed: read(300, ["28704", "IEC 286-3 sheet", "PSA film article", "JP2006-182418"], {
    tol: pm(10),
    note: "the tolerance is in sheet 28704 only",
  }),
  oldSpeed: read(120, ["IEC 286-3 sheet"]),
  /** The same speed in m/s. Indexing peels far faster: 4 mm in 50 ms is 0.08 m/s. */
  speedSI: derived(0.005, { note: "300 mm/min" }),
  method: fact("JIS C 0806-3 is cited for the same test at 300 mm/min.", ["JP2006-182418", "PSA film article"]),
} as const;

/** Pull that the film must bear before it breaks, N. */
export const coverBreak = {
  moduleMaker: read(5, ["module sheet 2020"], min),
  capacitorMaker: memory(9.8, { limit: "min", confidence: "medium", note: "1.0 kgf; the page did not turn up" }),
  IEC60286: memory(10, { limit: "min", confidence: "low" }),
} as const;

export const filmKinds = {
  kinds: fact(
    "Heat-activated; pressure-sensitive; universal, where a scored film and not the adhesive sets the peel.",
    ["film suppliers on charge"],
  ),
  /** Roller force when sealing pressure-sensitive film, N. */
  psaSealForce: readRange(1, 5, ["PSA film article"], { note: "acrylic or rubber adhesive, no heat" }),
  psaFilms: fact("Pressure-sensitive: BOPP, PET, PS.", ["PSA film article"]),
  heatFilms: fact("Heat-activated: polyester, polycarbonate, nylon, polystyrene, PVC.", ["US5208103"]),
  heatRelease: fact("The seal lets go at its interface, or splits within a layer made to split.", ["US5208103"]),
  /** Peel per track width of heat-activated film at 300 mm/min, N/mm: a patent's claim, not a standard. */
  heatPeelSmooth: readRange(0.05, 0.5, ["JP2006-182418"], { note: "fresh, on a surface of Ra below 0.1 um" }),
  heatPeelRough: readRange(0.1, 1, ["JP2006-182418"], { note: "on Ra 0.1 to 0.5 um; must exceed the smooth side" }),
  layers: fact("Stretched film outside, a polyolefin layer that splits, a seal layer with conducting powder.", [
    "US5208103",
  ]),
} as const;

/** What age, air and charge do. No figures for ageing were found. */
export const filmAgeing = [
  fact(
    "The peel of pressure-sensitive film is said to move more with room temperature than that of heat-activated film.",
    ["PSA film page"],
  ),
  fact(
    "Old film is brittle and snaps unstretched; at 12 and 16 mm it more often splits lengthwise; shrinkage can bare several centimetres of pockets.",
    ["forum 2002"],
  ),
  fact("On reels four to five years old the film stuck to the paper carrier.", ["forum 2010"]),
  fact("Keeping the peel in a window over long storage is an aim of patents.", ["JP2006-182418"]),
  fact("Film of 12 and 16 mm tends to split lengthwise before it breaks across; aged film snaps with no stretch.", [
    "forum 2002",
  ]),
  fact("Curl of the film is a known defect; patents choose the middle layer against it.", ["JP2024-143146"]),
  fact("Adhesive squeezes out where the sealing iron is off its place or too hot.", ["film defect guide"]),
  fact(
    "Charge lifts small parts with the film; grounding, ionised air at the peel and a gap over the film are the remedies named.",
    ["resistor note 2022"],
  ),
] as const;

/** Growth across the film from 40 to 80 % humidity at 20 degC, %: a patent's limit for a polyamide base film. */
export const moistureGrowth: Figure = read(1.3, ["JP2007-326602"], most("meant to avoid breaks in fast peeling"));

/** Surface resistance: first in ohm per square, then in ohm by supplier. */
export const antistatic = {
  perSquare: readRange(10000, 1e11, ["PSA film article", "module packing page"]),
  supplierA: readRange(1e9, 1e11, ["film suppliers on charge"]),
  supplierB: readRange(1e6, 1e8, ["film suppliers on charge"]),
  supplierC: readRange(1e6, 1e9, ["film defect guide"]),
} as const;
