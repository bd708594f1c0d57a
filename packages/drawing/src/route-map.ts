import type { Finding, Station, TapeResult, Verdict } from "@tapeworthy/core";
import { type Column, findingOf, mapColumns } from "./map-columns.ts";
import { foldedColumns, leastCell, shownOf } from "./map-fold.ts";
import {
  aloud,
  capital,
  counted,
  sayAddress,
  sayMargin,
  sayShare,
  sayVerdict,
  severityWords,
  shortName,
  stationWords,
  verdictWords,
} from "./say.ts";
import {
  box,
  circle,
  type Drawing,
  escaped,
  group,
  line,
  type Point,
  path,
  type Shape,
  strokes,
  text,
} from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";
import { verdictMark } from "./verdict-mark.ts";

/** What a row's little tape is drawn from, m. */
export interface TapeIcon {
  readonly W: number;
  readonly A0: number;
  readonly B0: number;
  readonly P1: number;
  readonly E1: number;
  readonly F: number;
}
export interface MapInput {
  readonly unit: string;
  readonly rows: readonly TapeResult[];
  /** What a check claims, by its id: read with its column. */
  readonly titles?: Readonly<Record<string, string>>;
  readonly tapes?: Readonly<Record<string, TapeIcon & { readonly note?: string }>>;
  readonly chosen?: { readonly tape: string; readonly check?: string };
  /** The same rows before a change: a caret shows where a cell moved. */
  readonly before?: readonly TapeResult[];
  /** Tapes that are not worked out yet (their rows hold no findings), and those whose numbers are of an older text. */
  readonly waiting?: ReadonlySet<string>;
  readonly older?: ReadonlySet<string>;
  /** Checks that are folded away, each station's into one column; see `foldFor`. */
  readonly folded?: ReadonlySet<string>;
  /** Where a cell leads, and its own id and data, on a page that has a place for it. */
  readonly link?: (row: TapeResult, f: Finding) => MapLink | undefined;
}
export interface MapLink {
  readonly href: string;
  readonly id?: string;
  readonly data?: Readonly<Record<string, string>>;
  /** Whether the Tab key stops at it, where a page moves from cell to cell by other keys. */
  readonly isStop?: boolean;
}
export interface MapSize {
  readonly width: number;
  readonly rowHeight?: number;
  /** Cells are never narrower, px: where there is no room for them all the map is wider. */
  readonly leastCell?: number;
}

/** The hard check with the least margin: what would stop a tape first that feeds. */
export function leastMargin(row: TapeResult): Finding | undefined {
  const hard = row.findings.filter((f) => f.severity === "S" && f.margin !== null && !f.contradicted);
  return hard.reduce<Finding | undefined>((least, f) => (!least || f.margin! < least.margin! ? f : least), undefined);
}
/** Worst verdict of each station on one tape, of the checks that can stop it. */
export function stationVerdicts(row: TapeResult): Partial<Record<Station, Verdict>> {
  const rank = { stops: 3, depends: 2, feeds: 1, "n/a": 0 } as const;
  const out: Partial<Record<Station, Verdict>> = {};
  for (const f of row.findings)
    if (f.severity === "S" && !f.contradicted && rank[f.verdict] >= rank[out[f.station] ?? "n/a"])
      out[f.station] = f.verdict;
  return out;
}

/** What a row is decided by: the first that stops it, or the least margin where it feeds. */
export function decidedBy(row: TapeResult): string {
  const first = row.first[0] === undefined ? undefined : findingOf(row, row.first[0]);
  if (row.verdict === "feeds" || !first) {
    const least = leastMargin(row);
    return row.verdict === "feeds" && least ? `least ${sayMargin(least)}, ${shortName(least.check)}` : "";
  }
  const what = `${first.station} ${shortName(first.check)}`;
  return row.verdict === "depends" && first.decisive ? `${what}, ${sayAddress(first.decisive.address)}` : what;
}

