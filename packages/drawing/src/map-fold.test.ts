import { expect, test } from "vitest";
import { absent, findingWith, resultWith } from "./example.fixture.ts";
import { mapColumns } from "./map-columns.ts";
import { foldedColumns, foldFor, shownOf } from "./map-fold.ts";
import { cellsFor, routeMap, sayMore } from "./route-map.ts";
import { toSvg } from "./scene.ts";

const holds = (check: string, margin: number, station: 1 | 2 | 7) => findingWith({ check, station, margin });
const rows = [
  resultWith("a-8", 8, [
    holds("entry.play", 5, 1),
    absent("entry.bend"),
    holds("groove.depth", 4, 2),
    holds("groove.width", 3, 2),
    holds("groove.lips", 2, 2),
    findingWith({ check: "tape.yaw", station: 2, severity: "A", verdict: "depends", share: 0.5, margin: 0 }),
    findingWith({ check: "nip.pulls", station: 7, verdict: "stops", share: 0, margin: -2 }),
    holds("nip.slips", 6, 7),
  ]),
];
const names = (folded: ReadonlySet<string>) =>
  foldedColumns(mapColumns(rows), folded).map((c) => (c.holds ? `${c.station}+${c.holds.length}` : c.check));

test("where all columns have room nothing is folded", () => {
  expect(foldFor(rows, 8)).toEqual(new Set());
});
test("what holds with the most margin is folded first, each station's into one column at its end", () => {
  expect(names(foldFor(rows, 7))).toEqual([
    "1+2",
    "groove.depth",
    "groove.width",
    "groove.lips",
    "tape.yaw",
    "nip.pulls",
    "nip.slips",
  ]);
});
test("what stops a tape, what is open on the page and what is contradicted always stand open", () => {
  const folded = foldFor(rows, 1, "groove.depth");
  expect(folded.has("nip.pulls")).toBe(false);
  expect(folded.has("groove.depth")).toBe(false);
  const contradicted = [
    {
      ...rows[0]!,
      findings: rows[0]!.findings.map((f) => (f.check === "groove.lips" ? { ...f, contradicted: true } : f)),
    },
  ];
  expect(foldFor(contradicted, 1).has("groove.lips")).toBe(false);
});
test("no column is folded alone, where it would take as much room as it does open", () => {
  const folded = foldFor(rows, 1);
  for (const station of [1, 2, 7]) {
    const away = mapColumns(rows).filter((c) => c.station === station && folded.has(c.check));
    expect(away.length).not.toBe(1);
  }
});
test("a folded cell shows the finding nearest to stopping the tape, and says how many it stands for", () => {
  const column = foldedColumns(mapColumns(rows), new Set(["groove.depth", "groove.width", "groove.lips"])).find(
    (c) => c.holds,
  )!;
  const shown = shownOf(rows[0]!, column)!;
  expect(shown.check).toBe("groove.lips");
  expect(sayMore(rows[0]!, shown, 3)).toBe("3 more checks of groove, nearest groove.lips, a-8, feeds, margin 2.0");
  // One that comes to stop the tape while it is folded is shown in its place.
  const later = {
    ...rows[0]!,
    findings: rows[0]!.findings.map((f) =>
      f.check === "groove.depth" ? { ...f, verdict: "stops" as const, margin: -3, share: 0 } : f,
    ),
  };
  expect(shownOf(later, column)!.check).toBe("groove.depth");
});
test("where even that has no room, the map is wider than what it is shown in", () => {
  const svg = toSvg(routeMap({ unit: "Plover", rows }, { width: 300, leastCell: 24 }), { prefix: "m" });
  expect(svg).toMatch(new RegExp(`^<svg [^>]*width="${150 + 124 + 3 * 5 + 8 * 24}"`));
});
test("folded to what has room, every cell is as wide as a finger needs", () => {
  const width = 186 + 196 + 3 * 9 + 5 * 24;
  expect(cellsFor(rows, 880)).toBe(Math.floor((880 - 382 - 27) / 24));
  const narrow = width < 880 ? 150 + 124 + 3 * 5 + 5 * 24 : width;
  const most = cellsFor(rows, narrow);
  expect(most).toBe(5);
  const svg = toSvg(routeMap({ unit: "Plover", rows, folded: foldFor(rows, most) }, { width: narrow }), {
    prefix: "m",
  });
  const cells = [...svg.matchAll(/class="cell"[^>]*><rect class="clear" x="[\d.]+" y="[\d.]+" width="([\d.]+)"/g)];
  expect(cells.length).toBe(5);
  for (const [, w] of cells) expect(Number(w)).toBeGreaterThanOrEqual(24);
  expect(svg).toContain("2 more");
});
test("what never stops a tape is folded last of all, and only where there is no other room", () => {
  const known = rows.map((row) => ({
    ...row,
    findings: row.findings.map((f) =>
      f.check === "tape.yaw" ? { ...f, verdict: "stops" as const, share: 0, margin: -1 } : f,
    ),
  }));
  const open = (most: number) => !foldFor(known, most).has("tape.yaw");
  expect(open(6)).toBe(true);
  expect(open(1)).toBe(false);
});
test("before the map grows wider than its room the words at the end of its rows give way", () => {
  const wide = (width: number) =>
    Number(
      /^<svg [^>]*width="(\d+)"/.exec(
        toSvg(routeMap({ unit: "Plover", rows }, { width, leastCell: 24 }), { prefix: "m" }),
      )![1],
    );
  const columns = mapColumns(rows).length;
  const needed = 186 + 3 * 9 + columns * 24;
  const room = Math.max(880, needed + 150);
  expect(wide(room)).toBe(room);
});
