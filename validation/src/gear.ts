import {
  type GearPair,
  gearContactRatio,
  gearSpare,
  marginsOfPair,
  meshOf,
  nipBacklash,
  nipContactRatio,
  nipGearOpening,
  nipMeshSpare,
  tightCentre,
  undercutLimit,
  wormMeshOf,
} from "@tapeworthy/core";
import { gearProgram, type Row, row } from "./row.ts";

const rad = Math.PI / 180;
const twenty = 20 * rad;
const pair = (
  module: number,
  teeth: readonly [number, number],
  centre: number,
  more: Partial<GearPair> = {},
): GearPair => ({ module, pressure: twenty, teeth, shifts: [0, 0], centre, ...more });
const path = (p: GearPair): number => meshOf(p).contactRatio * meshOf(p).basePitch;

const shifted =
  "Profile Shifted External Spur Gears, a page of worked values: module 3, 12 and 24 teeth, shifts 0.6 and 0.36, tips shortened";
const sheet =
  "Gear generating profile shift calculations according to ISO 21771:2007, a worked sheet: 31 and 30 teeth, normal module 3.5, in the transverse section";
const norton = "Norton, Design of Machinery, example on 19 and 37 teeth, diametral pitch 6";
const khurmi = "Khurmi and Gupta, Theory of Machines, ch. 12, examples on the path of contact";

