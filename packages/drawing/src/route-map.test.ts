import { describe, expect, test } from "vitest";
import { absent, elementsOf, findingWith, resultWith } from "./example.fixture.ts";
import { mapColumns } from "./map-columns.ts";
import { decidedBy, leastMargin, mapWords, routeMap, routeTable, sayCell, stationVerdicts } from "./route-map.ts";
import { toSvg } from "./scene.ts";

const friction = {
  address: "plover/film.friction",
  symbol: "mu",
  tipping: 0.34,
  guess: { low: 0.18, high: 0.35 },
  unit: "1",
  shownIn: "",
  shareIfMeasured: 1,
};
const feeding = resultWith("so8-12", 12, [
  absent("entry.bend"),
  findingWith({ check: "film.mismatch", margin: 5.1 }),
  findingWith({ check: "film.kern", severity: "N", verdict: "stops", share: 0, margin: -6 }),
  findingWith({ check: "nip.pulls", station: 7, margin: 2.4, marginBy: "first order" }),
]);
const open = resultWith(
  "dpak-16",
  16,
  [
    absent("entry.bend"),
    findingWith({ check: "film.mismatch" }),
    findingWith({ check: "film.kern", severity: "N", verdict: "depends", share: 0.5, margin: 0 }),
    findingWith({
      check: "nip.pulls",
      station: 7,
      verdict: "depends",
      share: 0.41,
      margin: 0.3,
      letter: "g",
      decisive: friction,
    }),
  ],
  { verdict: "depends", share: 0.41, first: ["nip.pulls"] },
);
const stopped = resultWith(
  "<wide>-24",
  24,
  [
    findingWith({ check: "entry.bend", station: 1 }),
    findingWith({ check: "film.mismatch", verdict: "stops", share: 0, margin: -6 }),
    findingWith({ check: "film.kern", severity: "N" }),
    findingWith({ check: "nip.pulls", station: 7, verdict: "stops", share: 0, margin: -2, contradicted: true }),
  ],
  { verdict: "stops", share: 0, first: ["film.mismatch"] },
);
const input = {
  unit: "Plover",
  rows: [feeding, open, stopped],
  titles: { "film.mismatch": "the film's fibres bear the turn" },
  chosen: { tape: "dpak-16", check: "nip.pulls" },
};
const svg = toSvg(routeMap(input, { width: 900 }), { prefix: "map" });
const elements = elementsOf(svg);
const cells = elements.filter((e) => e.attributes.class === "cell").map((e) => e.attributes);

