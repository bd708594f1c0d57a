import {
  type Check,
  Deviates,
  forceSwing,
  leafRate,
  leafStroke,
  type Requirement,
  type Scene,
  showIn,
  shownUnit,
  showValue,
} from "@tapeworthy/core";
import { type Drawing, themeOfDrawing, toSvg } from "@tapeworthy/drawing";
import { type Curve, curveOf, middleOf } from "./curve.ts";
import { givenOf, type Invented, type Wall } from "./wall.ts";
import { wallDrawing } from "./wall-drawing.ts";

const along = (c: Curve, at: number | undefined, count = 2): string =>
  at === undefined ? "nowhere" : showIn(c.along.shownIn, at, count);
/** The value, a bound, at a place: as the page says it. */
const value = (c: Curve, at: number): string => showValue(c.value, c.at(at).value.middle);
const least = (c: Curve, at: number): string => showIn(shownUnit(c.least!), c.at(at).least!.middle);
const most = (c: Curve, at: number): string => showIn(shownUnit(c.most!), c.at(at).most!.middle);
const mm = 1e-3;
const degree = Math.PI / 180;
/** Growth from one place to another, as "5.2 times". */
const times = (c: Curve, from: number, to: number): string =>
  `${(c.at(to).value.middle / c.at(from).value.middle).toPrecision(2)} times`;

