import { assumed } from "./assume.ts";
import { drivenWith } from "./drive/drive.fixture.ts";
import { belief, type Given, given, tabled } from "./quantity/given.ts";
import type { Model, Quantity } from "./quantity/model.ts";
import { type Level, parseQuantity } from "./quantity/notation.ts";
import { unitOf } from "./quantity/units.ts";
import { markPosition } from "./route/pose.ts";
import type { Requirement, Scene } from "./scene.ts";
import { asWritten, Realiser } from "./study/realise.ts";
import { rowLetter } from "./tape/catalogue.ts";
import { servedTape } from "./tape/served.ts";
import type { Tape, TapeKind } from "./tape/tape.ts";
import type { TapeData } from "./tape/tape-fields.ts";
import { rowLetters, type Unit } from "./unit/unit.ts";
import type { UnitData } from "./unit/unit-fields.ts";

/**
 * Invented units and tapes for the tests: a side crossing with a friction nip, an overhead return with a clutch, a route with bends, and
 * a unit that leads no film. Every number is made up; no test takes an expectation from here.
 */
const invented = { cite: "invented for the tests", how: "judgement" } as const;

/** A number as a file would write it; `names` are what its text may use. */
export const written = (
  address: string,
  symbol: string,
  text: string,
  unit = "mm",
  names: Readonly<Record<string, Quantity>> = {},
  level: Level = "unit",
): Given =>
  given({
    address,
    symbol,
    text,
    origin: invented,
    dimension: unitOf(unit).dimension,
    written: parseQuantity(text),
    level,
    letter: "d",
    reads: () => names,
  });

/** Value of a quantity in a scene with every number as written and every unknown at its median. */
export const nominal = (scene: Scene, q: Quantity): number => new Realiser(scene, [q]).run(asWritten).number(q);

/** The symbols of a model that lie outside the range its equation is known to hold in. */
export const outside = (m: Model, x: Readonly<Record<string, unknown>>): string[] =>
  Object.entries(m.valid ?? {}).flatMap(([symbol, [low, high]]) => {
    const v = x[symbol];
    return typeof v === "number" && (v < low || v > high) ? [symbol] : [];
  });

interface Cut {
  readonly A0: string;
  readonly B0: string;
  readonly K0: string;
  readonly P1: string;
  readonly T: string;
}
const cuts: Readonly<Record<number, Cut>> = {
  8: { A0: "1.9 mm", B0: "2.3 mm", K0: "1.3 mm", P1: "4 mm", T: "0.25 mm" },
  12: { A0: "6.4 mm", B0: "5.2 mm", K0: "2.1 mm", P1: "8 mm", T: "0.30 mm" },
  16: { A0: "6.5 mm", B0: "10.3 mm", K0: "2.1 mm", P1: "8 mm", T: "0.30 mm" },
  24: { A0: "10.9 mm", B0: "16.0 mm", K0: "3.2 mm", P1: "12 mm", T: "0.35 mm" },
  32: { A0: "17.4 mm", B0: "17.4 mm", K0: "4.2 mm", P1: "24 mm", T: "0.35 mm" },
};

type Piece = { line: string } | { radius: string; turn: string } | { mark: string };
interface Design {
  readonly name: string;
  readonly width: number;
  readonly rests?: UnitData["tape"]["rests on"];
  readonly route: readonly Piece[];
  /** Members beside tape and serves, made with the unit's letters and marks. */
  readonly more: (
    at: (path: string, symbol: string, text: string, unit?: string) => Given,
  ) => Omit<UnitData, "format" | "unit" | "serves" | "tape">;
  readonly guided?: string;
}

