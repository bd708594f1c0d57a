import { tapeKinds } from "../tape/tape.ts";
import { driveFields } from "./drive-fields.ts";
import {
  type DataOf,
  either,
  group,
  list,
  map,
  oneMemberOf,
  oneOrList,
  optional,
  quantity,
  text,
  tuple,
  word,
} from "./field.ts";
import { gearPairFields } from "./gear-fields.ts";
import { exit, holdDown, opening, reelHolder } from "./hold-down-fields.ts";
import { indexFields } from "./index-fields.ts";
import { joints, shaft } from "./joint-fields.ts";
import { sprocketFields } from "./sprocket-fields.ts";
import { boardSupplyFields } from "./supply-fields.ts";

const xz = (means: string) =>
  tuple(means, quantity("mm", "x, along the travel"), quantity("mm", "z, towards the cover film"));
const band = (means: string) => tuple(means, quantity("mm", "from y"), quantity("mm", "to y"));
const prism = {
  name: text("what it is"),
  part: optional(word("the part it belongs to; bodies of one part are not checked against each other")),
  box: optional(
    tuple(
      "outline in x-z: from x, from z, to x, to z",
      quantity("mm", "from x"),
      quantity("mm", "from z"),
      quantity("mm", "to x"),
      quantity("mm", "to z"),
    ),
  ),
  circle: optional(
    tuple(
      "outline in x-z: centre x, centre z, radius",
      quantity("mm", "centre x"),
      quantity("mm", "centre z"),
      quantity("mm", "radius"),
    ),
  ),
  polygon: optional(list(xz("corner"), "outline in x-z, corner by corner")),
  y: band("the part of y it fills"),
  turns: optional(word("true for a body that turns about its circle", "true", "false")),
  lifts: optional(word("true for a body that lifts with the nip", "true", "false")),
};

