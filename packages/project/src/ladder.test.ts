import {
  beliefColumn,
  Cell,
  checks,
  Deviates,
  type Given,
  nominalOf,
  type Scene,
  scatterColumn,
  tapeBetween,
  type WidthFamily,
} from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { changed, said, texts } from "./curlew.fixture.ts";
import { example } from "./example.fixture.ts";
import { familyOf, lettersAt } from "./ladder.ts";
import { type Project, readProject, type Texts } from "./project.ts";

const read = (files: Texts): Project => {
  const { project, errors } = readProject(files);
  if (!project) throw new Error(errors.map((e) => `${e.place.file}:${e.place.line} ${e.found}`).join("; "));
  return project;
};
const family = (project: Project, unit: string): WidthFamily => {
  const found = familyOf(project, unit);
  if (typeof found === "string") throw new Error(found);
  return found;
};
const shop = read(example);
const [plover, dunlin] = ["plover", "dunlin"].map((unit) => family(shop, unit)) as [WidthFamily, WidthFamily];
const sceneAt = (f: WidthFamily, W: number, above = false): Scene => {
  const piece = f.pieces.find((p) => (above ? p.from === W && p.to > W : W > p.from && W <= p.to)) ?? f.pieces[0]!;
  const scene = piece.scene(W);
  if (typeof scene === "string") throw new Error(scene);
  return scene;
};
/** A letter in mm. Letters that follow from others are worked out. */
const mm = (scene: Scene, letter: "W" | "P1" | "A0" | "K0" | "F" | "R" | "T2", of: "unit" | "tape") =>
  +(nominalOf((of === "unit" ? scene.unit.letters[letter] : scene.tape.letters[letter])!) * 1e3).toFixed(9);

const preload = (W: number): Given => sceneAt(plover, W).unit.nip!.preload! as Given;

describe("the example's first unit over continuous width", () => {
  test("runs from 8 to 32 mm on the tapes that project.yaml names", () => {
    expect([plover.from, plover.to, plover.rows]).toEqual([8, 32, [8, 12, 16, 24, 32]]);
    expect(plover.tapes.map((t) => t.tape)).toEqual(["sensor-8", "so8-12", "so16-16", "so20-24", "socket-32"]);
    expect(plover.leftOut).toEqual([]);
  });
  test("is linear in the pocket it is built for, and its letters in the catalogue's", () => {
    const scene = sceneAt(plover, 14);
    const half = (letter: "A0" | "K0" | "T2") =>
      (mm(sceneAt(plover, 12), letter, "unit") + mm(sceneAt(plover, 16), letter, "unit")) / 2;
    for (const letter of ["A0", "K0", "T2"] as const) expect(mm(scene, letter, "unit")).toBeCloseTo(half(letter), 9);
    // F 5.5 and 7.5 in the rows of 12 and 16 [read]; half way. [derived]
    expect([mm(scene, "W", "unit"), mm(scene, "F", "unit")]).toEqual([14, 6.5]);
  });
  // Measured on so8-12 and so16-16: W 12.05 and 16.04, A0 6.40 and 6.50, F 5.5 (the catalogue's) and 7.62, seal 0.38 and 0.40 N. By hand. [derived]
  test("feeds a tape linear between those of 12 and 16 mm, which were measured", () => {
    const scene = sceneAt(plover, 14);
    expect([mm(scene, "W", "tape"), mm(scene, "A0", "tape"), mm(scene, "F", "tape")]).toEqual([14.045, 6.45, 6.56]);
    expect(nominalOf(scene.tape.film.seal)).toBeCloseTo(0.39, 12);
  });
  test("takes the pitch and the bend radius of the wider tape just above a width, and its own at it", () => {
    expect([mm(sceneAt(plover, 16), "P1", "tape"), mm(sceneAt(plover, 16, true), "P1", "tape")]).toEqual([8, 12]);
    expect([mm(sceneAt(plover, 16), "P1", "unit"), mm(sceneAt(plover, 16, true), "P1", "unit")]).toEqual([8, 12]);
    expect([mm(sceneAt(plover, 8), "R", "unit"), mm(sceneAt(plover, 8, true), "R", "unit")]).toEqual([25, 30]);
  });
  test("names what takes a step at each width", () => {
    const steps = plover.pieces.flatMap((p) => p.steps.map((s) => [p.from, s.text]));
    expect(steps).toEqual(
      expect.arrayContaining([
        [8, "P1 4 to 8 mm"],
        [8, "R 25 to 30 mm"],
        [12, "P2 ±0.05 to ±0.1 mm"],
        [16, "P1 8 to 12 mm"],
        [20, `nip.preload ${preload(16).text} to ${preload(24).text}`],
        [24, "P1 12 to 20 mm"],
        [24, "built for P1 12 to 24 mm"],
        [24, "R 30 to 50 mm"],
      ]),
    );
    // F was measured on both tapes around 14 mm: its tolerance is theirs and takes no step.
    expect(steps.filter(([, text]) => `${text}`.startsWith("F "))).toEqual([]);
  });
});

