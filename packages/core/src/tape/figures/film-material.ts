import type { Figure } from "./figure.ts";
import { derived, derivedRange, fact, memory, memoryRange, read, readRange } from "./figure.ts";
import type { Friction } from "./materials.ts";
import { acetalOnSteel } from "./materials.ts";

/**
 * What cover film is made of and how it behaves: modulus, strength, laminate, friction, tear, peel against speed.
 * MD is along the film, TD across. Units stand beside each line.
 */

/** Biaxially stretched polyester in general. */
export const BOPET = {
  E: read(4500, ["film comparison"]), // MPa
  strength: read(200, ["film comparison", "BOPET 8 um listing"], { note: "the 8 um listing has 210 or more" }), // MPa
  elongation: read(100, ["film comparison"], { note: "the 8 um listing has 90 or more" }), // %
  F5: read(100, ["film comparison"]), // MPa at 5 % strain
  shrink150MD: readRange(1, 3, ["film comparison"]), // % at 150 degC
  Tg: read(70, ["film comparison"]), // degC
  density: memory(1.39, { confidence: "high" }), // g/cm3
} as const;

/** The 92 gauge film of a bulletin, the best described one. */
export const BOPET_92gauge = {
  thickness: derived(0.023, { note: "92 gauge" }), // mm
  E_MD: read(4805, ["H-37232-3"], { note: "490 kg/mm2" }), // MPa
  E_TD: read(5001, ["H-37232-3"], { note: "510 kg/mm2" }), // MPa
  F5_MD: read(98, ["H-37232-3"], { note: "10 kg/mm2" }), // MPa at 5 % strain
  strength_MD: read(196, ["H-37232-3"]), // MPa
  strength_TD: read(235, ["H-37232-3"]), // MPa
  elongation_MD: read(116, ["H-37232-3"]), // %
  elongation_TD: read(91, ["H-37232-3"]), // %
  density: read(1.39, ["H-37232-3"]), // g/cm3
  nu: read(0.38, ["H-37232-3"], { note: "before yield" }), // 1
  nuAfterYield: read(0.58, ["H-37232-3"]), // 1
  cte: read(17, ["H-37232-3"], { note: "30 to 50 degC" }), // um/m/K
  Ra: read(38, ["H-37232-3"]), // nm
  shrink105MD: read(0.6, ["H-37232-3"]), // % at 105 degC
  shrink105TD: read(0.9, ["H-37232-3"]), // % at 105 degC
} as const;

export const BOPET_100um = {
  strength_MD: read(197, ["BOPET maker table"], { note: "20.10 kg/mm2" }), // MPa
  F5_MD: read(114, ["BOPET maker table"], { note: "11.6 kg/mm2" }), // MPa at 5 % strain
  elongation_MD: read(215.6, ["BOPET maker table"]), // %
} as const;

export const BOPP = {
  E_MD: read(2500, ["film comparison"]), // MPa
  E_TD: read(4500, ["film comparison"]), // MPa
  strength_MD: read(150, ["film comparison"]), // MPa
  elongation_MD: read(150, ["film comparison"]), // %
} as const;

/**
 * Strain at which an elastic line from the origin already carries the stress at 5 %: a bound on yield. The proportional
 * limit lies lower.
 */
export const yieldBound = derivedRange(0.02, 0.025, {
  note: "98/4805, 100/4500 and 114/4500; as a criterion take 0.015 to 0.025",
}); // 1

/**
 * A heat-activated film as a laminate: only a part of its thickness is stretched polyester, so its stiffness is far
 * from that of solid polyester (a solid 54 um film would have D = 69e-6 N m).
 */
