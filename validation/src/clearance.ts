import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  asWritten,
  clearancesInOrder,
  discReach,
  type Model,
  mountHeight,
  mountWidth,
  pairGaps,
  pocketSide,
  Realiser,
  type Scene,
  slotsTaken,
  threading,
} from "@tapeworthy/core";
import { type Project, readProject } from "@tapeworthy/project";
import { clearanceProgram, pocketProgram, type Row, reviewNotes, routeNotes, row } from "./row.ts";

const mm = 1e-3;
type Four = readonly [x0: number, z0: number, x1: number, z1: number];
interface Solid {
  readonly name: string;
  readonly box?: Four;
  readonly circle?: readonly [x: number, z: number, r: number];
  readonly y: readonly [from: number, to: number];
  readonly more?: string;
}
const lengths = (v: readonly number[]): string => `[${v.map((one) => `${one} mm`).join(", ")}]`;
const body = ({ name, box, circle, y, more }: Solid): string =>
  `  - {name: ${name}, ${box ? `box: ${lengths(box)}` : `circle: ${lengths(circle!)}`}, y: ${lengths(y)}${more ?? ""}}`;
interface Design {
  readonly W: number;
  readonly tape: string;
  readonly route: string;
  readonly place: string;
  readonly film?: string;
  readonly nip?: string;
  readonly bodies?: readonly Solid[];
}
/** A unit of plain numbers on one tape, read as a project's files are. */
export function sceneOf({
  W,
  tape,
  route,
  place,
  film = "{opens: one seal}",
  nip = "none",
  bodies = [],
}: Design): Scene {
  const letters = "K0: 4 mm, A0: 10.8 mm, B0: 10 mm, P1: 16 mm, T: 0.30 mm";
  const texts = new Map([
    ["project.yaml", "format: 1\nproject: rows\nwanted: {plain: [plain]}\n"],
    ["tapes/plain.yaml", `format: 1\ntape: plain\nW: ${W} mm\nT1: 0.06 mm\nP1: 16 mm\nE1: 1.75 mm\n${tape}\n`],
    [
      "units/plain.yaml",
      [
        "format: 1",
        "unit: Plain",
        `serves: {kind: [embossed], W: [${W}]}`,
        `built for: {${W}: {${letters}}}`,
        `tape: {rests on: underside, route: ${route}, place: ${place}, section: {width: W + 0.45 mm, ledge: {near: 2.6 mm, far: 0.7 mm}, groove: {depth: 5 mm, margin: 0.75 mm}, lips: {near: 0.9 mm, far: 0.7 mm, gap: T + 0.35 mm}}}`,
        `film: ${film}`,
        `nip: ${nip}`,
        ...(bodies.length > 0 ? ["bodies:", ...bodies.map(body)] : []),
        "",
      ].join("\n"),
    ],
  ]);
  return only(texts, "plain", "plain");
}
function only(texts: ReadonlyMap<string, string>, unit: string, tape: string): Scene {
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map((e) => `${e.place.file}:${e.place.line} ${e.message}`).join("\n"));
  return pairOf(project, unit, tape);
}
function pairOf(project: Project, unit: string, name: string): Scene {
  const { tape } = project.tapes.get(name)!;
  return { unit: project.units.get(unit)!.variants.get(tape.row)!, tape, requirement: project.requirement };
}
/** Every wanted pair of the bundled example. */
export function exampleScenes(): { readonly unit: string; readonly tape: string; readonly scene: Scene }[] {
  const example = fileURLToPath(new URL("../../examples/saltgrass/", import.meta.url));
  const texts = new Map([["project.yaml", readFileSync(`${example}project.yaml`, "utf8")]]);
  for (const folder of ["units", "tapes"])
    for (const name of readdirSync(example + folder))
      texts.set(`${folder}/${name}`, readFileSync(`${example}${folder}/${name}`, "utf8"));
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map((e) => e.message).join("\n"));
  return [...project.wanted].flatMap(([unit, tapes]) =>
    tapes.map((tape) => ({ unit, tape, scene: pairOf(project, unit, tape) })),
  );
}