/** The walls that the tool knows, in the order in which the tape meets them. */
export function walls(invented: Invented): Wall[] {
  const {
    sideCrossing,
    heldByLeaf,
    heldByRib,
    withBends,
    withGears,
    embossedTape,
    halfPitchTape,
    requirement,
    driven,
  } = invented;
  const crossing: Scene = { unit: sideCrossing(24), tape: embossedTape(24, "heat activated"), requirement };
  const narrow: Scene = { unit: sideCrossing(12), tape: embossedTape(12, "heat activated"), requirement };
  const leaf: Scene = { unit: heldByLeaf(12), tape: embossedTape(12, "heat activated"), requirement };
  const rib: Scene = { unit: heldByRib(24), tape: embossedTape(24, "heat activated"), requirement };
  const filmOn = (row: number): number => filmOf({ unit: sideCrossing(row), tape: embossedTape(row), requirement });
  const bent: Scene = { unit: withBends(16), tape: embossedTape(16), requirement };
  const bend = givenOf(bent.unit.tape.route.find((piece) => piece.arc)?.arc?.radius, "the bend's radius");
  const leastBend = middleOf(givenOf(bent.unit.letters.R, "the catalogue's bend radius"), bent);
  const round: Scene = { unit: withGears(8), tape: halfPitchTape(), requirement };
  const sheet = driven.sheetScene();
  const everyOneStarts: Scene = { ...sheet, requirement: allTogether(sheet.requirement) };
  const shortWalls = givenOf(crossing.unit.tape.section["guided length"], "the guided length");
  const lead = givenOf(sheet.unit["feed drive"]?.worm?.["lead angle"], "the lead angle");
  const rail = sheet.requirement.supply!;
  const onFiveVolts = [{ given: givenOf(rail.volts, "the rail's volts"), to: 5 }];
  const thinCopper = [
    { given: givenOf(rail.bar!.area, "the rail's copper"), to: 1.5 * mm * mm },
    { given: givenOf(rail.cable!.area, "the cable's copper"), to: 1.5 * mm * mm },
  ];
  return [
    {
      name: "reel-jerks",
      title: "The reel that jerks",
      shownOn: "side crossing for 24 mm tape; the drag of its reel is a guess",
      pictures: [
        {
          curve: {
            scene: crossing,
            checks: ["reel.jerks"],
            along: givenOf(crossing.tape.reel.diameter, "the reel's diameter"),
            from: 120 * mm,
            to: 480 * mm,
          },
          along: "diameter of the reel",
          value: "Drag of the full reel at the tape",
          bottom: 0,
          top: 0.8,
        },
      ],
      words: ([c]) => ({
        happens: `When the loop before the unit is used up, the tape snatches the standing reel; when the reel runs, it runs on. A light reel forgives both. A full reel of ${along(c!, 180 * mm)} wants at least ${least(c!, 180 * mm)} of drag and bears ${most(c!, 180 * mm)}; at ${along(c!, 330 * mm)} the window is ${least(c!, 330 * mm)} to ${most(c!, 330 * mm)}, and it closes on the drag of ${value(c!, 330 * mm)} at ${along(c!, c!.turns.at(-1))}.`,
        moves: `A reel's mass grows with the square of its diameter and with the width of the tape, so a brake that was right on a small reel says nothing of a large one. A driven loop, more room for it, or a slower run-up move the wall.`,
      }),
      see: ["reel.jerks", "hole.bears"],
    },
    {
      name: "pockets-meet",
      title: "The bend in which pockets meet",
      shownOn: "route with bends for 16 mm tape, its bend at the least radius of the tape's standard",
      pictures: [
        {
          curve: {
            scene: bent,
            checks: ["entry.pockets"],
            along: givenOf(bent.tape.letters.K0, "the pocket's depth"),
            from: 0.5 * mm,
            to: 6 * mm,
            set: [{ given: bend, to: leastBend }],
          },
          along: "depth of the pocket",
          value: "Gap between neighbouring pockets inside the bend",
        },
      ],
      words: ([c]) => ({
        happens: `The standard's bend, ${along(c!, leastBend)} for this tape, asks what the carrier bears and not what hangs under it. Inside a bend the pockets' floors come together, the more the deeper they hang: ${value(c!, 1 * mm)} are left between pockets ${along(c!, 1 * mm)} deep, ${value(c!, 3 * mm)} at ${along(c!, 3 * mm)}, nothing from ${along(c!, c!.turns[0])} on. Then the tape stiffens, lifts off its bed and scrapes.`,
        moves:
          "Small parts leave so much room that a bend is forgotten, and the first deep pocket at a close pitch meets it. A larger radius moves the wall in proportion, a bend with the pockets outside takes it away; pockets whose floors give soften it.",
      }),
      see: ["entry.pockets", "entry.bend"],
    },
    {
      name: "yaw",
      title: "The tape that jams askew",
      shownOn: "side crossing, its side walls cut down to 30 mm",
      pictures: [
        {
          curve: {
            scene: crossing,
            checks: ["tape.yaw"],
            along: givenOf(crossing.tape.letters.W, "the tape's width"),
            from: 8 * mm,
            to: 200 * mm,
            set: [{ given: shortWalls, to: 30 * mm }],
          },
          along: "width of the tape",
          value: "Guided length upstream of the wheel",
        },
      ],
      words: ([c]) => ({
        happens: `The wheel pulls at one edge while the drag sits in the middle, so the tape turns in its channel like a drawer pulled at one corner. Tape ${along(c!, 12 * mm)} wide jams between walls shorter than ${least(c!, 12 * mm)}, which nobody builds; tape ${along(c!, 72 * mm)} wide already between walls shorter than ${least(c!, 72 * mm)}. Walls of ${value(c!, 72 * mm)} are too short from a width of ${along(c!, c!.turns[0])} on.`,
        moves:
          "The length at which it jams grows with the width, while what a designer scales is the channel's width and seldom its length. Longer walls, a spring to one datum edge, or a second wheel at the far edge move it; so do slippery walls, whose friction is a guess until measured.",
      }),
      see: ["tape.yaw"],
    },
    {
      name: "hold-down",
      title: "The tape that bows off its wheel",
      shownOn: "side crossing for 12 mm tape, held by a leaf of spring steel",
      pictures: [
        {
          curve: {
            scene: leaf,
            checks: ["hold.down"],
            along: givenOf(leaf.tape.letters.T, "the carrier's thickness"),
            from: 0.15 * mm,
            to: 0.8 * mm,
          },
          along: "thickness of the carrier",
          value: "Force of the leaf on the tape",
          top: 3,
        },
        {
          curve: {
            scene: leaf,
            checks: ["hold.bow"],
            along: givenOf(holdDownOpening(leaf), "the leaf's window"),
            from: 5 * mm,
            to: 150 * mm,
          },
          along: "length of the window in the leaf",
          value: "Height of the tape over its ledges beside the leaf",
        },
      ],
      words: ([force, bow]) => ({
        happens: `Tape keeps the curve of its reel and wants to stand off a flat bed. What presses it flat works against its stiffness, which grows with up to the cube of the thickness: it takes ${least(force!, 0.25 * mm)} on a carrier of ${along(force!, 0.25 * mm)}, ${least(force!, 0.5 * mm)} on one of ${along(force!, 0.5 * mm)}. ${turnWords(force!, (at) => `From ${at} on the leaf's ${value(force!, 0.25 * mm)} are not enough.`, `The leaf gives ${value(force!, 0.25 * mm)}, enough for all that is drawn.`)} Between the places where it is pressed it rises with the square of the distance, whatever it is made of: by ${value(bow!, 20 * mm)} in a window of ${along(bow!, 20 * mm)}, by ${value(bow!, 40 * mm)} in one of ${along(bow!, 40 * mm)}${bow!.turns.length > 0 ? `, and beyond ${along(bow!, bow!.turns[0])} by more than the teeth reach` : `, until the lips over the tape's edges stop it at ${value(bow!, 150 * mm)}, here before it leaves its teeth`}.`,
        moves:
          "A hold-down that was right for thin tape from a large hub is too weak for thick tape from a small one, and a longer window undoes a stronger leaf. A second press line, a larger hub, lips over the edges and a shorter window move it.",
      }),
      see: ["hold.down", "hold.bow"],
    },
    {
      name: "leaf",
      title: "The leaf that is too stiff, or takes a set",
      shownOn: "side crossing for 12 mm tape, held by a leaf of spring steel",
      pictures: [
        {
          curve: {
            scene: leaf,
            checks: ["leaf.stress"],
            along: givenOf(leafThickness(leaf), "the leaf's thickness"),
            from: 0.07 * mm,
            to: 0.35 * mm,
            draws: 20,
            also: [leafRate, leafStroke, forceSwing],
          },
          along: "thickness of the leaf",
          value: "Greatest stress of the leaf while a splice passes",
        },
      ],
      words: ([c]) => ({
        happens: `The same preload can come from a thin leaf bent far or from a thick one bent little, and each has its own way to fail. Thin: the strain is too great and the leaf keeps a set; ${value(c!, 0.1 * mm)} at ${along(c!, 0.1 * mm)}, where the strip bears ${most(c!, 0.1 * mm)}; from ${along(c!, c!.turns.at(-1))} on it springs back. Thick: the leaf hardly moves, so the height at which it is screwed down decides its force: ${stiffWords(c!, 0.15 * mm)}; ${stiffWords(c!, 0.3 * mm)}.`,
        moves: `At one stroke force goes with the cube of the thickness, and the tolerance of strip of ${along(c!, 0.15 * mm)} alone changes it by ${showIn("%", c!.at(0.15 * mm).also[2]!)}: a leaf copied in another strip or another room is another spring. A wider or a shorter leaf bears less stress at the same force and pays in stiffness; a lower preload, strip of a closer class, or force set by hand and not by height move the wall.`,
      }),
      see: ["leaf.stress", "hold.drag", "leaf.fatigue"],
    },
    {
      name: "film-sideways",
      title: "The film led sideways",
      shownOn: "side crossing for 24 mm tape: a quarter turn over a span that stays as long as it is",
      pictures: [
        {
          curve: {
            scene: crossing,
            checks: ["film.mismatch"],
            along: givenOf(crossing.tape.film.width, "the film's width"),
            from: 3 * mm,
            to: 26 * mm,
          },
          along: "width of the cover film",
          value: "Chord mismatch of the worst span",
          marks: [8, 12, 16, 24].map((row) => ({
            at: filmOn(row),
            name: `${row} mm tape`,
          })),
        },
      ],
      words: ([c]) => ({
        happens: `Turned on its side, a film's edges have farther to go than its middle. What cannot be skewed away grows with the square of the width: the film of ${along(c!, filmOn(8))} from 8 mm tape differs by ${value(c!, filmOn(8))}, that of 24 mm tape by ${value(c!, filmOn(24))}, ${times(c!, filmOn(8), filmOn(24))} as much. Film bears about ${most(c!, 10 * mm)} before it is pressed into folds; that is passed at ${along(c!, c!.turns[0])}.`,
        moves:
          "A path that runs faultlessly on narrow tape and stops on wide tape has no fault that cleaning or another spring would cure: it has met this wall. A longer span moves it with the square of the length, several smaller turns move it further, and a film that folds straight back never meets it.",
      }),
      see: ["film.mismatch", "film.steer", "film.straight"],
    },
    {
      name: "one-thickness",
      title: "The wheel made for one thickness",
      shownOn: "8 mm tape wrapped round an involute wheel; half a turn of wrap",
      pictures: [
        {
          curve: {
            scene: round,
            checks: ["tooth.wrap"],
            along: givenOf(round.tape.letters.T, "the carrier's thickness"),
            from: 0.1 * mm,
            to: 0.8 * mm,
            set: [{ given: givenOf(round.unit.sprocket!.wrap, "the wrap"), to: Math.PI }],
          },
          along: "thickness of the carrier",
          value: "Play of the tape where it lies round the wheel",
        },
      ],
      words: ([c]) => ({
        happens: `Round a wheel the holes are as far apart as the tape's neutral line makes them, and that lies deeper in thick tape. Every hole of the wrap adds a little, so play is used up: over half a turn ${value(c!, 0.2 * mm)} are left at ${along(c!, 0.2 * mm)}, ${value(c!, 0.3 * mm)} at ${along(c!, 0.3 * mm)}, none at ${along(c!, c!.turns.at(-1))}. Beyond, the tape jams or climbs on a wheel that carries thinner tape without fail.`,
        moves:
          "A tape that runs flat past its wheel never meets it. A smaller angle of wrap, shorter teeth along the travel, or a body of the wheel turned down to suit the thicker tape move it; where the neutral line of pocketed tape lies is a guess until a wrap has been measured.",
      }),
      see: ["tooth.wrap", "tooth.enters"],
    },
    {
      name: "nip-window",
      title: "The nip that pulls and the nip that slips",
      shownOn: "side crossing for 12 mm tape, friction rollers of acetal on rubber",
      pictures: [
        {
          curve: {
            scene: narrow,
            checks: ["nip.pulls", "nip.slips"],
            along: givenOf(narrow.unit.nip!.preload, "the nip's preload"),
            from: 0,
            to: 12,
          },
          along: "preload of the nip",
          value: "Traction limit of the nip",
        },
      ],
      words: ([c]) => ({
        happens: `A nip that is always a little too fast must grip harder than the seal holds and let go before the film breaks. The film needs ${least(c!, 6)} and bears ${most(c!, 6)}, and the nip grips with ${value(c!, 6)} at a preload of ${along(c!, 6)}: it pulls from ${along(c!, c!.turns[0])} on and lets go in time up to ${along(c!, c!.turns[1])}. Friction, seal and break are guesses: of what may be believed of them, ${percent(shareNear(c!, 2))} passes at ${along(c!, 2)}, ${percent(shareNear(c!, 6))} at the drawn ${along(c!, 6)}.`,
        moves:
          "Seal and break scatter from reel to reel, so a preload found on one reel is a setting for that reel. A slip clutch, whose torque does not ask the film's friction, a wider film, or friction and seal measured on the bench move it: the window itself is as wide as seal and break are apart.",
      }),
      see: ["nip.pulls", "nip.slips", "film.pull"],
    },
    {
      name: "nip-even",
      title: "The nip that is not even",
      shownOn:
        "side crossing for 12 mm tape with a one-sided shaft of 4 mm under rubber; overhead return for 24 mm tape, hard rollers on a hinge",
      pictures: [
        {
          curve: {
            scene: leaf,
            checks: ["nip.even"],
            along: givenOf(leaf.unit.letters.b, "the film's width"),
            from: 4 * mm,
            to: 60 * mm,
            draws: 60,
          },
          along: "width of the film, soft nip",
          value: "Least line force over that at the root",
          bottom: 0,
        },
        {
          curve: {
            scene: rib,
            checks: ["nip.even"],
            along: givenOf(rib.unit.letters.b, "the film's width"),
            from: 4 * mm,
            to: 60 * mm,
          },
          along: "width of the film, hard nip",
          value: "Line force at the light end over that at the heavy one",
          bottom: 0,
        },
      ],
      words: ([soft, hard]) => ({
        happens: `A shaft carried at one side bends away from its partner, so the far end of a wide nip presses less. On rubber the least line force is ${value(soft!, 9.3 * mm)} of the greatest over a film of ${along(soft!, 9.3 * mm)}${soft!.turns.length > 0 ? ` and passes the wanted ${least(soft!, 10 * mm)} at ${along(soft!, soft!.turns[0])}` : `, and ${value(soft!, 40 * mm)} over ${along(soft!, 40 * mm)}`}; a shaft twice as long bends sixteen times as much. Between hard rollers nothing yields, what counts is how parallel they stand, and it is the narrow film that fares worse: ${value(hard!, 20 * mm)} at ${along(hard!, 20 * mm)} against ${value(hard!, 40 * mm)} at ${along(hard!, 40 * mm)}, for the wider nip has the longer arm to turn its sprung carrier square.`,
        moves:
          "An uneven nip walks the film and slips first where it is light. A shaft carried on both sides, a thicker one (stiffness goes with the fourth power), rubber that yields, and a carrier that may tip move the wall; more preload moves only the hard one.",
      }),
      see: ["nip.even", "joint.holds", "film.kern"],
    },
    {
      name: "worm",
      title: "The worm that holds but cannot move",
      shownOn: "side crossing for 12 mm tape with its motors, on a rail of 5 V",
      pictures: [
        {
          curve: {
            scene: sheet,
            checks: ["drive.holds"],
            along: lead,
            from: 0.5 * degree,
            to: 12 * degree,
            set: onFiveVolts,
          },
          along: "lead angle of the feed drive's worm",
          value: "Share of the torque that the worm passes on",
        },
        {
          curve: {
            scene: sheet,
            checks: ["drive.moves"],
            along: lead,
            from: 0.5 * degree,
            to: 12 * degree,
            set: onFiveVolts,
          },
          along: "lead angle of the feed drive's worm",
          value: "Torque of the weaker drive over what is asked",
        },
      ],
      words: ([holds, moves]) => ({
        happens: `A worm holds the standing tape because it is a bad gear, and it is a bad gear when it has to move. Cut flat, at ${along(holds!, 1 * degree)}, it passes on ${value(holds!, 1 * degree)} of its torque and locks for certain, but the drive has only ${value(moves!, 1 * degree)} times what is asked and moves from ${along(moves!, moves!.turns[0])} on. Cut steep, at ${along(holds!, 8 * degree)}, it passes on ${value(holds!, 8 * degree)}, more than the ${most(holds!, 8 * degree)} up to which a worm can be trusted to lock; it holds up to ${along(holds!, holds!.turns.at(-1))}. Both rest on one friction: a grease that cures one side pays on the other.`,
        moves:
          "Friction changes with grease, heat and the first thousand indexes, so a worm that locks on the bench may creep in summer, and one that moves there may stand at the end of a long rail. A stronger motor or a higher ratio behind the worm moves the moving side, a lead angle of 4 degrees and less the holding side; a brake takes the holding off the worm.",
      }),
      see: ["drive.holds", "drive.moves"],
    },
    {
      name: "rail",
      title: "The rail that dips",
      shownOn:
        "side crossing for 12 mm tape with its motors, on a rail of 0.7 m of 1.5 mm² copper whose units all start at once",
      pictures: [
        {
          curve: {
            scene: everyOneStarts,
            checks: ["supply.drop"],
            along: givenOf(everyOneStarts.requirement.supply!.units, "the number of units"),
            from: 1,
            to: 80,
            set: thinCopper,
          },
          along: "units on the rail",
          value: "Volts at the farthest unit",
          bottom: 5,
        },
      ],
      words: ([c]) => ({
        happens: `One unit on the bench has all the volts there are. On a rail every unit that starts takes its current through the same copper: ${value(c!, 1)} are left with 1 unit, ${value(c!, 20)} with ${count(20)}, ${value(c!, 40)} with ${count(40)}. ${turnWords(c!, (at) => `The unit works down to ${least(c!, 1)}, which the farthest one no longer has from ${at} units on.`, `The unit works down to ${least(c!, 1)}.`)}`,
        moves:
          "Nothing in a unit changes when the neighbour arrives, so no test of one unit finds it. Starts that are staggered move the wall most; thicker copper, a shorter cable, or feeding the rail in its middle move it too.",
      }),
      see: ["supply.drop", "drive.moves"],
    },
  ];
}
const count = (n: number): string => `${n} units`;
const percent = (share: number): string => `${Math.round(share * 100)} %`;
const shareNear = (c: Curve, at: number): number => c.at(at).share;
const turnWords = (c: Curve, words: (at: string) => string, otherwise: string): string =>
  c.turns.length === 0 ? otherwise : words(c.turns.map((t) => along(c, t)).join(" and at "));
