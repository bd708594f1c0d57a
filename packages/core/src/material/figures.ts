import type { Figure, Range } from "../tape/figures/figure.ts";
import { fact, memory, memoryRange, read, readRange } from "../tape/figures/figure.ts";
import type { Material } from "../tape/figures/materials.ts";

/**
 * What springs, leaves and frames are made of. Carriers of tape stand in tape/figures/materials.ts, film in film-material.ts; a figure stands in one
 * place. MPa, g/cm3, um/m/K, degC as printed.
 */
export interface SpringMaterial extends Material {
  readonly kind: "steel" | "plastic";
  readonly E: Figure | Range;
  readonly strength: Figure | Range;
  /** Words by which a unit file may call it, in small letters; the first is its name. */
  readonly words: readonly [string, ...string[]];
  /** Yield, or Rp0.2 of steel, over strength, where no yield is tabled. */
  readonly yieldShare?: Range | Figure;
  /** Exponent of the loss of force in time: force ~ (t/1 h)^-n. */
  readonly relaxation?: Range | Figure;
  /** Amplitude borne at stress ratio -1 and 0, over strength. */
  readonly fatigue?: Range | Figure;
  readonly fatigueFromNothing?: Range | Figure;
  /** Tempers by the word behind the material, and their strength. */
  readonly tempers?: Readonly<Record<string, Range | Figure>>;
  /** Strength across the layers of a print over that along them. */
  readonly acrossLayers?: Range | Figure;
}

const strip = { note: "along the rolling direction" } as const;
export const steel14310 = {
  kind: "steel",
  words: ["spring steel 1.4310", "1.4310", "stainless spring steel", "stainless spring strip"],
  E: readRange(179_000, 185_000, ["1.4310 strip page"], {
    note: "cold rolled, Rm 1300 to 1800, along the rolling direction",
  }),
  nu: memory(0.3, { confidence: "medium" }),
  strength: readRange(1150, 1900, ["1.4310 strip page"], { note: "tempers +C1150 to +C1700; +C1900 goes beyond" }),
  yieldShare: memoryRange(0.75, 0.92, {
    confidence: "medium",
    note: "rises with temper; 965 of 1276 (0.76) read for 301 full hard as a floor",
  }),
  tempers: {
    "+c1150": readRange(1150, 1300, ["1.4310 strip page"], strip),
    "+c1300": readRange(1300, 1500, ["1.4310 strip page"], strip),
    "+c1500": readRange(1500, 1700, ["1.4310 strip page"], strip),
    "+c1700": readRange(1700, 1900, ["1.4310 strip page"], strip),
    "+c1900": memoryRange(1900, 2200, { note: "its floor read, its upper end remembered" }),
  },
  fatigue: readRange(0.41, 0.49, ["Johansson and Nordberg"], {
    note: "0.45 with an uncertainty of 0.04; not above Rp0.2; 1e6 to 1e7 cycles",
  }),
  fatigueFromNothing: readRange(0.31, 0.39, ["Johansson and Nordberg"], { note: "0.35 with an uncertainty of 0.04" }),
  density: memory(7.9, { confidence: "high" }),
  cte: read(16.6, ["301 full hard page"], { note: "of 301 full hard" }),
} as const satisfies SpringMaterial;

/** Modulus of 1.4310 after tempering the strip: by strength. */
export const temperedE: Range = readRange(189_000, 195_000, ["1.4310 strip page"], { note: "Rm 1300 to 1800" });
/** Elongation of 1.4310 strip over 80 mm, at least, %, by temper. */
export const leastElongation: Readonly<Record<string, Figure>> = {
  "+c1150": read(15, ["1.4310 strip page"]),
  "+c1300": read(10, ["1.4310 strip page"]),
  "+c1500": read(5, ["1.4310 strip page"]),
  "+c1700": read(2, ["1.4310 strip page"]),
  "+c1900": read(1, ["1.4310 strip page"]),
};
/** Least radius of a bend by 90 degrees over thickness, across the rolling direction and along it; strip of 0.05 to 0.25 mm. */
export const bendRadius: readonly { readonly strength: string; readonly across: Figure; readonly along: Figure }[] = [
  { strength: "1300 to 1500", across: read(1.5, ["1.4310 strip page"]), along: read(3, ["1.4310 strip page"]) },
  { strength: "1500 to 1700", across: read(2, ["1.4310 strip page"]), along: read(4.5, ["1.4310 strip page"]) },
  { strength: "1700 to 1900", across: read(2.5, ["1.4310 strip page"]), along: read(9, ["1.4310 strip page"]) },
];

