import { type Dimension, none } from "../quantity/dimension.ts";
import { belief, type Cite, centreOf, type Given, given, type Origin } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { parseQuantity } from "../quantity/notation.ts";
import { citation, everyTape, frictionOfClass, nearestWidth, rowFigure, rowOf, sealClass } from "./catalogue.ts";
import type { Figure } from "./figures/figure.ts";
import { allowedPitches } from "./figures/pitch.ts";
import type { TapeLetters } from "./letters.ts";
import { usualReel } from "./reel.ts";
import type { CoverFilm, Departure, Tape, TapeKind } from "./tape.ts";
import type { TapeData } from "./tape-fields.ts";

const length: Dimension = [1, 0, 0, 0, 0];
const filmsCounted: Readonly<Record<TapeKind, Cite>> = {
  embossed: { cite: "embossed tape has a cover film, punched tape one above and one below", how: "read" },
  punched: { cite: "embossed tape has a cover film, punched tape one above and one below", how: "read" },
  pressed: { cite: "a pressed pocket has a floor of its own and needs no film below", how: "memory" },
};
const wallIsCarrier: Cite = { cite: "walls and floor of a pocket taken as thick as the carrier", how: "judgement" };

/**
 * A figure that every tape has for itself (its thickness, its film's width): unknown by the catalogue's range, but at the tape's own
 * address, so that measuring it on one tape says nothing of another. Figures of a class of film stay shared.
 */
function own(g: Given, address: string): Given {
  const key = `${address} ${g.text}`;
  const known = owned.get(key);
  if (known && known.origin === g.origin) return known;
  const made = { ...g, address };
  owned.set(key, made);
  return made;
}
const owned = new Map<string, Given>();

/** What follows from the numbers of a tape, by the first of them: the same object while all of them are, over every reading of the file. */
const followed = new WeakMap<
  object,
  Map<string, { readonly given: Given; readonly names: Readonly<Record<string, Quantity>> }>
>();
const fromNothing = {};
/** A quantity that follows from others of the same tape. */
function following(
  address: string,
  symbol: string,
  text: string,
  names: Readonly<Record<string, Quantity>>,
  origin: Cite,
  dimension = length,
): Given {
  const key = Object.values(names)[0] ?? fromNothing;
  const known = followed.get(key) ?? new Map();
  followed.set(key, known);
  const place = `${address} ${text} ${origin.cite}`;
  const before = known.get(place);
  if (before && Object.entries(names).every(([name, q]) => before.names[name] === q)) return before.given;
  const written = parseQuantity(text);
  const made = given({
    address,
    symbol,
    text,
    origin,
    dimension,
    written,
    level: "reel",
    letter: "d",
    reads: () => names,
  });
  known.set(place, { given: made, names });
  return made;
}

/** Nobody knows how an unlabelled film is sealed: most are heat activated (judgement). */
export const pressureSensitive = belief("catalogue/seal kind", "q_p", ["heat activated", "pressure sensitive"], 0.3, {
  cite: "judgement: most cover film is heat activated",
  how: "judgement",
});
/** A figure of the seal's class, or the mixture of both classes where the kind is not given. */
function ofClass(what: "rate" | "tack", kind: "heat activated" | "pressure sensitive" | undefined): Quantity {
  if (kind) return sealClass[kind === "heat activated" ? "heat" : "pressure"][what];
  return mixture[what];
}
const mixed = (id: string, symbol: string, unit: string, title: string, what: "rate" | "tack"): Model =>
  model({
    id,
    symbol,
    unit,
    title,
    equation: "q_p*x_p + (1 - q_p)*x_h",
    form: "closed",
    origin: { cite: "one of two classes of seal", how: "judgement" },
    reads: () => ({ q_p: pressureSensitive, x_p: sealClass.pressure[what], x_h: sealClass.heat[what] }),
    value: ({ q_p, x_p, x_h }) => q_p * x_p + (1 - q_p) * x_h,
  });
const mixture = {
  rate: mixed("film.rate", "n", "1", "rate exponent of a seal of unknown kind", "rate"),
  tack: mixed("film.tack", "G_t", "J/m^2", "tack of a seal of unknown kind", "tack"),
};