function unit({ name, width, rests = "underside", route, more, guided }: Design): Unit {
  const cut = cuts[width]!;
  const built = (letter: keyof Cut) => written(`${name}/built for.${letter}`, letter, cut[letter]);
  const [A0, B0, K0, P1, T] = [built("A0"), built("B0"), built("K0"), built("P1"), built("T")];
  const B1 = written(`${name}/built for.B1`, "B1", "B0 + 2*T", "mm", { B0, T });
  const letters: Record<string, Quantity> = { A0, B0, K0, P1, T, B1 };
  for (const letter of [...rowLetters, "T1", "b"]) {
    const q = rowLetter("embossed", width, letter);
    if (q) letters[letter] = q;
  }
  const at = (path: string, symbol: string, text: string, u = "mm") =>
    written(`${name}/${path}`, symbol, text, u, letters);
  const pieces = route.map((p, i) =>
    "line" in p
      ? { line: at(`route.${i}.line`, "l", p.line) }
      : "mark" in p
        ? { mark: p.mark }
        : {
            arc: { radius: at(`route.${i}.radius`, "r", p.radius), turn: at(`route.${i}.turn`, "turn", p.turn, "deg") },
          },
  ) as unknown as UnitData["tape"]["route"];
  const place = {
    mark: "pick",
    x: at("place.x", "x", "0 mm"),
    z: at("place.z", "z", "0 mm"),
    heading: at("place.heading", "heading", "0 deg", "deg"),
  };
  const tape: UnitData["tape"] = {
    "rests on": rests,
    route: pieces,
    place,
    section: {
      width: at("section.width", "c", "W + 0.45 ±0.10 mm"),
      ...(guided ? { "guided length": at("section.guided length", "L", guided) } : {}),
      ledge: { near: at("ledge.near", "near", "2.6 mm"), far: at("ledge.far", "far", "0.7 mm") },
      groove: {
        depth: at("groove.depth", "d", "K0 + 0.9 ±0.15 mm"),
        margin: at("groove.margin", "m", "0.75 ±0.15 mm"),
      },
      lips: {
        near: at("lips.near", "near", "0.9 mm"),
        far: at("lips.far", "far", "0.7 mm"),
        gap: at("lips.gap", "g", "T + 0.35 ±0.10 mm"),
      },
    },
  };
  const marked = (what: "x" | "route"): Record<string, Quantity> =>
    Object.fromEntries(["peel", "pick"].map((mark) => [mark, markPosition(tape, mark, what)!]));
  const onRoute = (path: string, symbol: string, text: string, u = "mm") =>
    written(`${name}/${path}`, symbol, text, u, { ...letters, ...marked(path.endsWith(".at") ? "route" : "x") });
  return {
    format: "1",
    unit: name,
    serves: { kind: ["embossed", "punched"], W: [String(width)] },
    tape,
    ...more(onRoute),
    name,
    row: width,
    letters,
    givens: new Map(),
    origin: invented,
  };
}

type At = (path: string, symbol: string, text: string, unit?: string) => Given;
const guide = (
  at: At,
  name: string,
  through: readonly [string, string, string],
  along: readonly [number, number, number],
  radius: string,
  kind: "bar" | "roller" = "bar",
) => ({
  name,
  through: [
    at(`${name}.x`, "x", through[0]),
    at(`${name}.y`, "y", through[1]),
    at(`${name}.z`, "z", through[2]),
  ] as const,
  along: [
    at(`${name}.u`, "u", `${along[0]}`, ""),
    at(`${name}.v`, "v", `${along[1]}`, ""),
    at(`${name}.w`, "w", `${along[2]}`, ""),
  ] as const,
  radius: at(`${name}.radius`, "r", radius),
  kind,
});
const sprocket = (at: At) => ({
  teeth: at("sprocket.teeth", "teeth", "24", ""),
  at: at("sprocket.at", "at", "pick + 14 mm"),
  "axis below tape": at("sprocket.axis", "axis", "15.1 mm"),
  tooth: {
    "height above tape": at("tooth.height", "h", "1.1 ±0.1 mm"),
    along: at("tooth.along", "along", "1.10 +0.05/-0 mm"),
    across: at("tooth.across", "across", "0.70 ±0.05 mm"),
  },
});

/** Where this film runs over its tape is no question of theirs: only `withBodies` is held to clearances. */
const notHeldClear = { "meant to touch": ["film / tape", "film / pocket"] } as const;

