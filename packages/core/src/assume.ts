import { type Cite, type Given, tabled } from "./quantity/given.ts";
import { unitOf } from "./quantity/units.ts";

interface Entry {
  readonly symbol: string;
  readonly text: string;
  readonly unit: string;
  readonly means: string;
  readonly origin: Cite;
}
const entry = (symbol: string, text: string, unit: string, means: string, cite: string, how: Cite["how"]): Entry => ({
  symbol,
  text,
  unit,
  means,
  origin: { cite, how },
});

/**
 * What the checks rest on and no design file gives: limits of judgement and material figures without a published value.
 * Each is a quantity like any other, so it is drawn, shown, weighed by evidence and named when it decides.
 * A project gives its own under `assume:` in project.yaml.
 */
export const assumptions = {
  "mismatch limit": entry(
    "m_lim",
    "1.5..2.5 % guess",
    "",
    "chord mismatch a span of film bears before it is pressed into folds",
    "judgement: bounded by F5/E = 98/4805 to 114/4500 of polyester film, two film makers' tables (read)",
    "judgement",
  ),
  "film elastic limit": entry(
    "e_el",
    "1.5..2.5 % guess",
    "",
    "strain to which the film springs back",
    "judgement: bounded above by F5/E = 2.0 to 2.5 % of polyester film, two film makers' tables (read)",
    "judgement",
  ),
  "carrier elastic limit": entry(
    "e_y",
    "1.0..1.6 % guess",
    "",
    "strain to which the carrier springs back",
    "yield over modulus of impact polystyrene, 25 MPa over 1.6 to 2.4 GPa, property tables (read); quotient derived",
    "judgement",
  ),
  "running clearance": entry(
    "c_r",
    "0.05 mm",
    "mm",
    "least free height a running tape wants",
    "common practice, no source",
    "judgement",
  ),
  "splice thickness": entry(
    "t_s",
    "0.05..0.12 mm guess",
    "mm",
    "what a splice adds to the tape",
    "common practice, no source",
    "memory",
  ),
  "tooth overlap": entry(
    "o_t",
    "0.3 mm",
    "mm",
    "least height of a tooth that must stay in the tape",
    "common practice, no source",
    "judgement",
  ),
  "film wander": entry(
    "e_w",
    "0.2..0.6 mm guess",
    "mm",
    "how far the film wanders sideways at the nip",
    "common practice, no source",
    "judgement",
  ),
  "out of square": entry(
    "delta",
    "1.5..6 mrad guess",
    "mrad",
    "how far out of square a printed guide stands",
    "common practice, no source",
    "judgement",
  ),
  "film friction": entry(
    "mu",
    "0.2..0.5 guess",
    "",
    "friction of the film on a printed bar",
    "no published figure found; memory",
    "memory",
  ),
  "seal ratio": entry(
    "r_s",
    "1..1.4 per reel sd 29 % guess",
    "",
    "strength of one seal track over the other's",
    "no published figure found; memory. Each track taken to scatter between reels as the whole seal does, 20 %, so their ratio by 29 %",
    "memory",
  ),
  "stick-slip speed": entry(
    "v_s",
    "5..20 mm/s guess",
    "mm/s",
    "speed from which a pressure-sensitive seal may part in jerks",
    "about 10 mm/s for one office tape, memory; no published figure found for cover film",
    "memory",
  ),
  "tape friction": entry(
    "F_t",
    "0.3..0.7 N guess",
    "N",
    "friction of the tape in its channel and under its hold-down",
    "no published figure found; memory",
    "memory",
  ),
  "reel drag": entry(
    "F_d",
    "0.05..0.5 N guess",
    "N",
    "drag of the reel on the tape",
    "common practice, no source",
    "memory",
  ),
  "force ripple": entry(
    "h",
    "15..35 % guess",
    "",
    "share by which the film's pull and the tape's friction swing within a run",
    "common practice, no source",
    "judgement",
  ),
  "drive backlash": entry(
    "j_d",
    "0.02..0.15 mm guess",
    "mm",
    "backlash of the feed drive at the wheel's pitch line",
    "common practice, no source",
    "memory",
  ),
  "wall friction": entry(
    "mu_w",
    "0.15..0.4 guess",
    "",
    "friction of the carrier's edges on the side walls",
    "carrier on printed plastic: no published figure found; memory",
    "memory",
  ),
} as const satisfies Record<string, Entry>;
export type Assumption = keyof typeof assumptions;
export const assumptionNames = Object.keys(assumptions) as Assumption[];

/** The assumptions as quantities, each at its own address. */
export const assumed = (): Readonly<Record<Assumption, Given>> =>
  Object.fromEntries(
    assumptionNames.map((name) => {
      const { symbol, text, unit, origin } = assumptions[name];
      return [name, tabled(`assume/${name}`, symbol, text, unitOf(unit).dimension, origin, "unit")];
    }),
  ) as Record<Assumption, Given>;
