import { describe, expect, test } from "vitest";
import { changed, said, texts } from "./curlew.fixture.ts";

/** What is said of the small unit with these lines added to its file. */
const saidWith = (lines: string): string =>
  said(new Map(texts).set("units/curlew.yaml", `${texts.get("units/curlew.yaml")}${lines}`));

describe("a pair that should keep a gap", () => {
  test("may name tape, pockets, film, the wheel's disc, a body or nothing at all", () => {
    const gaps =
      'clearances: {default: 0.3 mm, "tape pocket / board: left": 1 mm, film / tape: 0.5 mm, pocket / disc: 0.4 mm}\n';
    expect(saidWith(gaps)).toBe("");
  });
  test("is refused where it names nothing, with what was meant", () => {
    expect(saidWith("clearances: {default: 0.3 mm, tape poket / film: 1.0 mm}\n")).toBe(`\
units/curlew.yaml:39:31: found "tape poket", expected a name of something here: the tape, its pockets, the film, a body or a part
39 | clearances: {default: 0.3 mm, tape poket / film: 1.0 mm}
                                   ^^^^^^^^^^^^^^^^^
Did you mean "tape pocket"?`);
  });
  test("is refused where it names a member that no gap is measured to: it would be read and never looked up", () => {
    expect(saidWith("clearances: {tape / ledge: 0.3 mm}\n")).toContain(
      'found "ledge", expected a name of something here: the tape, its pockets, the film, a body or a part',
    );
  });
  test("is refused where it is no pair", () => {
    for (const pair of ["film", "film / tape / wheel", "film /"])
      expect(saidWith(`clearances: {"${pair}": 0.3 mm}\n`)).toContain(
        "expected a pair of names with a stroke between them",
      );
  });
});

describe("a pair that is meant to touch", () => {
  test("may also name a guide, and the members that tape and film run over", () => {
    expect(
      saidWith("meant to touch: [film / nip, film / edge, film / guide, tape / ledge, tape / lips, tape / wheel]\n"),
    ).toBe("");
  });
  test("is refused where it names nothing, one error a name", () => {
    const text = saidWith("meant to touch: [film / nib, tape / wheel, tpae / lips]\n");
    expect(text.match(/Did you mean/g)).toHaveLength(2);
    expect(text).toContain('found "nib", expected a name of something here');
    expect(text).toContain('Did you mean "tape"?');
  });
});

describe("a body", () => {
  const body = (outline: string) =>
    said(changed("units/curlew.yaml", ["box: [-60 mm, -40 mm, -20 mm, -12 mm], ", outline]));
  test("without an outline is refused: nothing could be held against it", () => {
    expect(body("")).toContain('found no outline of "board: left", expected one of box, circle, polygon');
  });
  test("with two outlines is refused", () => {
    expect(body("box: [-60 mm, -40 mm, -20 mm, -12 mm], circle: [0 mm, 0 mm, 5 mm], ")).toContain(
      'found box and circle of "board: left", expected one of box, circle, polygon',
    );
  });
  test("with one outline of any kind is taken", () => {
    expect(body("circle: [-40 mm, -26 mm, 14 mm], ")).toBe("");
    expect(body("polygon: [[-60 mm, -40 mm], [-20 mm, -40 mm], [-40 mm, -12 mm]], ")).toBe("");
  });
});