/** The film crosses beside the channel in two quarter turns down to a friction nip that grips its whole width. */
export const sideCrossing = (width = 12): Unit =>
  unit({
    name: `crossing ${width}`,
    width,
    guided: "60 mm",
    route: [{ line: "90 mm" }, { mark: "peel" }, { line: "9.0 ±0.2 mm" }, { mark: "pick" }, { line: "40 mm" }],
    more: (at) => ({
      ...notHeldClear,
      film: {
        opens: "whole width",
        peel: { at: at("peel.at", "at", "peel"), "edge radius": at("peel.radius", "r", "1.0 ±0.1 mm") },
        guides: [
          guide(at, "back edge", ["peel - 7 mm", "E1 + F", "3 mm"], [0, 1, 0], "1.5 mm"),
          guide(at, "shoulder", ["peel - 55 mm", "W + 2.2 mm", "-2 mm"], [0, 0, -1], "2 mm", "roller"),
          guide(at, "nip", ["peel - 105 mm", "E1 + F", "-14 mm"], [0, -1, 0], "5 mm"),
        ],
        material: "PETG",
        friction: at("film.friction", "mu", "0.18..0.35 guess", ""),
      },
      sprocket: sprocket(at),
      nip: {
        rollers: { radius: [at("nip.radius", "r", "5.0 ±0.05 mm")], grip: "whole film", material: ["POM", "NBR"] },
        preload: at("nip.preload", "N", "6.0 ±0.5 N", "N"),
        overspeed: at("nip.overspeed", "o", "1.3", ""),
      },
    }),
  });

/** The film folds back overhead once, to a nip in the middle third with a slip clutch; the cover side is fixed, the route bends down. */
export const overhead = (width = 24): Unit =>
  unit({
    name: `overhead ${width}`,
    width,
    rests: "cover side",
    route: [
      { line: "96 mm" },
      { mark: "peel" },
      { line: "10 mm" },
      { mark: "pick" },
      { line: "20 mm" },
      { radius: "R + 30 mm", turn: "-20 deg" },
      { line: "20 mm" },
    ],
    more: (at) => ({
      film: {
        opens: "whole width",
        peel: { at: at("peel.at", "at", "peel"), "edge radius": at("peel.radius", "r", "1.0 mm") },
        guides: [guide(at, "nip", ["peel - 20 mm", "E1 + F", "12 mm"], [0, 1, 0], "5 mm")],
        "out of square": at("film.out of square", "delta", "1..3 mrad guess", "mrad"),
        front: "clamped",
      },
      sprocket: sprocket(at),
      nip: {
        rollers: {
          radius: [at("nip.radius.0", "r", "5.0 mm"), at("nip.radius.1", "r", "6.0 mm")],
          grip: at("nip.grip", "f", "0.3*b"),
          material: ["NBR"],
        },
        friction: [at("nip.friction", "mu", "0.5..1.0 guess", "")],
        preload: at("nip.preload", "N", "7.2 ±0.5 N", "N"),
        slip: { kind: "clutch", torque: at("nip.torque", "M", "16 ±1.5 N*mm", "N*mm") },
        overspeed: at("nip.overspeed", "o", "1.25", ""),
      },
      "peel drive": { motor: "any", stall: at("stall", "M_s", "60 N*mm", "N*mm") },
    }),
  });

/** A route with a bend each way before the peel line; the film folds back to a nip over one bar, its front free. */
export const withBends = (width = 16): Unit =>
  unit({
    name: `bends ${width}`,
    width,
    route: [
      { line: "30 mm" },
      { radius: "R + 25 mm", turn: "-30 deg" },
      { radius: "R + 5 mm", turn: "30 deg" },
      { line: "30 mm" },
      { mark: "peel" },
      { line: "10 mm" },
      { mark: "pick" },
      { line: "20 mm" },
    ],
    more: (at) => ({
      ...notHeldClear,
      film: {
        opens: "whole width",
        peel: { at: at("peel.at", "at", "peel"), "edge radius": at("peel.radius", "r", "0.8 mm") },
        guides: [
          guide(at, "bar", ["peel - 15 mm", "E1 + F", "8 mm"], [0, 1, 0], "2 mm"),
          guide(at, "nip", ["peel - 15 mm", "E1 + F", "30 mm"], [0, 1, 0], "5 mm"),
        ],
        front: "free",
      },
      nip: {
        rollers: { radius: [at("nip.radius", "r", "5.0 mm")], grip: "whole film", material: ["silicone"] },
        preload: at("nip.preload", "N", "4.0 N", "N"),
        overspeed: at("nip.overspeed", "o", "1.2", ""),
      },
    }),
  });

/** A rake opens one seal: no peel line, no guides, no nip, no sprocket. */
export const oneSeal = (width = 8): Unit =>
  unit({
    name: `one seal ${width}`,
    width,
    route: [{ line: "60 mm" }, { mark: "peel" }, { line: "8 mm" }, { mark: "pick" }, { line: "20 mm" }],
    more: () => ({ film: { opens: "one seal" } }),
  });