describe("an override of one width", () => {
  test("holds half way to its neighbours", () => {
    expect(preload(16).text).not.toBe(preload(24).text);
    expect([19.9, 20, 20.1].map((W) => preload(W).text)).toEqual([16, 16, 24].map((W) => preload(W).text));
  });
  test("keeps the address at which it stands", () => {
    expect(preload(19.9).address).toBe("plover/nip.preload");
    expect(preload(20.1).address).toBe("plover/per width.24.nip.preload");
    expect(preload(28.1).address).toBe("plover/per width.32.nip.preload");
  });
  test("of two widths in a row, alike, is no step, but not one number either", () => {
    const at28 = plover.pieces.find((p) => p.from === 28)!;
    // Only what differs between the two is a step there: the slots that are claimed, not the preload.
    expect([at28.steps.map((s) => s.text.split(" ")[0]), at28.joined]).toEqual([["mount.slots"], false]);
  });
});

test("an unknown of the unit has one address, and so one draw, at every width", () => {
  const friction = [8, 9.3, 14, 20.1, 31].map((W) => sceneAt(plover, W).unit.film.friction as Given);
  expect(new Set(friction.map((g) => g.address))).toEqual(new Set(["plover/film.friction"]));
  expect(new Set(friction).size).toBe(1);
});
test("what nobody knows of two tapes is as little known between them", () => {
  const T = (W: number) => sceneAt(plover, W).tape.letters.T as Given;
  const wide = (g: Given) => (g.unknown && g.unknown.law !== "switch" ? g.unknown.high - g.unknown.low : 0);
  expect(wide(T(28))).toBeCloseTo(wide(T(24)), 12);
  // Measured at 16, guessed at 24: half of the guess half way.
  expect(wide(T(20))).toBeCloseTo(wide(T(24)) / 2, 12);
});

/** Gaps of all checks in 40 realisations of belief and scatter together. */
const deviates = new Deviates(1);
const n = 40;
const gaps = (scene: Scene): ReadonlyMap<string, Float64Array> => {
  const cell = new Cell(scene, checks);
  const columns = cell.gaps({
    n,
    unknown: (g) => beliefColumn(deviates, g, n),
    scatter: (g, which) => scatterColumn(deviates, g, which, n),
  });
  return new Map(cell.checks.map((check, c) => [check.id, columns[c]!]));
};
function expectSame(a: Scene, b: Scene): void {
  const [x, y] = [gaps(a), gaps(b)];
  expect([...x.keys()]).toEqual([...y.keys()]);
  for (const [id, column] of x)
    column.forEach((g, k) => {
      const other = y.get(id)![k]!;
      const same = g === other || Math.abs(g - other) <= 1e-12 * Math.max(1, Math.abs(g));
      if (!same) expect([id, k, g]).toEqual([id, k, other]);
    });
}
describe.each([plover, dunlin])("at every catalogue width $name", (f) => {
  const file = shop.units.get(f.unit)!;
  const tapeOf = (W: number) => shop.tapes.get(f.tapes.find((t) => t.W === W)!.tape)!.tape;
  const ordinary = (W: number): Scene => ({
    unit: file.variants.get(W)!,
    tape: tapeOf(W),
    requirement: shop.requirement,
  });
  test("is the variant and the tape that check judges", () => {
    for (const W of f.rows) {
      expect(sceneAt(f, W).unit).toBe(W === f.from ? sceneAt(f, W).unit : file.variants.get(W));
      expectSame(sceneAt(f, W), ordinary(W));
    }
  });
  // The same numbers by the way that every other width is cut: letters and tape all of the way from the row below.
  test.each(f.rows.slice(1).map((W, i) => [f.rows[i]!, W] as const))(
    "cut from %i mm all of the way gives %i mm, every gap to 1e-12",
    (a, b) => {
      const { unit, errors } = file.cutFor(b, lettersAt(file, [a, b], [a, b], b), b);
      expect(errors).toEqual([]);
      expectSame({ ...ordinary(b), unit: unit!, tape: tapeBetween(tapeOf(a), tapeOf(b), b, [a, b]) }, ordinary(b));
    },
  );
  test("goes on without a jump where nothing takes a step: checks that rest on no step are the same just above", () => {
    for (const piece of f.pieces.slice(1)) {
      if (!f.rows.includes(piece.from)) continue;
      const above = piece.scene(piece.from);
      if (typeof above === "string") throw new Error(above);
      const gives = piece.steps.flatMap((s) => s.gives(above)).flatMap((g) => g ?? []);
      const [x, y] = [gaps(above), gaps(sceneAt(f, piece.from))];
      for (const check of checks) {
        const cell = new Cell(above, [check]);
        if (!x.has(check.id) || !y.has(check.id) || gives.some((g) => cell.readsGiven(g))) continue;
        const [p, q] = [x.get(check.id)!, y.get(check.id)!];
        p.forEach((v, k) => {
          const same = v === q[k] || Math.abs(v - q[k]!) <= 1e-12 * Math.max(1, Math.abs(v));
          if (!same) expect([piece.from, check.id, v]).toEqual([piece.from, check.id, q[k]]);
        });
      }
    }
  });
});

