import { describe, expect, test } from "vitest";
import { showError } from "./error.ts";
import { example } from "./example.fixture.ts";
import { readProject } from "./project.ts";

const file = "units/dunlin.yaml";
/** The example's second unit, nothing of it free. */
const unit = example.get(file)!.replace(/^free:.*\n(?: .*\n?)*/m, "");
const bare = new Map(example).set(file, unit);
/** The same with this under `free:`. */
function read(...lines: readonly string[]) {
  const text = unit.replace("\nreel:", `\nfree:\n${lines.map((l) => `  ${l}\n`).join("")}\nreel:`);
  const { project, errors } = readProject(new Map(example).set(file, text));
  return { free: project?.units.get("dunlin")?.free ?? [], errors: errors.map(showError) };
}
const line =
  unit
    .split("\n")
    .indexOf("reel: {drag: 0.20 ±0.05 N, loop room: 60 mm}      # its brake, and the slack it may let go") + 2;

describe("what a unit's file frees for sizing", () => {
  test("are paths with two bounds, in numbers or following the letters of each width", () => {
    const { free, errors } = read(
      "nip.preload: 3..9 N",
      "tape.section.lips.gap: [T + 0.2 mm, T + 0.6 mm]",
      "let.rlow: 4..8 mm",
    );
    expect(errors).toEqual([]);
    expect(free.map(({ path }) => path)).toEqual(["nip.preload", "tape.section.lips.gap", "let.rlow"]);
    const project = readProject(bare).project!;
    const at = (W: number) => ({ unit: project.units.get("dunlin")!.variants.get(W)! }) as never;
    expect(free[0]!.bounds(at(12))).toEqual([3, 9]);
    // T of the pocket built for is 0.30 mm at 12 and 0.40 mm at 44.
    expect(free[1]!.bounds(at(12))[0]).toBeCloseTo(0.5e-3, 12);
    expect(free[1]!.bounds(at(44))[1]).toBeCloseTo(1.0e-3, 12);
  });
  test("change nothing of what is judged", () => {
    const plain = readProject(bare).project!.units.get("dunlin")!;
    const freed = readProject(new Map(example).set(file, `${unit}free: {nip.preload: 3..9 N}\n`)).project!.units.get(
      "dunlin",
    )!;
    for (const W of plain.widths)
      expect([...freed.variants.get(W)!.givens.keys()]).toEqual([...plain.variants.get(W)!.givens.keys()]);
  });
  test("may be a whole part, by a distance, and a value that one width has for itself", () => {
    expect(read('"part nip, x": -3..5 mm', "per width.24.nip.preload: 5..9 N").errors).toEqual([]);
  });
  test("may be nothing", () => {
    expect(read().errors.length + readProject(bare).project!.units.get("dunlin")!.free.length).toBe(1);
  });
});

describe("a mark that cannot be taken is an error with its place and the way out:", () => {
  test.each([
    [
      "nip.preload: 9..3 N",
      "bounds the wrong way round, 9..3 N, expected a lower bound and a higher one",
      'Write "nip.preload: 2.75..8.25 N".',
    ],
    [
      "nip.preload: 5..5 N",
      "bounds of no width, 5..5 N, expected a lower bound and a higher one",
      'Write "nip.preload: 2.75..8.25 N".',
    ],
    [
      "nip.preload: 0.1..9 N",
      "0.1..9 N, expected bounds within 0.5..30 N",
      '"nip.preload" is 5.5 N as drawn at 12 mm.',
    ],
    ["nip.preload: 3..9 mm", "bounds in mm, expected bounds in N", 'For example "nip.preload: 2.75..8.25 N".'],
    ["nip.preload: 3..9", "bounds without a unit, expected bounds in N", 'For example "nip.preload: 2.75..8.25 N".'],
    [
      "nip.preload: 3..9 N guess",
      '"3..9 N guess", expected two bounds',
      'Leave "guess" out: bounds are what you allow, not what you believe.',
    ],
    ["nip.preload: 5 N", '"5 N", expected two bounds', ""],
    [
      "nip.preloda: 3..9 N",
      '"nip.preloda", expected a number of this file that sizing may move',
      'Did you mean "nip.preload"?',
    ],
    ["K0: 2..3 mm", '"K0", a letter of the tape', "Free the number of the unit that follows it"],
    ["built for.12.K0: 2..3 mm", '"built for.12.K0", a letter of the tape', "A tape is as it is."],
    [
      "film.friction: 0.1..0.2",
      '"film.friction", a guess (0.18..0.35 guess)',
      "What nobody knows yet is measured, not sized.",
    ],
    ["film.guides.nip.radius: 4..8 mm", 'which only repeats "rlow"', 'Free "let.rlow" instead.'],
    ["film.guides.nip.through.1: -60..-30 mm", "which moves with its part", 'Free "part nip, x" by a distance.'],
    ["mount.slot pitch: 10..20 mm", "which is asserted or fixed by what it stands for", ""],
    [
      "tape.section.lips.gap: 0.68..0.74 mm",
      "expected bounds that leave one distance at all widths",
      "runs from 0.65 to 0.75 mm over the widths",
    ],
    ["tape.section.lips.gap: [K9, T + 0.6 mm]", '"K9"', ""],
  ])("%s", (mark, found, hint) => {
    const { errors } = read(mark);
    expect(errors).toHaveLength(1);
    expect(errors[0]).toContain(`${file}:${line}:`);
    expect(errors[0]).toContain(found);
    expect(errors[0]).toContain(hint);
  });
  test("`free` that holds no paths", () => {
    const { errors } = readProject(new Map(example).set(file, `${unit}free: nip.preload\n`));
    expect(showError(errors[0]!)).toContain('found "nip.preload", expected paths into this file, each with two bounds');
  });
});