/** The crossing with what stands around it: rollers that lift, a board, the wheel, the machine's rail. Its film does not clear its tape. */
export function withBodies(): Unit {
  const base = sideCrossing(12);
  const { letters } = base;
  const peel = markPosition(base.tape, "peel", "x")!;
  const at = (path: string, symbol: string, text: string, u = "mm") =>
    written(`crossing with bodies/${path}`, symbol, text, u, { ...letters, peel });
  const four = (name: string, texts: readonly [string, string, string, string]) =>
    texts.map((text, i) => at(`${name}.box.${i}`, "xz"[i % 2]!, text)) as unknown as readonly [
      Given,
      Given,
      Given,
      Given,
    ];
  const round = (name: string, texts: readonly [string, string, string]) =>
    texts.map((text, i) => at(`${name}.circle.${i}`, "xzr"[i]!, text)) as unknown as readonly [Given, Given, Given];
  const across = (name: string, from: string, to: string) =>
    [at(`${name}.y.0`, "y", from), at(`${name}.y.1`, "y", to)] as const;
  const roller = (name: string, z: string) => ({
    name,
    part: "nip",
    circle: round(name, ["peel - 105 mm", z, "5.0 ±0.05 mm"]),
    y: across(name, "E1 + F - b/2", "E1 + F + b/2"),
  });
  return {
    ...base,
    sprocket: { ...base.sprocket!, disc: { from: at("disc.from", "y", "0.2 mm"), to: at("disc.to", "y", "2.2 mm") } },
    nip: {
      ...base.nip!,
      lifts: {
        by: at("lifts.by", "phi", "1 deg", "deg"),
        about: [at("lifts.x", "x", "-134 mm"), at("lifts.z", "z", "-9 mm")],
      },
    },
    bodies: [
      {
        name: "board",
        part: "board",
        box: four("board", ["-70 mm", "-40 mm", "-20 mm", "-12.0 ±0.3 mm"]),
        y: across("board", "-4.6 mm", "4 mm"),
      },
      { ...roller("nip upper", "-9 mm"), lifts: "true" },
      roller("nip lower", "-19 mm"),
      {
        name: "bridge",
        part: "nip",
        box: four("bridge", ["-122 mm", "-3.5 mm", "-106 mm", "-2.8 mm"]),
        y: across("bridge", "2 mm", "12 mm"),
      },
      {
        name: "wheel",
        part: "sprocket",
        circle: round("wheel", ["14 mm", "-15.1 mm", "16.2 mm"]),
        y: across("wheel", "0.2 mm", "2.2 mm"),
      },
    ],
    "keep out": [
      {
        name: "rail",
        box: four("rail", ["-150 mm", "-70 mm", "60 mm", "-42 mm"]),
        y: across("rail", "-50 mm", "60 mm"),
      },
    ],
    clearances: {
      default: at("clearances.default", "g", "0.30 mm"),
      "pocket / board": at("clearances.board", "g", "1.0 mm"),
    },
    "meant to touch": ["film / nip", "film / guide", "tape / wheel"],
    mount: {
      "slot pitch": at("mount.pitch", "p", "16.0 mm"),
      "side allowance": at("mount.allowance", "a", "0.3 mm"),
      slots: at("mount.slots", "n", "2", ""),
      height: at("mount.height", "h", "12 mm"),
    },
  };
}

/** The number of a member added to an invented unit. */
const added =
  (name: string, letters: Readonly<Record<string, Quantity>>) =>
  (path: string, text: string, u = "mm") =>
    written(`${name}/${path}`, path.split(".").at(-1)!, text, u, letters);
