import type { Fact, Figure, Range } from "./figure.ts";
import { derived, fact, max, memory, memoryRange, pm, read, readRange } from "./figure.ts";

/** What carrier tape is made of, and friction of bodies. Film is in film-material.ts. */
export interface Material {
  /** Tensile and flexural modulus, MPa. */
  readonly E?: Figure | Range;
  readonly flexE?: Figure | Range;
  /** Yield and strength, MPa. */
  readonly yield?: Figure | Range;
  readonly strength?: Figure | Range;
  /** At break, %. */
  readonly elongation?: Figure | Range;
  /** g/cm3 */
  readonly density?: Figure | Range;
  /** Thermal expansion, um/m/K. */
  readonly cte?: Figure | Range;
  /** Poisson ratio. */
  readonly nu?: Figure | Range;
  /** Glass transition and heat deflection, degC. */
  readonly Tg?: Figure | Range;
  readonly hdt?: Figure | Range;
  readonly facts?: readonly Fact[];
}

export const PS: Material = {
  E: readRange(3000, 3600, ["PS page"], { note: "the ASTM values have 450 kpsi, 3100" }),
  strength: readRange(46, 60, ["PS page"], { note: "the ASTM values have 51.7" }),
  elongation: readRange(3, 4, ["PS page"]),
  density: read(1.05, ["PS page", "PS ASTM values"]),
  cte: read(80, ["PS page"]),
  Tg: read(95, ["PS page"]),
  facts: [fact("The property page is headed high-impact but lists general-purpose figures.", ["PS page"])],
};

export const HIPS: Material = {
  E: readRange(1600, 2400, ["HIPS table", "HIPS page", "PS ASTM values"], {
    note: "1900 in one page, 260 kpsi (1790) in the ASTM values",
  }),
  flexE: readRange(1330, 2630, ["HIPS ASTM ranges"], { note: "193 to 381 kpsi" }),
  yield: read(25, ["HIPS table"]),
  strength: readRange(15, 32, ["HIPS page", "HIPS description", "PS ASTM values", "HIPS ASTM ranges"], {
    note: "the property table prints 35 to 100 ultimate: not credible",
  }),
  elongation: readRange(35, 60, ["HIPS description", "HIPS table", "HIPS page"]),
  density: readRange(1.04, 1.06, ["HIPS table", "PS ASTM values", "HIPS description"]),
  cte: readRange(80, 90, ["HIPS table", "HIPS page", "HIPS ASTM ranges"]),
  nu: readRange(0.34, 0.41, ["HIPS table", "HIPS page"]),
  hdt: readRange(70, 87, ["HIPS description", "HIPS ASTM ranges"]),
  facts: [fact("It creeps under a steady load, the more the more rubber it holds.", ["HIPS description"])],
};

export const PC: Material = {
  E: memory(2350, { confidence: "high" }),
  yield: memory(62, { confidence: "high" }),
  density: memory(1.2, { confidence: "high" }),
  cte: memory(68, { confidence: "high" }),
  facts: [
    fact("A resistor maker chose it for stiffness and for keeping its shape with temperature.", ["IEC 286-3 sheet"]),
  ],
};

/** Sheet for thermoforming, not stretched film. */
export const PETsheet: Material = {
  E: memory(2300, { confidence: "medium" }),
  density: memory(1.33, { confidence: "medium" }),
  cte: memory(70, { confidence: "medium" }),
};

/** Carrier board of punched tape, along the tape. Thicknesses stand in punched.ts. */
export const carrierBoard: Material = {
  E: memoryRange(2000, 5000, { confidence: "low" }),
  density: memoryRange(0.75, 0.95, { confidence: "low" }),
};

/** Papers in general, newsprint to kraft. */
export const paper: Material = {
  E: readRange(3000, 8900, ["paper data"], { note: "carrier board likely at the low end or below" }),
  yield: readRange(15, 34, ["paper data"]),
  strength: readRange(23, 51, ["paper data"]),
  density: readRange(0.48, 0.86, ["paper data"]),
  facts: [fact("Three ways of measuring friction gave clearly different values on one paper.", ["Hutchings 1997"])],
};

/** Creep modulus of a PC grade after ISO 899, MPa: time^-0.0212, 0.86 left after 1000 h. None was found for PS. */
export const creepPC = {
  short: read(2400, ["PC UV grade"]),
  hour: read(2200, ["PC UV grade"]),
  thousandHours: read(1900, ["PC UV grade"]),
} as const;
/** The same exponent of PS and HIPS. */
export const creepExponentPS: Range = memoryRange(0.03, 0.08, { confidence: "low" });