test("every tape has a cell for every check, columns in the order of the stations", () => {
  expect(cells.map((c) => `${c["data-tape"]} ${c["data-check"]}`)).toHaveLength(12);
  expect(cells.slice(0, 4).map((c) => c["data-check"])).toEqual([
    "entry.bend",
    "film.mismatch",
    "film.kern",
    "nip.pulls",
  ]);
  expect(mapColumns(input.rows).map((c) => c.first)).toEqual([true, true, false, true]);
});
test("a column carries the worst letter of its cells, and says where it is contradicted", () => {
  const columns = mapColumns(input.rows);
  expect(columns.map((c) => c.letter)).toEqual(["d", "d", "d", "g"]);
  expect(columns.map((c) => c.contradicted)).toEqual([false, false, false, true]);
  expect(svg).toContain('class="contradicted"');
});
test("verdicts differ by form: on the line, across it by the share, below it", () => {
  const of = (tape: string, check: string): string => {
    const from = svg.indexOf(`data-check="${check}" data-tape="${tape}"`);
    return svg.slice(from, svg.indexOf("</g>", from)).replace(/ class="[^"]*"/g, "");
  };
  const forms = [of("so8-12", "nip.pulls"), of("dpak-16", "nip.pulls"), of("&lt;wide&gt;-24", "film.mismatch")];
  expect(forms[0]).not.toContain("url(#");
  expect(forms[1]).toContain("url(#map-unknown)");
  expect(forms[1]).toContain(">41");
  expect(forms[2]).toContain("url(#map-fails)");
});
test("the part of a depending box above the line is the share of belief that holds", () => {
  const at = (share: number): { above: number; tall: number } => {
    const row = { ...open, findings: open.findings.map((f) => (f.check === "nip.pulls" ? { ...f, share } : f)) };
    const text = toSvg(routeMap({ ...input, rows: [row], chosen: { tape: "" } }, { width: 900 }), { prefix: "map" });
    const from = text.lastIndexOf("<g", text.indexOf('data-check="nip.pulls"'));
    const cell = elementsOf(text.slice(from, text.indexOf("</g>", from) + 4));
    const box = cell.find((e) => e.attributes.fill === "url(#map-unknown)")!.attributes;
    const base = Number(
      /M[-\d.]+ ([-\d.]+)/.exec(cell.find((e) => e.attributes.class === "outline")!.attributes.d!)![1],
    );
    return { above: base - Number(box.y), tall: Number(box.height) };
  };
  for (const share of [0.1, 0.41, 0.5, 0.8]) {
    const { above, tall } = at(share);
    expect(above / tall).toBeCloseTo(share, 3);
  }
});
test("the first check that stops a tape stands in brackets, one a row, none where it feeds", () => {
  expect(
    elements.filter((e) => e.attributes["data-first"] !== undefined).map((e) => e.attributes["data-first"]),
  ).toEqual(["dpak-16", "&lt;wide&gt;-24"]);
});
test("what never stops a tape is a dot, open, half or full", () => {
  const of = (tape: string): string => {
    const from = svg.indexOf(`data-check="film.kern" data-tape="${tape}"`);
    return svg.slice(from, svg.indexOf("</g>", from));
  };
  expect(of("so8-12")).toContain("<circle");
  expect(
    new Set(
      ["so8-12", "dpak-16", "&lt;wide&gt;-24"].map((tape) =>
        of(tape).replace(/c[xy]="[^"]*"| d="[^"]*"| [xy]="[^"]*"|data-\w+="[^"]*"/g, ""),
      ),
    ).size,
  ).toBe(3);
});
test("only hard checks colour a station, and a contradicted one does not", () => {
  expect(stationVerdicts(stopped)).toEqual({ 1: "feeds", 4: "stops" });
  expect(stationVerdicts(open)[7]).toBe("depends");
});
test("a row says what decides it", () => {
  expect(input.rows.map(decidedBy)).toEqual(["least about 2.4, pulls", "7 pulls, film friction", "4 mismatch"]);
  expect(leastMargin(feeding)!.check).toBe("nip.pulls");
});
test("a cell said aloud has its check, tape, verdict, margin and what decides it", () => {
  expect(sayCell(open, open.findings[3]!)).toBe(
    "nip.pulls, dpak-16, depends 41 %, margin 0.30, decided by film friction, decides it",
  );
  expect(sayCell(feeding, feeding.findings[0]!)).toBe("entry.bend, so8-12, not applicable");
  expect(sayCell(feeding, feeding.findings[2]!)).toBe("film.kern, so8-12, does not hold, annoys, margin minus 6.0");
  expect(sayCell(stopped, stopped.findings[3]!)).toBe(
    "nip.pulls, <wide>-24, stops, margin minus 2.0, contradicted by a known unit, ranks only",
  );
});
test("a bar outside the range of its equation is hollow, and the words say so", () => {
  const row = resultWith("so8-12", 12, [findingWith({ check: "film.mismatch", status: "outside range" })]);
  const text = toSvg(routeMap({ unit: "Plover", rows: [row] }, { width: 900 }), { prefix: "map" });
  expect(text).toContain('class="pass-line of-paper"');
  expect(sayCell(row, row.findings[0]!)).toContain("outside the range of its equation");
  expect(routeTable({ unit: "Plover", rows: [row] })).toContain("outside range");
});
test("the words beside the drawing sum it up, row by row", () => {
  expect(mapWords(input)).toBe(
    "Plover on 3 tapes by 4 checks: 1 feed, 1 depend, 1 stop. so8-12, 12 mm: feeds (least about 2.4, pulls). dpak-16, 16 mm: depends 41 % by 7 pulls, film friction. <wide>-24, 24 mm: stops by 4 mismatch.",
  );
});
test("a cell that moved carries a caret, one that did not none", () => {
  const before = [
    { ...feeding, findings: feeding.findings.map((f) => (f.check === "nip.pulls" ? { ...f, margin: 4 } : f)) },
    open,
    stopped,
  ];
  const carets = elementsOf(toSvg(routeMap({ ...input, before }, { width: 900 }), { prefix: "map" })).filter(
    (e) => e.attributes.class === "of-hand",
  );
  expect(carets).toHaveLength(2); // the caret, and the mark of the chosen row
});
test("the same map is the same bytes, at any width without a number that is none", () => {
  for (const width of [480, 900, 1400]) {
    const text = toSvg(routeMap(input, { width }), { prefix: "map" });
    expect(text).not.toMatch(/NaN|Infinity/);
    expect(toSvg(routeMap(input, { width }), { prefix: "map" })).toBe(text);
  }
});
test("a map without rows says so and draws", () => {
  const text = toSvg(routeMap({ unit: "Plover", rows: [] }, { width: 600 }), { prefix: "map" });
  expect(text).toContain("0 tapes by 0 checks");
  expect(routeTable({ unit: "Plover", rows: [] })).toContain("<tbody>");
});

