import type { TapeResult } from "@tapeworthy/core";
import {
  cellsFor,
  foldFor,
  leastCell,
  type MapInput,
  mapColumns,
  routeMap,
  shownCells,
  toSvg,
} from "@tapeworthy/drawing";
import { type KeyboardEvent, type MouseEvent, useMemo, useRef } from "react";
import type { EngineState, PairState } from "../engine/engine.ts";
import { titleOf } from "../panel/chosen.ts";
import { type Choice, hashOf, nothingChosen } from "./choice.ts";
import type { Choose } from "./sheet.tsx";
import { useSize } from "./size.ts";
import { Written } from "./written.tsx";

/** A row as tall as the window has room for: never less than a finger needs. */
const rowHeightFor = (rows: number): number =>
  Math.max(24, Math.min(33, Math.floor((innerHeight * 0.45 - 112) / Math.max(1, rows))));

/** Tapes by checks. One stop of the Tab key; arrows move from cell to cell. */
export function MapView({
  state,
  choice,
  choose,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const { project, pairs } = state;
  const unit = project?.units.find((u) => u.stem === choice.unit);
  const isHeld = state.gesture !== undefined;
  /** What was folded last: while a hand moves something no column comes or goes. */
  const last = useRef<ReadonlySet<string>>(new Set());
  const svg = useMemo(() => {
    if (!unit || !size) return "";
    const mine = pairs.filter((p) => p.unit === unit.stem);
    const rows = mine.map((p) => p.result ?? waitingRow(p, project!.tapes.find((t) => t.stem === p.tape)?.row ?? 0));
    if (rows.length === 0) return "";
    const titles = Object.fromEntries(mapColumns(rows).map(({ check }) => [check, titleOf(check)]));
    const tapes = Object.fromEntries(project!.tapes.map((t) => [t.stem, t.icon]));
    const before = mine.flatMap((p) => p.before ?? []);
    if (!isHeld) last.current = foldFor(rows, cellsFor(rows, size.width), choice.check);
    // One stop of the Tab key: the cell that is open, else the first of the tape, else of the map.
    const cells = shownCells(rows, last.current);
    const stop =
      cells.find((c) => c.tape === choice.tape && c.check === choice.check) ??
      cells.find((c) => c.tape === choice.tape) ??
      cells[0];
    const named = (those: readonly PairState[]) => new Set(those.map((p) => p.tape));
    const input: MapInput = {
      unit: unit.name,
      rows,
      folded: last.current,
      titles,
      tapes,
      before,
      waiting: named(mine.filter((p) => !p.result)),
      older: named(mine.filter((p) => p.sharpness === "older")),
      ...(choice.tape === undefined
        ? {}
        : { chosen: { tape: choice.tape, ...(choice.check === undefined ? {} : { check: choice.check }) } }),
      link: (row, f) => ({
        href: hashOf({ ...nothingChosen, unit: row.unit, tape: row.tape, check: f.check, panel: "finding" }),
        isStop: row.tape === stop?.tape && f.check === stop.check,
      }),
    };
    return toSvg(routeMap(input, { width: size.width, rowHeight: rowHeightFor(rows.length), leastCell }), {
      prefix: "map",
      role: "group",
    });
  }, [unit, size, project, pairs, choice.tape, choice.check, isHeld]);

  const open = (cell: SVGAElement, how: "step" | "replace" = "step") =>
    choose({ tape: cell.dataset.tape, check: cell.dataset.check, panel: "finding" }, how);
  const focusOpen = (map: Element) =>
    requestAnimationFrame(() => map.querySelector<SVGAElement>('a.cell[tabindex="0"]')?.focus());
  const onClick = (event: MouseEvent<HTMLDivElement>) => {
    const cell = (event.target as Element).closest<SVGAElement>("a.cell");
    if (cell) {
      event.preventDefault();
      open(cell);
      // A folded one unfolds the column it leads to, and is another then.
      if (cell.dataset.more) focusOpen(event.currentTarget);
      else cell.focus();
      return;
    }
    const row = (event.target as Element).closest<SVGGElement>("g.row");
    if (row) choose({ tape: row.dataset.tape });
  };
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    const cell = (event.target as Element).closest<SVGAElement>("a.cell");
    if (!cell || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      open(cell);
      if (cell.dataset.more) focusOpen(event.currentTarget);
      else if (event.key === "Enter") choose({ over: "finding" });
      return;
    }
    const to = stepFrom(cellsOf(event.currentTarget), cell, event.key);
    if (!to) return;
    event.preventDefault();
    to.focus();
    if (!to.dataset.more) open(to, "replace");
  };
  return (
    <div className="map" ref={ref}>
      <Written html={svg} zoom={size?.zoom} onClick={onClick} onKeyDown={onKeyDown} />
      {unit && unit.wanted.length === 0 ? (
        <div className="says">
          <p>
            No tape is wanted of {unit.name} yet. Name tapes under <code>wanted</code> in <code>project.yaml</code>, for
            example{" "}
            <code>
              {unit.stem}: [{project?.tapes[0]?.stem ?? "a-tape"}]
            </code>
            .
          </p>
          <button type="button" className="btn" onClick={() => choose({ text: { file: "project.yaml" } })}>
            Open project.yaml
          </button>
        </div>
      ) : null}
    </div>
  );
}

/** A row of which nothing is known yet. */
const waitingRow = ({ unit, tape }: PairState, W: number): TapeResult => ({
  unit,
  tape,
  W,
  verdict: "n/a",
  share: null,
  shareAlone: null,
  verdictAlone: "n/a",
  first: [],
  findings: [],
});
const cellsOf = (host: Element): SVGAElement[][] =>
  [...host.querySelectorAll("g.row")].map((row) => [...row.querySelectorAll<SVGAElement>("a.cell")]);
function stepFrom(rows: SVGAElement[][], cell: SVGAElement, key: string): SVGAElement | undefined {
  const r = rows.findIndex((row) => row.includes(cell));
  const c = rows[r]!.indexOf(cell);
  const near = (row: SVGAElement[] | undefined) =>
    row?.find((one) => one.dataset.check === cell.dataset.check) ?? row?.[Math.min(c, row.length - 1)];
  const row = rows[r]!;
  switch (key) {
    case "ArrowRight":
      return row[c + 1];
    case "ArrowLeft":
      return row[c - 1];
    case "ArrowDown":
      return near(rows[r + 1]);
    case "ArrowUp":
      return near(rows[r - 1]);
    case "Home":
      return row[0];
    case "End":
      return row.at(-1);
    default:
      return undefined;
  }
}