/** A cell said aloud: check, tape, verdict, share or margin, what decides it. */
export function sayCell(row: TapeResult, f: Finding): string {
  const parts = [f.check, row.tape];
  if (f.severity !== "S" && f.verdict !== "n/a")
    parts.push(
      f.verdict === "feeds"
        ? "holds"
        : f.verdict === "depends"
          ? `holds in ${sayShare(f.share!)} of belief`
          : "does not hold",
      severityWords[f.severity],
    );
  else parts.push(sayVerdict(f.verdict, f.share));
  if (f.verdict !== "n/a" && f.margin !== null)
    parts.push(f.marginBy === "cannot fail as drawn" ? "cannot fail as drawn" : `margin ${sayMargin(f)}`);
  if (f.verdict === "depends" && f.decisive) parts.push(`decided by ${sayAddress(f.decisive.address)}`);
  if (row.first[0] === f.check && row.verdict !== "feeds")
    parts.push(row.verdict === "stops" ? "stops it first" : "decides it");
  if (f.status === "outside range" && f.verdict !== "n/a") parts.push("outside the range of its equation");
  if (f.contradicted) parts.push("contradicted by a known unit, ranks only");
  return aloud(parts.join(", "));
}

/** A cell of folded checks said aloud: how many, and the one nearest to stopping the tape. */
export const sayMore = (row: TapeResult, f: Finding, count: number): string =>
  aloud(`${counted(count, "more check")} of ${stationWords[f.station - 1]}, nearest ${sayCell(row, f)}`);

/** Room between stations, before the cells and after them; `least` is what the words after them need at any rate. */
const gridFor = (width: number) =>
  width < 880 ? { gap: 5, head: 150, tail: 124, least: 124 } : { gap: 9, head: 186, tail: 196, least: 140 };
/** How many cells of the least width a map has room for. */
export function cellsFor(rows: readonly TapeResult[], width: number): number {
  const { gap, head, tail } = gridFor(width);
  const stations = new Set(rows.flatMap((row) => row.findings.map((f) => f.station))).size;
  return Math.max(1, Math.floor((width - head - tail - stations * gap) / leastCell));
}
const nameOf = (c: Column): string => (c.holds ? `${c.holds.length} more` : shortName(c.check));
const keyOf = (c: Column): string => (c.holds ? `${c.station} more` : c.check);

const topOf = 104;
/** Tapes by checks, the checks in the order the tape meets them. */
export function routeMap(input: MapInput, size: MapSize): Drawing {
  const { rows } = input;
  const { rowHeight = 28, leastCell: narrowest = 0 } = size;
  const columns = foldedColumns(mapColumns(rows), input.folded ?? new Set());
  const stations = [...new Set(columns.map((c) => c.station))];
  const { gap, head, tail: usual, least } = gridFor(size.width);
  // Before the map grows wider than its room the words at the end of a row give way.
  const spare = size.width - head - stations.length * gap - columns.length * narrowest;
  const tail = Math.max(least, Math.min(usual, spare));
  const around = head + tail + stations.length * gap;
  const width = Math.max(size.width, around + columns.length * narrowest);
  const cell = columns.length === 0 ? 0 : (width - around) / columns.length;
  const height = topOf + rows.length * rowHeight + 8;
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];
  const xOf = new Map<string, number>();
  let x = head;
  columns.forEach((c, i) => {
    if (c.first && i > 0) x += gap;
    xOf.set(keyOf(c), x);
    x += cell;
  });
  shapes.push(...headShapes(input, columns, xOf, cell, width, tail));
  rows.forEach((row, i) => {
    shapes.push(...rowShapes(input, row, topOf + i * rowHeight, { columns, xOf, cell, width, head, tail, rowHeight }));
  });
  return { title: `Route map of ${input.unit}`, desc: mapWords(input), width, height, shapes };
}