export const steel301 = {
  kind: "steel",
  words: ["301 full hard", "stainless 301 full hard"],
  E: read(193_000, ["301 full hard, AMS"], { note: "lower when cold worked" }),
  nu: memory(0.3, { confidence: "medium" }),
  strength: read(1276, ["301 full hard page", "ASTM A666 table"], { note: "the standard's minimum 1275" }),
  yield: read(965, ["301 full hard page", "ASTM A666 table"]),
  fatigue: read(0.43, ["301 full hard page", "cold-work table"], { note: "552 of 1276 MPa; test not described" }),
  density: read(8.03, ["301 full hard page"]),
  cte: read(16.6, ["301 full hard page"]),
  facts: [
    fact("Lengthwise it yields in compression at 793 MPa: a bend one way is weaker than the other.", [
      "301 full hard page",
    ]),
  ],
} as const satisfies SpringMaterial;

export const steelC75S = {
  kind: "steel",
  words: ["spring steel c75s", "c75s", "1.1248", "spring steel 1.1248"],
  E: memory(206_000, { confidence: "high" }),
  nu: memory(0.29, { confidence: "high" }),
  strength: readRange(1200, 1900, ["C75S guide"], { note: "hardened and tempered, 370 to 580 HV" }),
  yieldShare: memoryRange(0.75, 0.92, { confidence: "low", note: "taken as of 1.4310 strip" }),
  fatigue: memoryRange(0.35, 0.45, { confidence: "low", note: "no figure was found; a laser's edge is softened" }),
  density: memory(7.85, { confidence: "high" }),
  cte: memory(11.5, { confidence: "medium" }),
  facts: [
    fact("C75S is 1.1248.", ["high-carbon strip page"]),
    fact("1.1274 is C100S, not C75S.", ["memory"], "memory"),
    fact("Cold rolled and not hardened it has 1170 MPa at most.", ["high-carbon strip page", "C75S guide"]),
  ],
} as const satisfies SpringMaterial;

/** Steel of which nothing but "spring steel" is said. */
export const steelAny = {
  kind: "steel",
  words: ["spring steel", "spring strip"],
  E: memoryRange(179_000, 206_000, { note: "1.4310 to C75S" }),
  nu: memory(0.3, { confidence: "medium" }),
  strength: memoryRange(1150, 1900, { note: "1.4310 of any temper, C75S hardened" }),
  yieldShare: memoryRange(0.75, 0.92, { confidence: "low" }),
  fatigue: memoryRange(0.35, 0.49, { confidence: "low" }),
  density: memory(7.9, { confidence: "high" }),
} as const satisfies SpringMaterial;

export const PLA = {
  kind: "plastic",
  words: ["pla", "printed pla"],
  E: readRange(3000, 4000, ["printed PLA page"], { note: "in the layer; filament 3500" }),
  nu: memory(0.35, { confidence: "low" }),
  strength: readRange(50, 65, ["printed PLA page"], { note: "in the layer; 35 to 45 across" }),
  elongation: readRange(3, 10, ["printed PLA page"]),
  acrossLayers: readRange(0.54, 0.9, ["printed PLA page"], { note: "35 to 45 over 50 to 65 MPa" }),
  yieldShare: memoryRange(0.8, 1, { confidence: "low", note: "brittle: yield near strength" }),
  relaxation: memoryRange(0.03, 0.1, { confidence: "low", note: "ageing shifts it; no 1000 h curve was found" }),
  density: memory(1.24, { confidence: "high" }),
  cte: read(41, ["printed PLA friction 2025"]),
  Tg: readRange(55, 65, ["printed PLA page"]),
  hdt: read(55, ["printed PLA friction 2025"]),
} as const satisfies SpringMaterial;