/** How a leaf of a thickness answers a screw turned a tenth of a millimetre too far. */
function stiffWords(c: Curve, at: number): string {
  const [rate = 0, stroke = 0] = c.at(at).also;
  return `a leaf of ${along(c, at)} gives its preload over ${showIn("mm", stroke)}, and 0.1 mm more adds ${showIn("N", rate * 0.1 * mm)}`;
}

/** Width of a scene's cover film, as written. */
const filmOf = (scene: Scene): number => middleOf(givenOf(scene.tape.film.width, "the film's width"), scene);
function allTogether(requirement: Requirement): Requirement {
  const { supply, ...rest } = requirement;
  if (!supply) throw new TypeError("the invented rail is missing");
  const { together: _, ...rail } = supply;
  return { ...rest, supply: rail };
}
const holdDownOpening = ({ unit }: Scene): unknown => {
  const held = unit["hold-down"];
  return held && "opening" in held ? held.opening?.x : undefined;
};
const leafThickness = ({ unit }: Scene): unknown => {
  const held = unit["hold-down"];
  return held && "thickness" in held ? held.thickness : undefined;
};
/** A wall worked out: its curves and drawings beside it. */
export interface Shown {
  readonly wall: Wall;
  readonly curves: readonly Curve[];
  readonly drawings: readonly { readonly name: string; readonly drawing: Drawing }[];
}
export function shownWalls(list: readonly Wall[], checkNamed: (id: string) => Check | undefined): Shown[] {
  const deviates = new Deviates(1);
  return list.map((wall) => {
    const curves = wall.pictures.map(({ curve }) =>
      curveOf(
        {
          ...curve,
          checks: curve.checks.map((id) => {
            const check = checkNamed(id);
            if (!check) throw new RangeError(`there is no check ${id}`);
            return check;
          }),
        },
        deviates,
      ),
    );
    const drawings = wall.pictures.map((picture, i) => ({
      name: wall.pictures.length === 1 ? wall.name : `${wall.name}-${i + 1}`,
      drawing: wallDrawing(curves[i]!, picture),
    }));
    return { wall, curves, drawings };
  });
}
/** The pictures as files of their own, light and dark. */
export const wallPictures = (shown: readonly Shown[]): ReadonlyMap<string, string> =>
  new Map(
    shown.flatMap(({ drawings }) =>
      drawings.flatMap(({ name, drawing }) =>
        (["light", "dark"] as const).map((theme): [string, string] => [
          `${name}${theme === "dark" ? "-dark" : ""}.svg`,
          `${toSvg(drawing, { prefix: name, style: themeOfDrawing(theme) })}\n`,
        ]),
      ),
    ),
  );