function headShapes(
  { rows, chosen }: MapInput,
  columns: readonly Column[],
  xOf: ReadonlyMap<string, number>,
  cell: number,
  width: number,
  tail: number,
): Shape[] {
  const shapes: Shape[] = [];
  const chosenRow = rows.find((r) => r.tape === chosen?.tape);
  const verdicts = chosenRow ? stationVerdicts(chosenRow) : {};
  const chosenColumn = columns.find((c) => (c.holds ?? [c.check]).includes(chosen?.check ?? ""));
  for (const station of new Set(columns.map((c) => c.station))) {
    const mine = columns.filter((c) => c.station === station);
    const [x0, x1] = [xOf.get(keyOf(mine[0]!))!, xOf.get(keyOf(mine.at(-1)!))! + cell];
    const state =
      chosenColumn?.station === station
        ? "chosen"
        : verdicts[station] === "stops" || verdicts[station] === "depends"
          ? verdicts[station]!
          : "";
    shapes.push(
      circle([x0 + 10, 13], 8.5, state === "" ? "balloon" : `balloon ${state}`),
      text([x0 + 10, 17.2], `${station}`, state === "chosen" ? "t1 onhand" : "t1 strong", { anchor: "middle" }),
    );
    const word = capital(stationWords[station - 1]!);
    if (x1 - x0 > 26 + textWidth(word, 12, true)) shapes.push(text([x0 + 23, 17.2], word, "t1 strong"));
    shapes.push(line([x0, topOf - 2], [x1, topOf - 2], "thin"));
  }
  for (const c of columns) {
    const x = xOf.get(keyOf(c))! + cell / 2;
    const cls = c === chosenColumn ? "is-hand" : c.severity === "S" && !c.holds ? "dark" : "quiet";
    shapes.push(text([x + 3.5, topOf - 22], cutTo(nameOf(c), 10.5, c.contradicted ? 38 : 56), cls, { turned: -90 }));
    if (c.contradicted)
      shapes.push(
        group(
          [
            line([x - 5, topOf - 72], [x + 5, topOf - 72], "fail-line"),
            line([x - 5, topOf - 68], [x + 5, topOf - 68], "fail-line"),
            line([x + 3, topOf - 76], [x - 3, topOf - 64], "fail-line"),
          ],
          { class: "contradicted" },
        ),
      );
    if (c.letter)
      shapes.push(
        text([x, topOf - 8], c.letter, c.letter === "g" ? "is-ask" : c.letter === "m" ? "strong" : "quiet", {
          anchor: "middle",
        }),
      );
  }
  shapes.push(text([10, 17], "Route map", "t1 strong"));
  const key: readonly [number, number, Shape[], string][] = [
    [10, 36, [line([8, 42], [24, 42], "hair"), box([12, 34], 8, 8, "of-pass")], "feeds"],
    [
      84,
      36,
      [
        box([88, 33], 8, 12, "of-paper"),
        box([88, 33], 8, 12, "ask-line", { fill: "unknown" }),
        line([84, 41], [100, 41], "outline"),
      ],
      "depends, %",
    ],
    [10, 54, [line([8, 52], [24, 52], "hair"), box([12, 52], 8, 8, "fail-line", { fill: "fails" })], "stops"],
    [84, 54, [line([89, 56], [95, 56], "faint")], "no such part"],
    [10, 72, [circle([16, 71], 3, "of-ink2")], "does not hold, but never stops"],
  ];
  for (const [x, y, mark, words] of key) shapes.push(...mark, text([x + 20, y + 5.5], words, ""));
  shapes.push(
    text([10, topOf - 8], [{ text: "m", class: "strong" }, { text: " measured" }], ""),
    text([70, topOf - 8], "d drawing", ""),
    text([118, topOf - 8], [{ text: "g", class: "is-ask" }, { text: " guess" }], ""),
  );
  shapes.push(text([width - tail + 6, topOf - 8], "decided by", ""));
  return shapes;
}