const number = (scene: Scene, m: Model): number => new Realiser(scene, [m]).run(asWritten).number(m);
/** Gap of a pair as drawn, mm. */
function gap(scene: Scene, check: string, b: string, a?: string): number {
  const found = pairGaps(scene).find((p) => p.check === check && p.b === b && (a === undefined || p.a === a));
  if (!found || "trouble" in found) throw new Error(`${check} has no gap to ${b}`);
  return found.gap / mm;
}
const room = (scene: Scene, check: string): number =>
  number(scene, clearancesInOrder.find(({ id }) => id === check)!.room) / mm;

const tape24 = "A0: 10.8 mm\nB0: 10 mm\nK0: 4 mm\nT: 0.30 mm\nwall: 0.30 mm\nF: 11.5 mm\nB1: 10.6 mm";
const start = "{mark: start, x: 0 mm, z: 0 mm, heading: 0 deg}";
const bodies: readonly Solid[] = [
  { name: "drum", circle: [30, -50, 40], y: [0, 24] },
  { name: "roller", circle: [55, -30, 6], y: [0, 24] },
  { name: "post", box: [60, -22, 66, -19], y: [0, 24] },
  { name: "beam", box: [20, 1, 45, 9], y: [0, 24] },
  { name: "wall", box: [0, -40, 120, 10], y: [19, 21] },
  { name: "edge", box: [70, -60, 110, -31], y: [19.5, 26] },
  { name: "stop", box: [90, -40, 96, -8], y: [10, 14] },
  { name: "cap", circle: [75, -12, 5], y: [0, 24] },
];
const bentRoute =
  "[{mark: start}, {line: 30 mm}, {arc: {radius: 50 mm, turn: -0.6 rad}}, {line: 20 mm}, {arc: {radius: 40 mm, turn: 0.8 rad}}, {line: 30 mm}]";
const stepped = "poses every 0.02 mm, corners against sides";

/** Pocket and flange on a route that bends down and up, by a program that walks it in steps of a micrometre. */
function laneRows(): Row[] {
  const scene = sceneOf({ W: 24, tape: tape24, route: bentRoute, place: start, bodies });
  const pocket = {
    drum: 5.674,
    roller: 9.3761,
    post: 0.0875,
    beam: 1,
    wall: 0.45,
    edge: 0.9502,
    stop: -6.05,
    cap: 1.7117,
  };
  const flange = {
    drum: 10,
    roller: 13.3772,
    post: 4.0875,
    beam: 0.64,
    wall: -5,
    edge: 3.9874,
    stop: -13.8512,
    cap: 1.4117,
  };
  const say = (what: "pocket" | "tape", name: string, expected: number) =>
    row({
      id: `clear.${what} to the ${name}`,
      model: what === "pocket" ? "clear.pocket-gap" : "clear.tape-gap",
      expected,
      got: gap(scene, `clear.${what}`, name),
      near: { within: what === "pocket" ? 1e-3 : 2e-3 },
      unit: "mm",
      source: `${clearanceProgram}: ${stepped}; a micrometre or two for its steps`,
      how: "derived",
    });
  return [
    ...Object.entries(pocket).map(([name, v]) => say("pocket", name, v)),
    ...Object.entries(flange).map(([name, v]) => say("tape", name, v)),
    row({
      id: "clear.pocket, worst pair",
      model: "clear.pocket-room",
      expected: -6.05,
      got: room(scene, "clear.pocket"),
      near: { within: 1e-3 },
      unit: "mm",
      source: `${clearanceProgram}: least of the eight, no gap wanted`,
      how: "derived",
    }),
    row({
      id: "clear.tape, worst pair",
      model: "clear.tape-room",
      expected: -13.8512,
      got: room(scene, "clear.tape"),
      near: { within: 2e-3 },
      unit: "mm",
      source: `${clearanceProgram}: least of the eight, no gap wanted`,
      how: "derived",
    }),
  ];
}