/** The crossing with a windowed leaf over its wheel, rubber on one roller, one-sided shafts on a screwed carrier, and a reel holder. */
export function heldByLeaf(width = 12): Unit {
  const base = sideCrossing(width);
  const at = added(`crossing ${width}`, base.letters);
  return {
    ...base,
    tape: { ...base.tape, opening: { x: at("opening.x", "A0 + 3 mm"), y: at("opening.y", "B0 + 2 mm") } },
    sprocket: { ...base.sprocket!, tooth: { ...base.sprocket!.tooth, flank: at("tooth.flank", "22 deg", "deg") } },
    reel: { drag: at("reel.drag", "0.3 ±0.1 N", "N"), "loop room": at("reel.room", "40 mm") },
    "hold-down": {
      kind: "leaf",
      material: "spring steel 1.4310",
      thickness: at("leaf.thickness", "0.15 ±0.005 mm"),
      "free length": at("leaf.length", "24 mm"),
      width: at("leaf.width", "5 mm"),
      opening: { x: at("leaf.window.x", "A0 + 4 mm"), y: at("leaf.window.y", "B0 + 2 mm") },
      preload: at("leaf.preload", "0.9 ±0.2 N", "N"),
    },
    nip: {
      ...base.nip!,
      rollers: {
        ...base.nip!.rollers!,
        shaft: {
          diameter: at("shaft.diameter", "4 mm"),
          length: at("shaft.length", "b + 3 mm"),
          carried: "one side",
        },
      },
      spring: { kind: "coil", rate: at("spring.rate", "1.5 N/mm", "N/mm") },
    },
    joints: [
      {
        name: "nip carrier to frame",
        screws: at("joint.screws", "3", ""),
        size: "M3",
        spacing: at("joint.spacing", "12 mm"),
        arm: at("joint.arm", "9 mm"),
        carries: "nip",
      },
    ],
  };
}
/** The overhead return under a rib, its rollers hard on a flexure hinge. */
export function heldByRib(width = 24): Unit {
  const base = overhead(width);
  const at = added(`overhead ${width}`, base.letters);
  const { slip: _, ...nip } = base.nip!;
  return {
    ...base,
    "hold-down": {
      kind: "rib",
      gap: at("rib.gap", "T + 0.25 ±0.08 mm"),
      opening: { x: at("rib.window.x", "A0 + 4 mm"), y: at("rib.window.y", "B0 + 2 mm") },
    },
    nip: {
      ...nip,
      rollers: { ...nip.rollers!, material: ["POM"] },
      spring: {
        kind: "flexure hinge",
        length: at("hinge.length", "11 mm"),
        thickness: at("hinge.thickness", "1.2 mm"),
        width: at("hinge.width", "8 mm"),
        material: "PETG",
      },
    },
  };
}
/** The crossing with its route bent away behind the wheel, so that the tape's own stiffness presses it on. */
export function heldByBend(width = 8): Unit {
  const base = sideCrossing(width);
  const at = added(`crossing ${width}`, base.letters);
  return {
    ...base,
    "hold-down": { kind: "run-off bend", reach: at("bend.reach", "12 mm"), push: at("bend.push", "1.2 mm") },
  };
}

/** The overhead return with its tape round an involute, round-ended wheel; worms and gears in both drives, and gears that join the rollers. */
export function withGears(width = 8): Unit {
  const base = overhead(width);
  const at: At = (path, symbol, text, u = "mm") => written(`${base.name}/${path}`, symbol, text, u, base.letters);
  const worm = (name: string) => ({
    module: at(`${name}.module`, "m", "0.5 mm"),
    starts: at(`${name}.starts`, "n_w", "1", ""),
    "lead angle": at(`${name}.lead`, "lambda", "4.5 deg", "deg"),
  });
  const { corner: _, ...tooth } = base.sprocket!.tooth;
  return {
    ...base,
    sprocket: {
      ...base.sprocket!,
      y: at("sprocket.y", "y_t", "1.75 ±0.05 mm"),
      wrap: at("sprocket.wrap", "alpha", "38 deg", "deg"),
      tooth: {
        ...tooth,
        shape: "involute",
        front: "round",
        "across at tip": at("tooth.across at tip", "t_t", "0.50 ±0.05 mm"),
        "tip radius": at("tooth.tip radius", "q", "0.10 mm"),
      },
    },
    nip: {
      ...base.nip!,
      axis: [at("nip.axis.x", "x", "-30 mm"), at("nip.axis.z", "z", "12 mm")],
      gears: {
        module: at("nip.gears.module", "m", "0.5 mm"),
        teeth: [at("nip.gears.0", "z_1", "20", ""), at("nip.gears.1", "z_2", "24", "")],
        backlash: at("nip.gears.backlash", "j", "0.10 mm"),
        centre: at("nip.gears.centre", "A", "11.05 ±0.05 mm"),
      },
      lifts: {
        by: at("lifts.by", "phi", "0.8 deg", "deg"),
        about: [at("lifts.x", "x", "-44 mm"), at("lifts.z", "z", "14 mm")],
      },
    },
    "feed drive": {
      motor: "any",
      worm: worm("feed"),
      "wheel teeth": at("feed.wheel", "z_w", "40", ""),
    },
    "peel drive": {
      ...base["peel drive"]!,
      worm: { ...worm("peel"), centre: at("peel.centre", "A", "8.25 ±0.05 mm") },
      "wheel teeth": at("peel.wheel", "z_w", "20", ""),
      "gear pairs": [
        {
          module: at("peel.pair.module", "m", "0.5 mm"),
          teeth: [at("peel.pair.0", "z_1", "12", ""), at("peel.pair.1", "z_2", "30", "")],
          shifts: [at("peel.pair.x0", "x_1", "0.4", ""), at("peel.pair.x1", "x_2", "0", "")],
        },
      ],
    },
  };
}