/** From the lowest point of a tape to the top of its film. */
const heightOver: Readonly<Record<TapeKind, string>> = {
  embossed: "K0 + T + T1",
  punched: "T + 2*T1",
  pressed: "T + T1",
};

/**
 * A tape as it is served, from what its file gives: the rest comes from the catalogue row nearest to its width, and what no table
 * gives is an unknown with its range. Departures from the row are listed; the tape goes on with its own figures.
 */
export function servedTape(prefix: string, data: TapeData, givens: ReadonlyMap<string, Given>, origin: Origin): Tape {
  const name = data.tape;
  const kind = data.kind ?? "embossed";
  const width = nominalOf(data.W);
  const row = nearestWidth(kind, width * 1e3);
  const on = (letter: string): Given => rowFigure(kind, row, letter)!;
  const at = `${prefix}/`;
  const T = data.T ?? (kind === "punched" ? data.K0 : own(on("T"), `${at}T`));
  const T1 = data.T1 ?? own(on("T1"), `${at}T1`);
  const wall = data.wall ?? following(`${at}wall`, "t_w", "T", { T }, wallIsCarrier);
  const letters: TapeLetters = {
    W: data.W,
    A0: data.A0,
    B0: data.B0,
    K0: data.K0,
    P1: data.P1,
    T,
    T1,
    wall,
    T2: data.T2 ?? following(`${at}T2`, "T_2", heightOver[kind], { K0: data.K0, T, T1 }, wallIsCarrier),
    B1:
      data.B1 ??
      following(`${at}B1`, "B_1", kind === "embossed" ? "B0 + 2*wall" : "B0", { B0: data.B0, wall }, wallIsCarrier),
    E1: data.E1 ?? on("E1"),
    F: data.F ?? on("F"),
    D0: data.D0 ?? on("D0"),
    P0: data.P0 ?? on("P0"),
    P2:
      data.P2 ??
      on("P2") ??
      following(`${at}P2`, "P_2", "2 mm", {}, { cite: "memory of the standards' form", how: "memory" }),
    R: on("R"),
  };
  return {
    name,
    part: data.part ?? "",
    ...(data["part mass"] ? { partMass: data["part mass"] } : {}),
    ...(data["part height"] ? { partHeight: data["part height"] } : {}),
    ...(data["part length"] ? { partLength: data["part length"] } : {}),
    ...(data["part width"] ? { partWidth: data["part width"] } : {}),
    kind,
    row,
    letters,
    camber: data.camber ?? own(everyTape.camber, `${at}camber`),
    tenPitch: tenPitchOf(rowOf(kind, row)!.tenPitchError),
    films: following(`catalogue/films on ${kind}`, "n_f", kind === "punched" ? "2" : "1", {}, filmsCounted[kind], none),
    film: coverFilm(data, kind, row, at),
    reel: data.reel ?? usualReel(row),
    ...(data.stiffness ? { stiffness: data.stiffness } : {}),
    ...(data["set radius"] ? { setRadius: data["set radius"] } : {}),
    departures: departuresOf(data, kind, row, letters),
    givens,
    origin,
  };
}

/** The largest error over ten hole pitches; one quantity for all rows that print the same figure. */
const tenPitchOf = ({ value, sources, how }: Figure): Given =>
  following(
    value === 0.2 ? "catalogue/ten-pitch error" : `catalogue/ten-pitch error ${value}`,
    "C_10",
    `${value} mm`,
    {},
    { cite: citation(sources), how },
  );

