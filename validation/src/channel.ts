import {
  asWritten,
  type Given,
  given,
  guidedLength,
  leastRadius,
  type Model,
  markPosition,
  meetingRadius,
  neededRadius,
  parseQuantity,
  pocketDrop,
  pocketGap,
  pocketLength,
  type Quantity,
  Realiser,
  roomBeside,
  roomUnder,
  rowFigure,
  rowLetter,
  type Scene,
  sidePlay,
  unitOf,
} from "@tapeworthy/core";
import { pocketProgram, type Row, reviewNotes, routeNotes, row } from "./row.ts";

const mm = 1e-3;
const written = (symbol: string, text: string, unit = "mm", names: Readonly<Record<string, Quantity>> = {}): Given =>
  given({
    address: `validation/${symbol}`,
    symbol,
    text,
    origin: { cite: "example of this table", how: "derived" },
    dimension: unitOf(unit).dimension,
    written: parseQuantity(text),
    level: "unit",
    letter: "d",
    reads: () => names,
  });

/**
 * Least play of the widest tape in the narrowest channel, with the channel's letter bound to the catalogue: its own tolerance and the reel's
 * add. Bound to the tape on the reel they would cancel and 0.35 mm would seem to be left.
 */
function playRows(): Row[] {
  const W = rowLetter("embossed", 24, "W")!;
  const reads = {
    c: written("c", "W + 0.45 ±0.10 mm", "mm", { W }),
    W: rowFigure("embossed", 24, "W")!,
    k: written("k", "0 mm"),
    L: written("L", "60 mm"),
    L_0: written("L_0", "250 mm"),
  };
  const play: Model = { ...sidePlay, reads: () => reads };
  const at = (unit: number, reel: number) =>
    new Realiser({} as Scene, [play])
      .run({ n: 1, unknown: () => 0, scatter: (g, which) => (g.scatters[which]!.level === "unit" ? unit : reel) })
      .number(play) * 1e3;
  const bow = (k: number, L: number) => sidePlay.value({ c: 0, W: 0, k, L, L_0: 250 }) * -1;
  const limit = "Embossed carrier tape, EIA-481-D, p. 13: W 24.3 mm at most (read); channel W + 0.45 ±0.10 mm";
  const say = (id: string, expected: number, got: number, source: string) =>
    row({ id, model: "channel.play", expected, got, near: { within: 1e-9 }, unit: "mm", source, how: "derived" });
  return [
    say("play.least", 0.05, at(-1, 1), `${limit}: 24.45 - 0.10 - 24.30, by hand`),
    say("play.most", 0.85, at(1, -1), `${limit}: 24.45 + 0.10 - 23.70, by hand`),
    say("play.drawn", 0.45, at(0, 0), `${limit}: as drawn`),
    row({
      id: "play.bow over 100 mm",
      model: "channel.play",
      expected: 0.16,
      got: bow(1, 100),
      near: { printedTo: 0.001 },
      unit: "mm",
      source: `${reviewNotes}: 1 mm over 250 mm`,
      how: "derived",
    }),
    row({
      id: "play.bow over 60 mm",
      model: "channel.play",
      expected: 0.057597,
      got: bow(1, 60),
      near: { share: 1e-3 },
      unit: "mm",
      source: `${pocketProgram}: from the circle itself`,
      how: "derived",
    }),
    row({
      id: "play.bow of older sheets",
      model: "channel.play",
      expected: 1,
      got: bow(6.25, 100),
      near: { share: 1e-9 },
      unit: "mm",
      source:
        "A diode and transistor maker's embossed tape sheet in an older EIA-481 form: 1 mm over 100 mm (read), which is 6.25 mm over 250 mm",
      how: "derived",
    }),
    row({
      id: "play.guided length",
      model: "channel.guided-length",
      expected: 137.1239,
      got:
        guidedLength.value({
          lines: [0.03, 0.03, 0.01, 0.02],
          arcs: [
            { radius: 0.055, turn: -Math.PI / 6 },
            { radius: 0.035, turn: Math.PI / 6 },
          ],
        }) * 1e3,
      near: { printedTo: 1e-4 },
      unit: "mm",
      source: "Lines of 30, 30, 10 and 20 mm, bends of 55 and 35 mm through 30 degrees: 90 + 15 pi, by hand",
      how: "derived",
    }),
  ];
}