/** Carrier thickness as drawn, mm. */
export const drawnThickness: readonly Figure[] = [
  read(0.2, ["SOD-123 taping sheet"]),
  read(0.228, ["SOT-23 rev C"], { tol: pm(0.013) }),
  read(0.3, ["28-pin SOP 2008", "TSSOP drawing 1997", "optocoupler sheet 2011"], { tol: pm(0.05) }),
  read(0.4, ["SO8", "tantalum taping 2014"], max),
];

/** Surface resistance of the carrier, ohm. */
export const carrierResistance: Range = readRange(10000, 1e11, ["module packing page"]);

/** Strain of a 0.3 mm carrier wound on a 55 mm hub; no published coil set was found. */
export const strainOnHub: Figure = derived(0.0055, {
  note: "0.3/55; HIPS yields at about 25/2000 = 1.25 %: elastic at once, but creeping in store",
});
/** Growth of ten sprocket pitches, mm/K. */
export const growthPer40mm: Figure = derived(0.0034, {
  note: "85 um/m/K x 40 mm; 15 K move ten pitches 0.05 mm, a quarter of their allowance",
});

export interface Friction {
  readonly between: readonly [string, string];
  readonly state: "static" | "kinetic" | "apparent" | "unstated";
  readonly mu: Figure | Range;
}

export const acetalOnSteel: readonly Friction[] = [
  { between: ["acetal homopolymer", "steel"], state: "static", mu: readRange(0.1, 0.3, ["Shackelford table 399"]) },
  { between: ["acetal copolymer", "steel"], state: "static", mu: read(0.15, ["Shackelford table 399"]) },
];

export const friction: readonly Friction[] = [
  ...acetalOnSteel,
  { between: ["polycarbonate", "polycarbonate"], state: "static", mu: read(0.52, ["Shackelford table 399"]) },
  { between: ["ABS-PC alloy", "ABS-PC alloy"], state: "static", mu: read(0.2, ["Shackelford table 399"]) },
  {
    between: ["thermoplastic polyester", "steel"],
    state: "static",
    mu: read(0.13, ["Shackelford table 399"], { note: "moulding; 0.17 by ASTM D1894" }),
  },
  { between: ["cast nylon 6", "not stated"], state: "kinetic", mu: read(0.32, ["Shackelford table 399"]) },
  { between: ["phenylene oxide", "phenylene oxide"], state: "static", mu: read(0.67, ["Shackelford table 399"]) },
  {
    between: ["HDPE", "steel"],
    state: "apparent",
    mu: readRange(0.12, 0.22, ["plastic friction article"], {
      note: "rises with Ra; quoted second hand from Burke and Malloy 1991",
    }),
  },
  { between: ["ABS", "steel"], state: "kinetic", mu: read(0.35, ["ABS sheet"], { note: "dry" }) },
  {
    between: ["printed PLA", "hard rubber"],
    state: "kinetic",
    mu: readRange(0.62, 0.76, ["printed PLA friction 2025"], { note: "not tape" }),
  },
  {
    between: ["printed PA6", "hard rubber"],
    state: "kinetic",
    mu: readRange(0.66, 1.1, ["printed PLA friction 2025"]),
  },
  {
    between: ["filled bearing plastic", "steel"],
    state: "kinetic",
    mu: readRange(0.06, 0.18, ["filled bearing plastic"], { note: "dry" }),
  },
  {
    between: ["soft bearing plastic", "steel"],
    state: "kinetic",
    mu: readRange(0.18, 0.28, ["soft bearing plastic"], { note: "dry" }),
  },
  {
    between: ["PS, PC or paper carrier", "printed plastic, POM or steel"],
    state: "unstated",
    mu: memoryRange(0.15, 0.45, {
      confidence: "low",
      note: "no figure was found: a range to start from; measure on an incline or a drum",
    }),
  },
];

export const frictionFacts: readonly Fact[] = [
  fact("Dry, back and forth, printed PLA on PLA rubs and wears more than PETG on PETG.", ["PLA PETG wear"]),
  fact("PLA on PLA rubs more than PETG on PETG; paired, the PLA wears less.", ["Cho 2024"]),
];
