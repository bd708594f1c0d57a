import {
  asWritten,
  filmPath,
  type Given,
  isQuantity,
  leadsToNip,
  type Path,
  type Piece,
  type Pose,
  pressedLeaf,
  type Quantity,
  type Realised,
  Realiser,
  type Scene,
  sprocketWheel,
  type TapeKind,
  type ToothOutline,
  type Vector,
} from "@tapeworthy/core";
import { type DriveShape, driveShapes } from "./drive-shape.ts";
import { bodyGrips, type Grip, gripsOf, memberGrips } from "./grip.ts";
import { bentLeaf, type HoldShape, holdShape } from "./hold-shape.ts";
import type { Moment } from "./moment.ts";
import { laidDown, poseOn, type Route } from "./route-line.ts";
import { isDrawnElsewhere } from "./side-parts.ts";
import { type ToothPoint, toothLine } from "./tooth-line.ts";

/** A number somebody gave that a drawing may dimension: its value, where it stands, its tolerance. SI. */
export interface Measure {
  readonly value: number;
  /** Address of the number; absent where it is computed. */
  readonly address?: string;
  /** Drawing limits about the value; absent where none are given. */
  readonly limits?: readonly [below: number, above: number];
}
export type Outline =
  | {
      readonly kind: "box";
      readonly from: readonly [x: number, z: number];
      readonly to: readonly [x: number, z: number];
    }
  | { readonly kind: "circle"; readonly at: readonly [x: number, z: number]; readonly r: number }
  | { readonly kind: "polygon"; readonly corners: readonly (readonly [x: number, z: number])[] };
export interface Body {
  readonly name: string;
  readonly part: string | undefined;
  readonly outline: Outline;
  readonly y: readonly [from: number, to: number];
  readonly turns: boolean;
}
export interface GuideShape {
  readonly name: string;
  readonly through: Vector;
  /** Direction of its line, of length 1. */
  readonly along: Vector;
  readonly radius: number;
  readonly rolls: boolean;
  /** It stands behind the nip. */
  readonly beyond: boolean;
}
/** A span of the film in space: its middle at both ends, and how the point of fibre y moves with y there. */
export interface SpanShape {
  readonly from: string;
  readonly to: string;
  readonly ends: readonly [Vector, Vector];
  readonly fans: readonly [Vector, Vector];
  readonly length: number;
  readonly twist: number;
}
export interface FilmShape {
  readonly peel: Vector;
  readonly heading: number;
  readonly edgeRadius: number;
  readonly guides: readonly GuideShape[];
  readonly spans: readonly SpanShape[];
  readonly peelAngle: number;
  readonly length: number;
}

