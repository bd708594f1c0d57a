import { type Cite, type Given, type How, tabled } from "../quantity/given.ts";
import { believed } from "../quantity/law.ts";
import type { Level } from "../quantity/notation.ts";
import { unitOf } from "../quantity/units.ts";
import { type EmbossedRow, type EmbossedWidth, embossed } from "./figures/embossed.ts";
import { camber, T1 as filmThicknessMost } from "./figures/every-width.ts";
import { type Figure, isRange, type Range } from "./figures/figure.ts";
import { coverBreak, filmWidth, otherPeelLimits, peelTest, sealTracks } from "./figures/film.ts";
import { type NarrowRow, narrow } from "./figures/narrow.ts";
import { type PressedRow, pressed } from "./figures/pressed.ts";
import { type PunchedRow, punched } from "./figures/punched.ts";
import { type SourceId, sources } from "./figures/sources.ts";
import type { TapeKind } from "./tape.ts";

export type CatalogueRow = EmbossedRow | NarrowRow | PunchedRow | PressedRow;
const rows: Readonly<Record<TapeKind, Readonly<Record<number, CatalogueRow>>>> = {
  embossed: { 4: narrow, ...embossed },
  punched,
  pressed,
};
/** Widths the catalogue holds for a kind of tape, mm. */
export const widthsOf = (kind: TapeKind): readonly number[] =>
  Object.keys(rows[kind])
    .map(Number)
    .sort((a, b) => a - b);
export const rowOf = (kind: TapeKind, width: number): CatalogueRow | undefined => rows[kind][width];
/** The catalogue width nearest to a tape's own. */
export const nearestWidth = (kind: TapeKind, width: number): number =>
  widthsOf(kind).reduce((best, w) => (Math.abs(w - width) < Math.abs(best - width) ? w : best));

/** Title, number and page of the sources of a figure, as one line: the first two, and how many more print it. */
export function citation(ids: readonly SourceId[]): string {
  const shown = ids.slice(0, 2).map((id) => {
    const s: { title: string; number?: string; page?: string } = sources[id];
    return [s.title, s.number, s.page && (/^\d/.test(s.page) ? `p. ${s.page}` : s.page)].filter(Boolean).join(", ");
  });
  const more = ids.length - shown.length;
  return shown.join("; ") + (more > 0 ? `; and ${more} more` : "");
}
const originOf = (f: { readonly how: How; readonly sources: readonly SourceId[]; readonly note?: string }): Cite => ({
  cite: f.note ? `${citation(f.sources)} (${f.note})` : citation(f.sources),
  how: f.how,
});

const textOf = (f: Figure, unit: string): string => {
  const u = unit === "" ? "" : ` ${unit}`;
  if (!f.tol) return `${f.value}${u}`;
  const [low, high] = f.tol;
  return -low === high ? `${f.value} ±${high}${u}` : `${f.value} +${high}/-${-low}${u}`;
};
/** A published figure as a quantity: its tolerance is scatter between reels. */
export const figured = (address: string, symbol: string, f: Figure, unit = "mm", level: Level = "reel"): Given =>
  tabled(address, symbol, textOf(f, unit), unitOf(unit).dimension, originOf(f), level);
const guessed = (address: string, symbol: string, text: string, unit: string, origin: Cite): Given =>
  tabled(address, symbol, text, unitOf(unit).dimension, origin);

const range = (r: Range | Figure, unit: string): string =>
  isRange(r) ? `${r.low}..${r.high} ${unit} guess` : textOf(r, unit);

/** Catalogue quantities of one row, as on a reel. Kept, so that two tapes of one row share them. */
const kept = new Map<string, Given>();
const keep = (address: string, make: (address: string) => Given): Given => {
  const known = kept.get(address);
  if (known) return known;
  const made = make(address);
  kept.set(address, made);
  return made;
};

/**
 * What the catalogue says of a letter on a reel of that row. A catalogue maximum alone is an unknown up to it (T, camber), or, for W,
 * a tolerance about the nominal width. Undefined where the row has no figure.
 */