interface Grid {
  readonly columns: readonly Column[];
  readonly xOf: ReadonlyMap<string, number>;
  readonly cell: number;
  readonly width: number;
  readonly head: number;
  readonly tail: number;
  readonly rowHeight: number;
}
function rowShapes(input: MapInput, row: TapeResult, y: number, grid: Grid): Shape[] {
  const { columns, xOf, cell, width, head, tail, rowHeight } = grid;
  const shapes: Shape[] = [];
  const on = input.chosen?.tape === row.tape;
  if (on) shapes.push(box([4, y], width - 4, rowHeight, "of-handbg"), box([4, y], 3, rowHeight, "of-hand"));
  const icon = input.tapes?.[row.tape];
  const middle = y + rowHeight / 2;
  if (icon) shapes.push(...tapeIcon(icon, [12, middle], 34, Math.min(0.5, (rowHeight - 6) / 46)));
  const left = icon ? 52 : 12;
  shapes.push(text([left, middle + 4.5], `${row.W}`, "t2 strong"));
  const nameAt = left + 24;
  shapes.push(text([nameAt, middle + 4], cutTo(row.tape, 12, head - nameAt - 6), "t1 dark"));
  const base = y + rowHeight * 0.58;
  const mine: Shape[] = [];
  let from = 0;
  columns.forEach((c, i) => {
    const x = xOf.get(keyOf(c))!;
    if (c.first) from = x;
    const last = i + 1 === columns.length || columns[i + 1]!.first;
    if (last) shapes.push(line([from, base], [x + cell, base], "hair"));
    const f = shownOf(row, c);
    if (!f) return;
    const first = row.first[0] === f.check && row.verdict !== "feeds";
    mine.push(
      cellShape(
        row,
        f,
        {
          x,
          y,
          base,
          cell,
          rowHeight,
          first,
          chosen: on && input.chosen?.check === f.check,
          more: c.holds?.length ?? 0,
        },
        input.link?.(row, f),
      ),
    );
    const was = input.before?.find((r) => r.tape === row.tape);
    const old = was && findingOf(was, f.check);
    if (old && moved(old, f))
      mine.push(
        path(
          strokes(
            [
              [x + cell - 6, y + 6],
              [x + cell - 1, y + 3],
              [x + cell - 1, y + 9],
            ],
            true,
          ),
          "of-hand",
        ),
      );
  });
  shapes.push(...mine);
  if (input.waiting?.has(row.tape)) {
    shapes.push(
      line([head, base], [width - tail - 6, base], "hair"),
      text([width - tail + 6, middle + 4], "being worked out", "quiet"),
    );
    return [group(shapes, { class: "row waiting", data: { tape: row.tape } })];
  }
  const [tx, words] = [width - tail + 24, decidedBy(row)];
  shapes.push(verdictMark(row.verdict, [width - tail + 6, middle - 6.5], 13));
  const cls = row.verdict === "stops" ? "is-fail" : row.verdict === "depends" ? "is-ask" : "";
  const share = row.verdict === "depends" && row.share !== null ? `${sayShare(row.share)}  ` : "";
  shapes.push(text([tx, middle + 4], cutTo(share + words, 10.5, width - tx - 4, true), cls));
  const older = input.older?.has(row.tape) ? " older" : "";
  return [group(shapes, { class: `row${older}`, data: { tape: row.tape } })];
}
const moved = (old: Finding, now: Finding): boolean =>
  old.verdict !== now.verdict ||
  Math.abs((old.margin ?? 0) - (now.margin ?? 0)) > 0.15 ||
  Math.abs((old.share ?? 0) - (now.share ?? 0)) > 0.05;