describe("as a table", () => {
  const html = routeTable(input, { id: "map" });
  const table = elementsOf(html);
  test("every header says whom it heads, and every row has a cell for every check", () => {
    expect(
      table.filter((e) => e.name === "th").every((e) => ["col", "row", "colgroup"].includes(e.attributes.scope!)),
    ).toBe(true);
    expect(table.filter((e) => e.attributes.scope === "row")).toHaveLength(3);
    expect(table.filter((e) => e.name === "td")).toHaveLength(3 * 5);
    expect(table.filter((e) => e.attributes.scope === "colgroup").map((e) => Number(e.attributes.colspan))).toEqual([
      1, 2, 1,
    ]);
    expect(html).toContain("<caption>Route map of Plover");
  });
  test("words say what the drawing shows", () => {
    for (const words of [
      "depends 41 %, decides",
      "stops first",
      "not applicable",
      "does not hold",
      "feeds, margin about 2.4",
      "contradicted, ranks only",
      "depends 41 %: 7 pulls, film friction",
    ])
      expect(html).toContain(words);
    expect(html).toContain('title="the film&#39;s fibres bear the turn"');
  });
  test("names with markup in them stay text", () => {
    expect(html).toContain("&lt;wide&gt;-24");
    expect(html).not.toContain("<wide>");
  });
});

describe("on a page that has places for its cells", () => {
  const link = (row: { readonly tape: string }, f: { readonly check: string; readonly verdict: string }) =>
    f.verdict === "n/a"
      ? undefined
      : { href: `#f-${f.check}`, id: `${row.tape} ${f.check}`.replace(/[^a-z0-9]/g, "-"), data: { w: "24" } };
  const linked = toSvg(routeMap({ ...input, link }, { width: 900 }), { prefix: "map", role: "group" });
  const links = elementsOf(linked).filter((e) => e.name === "a");
  test("each cell that applies is a link with what it says as its spoken name", () => {
    expect(links).toHaveLength(10);
    const one = links.find(
      (e) => e.attributes["data-check"] === "nip.pulls" && e.attributes["data-tape"] === "dpak-16",
    )!;
    expect(one.attributes).toMatchObject({ href: "#f-nip.pulls", id: "dpak-16-nip-pulls", "data-w": "24" });
    expect(one.attributes["aria-label"]).toBe(sayCell(open, open.findings[3]!));
  });
  test("what does not apply leads nowhere", () => {
    expect(links.some((e) => e.attributes["data-verdict"] === "n/a")).toBe(false);
  });
  test("the table leads to the same places", () => {
    const table = elementsOf(routeTable({ ...input, link }));
    expect(table.filter((e) => e.name === "a").map((e) => e.attributes.href)).toEqual(
      links.map((e) => e.attributes.href),
    );
  });
});
test("a share stands beside its box where the cell has room, and does not touch the next cell", () => {
  const wide = elementsOf(toSvg(routeMap({ unit: "Plover", rows: [open] }, { width: 520 }), { prefix: "m" }));
  const narrow = toSvg(routeMap({ unit: "Plover", rows: [open] }, { width: 390 }), { prefix: "m" });
  const at = wide.findIndex((e) => e.attributes["data-check"] === "nip.pulls");
  const [cell, share] = [
    wide[at + 1]!.attributes,
    wide.slice(at).find((e) => e.attributes.class?.startsWith("is-ask"))!.attributes,
  ];
  const right = Number(cell.x) + Number(cell.width);
  expect(Number(share.x)).toBeGreaterThan(Number(cell.x));
  expect(Number(share.x) + 13).toBeLessThan(right + 2);
  expect(narrow).toContain(">41");
});