export const PETG = {
  kind: "plastic",
  words: ["petg", "printed petg"],
  E: readRange(2000, 3000, ["printed PETG page"]),
  nu: memory(0.38, { confidence: "low" }),
  strength: readRange(44, 56, ["printed PETG page"], { note: "in the layer; 25 to 38 across" }),
  elongation: readRange(20, 50, ["printed PETG page"]),
  acrossLayers: readRange(0.45, 0.86, ["printed PETG page"], { note: "25 to 38 over 44 to 56 MPa" }),
  yieldShare: memoryRange(0.8, 1, { confidence: "low" }),
  relaxation: memoryRange(0.03, 0.09, {
    confidence: "low",
    note: "no 1000 h curve was found; linear to about half of strength in tests of 20 h (read, Polymers 17:2075)",
  }),
  density: memory(1.27, { confidence: "high" }),
  cte: memory(65, { confidence: "medium" }),
  Tg: readRange(75, 85, ["printed PETG page"]),
  facts: [fact("Printed PETG creeps in proportion to stress up to about half of its strength.", ["Polymers 17:2075"])],
} as const satisfies SpringMaterial;

export const ABS = {
  kind: "plastic",
  words: ["abs", "printed abs"],
  E: read(1443, ["IJB 9:756"], { note: "printed; moulded 2300" }),
  nu: memory(0.36, { confidence: "low" }),
  strength: read(35.3, ["IJB 9:756"]),
  acrossLayers: memoryRange(0.4, 0.75, { confidence: "medium" }),
  yieldShare: memoryRange(0.8, 1, { confidence: "low" }),
  relaxation: memoryRange(0.04, 0.09, { confidence: "low" }),
  density: memory(1.04, { confidence: "high" }),
  cte: read(94, ["ABS sheet"], { note: "5.2e-5 a degree Fahrenheit" }),
  hdt: read(104, ["ABS sheet"], { note: "220 degrees Fahrenheit at 1.8 MPa" }),
  facts: [fact("Moulded it has 2300 MPa and yields at 44 MPa and 2.4 %.", ["ABS moulding grade"])],
} as const satisfies SpringMaterial;

export const ASA = {
  kind: "plastic",
  words: ["asa", "printed asa"],
  E: memoryRange(1600, 2200, { confidence: "medium" }),
  nu: memory(0.36, { confidence: "low" }),
  strength: memoryRange(30, 45, { confidence: "medium" }),
  acrossLayers: memoryRange(0.4, 0.75, { confidence: "low" }),
  yieldShare: memoryRange(0.8, 1, { confidence: "low" }),
  relaxation: memoryRange(0.04, 0.09, { confidence: "low" }),
  density: memory(1.07, { confidence: "high" }),
  hdt: memoryRange(86, 98, { confidence: "medium" }),
} as const satisfies SpringMaterial;

export const PA12 = {
  kind: "plastic",
  words: ["pa12", "printed pa12", "sintered pa12", "nylon 12"],
  E: readRange(1730, 2000, ["PA12 fact sheet", "printed PA12 page"], {
    note: "flexural 1730, tensile 1800; sintered 2000",
  }),
  nu: readRange(0.43, 0.47, ["PA12 fact sheet"]),
  strength: readRange(44, 52, ["PA12 fact sheet", "printed PA12 page"], { note: "48 in the fact sheet" }),
  elongation: readRange(8, 25, ["PA12 fact sheet", "printed PA12 page"]),
  yieldShare: memoryRange(0.8, 1, { confidence: "low", note: "yields at 10 to 11 % (read): the knee lies lower" }),
  relaxation: memoryRange(0.05, 0.1, { confidence: "low", note: "moisture matters" }),
  density: readRange(0.88, 1.01, ["PA12 fact sheet", "printed PA12 page"]),
  Tg: memoryRange(45, 55, { note: "at work it is near or past it" }),
} as const satisfies SpringMaterial;

export const resinDurable = {
  kind: "plastic",
  words: ["durable resin"],
  E: read(1260, ["resin data sheet"], { note: "post-cured; green 450" }),
  nu: memory(0.4, { confidence: "low" }),
  strength: read(31.8, ["resin data sheet"]),
  elongation: read(49, ["resin data sheet"]),
  yieldShare: memoryRange(0.6, 0.9, { confidence: "low" }),
  relaxation: memoryRange(0.06, 0.15, { confidence: "low", note: "soft and warm-sensitive; no curve was found" }),
  cte: read(145, ["resin data sheet"]),
  hdt: read(43.3, ["resin data sheet"], { note: "at 0.45 MPa" }),
} as const satisfies SpringMaterial;