/** Published pairs: shifted, opened, plain; and pairs by the independent program. */
export function gearRows(): Row[] {
  const of = (
    id: string,
    model: string,
    expected: number,
    got: number,
    near: Parameters<typeof row>[0]["near"],
    unit: string,
    source: string,
    how: Row["how"],
  ) => row({ id: `gear.${id}`, model, expected, got, near, unit, source, how });
  const example = pair(3, [12, 24], 56.5, { shifts: [0.6, 0.36], shortening: 0.96 - 0.83333 });
  const open19 = pair(1 / 6, [19, 37], (56 / 12) * 1.02);
  const mt = 114.3447280708 / 30.5;
  const at = 21.2990642859 * rad;
  const helical = pair(mt, [31, 30], 116.5, {
    pressure: at,
    shifts: [(0.651877131252 * Math.tan(twenty)) / Math.tan(at), 0],
  });
  const program = (id: string, p: GearPair, usable: number, backlash: number) => [
    of(
      `usable path, ${id}`,
      "gear.contact-ratio",
      usable,
      meshOf(p).usable,
      { within: 2e-3 },
      "1",
      `${gearProgram}: points of a rack-cut tooth`,
      "derived",
    ),
    of(
      `backlash, ${id}`,
      "gear.backlash",
      backlash,
      meshOf(p).backlash,
      { within: 5e-5 },
      "mm",
      `${gearProgram}: thickness of both teeth at the working circle`,
      "derived",
    ),
  ];
  const nip = (opened: number) =>
    marginsOfPair("nip", { m: 0.5, a: twenty, z: [20, 24], x: [0, 0], given: true, A: 11, e_A: 0, j: 0 }, opened);
  return [
    of(
      "shifted pair, working angle",
      "gear.contact-ratio",
      26.0888,
      meshOf(example).working / rad,
      { printedTo: 1e-4 },
      "deg",
      shifted,
      "read",
    ),
    of(
      "shifted pair, contact ratio",
      "gear.contact-ratio",
      1.202,
      meshOf(example).contactRatio,
      { printedTo: 1e-3 },
      "1",
      shifted,
      "read",
    ),
    of(
      "shifted pair, tight centre",
      "gear.backlash",
      56.5,
      tightCentre(example),
      { within: 1e-3 },
      "mm",
      shifted,
      "read",
    ),
    of(
      "opened shifted pair, working angle",
      "gear.contact-ratio",
      23.8707609654,
      meshOf(helical).working / rad,
      { within: 1e-8 },
      "deg",
      sheet,
      "read",
    ),
    of(
      "opened shifted pair, sum of shifts",
      "gear.backlash",
      116.5,
      tightCentre(helical),
      { within: 1e-6 },
      "mm",
      sheet,
      "read",
    ),
    of(
      "19 and 37 teeth, contact ratio",
      "gear.contact-ratio",
      1.62,
      meshOf(pair(1 / 6, [19, 37], 56 / 12)).contactRatio,
      { printedTo: 0.01 },
      "1",
      norton,
      "memory",
    ),
    of(
      "19 and 37 teeth opened by 2 %, working angle",
      "gear.contact-ratio",
      22.89,
      meshOf(open19).working / rad,
      { printedTo: 0.01 },
      "deg",
      norton,
      "memory",
    ),
    of(
      "30 and 80 teeth, path of contact",
      "gear.contact-ratio",
      52.3,
      path(pair(12, [30, 80], 660, { addendum: 10 / 12 })),
      { printedTo: 0.1 },
      "mm",
      khurmi,
      "memory",
    ),
    of(
      "20 and 40 teeth, path of contact",
      "gear.contact-ratio",
      24.15,
      path(pair(5, [20, 40], 150)),
      { within: 0.02 },
      "mm",
      `${khurmi}; the book adds two rounded parts`,
      "memory",
    ),
    of(
      "16 and 40 teeth opened by a quarter inch, working angle",
      "gear.contact-ratio",
      22.56,
      meshOf(pair(0.5, [16, 40], 14.25)).working / rad,
      { within: 0.06 },
      "deg",
      "Shigley, Mechanical Engineering Design, ch. 13, example on 16 and 40 teeth; the book rounds both radii to 0.01 in",
      "memory",
    ),
    of(
      "limit of undercut at 20 deg",
      "gear.contact-ratio",
      17.1,
      undercutLimit(twenty),
      { printedTo: 0.1 },
      "teeth",
      "textbooks of gears: 17 teeth at 20 deg, 2/sin^2 20 deg = 17.1",
      "memory",
    ),
    of(
      "limit of undercut at 14.5 deg",
      "gear.contact-ratio",
      31.9,
      undercutLimit(14.5 * rad),
      { printedTo: 0.1 },
      "teeth",
      "textbooks of gears: 32 teeth at 14.5 deg",
      "memory",
    ),
    ...program("10 and 40 teeth, undercut", pair(0.5, [10, 40], 12.5), 1.0941, 0),
    ...program("8 and 8 teeth, undercut", pair(0.5, [8, 8], 4), 0.5248, 0),
    ...program(
      "9 and 30 teeth, shifted against each other",
      pair(1, [9, 30], 19.5, { shifts: [0.3, -0.3] }),
      1.2666,
      0,
    ),
    ...program("20 and 24 teeth, opened", pair(0.5, [20, 24], 11.244), 1.1303, 0.19571),
    of(
      "spare of a plain pair",
      "gear.spare",
      0,
      gearSpare.value({ meshes: [nip(0)], eps_0: 1.1 }),
      { within: 1e-9 },
      "1",
      "no backlash at the tight centre, so nothing is spare, by hand",
      "derived",
    ),
    of(
      "worm wheel of 40 teeth",
      "gear.contact-ratio",
      1.8472,
      gearContactRatio.value({
        meshes: [
          {
            ...wormMeshOf({ module: 0.5, starts: 1, lead: 1e-6, pressure: twenty, teeth: 40, opened: 0 }),
            usable: wormMeshOf({ module: 0.5, starts: 1, lead: 1e-6, pressure: twenty, teeth: 40, opened: 0 })
              .contactRatio,
            name: "worm",
          },
        ],
      }),
      { printedTo: 1e-4 },
      "1",
      "40 teeth on a rack: 1.2646 + 1.4619 mm of path over 1.4761 mm, by hand",
      "derived",
    ),
    of(
      "nip's gears opened",
      "nip.contact-ratio",
      1.1303,
      nipContactRatio.value({ meshes: [nip(0), nip(0.244)] }),
      { within: 2e-3 },
      "1",
      `${gearProgram}: 20 and 24 teeth at 11.244 mm`,
      "derived",
    ),
    of(
      "nip's gears closed",
      "nip.backlash",
      0,
      nipBacklash.value({ meshes: [nip(0), nip(0.244)] }),
      { within: 1e-9 },
      "mm",
      "module 0.5 mm, 44 teeth, 11 mm: the tight centre, by hand",
      "derived",
    ),
    of(
      "nip's gears wide open",
      "nip.mesh-spare",
      0.373 - 1.1,
      nipMeshSpare.value({ meshes: [nip(0.729)], eps_0: 1.1 }),
      { within: 1e-3 },
      "1",
      "2.860 + 3.234 - 5.543 mm of path over a base pitch of 1.476 mm, by hand",
      "derived",
    ),
    of(
      "nip turned open",
      "nip.opening",
      0.7294,
      nipGearOpening.value({ axis: [0, 0], lower: 5, upper: 6, about: [-14, 2], phi: 3 * rad }),
      { within: 1e-4 },
      "mm",
      "upper axis from (14, 4) about the pivot by 3 deg to (13.7715, 4.7272); distance to (14, -7), by hand",
      "derived",
    ),
  ];
}