export const laminate = {
  stretchedThickness: memoryRange(0.012, 0.025, {
    confidence: "medium",
    note: "polyester part of a film 0.050 to 0.062 thick; the rest is PE, EVA and seal layer",
  }), // mm
  totalThickness: memoryRange(0.05, 0.062, { confidence: "medium" }), // mm
  restModulus: memoryRange(0.1, 0.4, { confidence: "medium", note: "PE, EVA and seal layer" }), // GPa
  stretchRange: derivedRange(60, 120, { confidence: "medium", note: "E h over the shares above" }), // kN/m
  /** The default laminate: 16 um of 4.5 GPa and 38 um of 0.2 GPa. */
  defaultStretched: memory(0.016, { confidence: "medium" }), // mm
  defaultRest: memory(0.038, { confidence: "medium" }), // mm
  defaultRestModulus: memory(0.2, { confidence: "medium" }), // GPa
  Eh: derived(79600, { note: "16 um x 4.5 GPa + 38 um x 0.2 GPa" }), // N/m
  D: derived(8.7e-6, { note: "the same laminate in plane strain, Poisson ratio 0.38" }), // N m
} as const;

/** A strip of solid polyester 5.2 mm wide. */
export const strip = {
  EA: derived(585, { note: "5.2 mm x 25 um x 4500 MPa: 1.0 N stretches it 0.17 %" }), // N
  breakLoad: derived(26, { note: "25 um at 200 MPa; 12.5 N at 12 um; a notch, a split or age leaves far less" }), // N
} as const;

const sameFilm = ["PET film", "PET film"] as const;

/** Friction of film. Only film on film and acetal on steel are read; the rest must be measured. */
export const filmFriction: readonly Friction[] = [
  { between: sameFilm, state: "static", mu: read(0.55, ["BOPET 8 um listing"], { note: "8 um film, first surface" }) },
  { between: sameFilm, state: "kinetic", mu: read(0.5, ["BOPET 8 um listing"], { note: "8 um film, first surface" }) },
  { between: sameFilm, state: "static", mu: read(0.6, ["BOPET 8 um listing"], { note: "8 um film, second surface" }) },
  {
    between: sameFilm,
    state: "kinetic",
    mu: read(0.55, ["BOPET 8 um listing"], { note: "8 um film, second surface" }),
  },
  { between: sameFilm, state: "static", mu: readRange(0.3, 0.6, ["PET friction page"]) },
  { between: sameFilm, state: "kinetic", mu: readRange(0.2, 0.55, ["PET friction page"]) },
  { between: sameFilm, state: "unstated", mu: read(0.4, ["polyester film page"], { note: "DIN 53375" }) },
  { between: sameFilm, state: "unstated", mu: read(0.413, ["BOPET maker table"], { note: "150 um, clear" }) },
  { between: sameFilm, state: "unstated", mu: read(0.443, ["BOPET maker table"], { note: "150 um, white" }) },
  {
    between: ["PET film", "steel"],
    state: "kinetic",
    mu: memoryRange(0.15, 0.35, { confidence: "low", note: "measure" }),
  },
  {
    between: ["PET film", "POM"],
    state: "unstated",
    mu: memoryRange(0.15, 0.3, { confidence: "low", note: "measure" }),
  },
  {
    between: ["PET film", "rubber"],
    state: "unstated",
    mu: memoryRange(0.5, 1.5, { confidence: "low", note: "clean silicone, urethane or NBR; dust lowers it; measure" }),
  },
  {
    between: ["PET film", "printed PLA or PETG"],
    state: "unstated",
    mu: memoryRange(0.2, 0.5, {
      confidence: "low",
      note: "no published figure: only these plastics on themselves or on steel; measure",
    }),
  },
  ...acetalOnSteel,
];

/** Tearing. A nick in BOPP runs along the film at forces of the peel itself (0.77 gf/um is 0.23 N at 30 um). */
export const tear = {
  propagation: read(240, ["polyester film page"], {
    note: "trapezoid, DIN 53363, 12 um film, MD and TD; 2.9 N at 12 um, 3.8 N at 16 um",
  }), // N/mm
  edge: read(150, ["polyester film page"], { note: "DIN 40634, 12 um film; the strip width is not in the text" }), // N
  impactMD: read(1400, ["polyester film page"], { note: "DIN 53448, 12 um film" }), // mJ/mm2
  impactTD: read(1800, ["polyester film page"], { note: "DIN 53448, 12 um film" }), // mJ/mm2
} as const;