describe("which tapes the ladder runs over", () => {
  const tapesOf = (files: Texts, unit = "curlew") => {
    const found = familyOf(read(files), unit);
    return typeof found === "string" ? found : found.tapes.map((t) => `${t.W} ${t.tape}`);
  };
  test("those under ladder, in whatever order", () => {
    expect(tapesOf(texts)).toEqual(["8 chip", "12 coil"]);
    expect(tapesOf(changed("project.yaml", ["ladder: [chip, coil]", "ladder: [coil, chip]"]))).toEqual([
      "8 chip",
      "12 coil",
    ]);
  });
  const small = `${texts.get("tapes/coil.yaml")!.replace("tape: coil", "tape: bead").replace("A0: 4.3 mm", "A0: 2.3 mm")}`;
  const withBead = (...edits: readonly (readonly [string, string])[]) =>
    new Map([
      ...changed("project.yaml", ["curlew: [chip, coil]", "curlew: [chip, coil, bead]"], ...edits),
      ["tapes/bead.yaml", small],
    ]);
  test("else of each wanted width the one with the least pocket", () => {
    expect(tapesOf(withBead(["ladder: [chip, coil]\n", ""]))).toEqual(["8 chip", "12 bead"]);
    expect(tapesOf(withBead(["ladder: [chip, coil]", "ladder: [coil]"]))).toEqual(["8 chip", "12 coil"]);
  });
  test("never two of one width", () => {
    expect(said(withBead(["ladder: [chip, coil]", "ladder: [chip, coil, bead]"]))).toBe(
      `project.yaml:8:22: found a second tape of 12 mm, "bead", expected one tape a width
8 | ladder: [chip, coil, bead]
                         ^^^^
"coil" stands for 12 mm already.`,
    );
  });
  test("a unit with a tape of one width alone has no ladder, and the way out is named", () => {
    const files = changed("project.yaml", ["curlew: [chip, coil]", "curlew: [chip]"], ["ladder: [chip, coil]\n", ""]);
    expect(tapesOf(files)).toBe(
      'The ladder of Curlew has a tape of 8 mm alone: name one tape a width under "ladder" in project.yaml, for two widths at least that it is made in (8, 12).',
    );
  });
  test("a unit that is not there has none either", () =>
    expect(familyOf(shop, "curlew")).toBe('There is no unit "curlew".'));
  test("a width without a tape of its own is left out, and said", () => {
    const files = new Map(example).set(
      "project.yaml",
      example
        .get("project.yaml")!
        .replace("so16-16, dpak-16, so20", "so20")
        .replace("so16-16, dpak-16, so20", "so20")
        .replace("so16-16, ", ""),
    );
    const f = family(read(files), "plover");
    expect(f.tapes.map((t) => t.W)).toEqual([8, 12, 24, 32]);
    expect(f.leftOut).toEqual([
      { W: 16, why: 'no tape of 16 mm is wanted or stands under "ladder": the ladder runs straight through it' },
    ]);
    // The catalogue's own hole line at 16 all the same: 7.5 [read].
    expect(mm(sceneAt(f, 16), "F", "tape")).toBe(7.5);
  });
});
describe("a width that a unit cannot be cut to", () => {
  // 1.4 mm at 8 and at 12; at 9 it is 1.4 - 1 x 3 = -1.6 mm. By hand. [derived]
  const files = changed("units/curlew.yaml", [
    "groove: {depth: drop + gap, margin",
    "groove: {depth: 1.4 mm - (W - 8 mm)*(12 mm - W)/1 mm, margin",
  ]);
  test("is told with file, line and column, and is no width of the ladder", () => {
    const f = family(read(files), "curlew");
    const piece = f.pieces.find((p) => p.to > p.from)!;
    expect(piece.scene(8.2)).not.toBeTypeOf("string");
    expect(piece.scene(9)).toMatch(
      /^units\/curlew\.yaml:24:\d+: found -1\.6 mm at W = 9 mm, expected at least 0 mm: depth below the ledges$/,
    );
  });
});