/** One unit variant with one tape as plain numbers, SI, everything as written: all that the drawings know. It may cross to another thread. */
export interface UnitShape {
  readonly unit: string;
  readonly revision: string;
  readonly tape: string;
  readonly part: string;
  readonly kind: TapeKind;
  /** Nominal width of the variant's row, mm. */
  readonly row: number;
  readonly letters: Readonly<Record<TapeLetter, number>>;
  /** Pocket below the underside; 0 on punched and pressed tape. */
  readonly drop: number;
  readonly film: { readonly width: number; readonly track: number; readonly inset: number };
  /** Middle of the film across the tape: the unit's E1 + F. */
  readonly middle: number;
  readonly route: Route;
  readonly marks: readonly { readonly name: string; readonly s: number }[];
  /** How far the tape's underside stands off the drawn route. */
  readonly lift: number;
  readonly section: {
    readonly width: Measure;
    readonly near: Measure;
    readonly far: Measure;
    readonly depth: Measure;
    readonly margin: Measure;
    readonly lipNear: Measure;
    readonly lipFar: Measure;
    readonly lipGap: Measure;
    /** Middle and outside width of the pocket the unit is cut to; absent where it is not given. */
    readonly pocket: { readonly middle: number; readonly width: number } | undefined;
  };
  readonly opening: { readonly along: number; readonly across: number; readonly at: number } | undefined;
  readonly holdDown: HoldShape | undefined;
  readonly sprocket:
    | {
        readonly teeth: number;
        readonly s: number;
        readonly axis: readonly [x: number, z: number];
        /** Radii: the wheel under the tape, the pitch line, the tips. */
        readonly body: number;
        readonly pitch: number;
        readonly tip: number;
        readonly along: number;
        readonly across: number;
        readonly flank: number;
        readonly disc: readonly [from: number, to: number] | undefined;
        /** One flank of a tooth, from far below the tape to the middle of its tip. */
        readonly outline: readonly ToothPoint[];
        /** What a tooth meets of a hole along the tape; undefined where the file does not say where the teeth stand across it. */
        readonly opening: number | undefined;
        /** Direction of one tooth, rad from x towards z: it stands in the hole nearest to the top. */
        readonly phase: number;
      }
    | undefined;
  readonly led: FilmShape | undefined;
  /** Why the film's path can't be drawn, where it can't. */
  readonly trouble: string | undefined;
  readonly nip:
    | {
        readonly axis: readonly [x: number, z: number];
        readonly lower: number;
        readonly upper: number;
        readonly grip: Measure;
        readonly wholeFilm: boolean;
        readonly preload: Measure | undefined;
        readonly faces: readonly string[];
        readonly relief: { readonly width: number; readonly depth: number; readonly at: number } | undefined;
      }
    | undefined;
  readonly drives: readonly DriveShape[];
  readonly bodies: readonly Body[];
  readonly keepOut: readonly Body[];
  /** Numbers that a hand may move where they act. */
  readonly grips: readonly Grip[];
  /** Distances along the route between neighbouring marks. */
  readonly steps: readonly { readonly from: string; readonly to: string; readonly measure: Measure }[];
  /** A moment of an index, where it is not drawn at rest. */
  readonly moment?: Moment;
}
const tapeLetters = ["W", "E1", "F", "D0", "P0", "P1", "P2", "A0", "B0", "K0", "T", "T1", "B1", "wall"] as const;
export type TapeLetter = (typeof tapeLetters)[number];

/**
 * Every number a drawing needs, realised as written and unknowns at their medians; `moved` says how far a number stands off while it is dragged,
 * SI. Throws RangeError naming what is no number.
 */
export function unitShape(scene: Scene, moved?: (given: Given) => number | undefined): UnitShape {
  const { unit, tape } = scene;
  const wanted = collected(scene);
  const { number, run } = realised(scene, wanted, moved);
  const measure = (q: Quantity): Measure => measureOf(q, number(q));

  const letters = Object.fromEntries(tapeLetters.map((l) => [l, number(tape.letters[l])])) as Record<
    TapeLetter,
    number
  >;
  const drop = tape.kind === "embossed" ? letters.K0 + letters.wall - letters.T : 0;
  const { route, marks, steps } = laidRoute(scene, number);
  const { section } = unit.tape;
  const depth = number(section.groove.depth);
  const builtT = unit.letters.T;
  const rests = unit.tape["rests on"];
  const lift =
    rests === "cover side" && builtT
      ? number(builtT) - letters.T
      : rests === "floors" && tape.kind === "embossed"
        ? drop - depth
        : 0;
  const middle = number(unit.letters.E1!) + number(unit.letters.F!);
  const pick = marks.find((m) => m.name === "pick")?.s ?? poseOn(route, number(unit.tape.place.x)).s;
  const sprocket = sprocketShape(scene, number, route, letters, pick, toothOf(scene, run));
  const { led, trouble } = filmShape(scene, number, route);
  const window = unit["hold-down"]?.opening ?? unit.tape.opening;
  const nip = nipShape(scene, number, measure, led);
  const bodies = (unit.bodies ?? []).flatMap((b) => bodyShape(b, number));
  const holdDown = holdShape(
    scene,
    { number, measure },
    { T: letters.T, peel: marks.find((m) => m.name === "peel")?.s, pick, wheel: sprocket?.s },
    bentLeaf(scene, run),
  );
  return {
    unit: unit.name,
    revision: unit.revision ?? "",
    tape: tape.name,
    part: tape.part,
    kind: tape.kind,
    row: unit.row,
    letters,
    drop,
    film: { width: number(tape.film.width), track: number(tape.film.track), inset: number(tape.film.inset) },
    middle,
    route,
    marks,
    lift,
    section: {
      width: measure(section.width),
      near: measure(section.ledge.near),
      far: measure(section.ledge.far),
      depth: measure(section.groove.depth),
      margin: measure(section.groove.margin),
      lipNear: measure(section.lips.near),
      lipFar: measure(section.lips.far),
      lipGap: measure(section.lips.gap),
      pocket: unit.letters.B1 ? { middle, width: number(unit.letters.B1) } : undefined,
    },
    opening: window
      ? { along: number(window.x), across: number(window.y), at: window.at ? number(window.at) : pick }
      : undefined,
    holdDown,
    sprocket,
    led,
    trouble,
    nip,
    drives: driveShapes(scene, number, bodies, {
      feed: sprocket?.axis,
      peel: nip && [nip.axis[0], nip.axis[1] - nip.lower],
    }),
    grips: [
      ...gripsOf(scene, number),
      ...memberGrips(scene, { route, lift, letters, holdDown, sprocket }),
      ...bodyGrips(scene, number, (name) =>
        bodies.some((b) => b.name === name && isDrawnElsewhere({ sprocket, nip }, b)),
      ),
    ],
    bodies,
    keepOut: (unit["keep out"] ?? []).flatMap((b) => bodyShape(b, number)),
    steps,
  };
}