const down = (radius: number, number = 1) => ({ radius, turn: -0.5, number });
const sheets1 =
  "A component maker's package-materials sheets, nominal figures: gates, op amps, references, SN74LVC540A and others";
const sheets3 = "A component maker's package-materials sheets, nominal figures: regulators, TLV1117 and LP2954A";
const pockets = [
  ["SOIC-16 wide", 10.75, 2.7, 12, 36.7, 36.813, sheets1],
  ["SOIC-20 wide", 10.8, 2.7, 12, 39.0, 39.112, sheets1],
  ["TO-252", 6.9, 2.7, 8, 29.7, 29.83, sheets3],
  ["SOT-223", 7.05, 1.9, 8, 26.2, 26.302, sheets3],
] as const;
function bendRows(): Row[] {
  return [
    ...pockets.flatMap(([name, A0, K0, P1, radius, boxes, source]) => {
      const drop = pocketDrop.value({ K_0: K0, t_w: 0.2, T: 0.3 });
      const L = pocketLength.value({ A_0: A0, t_w: 0.2 });
      const r = meetingRadius(drop, L, P1);
      return [
        row({
          id: `bend.pockets of ${name}`,
          model: "meetingRadius",
          expected: radius,
          got: r,
          near: { printedTo: 0.1 },
          unit: "mm",
          source: `${reviewNotes}, C24: pocket of ${source}, walls 0.2 mm, T 0.3 mm`,
          how: "derived",
        }),
        row({
          id: `bend.boxes of ${name}`,
          model: "meetingRadius",
          expected: boxes,
          got: r,
          near: { share: 0.005 },
          unit: "mm",
          source: `${pocketProgram}: rigid boxes; half a per cent for the pitch kept in the middle of the carrier`,
          how: "derived",
        }),
        row({
          id: `bend.gap of ${name}`,
          model: "route.pocket-gap",
          expected: 0,
          got: pocketGap.value({ P_1: P1, drop, L, arcs: [down(radius)] }),
          near: { within: 0.002 },
          unit: "mm",
          source: `${reviewNotes}, C24: at that radius neighbours touch; 2 um for the radius's last digit`,
          how: "derived",
        }),
      ];
    }),
    row({
      id: "bend.rigid boxes, drop 2.9 mm",
      model: "meetingRadius",
      expected: 41.1,
      got: meetingRadius(2.9, 11.15, 12),
      near: { share: 0.005 },
      unit: "mm",
      source: `${reviewNotes}, C24: exact for rigid pockets; the formula holds to half a per cent`,
      how: "derived",
    }),
    row({
      id: "pocket.drop",
      model: "tape.drop",
      expected: 2.6,
      got: pocketDrop.value({ K_0: 2.7, t_w: 0.2, T: 0.3 }),
      near: { share: 1e-12 },
      unit: "mm",
      source: `${reviewNotes}, C24: K0 2.7 mm from the top surface, wall 0.2 mm, T 0.3 mm`,
      how: "derived",
    }),
    row({
      id: "pocket.length",
      model: "tape.pocket-length",
      expected: 11.15,
      got: pocketLength.value({ A_0: 10.75, t_w: 0.2 }),
      near: { share: 1e-12 },
      unit: "mm",
      source: "10.75 mm and two walls of 0.2 mm, by hand",
      how: "derived",
    }),
    row({
      id: "bend.neutral line upwards",
      model: "route.least-radius",
      expected: 29.85,
      got: leastRadius.value({ arcs: [{ radius: 30, turn: 1 }], T: 0.3 }),
      near: { share: 1e-12 },
      unit: "mm",
      source: "30 mm at the underside, half of 0.3 mm inwards, by hand",
      how: "derived",
    }),
    row({
      id: "bend.neutral line downwards",
      model: "route.least-radius",
      expected: 30.15,
      got: leastRadius.value({ arcs: [{ radius: 30, turn: -1 }], T: 0.3 }),
      near: { share: 1e-12 },
      unit: "mm",
      source: "30 mm at the underside, half of 0.3 mm outwards, by hand",
      how: "derived",
    }),
    row({
      id: "bend.land strain",
      model: "tape.needed-radius",
      expected: 15,
      got: neededRadius.value({ R: 0, T: 0.3, e_y: 0.01 }),
      near: { share: 1e-12 },
      unit: "mm",
      source: "Bending stiffness of the tape (unpublished working notes), section 3.1: 0.3 mm on R 15 strains by 1.0 %",
      how: "derived",
    }),
  ];
}

