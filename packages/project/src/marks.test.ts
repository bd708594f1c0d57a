import { asWritten, type Names, type Quantity, Realiser, type Scene } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { showError } from "./error.ts";
import { GivenStore } from "./given-store.ts";
import { marksAsWritten, readMarks } from "./marks.ts";
import { plainSetting } from "./read.ts";
import { parseSource, SourceFile } from "./source.ts";

const route = "[{line: 90 mm}, {mark: peel}, {line: 9 mm}, {mark: pick}, {line: 30 mm}]";
const place = "{mark: pick, x: 1 mm, z: 0 mm, heading: 0 deg}";
const tape = (r: string = route, p: string = place): string => `format: 1\ntape:\n  route: ${r}\n  place: ${p}\n`;
function read(text: string, store = new GivenStore(), names: Record<string, Quantity> = {}) {
  const source = new SourceFile("units/knot.yaml", text);
  const { tree, errors: ofText } = parseSource(source);
  const errors = [...ofText];
  const at = tree?.kind === "map" ? tree.entries.get("tape")?.value : undefined;
  const setting = { ...plainSetting({ source, prefix: "knot/", level: "unit", store, errors }), names: () => names };
  return { ...readMarks(setting, at, names, "knot 8"), written: marksAsWritten(at), said: errors.map(showError) };
}
/** A position in mm. */
const mm = (q: Names[string] | undefined): number => {
  if (!q) throw new Error("no such mark");
  return +(new Realiser({} as Scene, [q]).run(asWritten).number(q) * 1e3).toFixed(9);
};

describe("the marks of a route", () => {
  // Pick is put down at 1. On a straight of 9 peel lies 9 before it either way; on a quarter of a circle of radius 10 it lies 10 before it
  // in the side view and 5 pi along the tape. [derived]
  test("lie along the tape, and in the side view, from the one that is put down", () => {
    const { x, route: along, lost, whole, said } = read(tape());
    expect([mm(x.peel), mm(x.pick), mm(along.peel), mm(along.pick)]).toEqual([-8, 1, -8, 1]);
    expect([[...lost], whole, said]).toEqual([[], true, []]);
    const bent = read(tape(route.replace("line: 9 mm", "arc: {radius: 10 mm, turn: -90 deg}")));
    expect([mm(bent.x.peel), mm(bent.x.pick), mm(bent.route.pick)]).toEqual([-9, 1, 1]);
    expect(mm(bent.route.peel)).toBeCloseTo(1 - 5 * Math.PI, 6);
  });
  test("lie the other way round where the tape runs the other way", () => {
    const { x } = read(tape(route, place.replace("0 deg", "180 deg")));
    expect([mm(x.peel), mm(x.pick)]).toEqual([10, 1]);
  });
  test("keep their identity while the route does, whatever moves around it", () => {
    const store = new GivenStore();
    const first = read(tape(), store);
    const again = read(`# a comment\n${tape()}nip: none\n`, store);
    expect(again.x.peel).toBe(first.x.peel);
    expect(read(tape(route.replace("9 mm", "8 mm")), store).x.peel).not.toBe(first.x.peel);
    expect(first.x.peel).not.toBe(first.route.peel);
  });
  test("leave the other names of the file as they are", () => {
    const { x } = read(tape());
    const names = { a: x.peel as Quantity };
    expect(read(tape(), new GivenStore(), names).x.a).toBe(names.a);
  });
});

describe("marks that have no place", () => {
  test("are lost, and nothing is said of the route's numbers here: the whole file's reading says it", () => {
    const { x, lost, whole, said } = read(tape(route.replace("9 mm", "9 N")));
    expect([Object.keys(x), [...lost], whole, said]).toEqual([[], ["peel", "pick"], true, []]);
  });
  test("are lost where the route is not placed", () => {
    const { lost } = read(`format: 1\ntape:\n  route: ${route}\n`);
    expect([...lost]).toEqual(["peel", "pick"]);
  });
  test("are the usual two where there is no route at all, and there may be others", () => {
    for (const text of ["format: 1\ntape: none\n", "format: 1\ntape: {place: here}\n", "format: 1\nname: a\n"]) {
      const { written, lost, whole } = read(text);
      expect([written.names, [...lost], whole]).toEqual([["peel", "pick"], ["peel", "pick"], false]);
    }
  });
  test("may be hidden by a piece that is none", () => {
    const { written } = read(tape("[{line: 9 mm}, {mrak: peel}, {mark: pick}]"));
    expect(written).toEqual({ names: ["pick"], whole: false });
  });
});

describe("a mark is refused", () => {
  test("a second time, at its second place", () => {
    expect(read(tape("[{mark: pick}, {line: 9 mm}, {mark: pick}]")).said).toEqual([
      `units/knot.yaml:3:46: found the mark "pick" a second time, expected each mark once
3 |   route: [{mark: pick}, {line: 9 mm}, {mark: pick}]
                                                 ^^^^`,
    ]);
  });
  test("by a name that is none, or that another number has", () => {
    const { x } = read(tape());
    const said = (name: string): string =>
      read(tape(route.replace("peel", name)), undefined, { a: x.peel as Quantity }).said.join();
    for (const name of ["2nd", "a", "pe-el", "max"])
      expect(said(name)).toContain(
        `found the mark "${name}", expected a name that is not taken, of letters, digits and _`,
      );
    expect(said("peel_2")).toBe("");
  });
  test("where it is placed but not on the route, with the nearest that is", () => {
    const said = (mark: string): string => read(tape(route, place.replace("pick", mark))).said.join();
    expect(said("pik")).toContain('found the mark "pik", expected a mark of the route');
    expect(said("pik")).toContain('Did you mean "pick"?');
    expect(said("exit")).toContain("Marks here: peel, pick.");
    // A route that may hide a mark is not held against it.
    expect(read(tape("[{line: 9 mm}, {mrak: pick}]")).said).toEqual([]);
  });
});