/** A pocket in one bend, against a drum about its centre: the chord, and the corner's reach. */
function bendRows(): Row[] {
  const bent = (turn: number, drum: Solid): Scene =>
    sceneOf({
      W: 24,
      tape: "A0: 11 mm\nB0: 10 mm\nK0: 2 mm\nT: 0.10 mm\nwall: 0.10 mm\nF: 11.5 mm\nB1: 10.6 mm",
      route: `[{mark: start}, {line: 40 mm}, {arc: {radius: 30 mm, turn: ${turn} rad}}, {line: 40 mm}]`,
      place: "{mark: start, x: -40 mm, z: 0 mm, heading: 0 deg}",
      bodies: [drum],
    });
  const inside = bent(-1.4, { name: "drum", circle: [0, -30, 20], y: [0, 24] });
  // A peg outside a bend that turns up, half way round it, where corners of the bottom pass.
  const outwards = bent(1.4, {
    name: "peg",
    circle: [40 * Math.sin(0.7), 30 - 40 * Math.cos(0.7), 1],
    y: [0, 24],
  });
  return [
    row({
      id: "clear.pocket inside a bend of 30 mm",
      model: "clear.pocket-gap",
      // The chord of 11.2 mm stands 0.527301 mm within the bend; 30 - 0.527301 - 2 - 20.
      expected: 7.472699,
      got: gap(inside, "clear.pocket", "drum"),
      near: { printedTo: 1e-6 },
      unit: "mm",
      source: `${reviewNotes}, depth of the chord; ${pocketProgram}`,
      how: "derived",
    }),
    row({
      id: "clear.pocket outside a bend of 30 mm",
      model: "clear.pocket-gap",
      // Outermost hypot(sqrt(30^2 - 5.6^2) + 2, 5.6) = 31.9670; 40 - 1 - that.
      expected: 39 - Math.hypot(Math.sqrt(900 - 5.6 ** 2) + 2, 5.6),
      got: gap(outwards, "clear.pocket", "peg"),
      near: { within: 1e-6 },
      unit: "mm",
      source: `${routeNotes}, section 2: outermost point hypot(c + drop, a)`,
      how: "derived",
    }),
    row({
      id: "clear.pocket outside a bend of 30 mm, stepped",
      model: "clear.pocket-gap",
      expected: 39 - 31.967,
      got: gap(outwards, "clear.pocket", "peg"),
      near: { within: 1e-3 },
      unit: "mm",
      source: `${clearanceProgram}: ${stepped}`,
      how: "derived",
    }),
  ];
}