export type Numbers = (q: Quantity) => number;

/** Every quantity in a group of values. */
function quantitiesIn(part: unknown): Quantity[] {
  if (typeof part !== "object" || part === null) return [];
  if (isQuantity(part as never)) return [part as Quantity];
  return Object.values(part).flatMap(quantitiesIn);
}
/** All quantities of the members that are drawn. */
function collected({ unit, tape }: Scene): Quantity[] {
  const { film, sprocket, nip } = unit;
  const hold = unit["hold-down"];
  const parts: unknown[] = [
    Object.values(tape.letters),
    [tape.film.width, tape.film.track, tape.film.inset],
    ["E1", "F", "T", "B1"].map((l) => unit.letters[l as "E1"]),
    unit.tape.route,
    unit.tape.place,
    unit.tape.section,
    unit.tape.opening,
    film.peel,
    film.guides,
    sprocket,
    [hold?.from, hold?.to, hold?.at, hold?.gap, hold?.span, hold?.thickness, hold?.["free length"], hold?.opening],
    [hold?.push, hold?.reach],
    [nip?.axis, nip?.preload, nip?.rollers?.radius, nip?.rollers?.grip, nip?.relief],
    ["feed drive", "peel drive"].map((name) => {
      const drive = unit[name as "feed drive"];
      return [drive?.worm, drive?.["wheel teeth"], drive?.["gear head"]?.ratio, drive?.gears?.ratio];
    }),
    unit.bodies,
    unit["keep out"],
  ];
  return quantitiesIn(parts);
}

function realised(
  scene: Scene,
  wanted: readonly Quantity[],
  moved: ((given: Given) => number | undefined) | undefined,
): { readonly number: Numbers; readonly run: Realised } {
  const solved = [sprocketWheel, pressedLeaf].filter((m) => m.reads(scene));
  const inputs = solved.flatMap((m) => quantitiesIn(m.reads(scene)));
  const run = new Realiser(scene, [...wanted, ...inputs]).run(moved ? { ...asWritten, moved } : asWritten);
  const number: Numbers = (q) => {
    const v = run.number(q);
    if (!Number.isFinite(v))
      throw new RangeError(
        `${q.kind === "given" ? q.address : q.title} is no finite number, so the unit can't be drawn`,
      );
    return v;
  };
  return { number, run };
}
/** Flank and opening of a tooth as core has them; nothing where the file does not give the teeth whole, or they are none. */
function toothOf(scene: Scene, run: Realised): { outline: readonly ToothPoint[]; opening: number | undefined } {
  if (!sprocketWheel.reads(scene)) return { outline: [], opening: undefined };
  const { outline, D_e } = run.inputsOf(sprocketWheel, scene) as { outline: ToothOutline | number; D_e: number };
  return {
    outline: typeof outline === "object" ? toothLine(outline) : [],
    opening: Number.isFinite(D_e) && D_e > 0 ? D_e : undefined,
  };
}