function grooveRows(): Row[] {
  const flat = { d: 3 * mm, drop: 2 * mm, thickness: [] };
  const chord = (r: number, L: number) =>
    (roomUnder.value({ ...flat, L: L * mm, arcs: [] }) -
      roomUnder.value({ ...flat, L: L * mm, arcs: [down(r * mm)] })) *
    1e3;
  const depth = (r: number, L: number, expected: number) =>
    row({
      id: `groove.chord ${r} mm, ${L} mm`,
      model: "groove.room-under",
      expected,
      got: chord(r, L),
      near: { printedTo: 1e-6 },
      unit: "mm",
      source: `${reviewNotes}; ${pocketProgram}`,
      how: "derived",
    });
  return [
    depth(30, 11.2, 0.527301),
    depth(15, 4, 0.133931),
    depth(32, 12, 0.567533),
    row({
      id: "groove.outside bend",
      model: "groove.room-under",
      expected: 0,
      got:
        (roomUnder.value({ ...flat, L: 20 * mm, arcs: [] }) -
          roomUnder.value({ ...flat, L: 20 * mm, arcs: [{ radius: 30 * mm, turn: 1 }] })) *
        1e3,
      near: { within: 1e-12 },
      unit: "mm",
      source: `${routeNotes}, section 2: pockets outside a bend need no extra depth`,
      how: "derived",
    }),
    row({
      id: "groove.beside",
      model: "groove.room-beside",
      expected: 0.375,
      got: roomBeside.value({ m: 0.75, B_1: 5.4, B_u: 5.2, E_1: 1.8, F: 5.5, E_u: 1.75, F_u: 5.5, c: 12.45, W: 12 }),
      near: { share: 1e-9 },
      unit: "mm",
      source: "0.75 - 0.10 - 0.05 - 0.225 mm, by hand",
      how: "derived",
    }),
  ];
}

/** Places along a route: 10 mm of line and a quarter circle downwards of 40 mm after the placed mark, and a mark before it. */
function poseRows(): Row[] {
  type Tape = Parameters<typeof markPosition>[0];
  const tape = {
    route: [
      { mark: "peel" },
      { line: written("behind", "9 mm") },
      { mark: "pick" },
      { line: written("line", "10 mm") },
      { arc: { radius: written("radius", "40 mm"), turn: written("turn", "-90 deg", "deg") } },
      { mark: "out" },
    ],
    place: {
      mark: "pick",
      x: written("x", "0 mm"),
      z: written("z", "0 mm"),
      heading: written("heading", "0 deg", "deg"),
    },
  } as unknown as Tape;
  const at = (mark: string, what: "x" | "route"): number => {
    const place = markPosition(tape, mark, what)!;
    return new Realiser({} as Scene, [place]).run(asWritten).number(place) * 1e3;
  };
  const say = (id: string, model: string, expected: number, got: number, source: string) =>
    row({ id, model, expected, got, near: { printedTo: 1e-4 }, unit: "mm", source, how: "derived" });
  return [
    say("route.x before the placed mark", "route.peel.x", -9, at("peel", "x"), "9 mm of line, by hand"),
    say("route.place before the placed mark", "route.peel.route", -9, at("peel", "route"), "9 mm of line, by hand"),
    say("route.x of the placed mark", "route.pick.x", 0, at("pick", "x"), "Where it is placed"),
    say("route.place of the placed mark", "route.pick.route", 0, at("pick", "route"), "Where it is placed"),
    say(
      "route.x beyond a bend",
      "route.out.x",
      50,
      at("out", "x"),
      "10 mm of line and the radius of a quarter circle, by hand",
    ),
    say(
      "route.place beyond a bend",
      "route.out.route",
      72.8319,
      at("out", "route"),
      "10 mm of line and 20 pi of arc, by hand",
    ),
  ];
}

/** Channel, groove, bends and pockets. */
export const channelRows = (): Row[] => [...playRows(), ...bendRows(), ...grooveRows(), ...poseRows()];