/** One unit file: a family of feeder units over the tape's width. */
export const unitFields = group("a unit: one feeder design, a family over the tape's width", {
  format: word("version of this notation", "1"),
  unit: text("name of the unit"),
  revision: optional(word("revision of the drawing")),
  note: optional(text("anything worth knowing, in words")),
  serves: group("the tapes this family is meant for", {
    kind: oneOrList(word("kind of carrier tape", ...tapeKinds), "kinds of carrier tape"),
    W: list(word("nominal width of the tape in mm, as the standard names it"), "widths it is made in"),
  }),
  tape: group("how the tape runs through the unit", {
    "rests on": word("which face the frame fixes", "underside", "cover side", "floors"),
    route: list(
      oneMemberOf("one piece of the route, in the order of travel", {
        line: quantity("mm", "a straight piece of this length", { least: 0.01, most: 2000, lever: [1, 400] }),
        arc: group("a bend of the tape's underside", {
          radius: quantity("mm", "radius at the underside", {
            least: 1,
            most: 2000,
            lever: [5, 200],
            example: "R + 5 mm",
          }),
          turn: quantity("deg", "angle turned; + turns up", { least: -270, most: 270 }),
        }),
        mark: word("a named place: peel, pick, or your own"),
      }),
      "the route of the tape's underside, in the order of travel",
    ),
    place: group("which mark lies where in the side view", {
      mark: word("the mark that is placed"),
      x: quantity("mm", "its x"),
      z: quantity("mm", "its z"),
      heading: quantity("deg", "direction of travel there, + upwards"),
    }),
    section: group("the channel across the tape", {
      width: quantity("mm", "clear width of the channel", {
        least: 1,
        most: 260,
        lever: [3, 220],
        example: "W + 0.45 ±0.10 mm",
      }),
      "guided length": optional(
        quantity("mm", "length over which the side walls stand at that width; without it the whole route", {
          least: 1,
          most: 2000,
          lever: [5, 400],
        }),
      ),
      ledge: group("what carries the tape beside the groove", {
        near: quantity("mm", "width carried at the sprocket side"),
        far: quantity("mm", "width carried at the far side"),
      }),
      groove: group("the groove under the pockets", {
        depth: quantity("mm", "depth below the ledges", { least: 0, most: 100, lever: [0, 60] }),
        margin: quantity("mm", "room beside the pocket on each side", { lever: [0, 5] }),
      }),
      lips: group("what holds the tape down at its edges", {
        near: quantity("mm", "reach over the sprocket side"),
        far: quantity("mm", "reach over the far side"),
        gap: quantity("mm", "height between ledge and lip", {
          least: 0.05,
          most: 10,
          lever: [0.1, 5],
          example: "T + 0.35 ±0.10 mm",
        }),
      }),
    }),
    opening: optional(opening),
    exit: optional(exit),
  }),
  reel: optional(reelHolder),
  film: group("how the cover film is opened and led away", {
    opens: word("how the film is opened", "whole width", "one seal", "middle cut", "one side"),
    peel: optional(
      group("the peel line", {
        at: quantity("mm", "where along the tape", { marks: "route", example: "peel" }),
        "edge radius": quantity("mm", "radius of the edge the film folds over", {
          least: 0.01,
          most: 20,
          lever: [0.1, 5],
        }),
      }),
    ),
    guides: optional(
      list(
        group("a line in space that the film passes", {
          name: text("what it is; the one called nip ends the path that pulls"),
          through: tuple("a point of the line", quantity("mm", "x"), quantity("mm", "y"), quantity("mm", "z")),
          along: tuple(
            "direction of the line: the film's width lies along it, pointing to its edge farther from the sprocket holes",
            quantity("", "along x", { example: "0" }),
            quantity("", "along y", { example: "1" }),
            quantity("", "along z", { example: "0" }),
          ),
          radius: quantity("mm", "radius of the bar or roller", { least: 0.01, most: 100, lever: [0.3, 20] }),
          kind: optional(word("a fixed bar rubs, a roller turns with the film", "bar", "roller")),
        }),
        "what the film passes on its way to the nip, in order",
      ),
    ),
    friction: optional(
      quantity("", "friction of the film on bars and edge", { least: 0, most: 3, example: "0.18..0.35 guess" }),
    ),
    material: optional(
      word("what the bars and the peel edge are made of; a tape file may give the film's friction on it"),
    ),
    "out of square": optional(
      quantity("mrad", "how far out of square each guide stands to the film", {
        least: 0,
        most: 200,
        lever: [0.2, 20],
        example: "1.5..6 mrad guess",
      }),
    ),
    front: optional(word("whether the peel front can swing in the plane of the film", "free", "clamped")),
    opener: optional(
      group("a tool that opens the film in place of a peel edge", {
        kind: word("what it is", "rake", "blade"),
        at: quantity("mm", "where along the tape", { marks: "route", example: "peel" }),
        y: either("where across the tape", band("from y, to y"), quantity("mm", "y")),
        "lead angle": optional(quantity("deg", "angle of its leading edge")),
        "tip above tape": optional(quantity("mm", "height of its tip above the tape")),
        rise: optional(text("how it rises, in words")),
        "depth below film": optional(quantity("mm", "how far the blade reaches below the film")),
        "part height limit": optional(quantity("mm", "highest part that stays clear of it")),
      }),
    ),
    hinge: optional(group("the seal that stays", { y: quantity("mm", "line about which the film swings") })),
    swing: optional(
      group("the sector the film swings through", { from: quantity("deg", "from"), to: quantity("deg", "to") }),
    ),
    spread: optional(
      group("what folds the slit film outward", {
        kind: word("what it is", "wedge"),
        "half angle": quantity("deg", "half its angle"),
        width: quantity("mm", "its width"),
        at: quantity("mm", "where along the tape", { marks: "route" }),
      }),
    ),
  }),
  sprocket: optional(sprocketFields),
  "hold-down": optional(holdDown),
  nip: optional(
    group("the pair of rollers that pulls the film", {
      rollers: optional(
        group("the rollers", {
          radius: oneOrList(
            quantity("mm", "radius", { least: 0.5, most: 100, lever: [1.5, 20] }),
            "radius; two where they differ, lower first",
          ),
          grip: either(
            "how much of the film's width is gripped, about its middle",
            word("the whole width", "whole film"),
            quantity("mm", "width of the band", { lever: [1, 200], example: "b/3" }),
          ),
          material: oneOrList(word("what a roller's face is made of"), "face materials, lower roller first"),
          shaft: optional(shaft),
          "line stiffness": optional(
            quantity("N/mm^2", "force per length of nip and per length of approach, of a soft face", {
              least: 0.01,
              most: 5000,
              example: "1..20 N/mm^2 guess",
            }),
          ),
          parallelism: optional(
            quantity("mrad", "how far out of parallel the rollers stand before they are pressed", {
              least: 0,
              most: 200,
              lever: [0.5, 20],
              example: "3..10 mrad guess",
            }),
          ),
          "carrier torsion": optional(
            quantity("N*m", "torque per radian to turn the sprung carrier out of parallel", {
              least: 0.001,
              most: 10000,
              example: "0.3 N*m",
            }),
          ),
        }),
      ),
      axis: optional(xz("where the film passes between the rollers")),
      preload: optional(
        quantity("N", "force between the rollers", {
          least: 0,
          most: 500,
          lever: [0.5, 30],
          settable: true,
          example: "6.0 ±1.0 N",
        }),
      ),
      friction: optional(
        oneOrList(
          quantity("", "friction of the film on a roller", { least: 0, most: 3, example: "0.5..1.0 guess" }),
          "friction on each roller, lower first",
        ),
      ),
      interference: optional(quantity("mm", "how far the spring is pressed when the nip closes", { lever: [0.05, 5] })),
      spring: optional(
        group("what presses the rollers together", {
          kind: word("kind of spring", "coil", "flexure hinge"),
          rate: optional(quantity("N/mm", "rate", { lever: [0.1, 20] })),
          length: optional(quantity("mm", "length of the hinge")),
          thickness: optional(quantity("mm", "thickness of the hinge", { lever: [0.3, 5] })),
          width: optional(quantity("mm", "width of the hinge")),
          material: optional(word("what it is made of")),
        }),
      ),
      slip: optional(
        group("what slips when the film is taut", {
          kind: word("kind", "clutch"),
          torque: quantity("N*mm", "torque at which it slips, at the driven roller", {
            lever: [1, 300],
            settable: true,
          }),
        }),
      ),
      gears: optional(gearPairFields),
      overspeed: optional(
        quantity("", "surface speed of the rollers over the mean speed of the tape", {
          least: 0.1,
          most: 10,
          lever: [1, 2],
          example: "1.25",
        }),
      ),
      lifts: optional(
        group("how the upper roller moves when the nip gives way", {
          by: quantity("deg", "angle"),
          about: xz("pivot"),
        }),
      ),
      relief: optional(
        group("a relief turned into the roller", {
          width: quantity("mm", "width"),
          depth: quantity("mm", "depth"),
          at: quantity("mm", "y of its middle"),
        }),
      ),
      stripper: optional(
        group("a finger that lifts the film off", {
          thickness: quantity("mm", "thickness"),
          "past nip": quantity("mm", "distance past the nip line"),
        }),
      ),
    }),
  ),
  "peel drive": optional(driveFields),
  "feed drive": optional(driveFields),
  index: optional(indexFields),
  supply: optional(boardSupplyFields),
  bodies: optional(
    list(group("a body: an outline in x-z over a part of y", prism), "what else stands near tape and film"),
  ),
  "keep out": optional(
    list(group("room that belongs to something else", prism), "the machine's rail, the pick tool and the like"),
  ),
  clearances: optional(
    map(
      quantity("mm", "wanted gap", { least: 0, example: "0.30 mm" }),
      'wanted gaps: "default", or a pair as "tape pocket / board"',
    ),
  ),
  "meant to touch": optional(list(text("a pair such as film / nip"), "pairs that are meant to touch")),
  mount: optional(
    group("how the unit sits on the machine", {
      "slot pitch": quantity("mm", "pitch of the machine's slots", { least: 1 }),
      "side allowance": optional(quantity("mm", "room between neighbours")),
      slots: optional(
        quantity("", "an assertion: slots it takes, checked against the computed number", { example: "1" }),
      ),
      height: optional(quantity("mm", "an assertion: height over the tape, checked against the computed number")),
      datum: optional(quantity("mm", "x of the place at which the machine locates the unit", { example: "-60 mm" })),
    }),
  ),
  joints: optional(joints),
  make: optional(
    map(
      group("a part that is made", {
        process: word("how it is made"),
        material: word("of what"),
        hole: optional(quantity("mm", "how holes come out against the drawing")),
        outside: optional(quantity("mm", "how outsides come out against the drawing")),
        mass: quantity("g", "mass of material"),
        time: quantity("h", "time on the machine"),
      }),
      "parts that are made",
    ),
  ),
  buy: optional(
    list(
      group("a part that is bought", {
        part: text("what"),
        n: quantity("", "how many", { example: "2" }),
        each: quantity("", "price of one, in the project's currency", { example: "2.60" }),
        lead: optional(quantity("d", "lead time", { example: "21 d" })),
        sources: optional(quantity("", "number of sources", { example: "2" })),
      }),
      "parts that are bought",
    ),
  ),
  labour: optional(
    group("labour of one unit", {
      assembly: quantity("min", "time to assemble", { example: "16 min" }),
      calibration: quantity("min", "time to calibrate", { example: "4 min" }),
      rate: quantity("1/h", "cost of an hour", { example: "28 /h" }),
    }),
  ),
  rates: optional(
    map(
      quantity("any", "cost of a material by mass, of a machine by time", { example: "0.022 /g" }),
      "rates, in the project's currency",
    ),
  ),
  cautions: optional(list(text("a hazard of this unit"), "hazards of this unit, shown on its sheets")),
});
export type UnitData = DataOf<typeof unitFields>;

/** Letters that `built for` may give, and what they are. */
export const builtForLetters = {
  A0: quantity("mm", "pocket length along the travel", { least: 0.05, most: 200 }),
  B0: quantity("mm", "pocket width across the tape", { least: 0.05, most: 200 }),
  K0: quantity("mm", "pocket depth", { least: 0, most: 60 }),
  P1: quantity("mm", "pocket pitch", { least: 0.5, most: 200 }),
  T: quantity("mm", "thickness of the carrier", { least: 0.05, most: 2, example: "0.30 mm" }),
  T1: quantity("mm", "thickness of the cover film", { least: 0.005, most: 0.5, example: "0.06 mm" }),
  T2: quantity("mm", "height from the underside of the pocket to the top of the film", { least: 0.05, most: 60 }),
  B1: quantity("mm", "outside width of the embossed pocket", { least: 0.05, most: 200 }),
  b: quantity("mm", "width of the cover film", { least: 0.5, most: 220 }),
  w_t: quantity("mm", "width of one seal track", { least: 0.05, most: 10 }),
} as const;
export type BuiltForLetter = keyof typeof builtForLetters;
