import { showError } from "./error.ts";
import { readProject } from "./project.ts";

/** A small whole project of an invented shop: a tape of each width, a unit for both, the record of one. */
export const unit = `format: 1
unit: Curlew
serves: {kind: [embossed], W: [8, 12]}
built for:
  8: {A0: 1.9 mm, B0: 2.3 mm, K0: 1.3 mm, P1: 4 mm, T: 0.25 mm}
  12: coil
let:
  drop: K0 + 0.1 mm
  gap: 0.60 ±0.15 mm
per width:
  12: {nip.preload: 7 ±1 N}
tape:
  rests on: underside
  route:
    - line: 90 mm
    - mark: peel
    - line: 9.0 ±0.2 mm
    - mark: pick
    - arc: {radius: R + 5 mm, turn: -20 deg}
  place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}
  section:
    width: W + 0.45 ±0.10 mm # both sides together
    ledge: {near: 2.6 mm, far: 0.7 mm}
    groove: {depth: drop + gap, margin: 0.75 mm}
    lips: {near: 0.9 mm, far: 0.7 mm, gap: T + 0.35 ±0.10 mm}
film:
  opens: whole width
  peel: {at: peel, edge radius: 1.0 ±0.1 mm}
  guides:
    - {name: edge, through: [peel - 7 mm, E1 + F, 3 mm], along: [0, 1, 0], radius: 1.5 mm}
    - {name: nip, through: [peel - 30 mm, E1 + F, 12 mm], along: [0, 1, 0], radius: 5 mm}
  friction: 0.18..0.35 guess
nip:
  preload: 6.0 ±1.0 N
  overspeed: 1.25
  gears: {module: 0.5 mm, teeth: [20, 24], backlash: 0.08..0.20 mm}
bodies:
  - {name: "board: left", box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual W]}
`;
export const coil = `format: 1
tape: coil
W: 12.05 ±0.06 mm measured
A0: 4.3 mm
B0: 4.3 ±0.05 mm
K0: 2.1 mm
P1: 8 mm
T: 0.30 mm
T2: K0 + 0.36 mm
film:
  kind: heat activated
  seal: 0.40 N per reel sd 15 % per index sd 8 % measured
  friction: {PETG: 0.24 measured}
`;
export const chip = `format: 1
tape: chip
W: 8 ±0.2 mm
A0: 1.85 mm
B0: 2.25 mm
K0: 1.25 mm
P1: 4 mm
T: 0.25 mm
`;
export const project = `format: 1
project: a small shop
requirement:
  allow pairs: 2 %
film speed: 80 mm/s
wanted:
  curlew: [chip, coil]
ladder: [chip, coil]
assume:
  mismatch limit: 1.8..2.2 % guess
`;
export const known = `format: 1
known:
  - {unit: curlew, tape: chip, result: runs, reels run: 120, reels refused: 1}
  - {unit: curlew, tape: coil, result: not good enough, note: stops once a reel}
`;

export const texts: ReadonlyMap<string, string> = new Map([
  ["project.yaml", project],
  ["known.yaml", known],
  ["tapes/chip.yaml", chip],
  ["tapes/coil.yaml", coil],
  ["units/curlew.yaml", unit],
]);

/** The project with one fragment of one file replaced. Throws where the fragment does not stand there exactly once. */
export function changed(file: string, ...edits: readonly (readonly [from: string, to: string])[]): Map<string, string> {
  const all = new Map(texts);
  for (const [from, to] of edits) {
    const text = all.get(file) ?? "";
    if (text.split(from).length !== 2)
      throw new Error(`"${from}" stands in ${file} ${text.split(from).length - 1} times`);
    all.set(
      file,
      text.replace(from, () => to),
    );
  }
  return all;
}
/** All that is said of a project, errors parted by a blank line; "" where it is sound. */
export const said = (files: ReadonlyMap<string, string>): string =>
  readProject(files).errors.map(showError).join("\n\n");