function coverFilm(data: TapeData, kind: TapeKind, row: number, at: string): CoverFilm {
  const f = data.film ?? {};
  const friction = Object.fromEntries(
    Object.entries(f.friction ?? {}).map(([material, q]) => [material.toLowerCase(), q]),
  );
  return {
    sealed: f.kind,
    width: f.width ?? own(rowFigure(kind, row, "b")!, `${at}film.width`),
    track: f["seal track"] ?? own(everyTape.track, `${at}film.seal track`),
    inset: f.inset ?? own(everyTape.inset, `${at}film.inset`),
    seal: f.seal ?? everyTape.seal,
    testAngle: everyTape.testAngle,
    testSpeed: everyTape.testSpeed,
    rate: f["rate exponent"] ?? ofClass("rate", f.kind),
    ageing: f.ageing ?? everyTape.ageing,
    break: f.break ?? everyTape.break,
    tack: f.tack ?? ofClass("tack", f.kind),
    curl: f.curl ?? everyTape.curl,
    ...(f.charge ? { charge: f.charge } : {}),
    E1: f.stretched?.modulus ?? everyTape.modulusStretched,
    h1: f.stretched?.thickness ?? everyTape.thicknessStretched,
    E2: f.sealing?.modulus ?? everyTape.modulusSealing,
    h2: f.sealing?.thickness ?? everyTape.thicknessSealing,
    nu: everyTape.nu,
    friction,
    frictionOfClass,
  };
}

/** Value as written, names resolved, no scatter: for comparing with the catalogue. */
export function nominalOf(q: Quantity): number {
  if (q.kind === "model") return Number.NaN;
  const reads = q.reads(undefined as never);
  return centreOf(q, (n) => (Object.hasOwn(reads, n) ? nominalOf(reads[n]!) : undefined));
}

function departuresOf(data: TapeData, kind: TapeKind, width: number, letters: TapeLetters): Departure[] {
  const row = rowOf(kind, width)!;
  const out: Departure[] = [];
  const mm = (v: number) => `${+(v * 1e3).toFixed(3)} mm`;
  const note = (letter: string, q: Quantity, catalogue: string, sources: Parameters<typeof citation>[0]) => {
    if (q.kind === "given")
      out.push({ letter, found: mm(nominalOf(q)), catalogue, source: citation(sources), origin: q.origin });
  };
  const within = (
    letter: "W" | "E1" | "F" | "D0" | "P0" | "P2",
    figure: { value: number; tol?: readonly [number, number]; sources: Parameters<typeof citation>[0] } | undefined,
    spread?: readonly [number, number],
  ) => {
    const q = data[letter];
    const tol = figure?.tol ?? spread;
    if (!q || !figure || !tol) return;
    const v = nominalOf(q) * 1e3;
    if (v < figure.value + tol[0] - 1e-9 || v > figure.value + tol[1] + 1e-9)
      note(
        letter,
        q,
        tol[0] === -tol[1] ? `${figure.value} ±${tol[1]} mm` : `${figure.value} +${tol[1]}/${tol[0]} mm`,
        figure.sources,
      );
  };
  const spread = row.Wmax ? +(row.Wmax.value - row.W.value).toFixed(6) : 0.3;
  within("W", row.W, row.W.tol ?? [-spread, spread]);
  within("E1", row.E1);
  within("F", row.F);
  within("D0", row.D0);
  within("P0", row.P0);
  within("P2", row.P2);
  const atMost = (
    letter: "T" | "T1" | "T2" | "B1",
    figure: { value: number; sources: Parameters<typeof citation>[0] } | undefined,
  ) => {
    if (figure && nominalOf(letters[letter]) * 1e3 > figure.value + 1e-9)
      note(letter, letters[letter], `${figure.value} mm at most`, figure.sources);
  };
  atMost("T", row.T);
  atMost("T1", row.T1);
  if ("T2" in row) {
    atMost("T2", row.T2);
    atMost("B1", row.B1);
  }
  if (kind === "pressed" && !(nominalOf(letters.K0) < nominalOf(letters.T)))
    note("K0", letters.K0, `less than T, ${mm(nominalOf(letters.T))}: a pressed pocket has a floor`, row.T.sources);
  const P1 = nominalOf(data.P1) * 1e3;
  const pitches = allowedPitches(row.P1);
  if (!pitches.some((p) => Math.abs(P1 - p.value) <= (p.tol?.[1] ?? 0.1) + 1e-9))
    note("P1", data.P1, `${pitches.map((p) => p.value).join(", ")} mm`, row.P1.sources);
  return out;
}
