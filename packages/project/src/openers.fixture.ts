/**
 * Other ways of opening the film and of building the members around it, in the words of the notation. Invented. Each text replaces
 * the members of that name in a unit file.
 */
export const openers: Readonly<Record<string, string>> = {
  "a rake that opens one seal, the film stays on the tape and leaves with it": `
film:
  opens: one seal
  opener: {kind: rake, at: peel, y: [W - 2.2 mm, E1 + F + b/2 - 1.2 mm], lead angle: 25 deg, tip above tape: 0.15 ±0.05 mm, rise: 4 mm over 12 mm}
  hinge: {y: E1 + F - b/2 + 0.6 mm} # the seal that stays: the film swings about this line
  swing: {from: 0 deg, to: 150 deg}
  guides: []
nip: none
`,
  "a fixed blade that slits the film in the middle, both halves fold outward": `
film:
  opens: middle cut
  opener: {kind: blade, at: peel, y: E1 + F, depth below film: 0.3 ±0.1 mm, part height limit: K0 - 0.4 mm}
  spread: {kind: wedge, half angle: 20 deg, width: B0 + 1 mm, at: pick - 6 mm}
  guides: []
nip: none
cautions: [blade edge]
`,
  "a diagonal bar over which the whole film leaves across the tape": `
film:
  opens: whole width
  guides:
    - {name: diagonal, through: [peel - 16 mm, E1 + F, 2.5 mm], along: [-1, 1, 0], radius: 1.5 mm}
    - {name: side edge, through: [peel - 16 mm, W + 3 mm, 2.5 mm], along: [-1, 0, 0], radius: 1.5 mm}
    - {name: nip, through: [peel - 16 mm, W + 3 mm, -16 mm], along: [-1, 0, 0], radius: 5 mm}
`,
  "a film that is pulled by hand, the tape enters from below": `
tape:
  rests on: underside
  route: [{line: 30 mm}, {arc: {radius: R + 8 mm, turn: -35 deg}}, {line: 20 mm}, {mark: peel}, {line: 8 mm}, {mark: pick}, {line: 30 mm}]
  place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}
  section:
    width: W + 0.45 ±0.10 mm
    ledge: {near: 2.6 mm, far: 0.7 mm}
    groove: {depth: drop + gap, margin: 0.75 ±0.15 mm}
    lips: {near: 0.9 mm, far: 0.7 mm, gap: T + 0.35 ±0.10 mm}
film: {opens: whole width, guides: [{name: bar, through: [peel - 10 mm, E1 + F, 4 mm], along: [0, 1, 0], radius: 2 mm}]}
nip: none
feed drive: none
`,
  "a bend over the wheel that the tape's own stiffness presses on it": `
hold-down: {kind: run-off bend, radius: R + 2 mm, from: pick + 10 mm, turn: -30 deg, friction: 0.18..0.35 guess}
`,
  "a printed flexure in the place of spring and clutch": `
nip: {spring: {kind: flexure hinge, length: 9 mm, thickness: 1.4 ±0.1 mm, width: 10 mm, material: PETG}, interference: 0.8 ±0.1 mm}
`,
  "a finger that lifts the film out of a relief of the roller": `
nip: {relief: {width: 2.0 mm, depth: 1.0 mm, at: E1 + F}, stripper: {thickness: 1.2 mm, past nip: 4 mm}}
`,
  "a carrier held at the sprocket side, a hook holds the far side": `
joints: [{name: nip carrier, screws: 3, size: M3, side: near, spacing: 12 mm}, {name: far hook, kind: hooked, side: far, play: 0.1 ±0.05 mm}]
`,
};

/** Members of a file's text: what begins at its left edge, up to the next such line. */
const membersOf = (text: string): readonly (readonly [name: string, text: string])[] =>
  text
    .split(/^(?=[A-Za-z])/m)
    .filter((part) => /^[A-Za-z]/.test(part))
    .map((part) => [part.slice(0, part.indexOf(":")), part]);
/** A unit file's text with those members in the place of its own; overrides of one width, which may be of a member that is gone, go too. */
export function withMembers(unit: string, members: string): string {
  const fresh = new Map(membersOf(members));
  const old = membersOf(unit).filter(([name]) => !fresh.has(name) && name !== "per width");
  return [...old, ...fresh].map(([, text]) => text).join("");
}