interface CellPlace {
  readonly x: number;
  readonly y: number;
  readonly base: number;
  readonly cell: number;
  readonly rowHeight: number;
  readonly first: boolean;
  readonly chosen: boolean;
  /** How many checks the cell stands for; 0 where it is one. */
  readonly more: number;
}
/** On the line stands what feeds, the higher the more margin; across it, by its share, what depends; below it hangs what stops. */
function cellShape(row: TapeResult, f: Finding, p: CellPlace, link?: MapLink): Shape {
  const { x, y, base, cell, rowHeight } = p;
  const shapes: Shape[] = [box([x, y + 1], cell, rowHeight - 2, "clear")];
  const withShare = f.severity === "S" && f.verdict === "depends";
  // Beside its box the share needs room; where there is none it stands over it.
  const beside = withShare && cell >= 27;
  const centre = beside ? x + (cell < 38 ? 8.5 : cell / 2 - 11) : x + cell / 2;
  const wide = beside && cell < 38 ? 7 : Math.max(6, Math.min(11, cell * 0.36));
  const bx = centre - wide / 2;
  const up = rowHeight * 0.5;
  const down = rowHeight * 0.34;
  if (f.verdict === "n/a") shapes.push(line([centre - 3, base - 2], [centre + 3, base - 2], "faint"));
  else if (f.severity !== "S") {
    // What never stops a tape is a dot: open while it holds, half while that is not known, full where it does not.
    const at: Point = [centre, base - 4];
    if (f.verdict === "stops") shapes.push(circle(at, 3.1, "of-ink2"));
    else if (f.verdict === "feeds") shapes.push(circle(at, 2.2, "faint of-paper"));
    else
      shapes.push(
        circle(at, 3, "thin of-paper"),
        path([["M", at[0], at[1] - 3], ["A", at[0], at[1] + 3, 3, false, false], ["Z"]], "of-ink2"),
      );
  } else if (f.verdict === "feeds") {
    const tall = Math.max(3, (Math.min(6, Math.max(1.5, f.margin ?? 0)) - 1.5) * (up / 4.5));
    // Outside the range in which its equation is known to hold a bar is hollow.
    shapes.push(box([bx, base - tall], wide, tall, f.status === "outside range" ? "pass-line of-paper" : "of-pass"));
  } else if (f.verdict === "depends") {
    const whole = rowHeight * 0.44;
    const above = whole * (f.share ?? 0.5);
    const topEdge = base - above;
    shapes.push(
      box([bx, topEdge], wide, whole, "of-paper"),
      box([bx, topEdge], wide, whole, "ask-line", { fill: "unknown" }),
      line([bx - (beside && cell < 38 ? 3 : 4), base], [bx + wide + (beside && cell < 38 ? 2 : 4), base], "outline"),
    );
    const share = sayShare(f.share!)
      .replace(/^(over|under) /, (w) => (w.startsWith("o") ? ">" : "<"))
      .replace(" ", "\u2009");
    if (beside)
      shapes.push(
        text([bx + wide + (cell >= 38 ? 6 : 3), base - 4], cell >= 48 ? share : share.replace("\u2009%", ""), "is-ask"),
      );
    else shapes.push(text([centre, y + 9], share.replace("\u2009%", ""), "is-ask halo", { anchor: "middle" }));
  } else {
    const hang = Math.max(4, Math.min(down, ((1.5 - (f.margin ?? -6)) * down) / 7.5));
    shapes.push(box([bx - 1, base], wide + 2, hang, "fail-line", { fill: "fails" }));
  }
  if (f.contradicted && f.verdict !== "n/a" && f.verdict !== "feeds")
    shapes.push(line([centre + 4, y + 5], [centre - 4, y + rowHeight - 5], "fail-line"));
  if (p.first) {
    const cls = row.verdict === "stops" ? "fail-line heavy" : "ask-line";
    const [l, r, t, b] = [x + 3, x + cell - 3, y + 3, y + rowHeight - 3];
    shapes.push(
      path(
        [
          ...strokes([
            [l + 4, t],
            [l, t],
            [l, b],
            [l + 4, b],
          ]),
          ...strokes([
            [r - 4, t],
            [r, t],
            [r, b],
            [r - 4, b],
          ]),
        ],
        cls,
        { data: { first: row.tape } },
      ),
    );
  }
  if (p.chosen) shapes.push(box([x + 0.5, y + 0.5], cell - 1, rowHeight - 1, "hand-line"));
  // On a page the cell that leads to what is open shows it by this frame, which the page's own rules bring forth.
  if (link) shapes.push(box([x + 0.5, y + 0.5], cell - 1, rowHeight - 1, "hand-line pick"));
  const data = {
    check: f.check,
    tape: row.tape,
    verdict: f.verdict,
    ...(p.more > 0 ? { more: `${p.more}` } : {}),
    ...link?.data,
  };
  if (!link) return group(shapes, { class: "cell", data });
  const { href, id, isStop } = link;
  const more = { ...(id ? { id } : {}), ...(isStop === undefined ? {} : { isStop }) };
  return group(shapes, {
    class: "cell",
    data,
    link: { href, label: p.more > 0 ? sayMore(row, f, p.more) : sayCell(row, f), ...more },
  });
}

/** A piece of tape from above, to its own scale: width, holes and pockets tell tapes apart at a glance. */
export function tapeIcon(tape: TapeIcon, [x, middle]: Point, long: number, pxPerMm: number): Shape[] {
  const k = pxPerMm * 1e3;
  const tall = tape.W * k;
  const y = middle - tall / 2;
  const shapes: Shape[] = [box([x, y], long, tall, "thin of-cavity")];
  for (let h = 2e-3 * k; h < long - 0.5; h += Math.max(3, 4e-3 * k))
    shapes.push(circle([x + h, y + tape.E1 * k], Math.max(0.55, 0.75e-3 * k), "of-paper"));
  const step = Math.max(tape.P1 * k, 5);
  const [w, t] = [Math.min(step - 1.2, Math.max(1.5, tape.A0 * k)), Math.max(1, tape.B0 * k)];
  for (let p = step / 2; p + w / 2 < long; p += step)
    shapes.push(box([x + p - w / 2, y + (tape.E1 + tape.F) * k - t / 2], w, t, "of-part"));
  return shapes;
}