/** A film that crosses beside a 12 mm tape, by a program that lays it down as a grid of points. */
function filmRows(): Row[] {
  const scene = sceneOf({
    W: 12,
    tape: "A0: 6 mm\nB0: 5.2 mm\nK0: 2.1 mm\nT: 0.30 mm\nwall: 0.30 mm\nF: 5.5 mm\nB1: 5.8 mm\nfilm: {width: 9.5 mm}",
    route: "[{line: 160 mm}, {mark: peel}, {line: 40 mm}, {mark: pick}, {line: 40 mm}]",
    place: "{mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}",
    film: [
      "{opens: whole width, peel: {at: peel, edge radius: 1 mm}, guides: [",
      "{name: back edge, through: [-47 mm, 7.25 mm, 3 mm], along: [0, 1, 0], radius: 1.5 mm},",
      "{name: shoulder, through: [-95 mm, 14.2 mm, -2 mm], along: [0, 0, -1], radius: 2 mm},",
      "{name: nip, through: [-145 mm, 7.25 mm, -14 mm], along: [0, 1, 0], radius: 5 mm}]}",
    ].join(" "),
    nip: "{rollers: {radius: 5 mm, grip: whole film, material: [POM]}}",
    bodies: [
      { name: "box", box: [-80, -9, -60, 9], y: [16, 20] },
      { name: "bar", box: [-120, 4, -100, 9], y: [0, 12] },
    ],
  });
  const say = (id: string, model: string, expected: number, got: number, within: number) =>
    row({
      id,
      model,
      expected,
      got,
      near: { within },
      unit: "mm",
      source: `${clearanceProgram}: the film as a grid of 4001 by 241 points, 0.25 mm taken off for half the room it flutters in; what its grid leaves out`,
      how: "derived",
    });
  return [
    say("clear.film to a box beside it", "clear.film-gap", 2.485 - 0.25, gap(scene, "clear.film", "box"), 0.005),
    say("clear.film to a bar over it", "clear.film-gap", 3.004 - 0.25, gap(scene, "clear.film", "bar"), 0.005),
    say(
      "clear.film over the tape's edge",
      "clear.film-tape-gap",
      -1.158 - 0.25,
      gap(scene, "clear.film", "tape"),
      0.01,
    ),
    say(
      "clear.film from the pockets",
      "clear.film-pocket-gap",
      0.533 - 0.25,
      gap(scene, "clear.film", "pocket"),
      0.005,
    ),
    say("clear.film, worst pair", "clear.film-room", -1.158 - 0.25, room(scene, "clear.film"), 0.01),
    row({
      id: "entry.leader of the crossing",
      model: "film.threading",
      // Spans hypot(7, 2.7), hypot(48, 6.95, 5), hypot(50, 6.95, 12); rollers of 5 mm.
      expected: Math.hypot(7, 2.7) + Math.hypot(48, 6.95, 5) + Math.hypot(50, 6.95, 12) + 10,
      got: number(scene, threading) / mm,
      near: { within: 1e-6 },
      unit: "mm",
      source: "Three straight spans and the diameter of a roller, by hand",
      how: "derived",
    }),
  ];
}

/** Bodies at rest and lifting, by hand and in steps. */
function bodyRows(): Row[] {
  const scene = sceneOf({
    W: 12,
    tape: "A0: 6 mm\nB0: 5.2 mm\nK0: 2.1 mm\nT: 0.30 mm\nwall: 0.30 mm\nF: 5.5 mm",
    route: "[{line: 60 mm}, {mark: pick}, {line: 40 mm}]",
    place: "{mark: pick, x: 300 mm, z: 0 mm, heading: 0 deg}",
    nip: "{lifts: {by: 3 deg, about: [-14 mm, 2 mm]}}",
    bodies: [
      { name: "upper", circle: [0, 6, 6], y: [0, 12], more: ", part: nip, lifts: true" },
      { name: "bridge", box: [-14, 12.5, 8, 16], y: [0, 12], more: ", part: carrier" },
      { name: "plate", box: [11, 20, 30, 24], y: [16, 20] },
    ],
  });
  const say = (id: string, model: string, expected: number, got: number, source: string) =>
    row({ id, model, expected, got, near: { within: 1e-5 }, unit: "mm", source, how: "derived" });
  return [
    say(
      "clear.bodies under a bridge",
      "clear.bodies-gap",
      0.5,
      gap(scene, "clear.bodies", "bridge"),
      "12.5 - 12 mm, by hand",
    ),
    say(
      "clear.bodies past three edges",
      "clear.bodies-gap",
      Math.hypot(3, 4, 4),
      gap(scene, "clear.bodies", "plate", "bridge"),
      "Edges 3 mm along, 4 mm up, 4 mm across apart, by hand",
    ),
    say(
      "clear.bodies, worst pair",
      "clear.bodies-room",
      0.5,
      room(scene, "clear.bodies"),
      "Least of three pairs, no gap wanted",
    ),
    say(
      "clear.lifting by 3 degrees",
      "clear.lifting-gap",
      -0.22722,
      gap(scene, "clear.lifting", "bridge"),
      `${clearanceProgram}: turned in ten thousand steps`,
    ),
    say(
      "clear.lifting, worst pair",
      "clear.lifting-room",
      0.5 - (14 * Math.sin(Math.PI / 60) - 4 * (1 - Math.cos(Math.PI / 60))),
      room(scene, "clear.lifting"),
      "0.5 mm less 14 sin a - 4 (1 - cos a), by hand",
    ),
  ];
}