type FilmData = NonNullable<TapeData["film"]>;
function tape(
  name: string,
  width: number,
  kind: TapeKind,
  film: FilmData | undefined,
  more: Partial<TapeData> = {},
): Tape {
  const cut = cuts[width]!;
  const at = (letter: string, text: string) => written(`${name}/${letter}`, letter, text, "mm", {}, "reel");
  const data: TapeData = {
    format: "1",
    tape: name,
    kind,
    W: at("W", `${width}.0 ±0.3 mm`),
    A0: at("A0", cut.A0),
    B0: at("B0", cut.B0),
    K0: kind === "punched" ? at("K0", "0.75 ±0.05 mm") : at("K0", cut.K0),
    P1: at("P1", cut.P1),
    ...(film ? { film } : {}),
    ...more,
  };
  return servedTape(name, data, new Map(), invented);
}
/** Embossed tape as a drawing gives it; `seal` is how the film is sealed, if anybody says. */
export const embossedTape = (width = 12, seal?: "heat activated" | "pressure sensitive", film: FilmData = {}): Tape =>
  tape(`embossed ${width}`, width, "embossed", seal ? { ...film, kind: seal } : film);
export const punchedTape = (seal?: "heat activated" | "pressure sensitive"): Tape =>
  tape("punched 8", 8, "punched", seal ? { kind: seal } : undefined);
/** A tape with letters of its own. */
export const tapeWith = (width: number, more: Partial<TapeData>, kind: TapeKind = "embossed"): Tape =>
  tape(`own ${width}`, width, kind, undefined, more);

/** Its pockets stand half a hole pitch apart. */
export const halfPitchTape = (): Tape =>
  tapeWith(8, { A0: written("half/A0", "A0", "1.1 mm"), P1: written("half/P1", "P1", "2 mm") });

export const requirement: Requirement = {
  allowPairs: 0.02,
  filmSpeed: tabled("project/film speed", "v", "80 mm/s", [1, 0, -1, 0, 0], invented, "unit"),
  breakSafety: tabled("project/film break", "s", "1.5", [0, 0, 0, 0, 0], invented, "unit"),
  front: belief("assume/peel front", "s_f", ["free", "clamped"], 0.5, invented),
  assume: assumed(),
};
export const scene = (unit: Unit, tape: Tape): Scene => ({ unit, tape, requirement });

/** Units with their motors on a rail, tapes whose part is known. */
export const driven = drivenWith({ written, sideCrossing, overhead, embossedTape, tapeWith, requirement });

/** A scene of every kind: crossing, clutch, bends, no film; embossed and punched; seal given and not. */
export const scenes: readonly (readonly [name: string, Scene])[] = [
  ["crossing, embossed, heat activated", scene(sideCrossing(12), embossedTape(12, "heat activated"))],
  ["crossing, embossed, seal not given", scene(sideCrossing(24), embossedTape(24))],
  ["crossing, punched, seal not given", scene(sideCrossing(8), punchedTape())],
  ["overhead with clutch, embossed, pressure sensitive", scene(overhead(24), embossedTape(24, "pressure sensitive"))],
  ["bends, embossed, seal not given", scene(withBends(16), embossedTape(16))],
  ["bends, punched, heat activated", scene(withBends(8), punchedTape("heat activated"))],
  ["one seal, embossed", scene(oneSeal(8), embossedTape(8))],
  ["crossing with bodies, embossed", scene(withBodies(), embossedTape(12))],
  ...driven.scenes,
  ["held by a leaf, embossed", scene(heldByLeaf(12), embossedTape(12))],
  ["held by a rib, hard nip, embossed", scene(heldByRib(24), embossedTape(24))],
  ["held by a run-off bend, punched", scene(heldByBend(8), punchedTape())],
  ["round a wheel with gears, half-pitch pockets", scene(withGears(8), halfPitchTape())],
];