export function mapWords(input: MapInput): string {
  const { unit } = input;
  const rows = input.rows.filter((r) => !input.waiting?.has(r.tape));
  const waiting = input.rows.length - rows.length;
  const count = (v: Verdict) => rows.filter((r) => r.verdict === v).length;
  const na = count("n/a");
  const out = [
    `${unit} on ${counted(rows.length, "tape")} by ${counted(mapColumns(rows).length, "check")}: ${count("feeds")} feed, ${count("depends")} depend, ${count("stops")} stop${na > 0 ? `, ${na} not applicable` : ""}${waiting > 0 ? `; ${counted(waiting, "more tape")} being worked out` : ""}.`,
  ];
  for (const row of rows) {
    const by = decidedBy(row);
    out.push(
      `${row.tape}, ${row.W} mm: ${sayVerdict(row.verdict, row.share)}${by === "" ? "" : row.verdict === "feeds" ? ` (${by})` : ` by ${by}`}.`,
    );
  }
  return aloud(out.join(" "));
}

/** The same grid as an HTML table: what a screen reader gets, and what prints where drawings do not. */
export function routeTable(input: MapInput, { id = "route" }: { readonly id?: string } = {}): string {
  const { rows } = input;
  const columns = mapColumns(rows);
  const stations = [...new Set(columns.map((c) => c.station))];
  const groups = stations
    .map(
      (s) =>
        `<th scope="colgroup" colspan="${columns.filter((c) => c.station === s).length}">${s} ${escaped(capital(stationWords[s - 1]!))}</th>`,
    )
    .join("");
  const names = columns
    .map((c) => {
      const title = input.titles?.[c.check];
      const more = [
        ...(c.severity === "S" ? [] : [severityWords[c.severity]]),
        ...(c.letter ? [{ m: "measured", d: "drawing", g: "guess" }[c.letter]] : []),
        ...(c.contradicted ? ["contradicted by a known unit"] : []),
      ];
      return `<th scope="col"${title ? ` title="${escaped(title)}"` : ""}>${escaped(shortName(c.check))}${more.length > 0 ? `<br><small>${escaped(more.join("; "))}</small>` : ""}</th>`;
    })
    .join("");
  const body = rows
    .map((row) => {
      const cells = columns
        .map((c) => {
          const f = findingOf(row, c.check);
          if (!f) return "<td></td>";
          const first = row.first[0] === c.check && row.verdict !== "feeds";
          const cls = `${f.severity === "S" ? (f.verdict === "n/a" ? "na" : f.verdict) : "note"}${first ? " first" : ""}`;
          const href = f.verdict === "n/a" ? undefined : input.link?.(row, f)?.href;
          const words = escaped(cellText(row, f));
          return `<td class="${cls}">${href === undefined ? words : `<a href="${escaped(href)}">${words}</a>`}</td>`;
        })
        .join("");
      const verdict = row.verdict === "n/a" ? "na" : row.verdict;
      return `<tr><th scope="row">${escaped(row.tape)}, ${row.W} mm</th>${cells}<td class="${verdict}">${escaped([sayVerdict(row.verdict, row.share), decidedBy(row)].filter((s) => s !== "").join(": "))}</td></tr>`;
    })
    .join("\n");
  return `<table class="tw-map" id="${escaped(id)}"><caption>Route map of ${escaped(input.unit)}: tapes by checks, in the order the tape meets them</caption>
<thead><tr><th scope="col" rowspan="2">Tape</th>${groups}<th scope="col" rowspan="2">Decided by</th></tr>
<tr>${names}</tr></thead>
<tbody>
${body}
</tbody></table>`;
}
function cellText(row: TapeResult, f: Finding): string {
  if (f.verdict === "n/a") return verdictWords["n/a"];
  const first = row.first[0] === f.check && row.verdict !== "feeds";
  const parts = [
    f.severity === "S"
      ? first && f.verdict === "stops"
        ? "stops first"
        : sayVerdict(f.verdict, f.share)
      : f.verdict === "feeds"
        ? "holds"
        : f.verdict === "depends"
          ? `holds in ${sayShare(f.share!)}`
          : "does not hold",
  ];
  if (f.severity === "S" && f.verdict === "feeds" && f.margin !== null)
    parts.push(f.marginBy === "cannot fail as drawn" ? "cannot fail as drawn" : `margin ${sayMargin(f)}`);
  if (first && f.verdict !== "stops") parts.push("decides");
  if (f.status === "outside range") parts.push("outside range");
  if (f.contradicted) parts.push("contradicted, ranks only");
  return parts.join(", ");
}