export function rowFigure(kind: TapeKind, width: number, letter: string): Given | undefined {
  const row = rowOf(kind, width);
  if (!row) return undefined;
  const at = `catalogue/${kind} ${width}/${letter}`;
  switch (letter) {
    case "W": {
      if (row.W.tol || !row.Wmax) return keep(at, (a) => figured(a, "W", row.W));
      const spread = +(row.Wmax.value - row.W.value).toFixed(6);
      const widest: Figure = {
        ...row.Wmax,
        value: row.W.value,
        tol: [-spread, spread],
        note: `nominal width and ${row.Wmax.value} at most`,
      };
      return keep(at, (a) => figured(a, "W", widest));
    }
    case "E1":
    case "F":
    case "D0":
    case "P0":
      return keep(at, (a) => figured(a, letter, row[letter]));
    case "P2": {
      const P2 = row.P2;
      return P2 && keep(at, (a) => figured(a, "P2", P2));
    }
    case "S0": {
      const S0 = "S0" in row ? row.S0 : undefined;
      return S0 && keep(at, (a) => figured(a, "S0", S0));
    }
    case "R":
      return keep(at, (a) => figured(a, "R", { ...row.R }));
    case "T":
      return keep(at, (a) => guessed(a, "T", thickness[kind].guess, "mm", unread(row.T, thickness[kind].sold)));
    case "T1":
      return keep("catalogue/T1", (a) =>
        guessed(a, "T_1", "0.045..0.075 mm guess", "mm", unread(filmThicknessMost, "0.06 ±0.02 read on 8 mm tape")),
      );
    case "b": {
      const b = "b" in row ? row.b : filmWidth[width as EmbossedWidth];
      if (!b) return undefined;
      return keep(at, (a) =>
        isRange(b) || b.tol
          ? guessed(a, "b", range(b, "mm"), "mm", originOf(b))
          : guessed(a, "b", `${b.value - 0.5}..${b.value + 0.5} mm guess`, "mm", originOf(b)),
      );
    }
    default:
      return undefined;
  }
}
/** Carriers as they are sold, within the most that a row allows. */
const thickness: Readonly<Record<TapeKind, { readonly guess: string; readonly sold: string }>> = {
  embossed: { guess: "0.2..0.4 mm guess", sold: "drawn tapes are 0.20 to 0.35 mm; 0.6 in corners" },
  punched: { guess: "0.4..1.1 mm guess", sold: "sold at 0.43, 0.60, 0.75 and 0.95 mm" },
  pressed: { guess: "0.3..0.5 mm guess", sold: "boards of 0.3 to 0.5 mm, memory" },
};
const unread = (most: Figure, note: string): Cite => ({
  cite: `${citation(most.sources)}: ${most.value} mm at most; ${note}`,
  how: "memory",
});

/** A unit file's letter: the catalogue row's nominal value without the reel's scatter; the middle of a guess where that is all there is. */
export function rowLetter(kind: TapeKind, width: number, letter: string): Given | undefined {
  const onReel = rowFigure(kind, width, letter);
  if (!onReel) return undefined;
  return keep(`${onReel.address} as drawn`, (address) => {
    if (!onReel.unknown) return { ...onReel, address, scatters: [], text: onReel.text.replace(/ [±+].*(?= mm$)/, "") };
    const { symbol, dimension, origin } = onReel;
    const middle = `${+(believed(onReel.unknown, 0) * 1e3).toPrecision(4)} mm`;
    return { ...tabled(address, symbol, middle, dimension, origin as Cite), letter: "g" };
  });
}