/** Elmendorf tear strength, gf per um of thickness. */
export const elmendorf: readonly {
  readonly film: string;
  readonly um: number;
  readonly MD: Figure;
  readonly TD: Figure;
}[] = [
  { film: "BOPP", um: 30, MD: read(0.77, ["PMC4554610 table 1"]), TD: read(3.53, ["PMC4554610 table 1"]) },
  { film: "BOPP", um: 45, MD: read(0.81, ["PMC4554610 table 1"]), TD: read(3.79, ["PMC4554610 table 1"]) },
  { film: "LDPE", um: 40, MD: read(1.93, ["PMC4554610 table 1"]), TD: read(18.6, ["PMC4554610 table 1"]) },
  { film: "LDPE", um: 60, MD: read(2.56, ["PMC4554610 table 1"]), TD: read(19.75, ["PMC4554610 table 1"]) },
];

/** Logarithmic opening of a fold in polyester film, against 5.7 for paper: a fold in film practically stays. */
export const creaseRelaxation: Figure = read(0.01, ["PR Applied 13 014031"]); // 1

/** Peel against speed: G ~ v^n. No rate exponent for cover film of either kind was found. */
export const peelRate = {
  rubberAcrylicRise: read(32, ["label article"], {
    note: "label adhesive, between two speeds of an axis that was not read",
  }), // %
  pureAcrylicRise: read(55, ["label article"], { note: "as above" }), // %
  rubberAcrylic_n: derived(0.12, { note: "if the two speeds lie one decade apart: an assumption" }), // 1
  pureAcrylic_n: derived(0.19, { note: "if the two speeds lie one decade apart: an assumption" }), // 1
  officeTape_n: memory(0.146, { confidence: "medium", note: "slow branch of one acrylic office tape" }), // 1
  stickSlipSpeed: memoryRange(0.01, 2.5, {
    confidence: "low",
    note: "of such a tape; moves with free length, angle and pull; indexing (0.05 to 0.3 m/s) lies inside",
  }), // m/s
  slipBand: read(0.22, ["Thoroddsen 2010"], { note: "width of one slip band" }), // mm
  slipSideways: read(300, ["Thoroddsen 2010"], { note: "speed at which a band breaks sideways, at least" }), // m/s
  slipRegion: read(4, ["Thoroddsen 2010"], { note: "length of the slip region, about" }), // mm
  facts: [
    fact("Stick-slip: over a span of speeds the fracture energy falls, with the free ribbon as the spring.", [
      "Cortet 1301.7594",
      "Dalbe 1509.02799",
    ]),
    fact(
      "Energy balance of an elastic film: stretch counts only where the bond nears the modulus, or at very small angles.",
      ["Kendall 1975"],
    ),
    fact(
      "Work of parting grows with the angle, for the film bends inelastically; 45 degrees lessens bending and stretch. So scaling by (1 - cos) from 180 down to 90 degrees overstates the force.",
      ["peel angle abstract"],
    ),
    fact("Peel force is often least at 120 to 140 degrees; there is no simple law.", ["peel angle article"]),
  ],
} as const;

/** Adhesion of a seal that touches again after peeling, J/m2: a judgement, to be measured. */
export const tack = {
  heatActivated: memoryRange(0.01, 1, { confidence: "low", note: "judgement, measure" }),
  pressureSensitive: memoryRange(5, 100, { confidence: "low", note: "judgement, measure" }),
  /** The seal itself while it is peeled, P (1 - cos)/w. */
  seal: derived(700, { note: "0.5 N over both tracks, about" }),
} as const;