function measureOf(q: Quantity, value: number): Measure {
  if (q.kind === "model") return { value };
  const limits = q.scatters.find((s) => s.law === "uniform");
  return {
    value,
    address: q.address,
    ...(limits?.law === "uniform" ? { limits: [limits.from, limits.to] as const } : {}),
  };
}

function laidRoute({ unit }: Scene, number: Numbers) {
  const { route: data, place } = unit.tape;
  const placed = Math.max(
    0,
    data.findIndex((p) => p.mark === place.mark),
  );
  const pieceOf = (p: (typeof data)[number]): Piece[] =>
    p.arc ? [{ radius: number(p.arc.radius), turn: number(p.arc.turn) }] : p.line ? [{ line: number(p.line) }] : [];
  const x = number(place.x);
  const pose: Pose = { x, z: number(place.z), heading: number(place.heading), s: x };
  const route = laidDown(pose, data.slice(0, placed).flatMap(pieceOf), data.slice(placed).flatMap(pieceOf));
  const marks: { name: string; s: number }[] = [];
  const steps: { from: string; to: string; measure: Measure }[] = [];
  let s = route.start.s;
  let since: Given[] = [];
  for (const p of data) {
    for (const piece of pieceOf(p)) s += "line" in piece ? piece.line : Math.abs(piece.turn) * piece.radius;
    if (p.line) since.push(p.line);
    if (p.arc) since.push(p.arc.radius, p.arc.turn);
    if (p.mark === undefined) continue;
    const last = marks.at(-1);
    if (last)
      steps.push({
        from: last.name,
        to: p.mark,
        measure: since.length === 1 ? measureOf(since[0]!, s - last.s) : { value: s - last.s },
      });
    marks.push({ name: p.mark, s });
    since = [];
  }
  return { route, marks, steps };
}

function sprocketShape(
  { unit }: Scene,
  number: Numbers,
  route: Route,
  letters: Readonly<Record<TapeLetter, number>>,
  pick: number,
  form: { readonly outline: readonly ToothPoint[]; readonly opening: number | undefined },
): UnitShape["sprocket"] {
  const wheel = unit.sprocket;
  if (!wheel) return undefined;
  const s = number(wheel.at);
  const below = number(wheel["axis below tape"]);
  const pose = poseOn(route, s);
  const teeth = Math.max(1, Math.round(number(wheel.teeth)));
  const pitch = (teeth * letters.P0) / (2 * Math.PI);
  const tooth = wheel.tooth;
  // Holes lie P2 and whole P0 from the pockets; the tooth stands in the one nearest to the top of the wheel.
  const first = pick + letters.P2;
  const hole = first + Math.round((s - first) / letters.P0) * letters.P0;
  return {
    teeth,
    s,
    axis: [pose.x + below * Math.sin(pose.heading), pose.z - below * Math.cos(pose.heading)],
    body: below,
    pitch,
    tip: below + number(tooth["height above tape"]),
    along: number(tooth.along),
    across: number(tooth.across),
    flank: tooth.flank ? number(tooth.flank) : 0,
    disc: wheel.disc ? [number(wheel.disc.from), number(wheel.disc.to)] : undefined,
    ...form,
    phase: pose.heading + Math.PI / 2 - (hole - s) / pitch,
  };
}