export const resinStiff = {
  kind: "plastic",
  words: ["stiff resin"],
  E: read(2900, ["IJB 9:756"]),
  nu: memory(0.38, { confidence: "low" }),
  strength: read(73, ["IJB 9:756"]),
  elongation: read(12.3, ["IJB 9:756"]),
  yieldShare: memoryRange(0.7, 0.95, { confidence: "low" }),
  relaxation: memoryRange(0.04, 0.12, { confidence: "low", note: "no curve was found" }),
} as const satisfies SpringMaterial;

export const POM = {
  kind: "plastic",
  words: ["pom", "acetal", "pom-c", "pom-h"],
  E: readRange(2500, 3000, ["plastics handbook"], { note: "copolymer 2500 to 2600, homopolymer 3000" }),
  nu: memory(0.38, { confidence: "low" }),
  strength: readRange(65, 72, ["plastics handbook"], { note: "copolymer, homopolymer" }),
  yieldShare: memoryRange(0.95, 1, { confidence: "medium", note: "its strength is its yield" }),
  relaxation: memoryRange(0.04, 0.08, { confidence: "low", note: "no curve was looked up" }),
  density: memory(1.41, { confidence: "high" }),
  cte: memory(110, { confidence: "medium" }),
} as const satisfies SpringMaterial;

export const PA66 = {
  kind: "plastic",
  words: ["pa66", "nylon 66"],
  E: memoryRange(1400, 3000, { confidence: "low", note: "conditioned to dry" }),
  nu: memory(0.4, { confidence: "low" }),
  strength: memoryRange(50, 80, { confidence: "low", note: "conditioned to dry" }),
  yieldShare: memoryRange(0.9, 1, { confidence: "low" }),
  relaxation: memoryRange(0.05, 0.07, { note: "0.0592 from the creep modulus below" }),
  density: memory(1.14, { confidence: "high" }),
} as const satisfies SpringMaterial;

/** Creep modulus of a conditioned polyamide after ISO 899, MPa: time^-0.0592, 0.66 left after 1000 h. */
export const creepPA66 = {
  hour: read(1400, ["polyamide data page"]),
  thousandHours: read(930, ["polyamide data page"]),
} as const;

/** Strip as it is sold, mm, and how far its thickness is off by class of EN 10140, mm, for widths under 125 mm. */
export const soldThickness: readonly Figure[] = [0.05, 0.08, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5].map((v) =>
  memory(v, { confidence: "high" }),
);
export const thicknessClass = {
  upTo01: {
    A: read(0.008, ["high-carbon strip page"]),
    B: read(0.006, ["high-carbon strip page"]),
    C: read(0.004, ["high-carbon strip page"]),
  },
  upTo015: {
    A: read(0.01, ["high-carbon strip page"]),
    B: read(0.008, ["high-carbon strip page"]),
    C: read(0.005, ["high-carbon strip page"]),
  },
} as const;
/** Thickness of 1.4310 strip of 0.05 to 0.10 mm by ISO 9445, share of the thickness: normal, fine, precision. */
export const thicknessShare14310 = {
  normal: read(0.1, ["1.4310 strip page"]),
  fine: read(0.06, ["1.4310 strip page"]),
  precision: read(0.04, ["1.4310 strip page"]),
} as const;

/** Laser-cut leaves: how true, mm; least slot or web over thickness; what the edge leaves of the fatigue strength. */
export const laserCut = {
  ordinary: read(0.12, ["laser service pages"], { note: "below 1 mm" }),
  best: read(0.025, ["laser service pages"], { note: "best claim" }),
  kerf: read(0.2, ["laser service pages"], {
    note: "a general service; thin shim with a fine beam 0.03 to 0.1, memory",
  }),
  web: read(0.7, ["laser service pages"]),
  edgeFatigue: memoryRange(0.5, 0.9, { confidence: "low", note: "burr and heat; deburr or tumble" }),
} as const;

export const springMaterials: readonly SpringMaterial[] = [
  steel14310,
  steel301,
  steelC75S,
  steelAny,
  PLA,
  PETG,
  ABS,
  ASA,
  PA12,
  PA66,
  POM,
  resinDurable,
  resinStiff,
];