/** Quantities every tape has and no row tells apart. */
export const everyTape = {
  camber: guessed("catalogue/camber", "k", "0.1..1.0 mm guess", "mm", {
    cite: `1 mm over 250 mm at most (${camber.per250.note}); older sheets 1 mm over 100 mm`,
    how: "memory",
  }),
  track: guessed("catalogue/seal track", "w_t", range(sealTracks.width, "mm"), "mm", originOf(sealTracks.width)),
  inset: guessed("catalogue/seal inset", "s", "0.2..0.45 mm guess", "mm", {
    cite: "common practice, no source",
    how: "memory",
  }),
  seal: guessed("catalogue/seal", "P_ref", "0.2..0.8 N per reel sd 20 % per index sd 8 % guess", "N", {
    cite: `${citation(otherPeelLimits.tradePractice.sources)}: 20 to 80 gf (read); the standard's limit is an inspection line. Scatter: common practice, no source`,
    how: "memory",
  }),
  testAngle: guessed("catalogue/peel test angle", "theta_ref", "165..180 deg", "deg", originOf(peelTest.angle)),
  testSpeed: guessed("catalogue/peel test speed", "v_ref", "5 ±0.17 mm/s", "mm/s", originOf(peelTest.speed)),
  ageing: guessed("catalogue/ageing", "a", "1", "", { cite: "new film", how: "derived" }),
  break: guessed("catalogue/film break", "F_b", "5..15 N guess", "N", {
    cite: `${citation(coverBreak.moduleMaker.sources)}: ${coverBreak.moduleMaker.value} N at least (read); 9.8 and 10 N at least remembered`,
    how: "memory",
  }),
  curl: guessed("catalogue/film curl", "k_0", "-60..60 /m guess", "/m", {
    cite: "judgement: a film folded over an edge keeps some curl, either way",
    how: "judgement",
  }),
  modulusStretched: guessed("catalogue/film E1", "E_1", "4.5 GPa", "GPa", {
    cite: "polyester film makers' tables, 4500 and 4805 MPa",
    how: "read",
  }),
  thicknessStretched: guessed("catalogue/film h1", "h_1", "12..25 um guess", "um", {
    cite: "share of polyester in a 50 to 62 um cover film",
    how: "memory",
  }),
  modulusSealing: guessed("catalogue/film E2", "E_2", "0.1..0.4 GPa guess", "GPa", {
    cite: "polyolefin sealing layers",
    how: "memory",
  }),
  thicknessSealing: guessed("catalogue/film h2", "h_2", "30..45 um guess", "um", {
    cite: "rest of a 50 to 62 um cover film",
    how: "memory",
  }),
  nu: guessed("catalogue/film nu", "nu", "0.38", "", {
    cite: "polyester film bulletin: Poisson's ratio before yield",
    how: "read",
  }),
} as const satisfies Record<string, Given>;

/** Seal classes: rate exponent, and energy to lift a peeled seal off a surface again. */
export const sealClass = {
  pressure: {
    rate: guessed("catalogue/rate exponent of pressure-sensitive seals", "n_p", "0.1..0.35 guess", "", {
      cite: "label adhesives +32 and +55 % between two speeds (read); 0.146 for one office tape",
      how: "memory",
    }),
    tack: guessed("catalogue/tack of pressure-sensitive seals", "G_p", "5..100 J/m^2 guess", "J/m^2", {
      cite: "judgement; no published figure found",
      how: "judgement",
    }),
  },
  heat: {
    rate: guessed("catalogue/rate exponent of heat-activated seals", "n_h", "0.02..0.15 guess", "", {
      cite: "judgement: cohesive release depends little on speed; no published figure found",
      how: "judgement",
    }),
    tack: guessed("catalogue/tack of heat-activated seals", "G_h", "0.01..1 J/m^2 guess", "J/m^2", {
      cite: "judgement; no published figure found",
      how: "judgement",
    }),
  },
} as const;

/** Friction of polyester film on classes of material. */
const frictionEntry = (name: string, text: string, cite: string): readonly [string, Given] => [
  name,
  guessed(`catalogue/friction on ${name}`, "mu", text, "", { cite, how: "memory" }),
];
const onPrint = "film on printed plastic: no published figure found";
const onRubber = "film on clean rubber; falls with dust";
export const frictionOfClass: Readonly<Record<string, Given>> = Object.fromEntries([
  frictionEntry("steel", "0.15..0.35 guess", "film on steel, memory"),
  frictionEntry("pom", "0.15..0.30 guess", "film on acetal, memory"),
  frictionEntry("petg", "0.2..0.5 guess", onPrint),
  frictionEntry("pla", "0.2..0.5 guess", onPrint),
  frictionEntry("nbr", "0.5..1.5 guess", onRubber),
  frictionEntry("silicone", "0.5..1.5 guess", onRubber),
  frictionEntry("urethane", "0.5..1.5 guess", onRubber),
]);