function filmShape(
  scene: Scene,
  number: Numbers,
  route: Route,
): { led: FilmShape | undefined; trouble: string | undefined } {
  const { unit, tape } = scene;
  const { peel, guides: given } = unit.film;
  if (!leadsToNip(unit) || !peel || !given) return { led: undefined, trouble: undefined };
  const three = (t: readonly [Given, Given, Given]): Vector => [number(t[0]), number(t[1]), number(t[2])];
  const last = given.findIndex((g) => g.name === "nip");
  const top =
    unit.tape["rests on"] === "cover side" && unit.letters.T ? number(unit.letters.T) : number(tape.letters.T);
  const pose = poseOn(route, number(peel.at));
  const start: Vector = [
    pose.x - top * Math.sin(pose.heading),
    number(unit.letters.E1!) + number(unit.letters.F!),
    pose.z + top * Math.cos(pose.heading),
  ];
  const guides = given.map((g, i): GuideShape => {
    const along = three(g.along);
    const size = Math.hypot(...along);
    return {
      name: g.name,
      through: three(g.through),
      along: size > 0 ? [along[0] / size, along[1] / size, along[2] / size] : along,
      radius: number(g.radius),
      rolls: g.kind === "roller",
      beyond: i > last,
    };
  });
  let found: Path;
  try {
    found = filmPath(
      start,
      given
        .slice(0, last + 1)
        .map((g) => ({ through: three(g.through), along: three(g.along), rolls: g.kind === "roller" })),
      pose.heading,
    );
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
    return { led: undefined, trouble: e.message };
  }
  const names = ["peel line", ...guides.slice(0, last + 1).map((g) => g.name)];
  let at: Vector = start;
  let fan: Vector = [0, 1, 0];
  const spans = found.spans.map((span, i): SpanShape => {
    const [from, before] = [at, fan];
    at = [at[0] + span.run[0], at[1] + span.run[1], at[2] + span.run[2]];
    fan = [fan[0] + span.fan[0], fan[1] + span.fan[1], fan[2] + span.fan[2]];
    return {
      from: names[i]!,
      to: names[i + 1]!,
      ends: [from, at],
      fans: [before, fan],
      length: span.length,
      twist: span.twist,
    };
  });
  return {
    led: {
      peel: start,
      heading: pose.heading,
      edgeRadius: number(peel["edge radius"]),
      guides,
      spans,
      peelAngle: found.peelAngle,
      length: found.length,
    },
    trouble: undefined,
  };
}

function nipShape(
  { unit, tape }: Scene,
  number: Numbers,
  measure: (q: Quantity) => Measure,
  led: FilmShape | undefined,
): UnitShape["nip"] {
  const { nip } = unit;
  const guide = led?.guides.find((g) => g.name === "nip");
  const axis = nip?.axis
    ? ([number(nip.axis[0]), number(nip.axis[1])] as const)
    : guide && ([guide.through[0], guide.through[2]] as const);
  const rollers = nip?.rollers;
  if (!nip || !rollers || !axis) return undefined;
  const [lower, upper] = [rollers.radius[0]!, rollers.radius[1] ?? rollers.radius[0]!];
  const wholeFilm = typeof rollers.grip === "string";
  return {
    axis,
    lower: number(lower),
    upper: number(upper),
    grip: typeof rollers.grip === "string" ? { value: number(tape.film.width) } : measure(rollers.grip),
    wholeFilm,
    preload: nip.preload ? measure(nip.preload) : undefined,
    faces: rollers.material,
    relief: nip.relief
      ? { width: number(nip.relief.width), depth: number(nip.relief.depth), at: number(nip.relief.at) }
      : undefined,
  };
}

type PrismData = NonNullable<Scene["unit"]["bodies"]>[number];
function bodyShape(b: PrismData, number: Numbers): Body[] {
  const outline = outlineOf(b, number);
  return outline
    ? [{ name: b.name, part: b.part, outline, y: [number(b.y[0]), number(b.y[1])], turns: b.turns === "true" }]
    : [];
}
function outlineOf(b: PrismData, number: Numbers): Outline | undefined {
  if (b.box) {
    const [x0, z0, x1, z1] = [number(b.box[0]), number(b.box[1]), number(b.box[2]), number(b.box[3])];
    return { kind: "box", from: [Math.min(x0, x1), Math.min(z0, z1)], to: [Math.max(x0, x1), Math.max(z0, z1)] };
  }
  if (b.circle) return { kind: "circle", at: [number(b.circle[0]), number(b.circle[1])], r: number(b.circle[2]) };
  if (b.polygon) return { kind: "polygon", corners: b.polygon.map(([x, z]) => [number(x), number(z)] as const) };
  return undefined;
}