const standard = "Embossed carrier tape, 8 to 24 mm, EIA-481-D, p. 13: E1, F, B1 (read)";
/** Near side of the widest pocket a standard allows. */
const discRows = (): Row[] => [
  ...(
    [
      [8, 3.5, 4.35, 3.08],
      [12, 5.5, 8.2, 3.15],
      [16, 7.5, 12.1, 3.2],
      [24, 11.5, 20.1, 3.2],
    ] as const
  ).map(([W, F, B1, expected]) =>
    row({
      id: `tooth.disc on ${W} mm tape`,
      model: "tape.pocket-side",
      expected,
      got: pocketSide.value({ E_1: 1.75, F, B_1: B1 }),
      near: { printedTo: 0.01 },
      unit: "mm",
      source: `${routeNotes}, section 2: far face of the disc below this; ${standard}`,
      how: "derived",
    }),
  ),
  row({
    id: "tooth.disc with its gap",
    model: "sprocket.disc-reach",
    expected: 2.55,
    got: discReach.value({ d: 2.25, g_w: 0.3 }),
    near: { within: 1e-12 },
    unit: "mm",
    source: "Disc to 2.25 mm, 0.30 mm wanted, by hand",
    how: "derived",
  }),
];

/** What the example's two units ask of the machine: the price of an overhead return in head room. By hand from their files. */
function mountRows(): Row[] {
  const all = exampleScenes();
  const of = (unit: string, tape: string): Scene => all.find((one) => one.unit === unit && one.tape === tape)!.scene;
  const say = (id: string, model: string, expected: number, got: number, source: string, unit = "mm") =>
    row({
      id,
      model,
      expected,
      got,
      near: { within: 1e-6 },
      unit,
      source: `Files of the bundled example: ${source}, by hand`,
      how: "derived",
    });
  const [beside, over] = [of("plover", "so8-12"), of("dunlin", "so8-12")];
  return [
    say(
      "mount.width of a side crossing, 12 mm",
      "mount.width",
      23.8,
      number(beside, mountWidth) / mm,
      "board at -4.6, shoulder 1.25 * 12 + 2.2 + 2 mm",
    ),
    say(
      "mount.slots of a side crossing, 12 mm",
      "mount.slots-taken",
      2,
      number(beside, slotsTaken),
      "24.4 mm over 16",
      "1",
    ),
    say(
      "mount.slots of a side crossing, 24 mm",
      "mount.slots-taken",
      3,
      number(of("plover", "carrier-24"), slotsTaken),
      "38.8 + 0.6 mm over 16",
      "1",
    ),
    say(
      "mount.height of a side crossing, 12 mm",
      "mount.height-over-tape",
      5.6745,
      number(beside, mountHeight) / mm,
      "film of 9.349 mm on edge at the shoulder, its middle at 1 mm",
    ),
    say(
      "mount.width of an overhead return, 12 mm",
      "mount.width",
      15.2,
      number(over, mountWidth) / mm,
      "wall at -2.6, bridge to 12 + 0.6 mm",
    ),
    say(
      "mount.slots of an overhead return, 12 mm",
      "mount.slots-taken",
      1,
      number(over, slotsTaken),
      "15.8 mm over 16",
      "1",
    ),
    say(
      "mount.slots of an overhead return, 24 mm",
      "mount.slots-taken",
      2,
      number(of("dunlin", "carrier-24"), slotsTaken),
      "27.2 + 0.6 mm over 16",
      "1",
    ),
    say(
      "mount.height of an overhead return, 12 mm",
      "mount.height-over-tape",
      30.4,
      number(over, mountHeight) / mm,
      "nip line at 12.4, motor 18 mm over it",
    ),
  ];
}

/** Clearances, mount and leader. */
export const clearanceRows = (): Row[] => [
  ...laneRows(),
  ...bendRows(),
  ...filmRows(),
  ...bodyRows(),
  ...discRows(),
  ...mountRows(),
];
