import {
  type Check,
  type CheckRecord,
  checkNamed,
  chosen,
  type Finding,
  type Scene,
  shownUnit,
  type TapeResult,
  type Verdict,
} from "@tapeworthy/core";
import { askedOf, headline, placeOf, stationVerdicts, type UnitSheet, unitShape, unitSheet } from "@tapeworthy/drawing";
import type { JudgedUnit, ReportInput } from "./report-input.ts";

/** What the report says of one unit, worked out once: a part a width, each with one drawing that all its findings share. */
export interface UnitPart {
  readonly unit: JudgedUnit;
  readonly widths: readonly WidthPart[];
  /** The width whose drawing stands first: where most is amiss. */
  readonly first: WidthPart | undefined;
  /** Widths the unit serves of which the project has no tape. */
  readonly unseen: readonly number[];
  /** The record of a check's trials; undefined where nobody keeps a ledger. */
  readonly recordOf: ((check: string) => CheckRecord | undefined) | undefined;
}
export interface WidthPart {
  readonly W: number;
  readonly rows: readonly TapeResult[];
  /** The tape it is drawn with, and its scene. */
  readonly tape: string;
  readonly scene: Scene;
  readonly sheet: UnitSheet | undefined;
  /** Why it can't be drawn, where it can't. */
  readonly trouble: string | undefined;
  readonly written: readonly Written[];
}
/** A finding that is written out, because it is not plainly fine. */
export interface Written {
  readonly row: TapeResult;
  readonly finding: Finding;
  readonly scene: Scene;
  readonly title: string;
  readonly shownIn: string;
  /** Name of its marks on the drawing of its width. */
  readonly overlay: string;
  readonly isFirst: boolean;
  /** An earlier one of the same width that says the same in every word. */
  readonly like?: Written;
}

/** Pixels of a drawing as it stands beside a panel on a screen 1280 wide; wider, it grows. */
export const sheetSize = { width: 928, height: 364 } as const;

export function unitParts(input: ReportInput): UnitPart[] {
  return input.judged.units.map((unit) => unitPart(unit, input));
}

function unitPart(unit: JudgedUnit, input: ReportInput): UnitPart {
  const file = input.project.units.get(unit.unit);
  const served = [...new Set([...(file?.widths ?? []), ...unit.tapes.map((t) => t.W)])].sort((a, b) => a - b);
  const tapeOf = (W: number): string | undefined =>
    unit.tapes.find((t) => t.W === W)?.tape ??
    [...input.project.tapes].find(([, { tape }]) => tape.row === W && file?.kinds.includes(tape.kind))?.[0];
  const widths = served.flatMap((W): WidthPart[] => {
    const tape = tapeOf(W);
    return tape === undefined ? [] : [widthPart(unit, W, tape, input)];
  });
  return {
    unit,
    widths,
    first: worstOf(widths),
    unseen: served.filter((W) => tapeOf(W) === undefined),
    recordOf:
      input.project.ledger.frozen.length > 0
        ? (check) => input.judged.records?.find((record) => record.check === check)
        : undefined,
  };
}

function widthPart(unit: JudgedUnit, W: number, tape: string, input: ReportInput): WidthPart {
  const rows = unit.tapes.filter((t) => t.W === W);
  const scene = input.sceneOf(unit.unit, tape);
  const names = new Map<string, string>();
  const written: Written[] = [];
  let sheet: UnitSheet | undefined;
  let trouble: string | undefined;
  try {
    const shape = unitShape(scene);
    const overlays = rows.flatMap((row) =>
      writtenOf(row).map((finding) => {
        const asked = finding.verdict === "depends" ? askedOf(finding) : undefined;
        const marks = { place: placeOf(shape, finding), ...(asked ? { asked } : {}) };
        const key = JSON.stringify(marks);
        const isNew = !names.has(key);
        const name = names.get(key) ?? `o${W}-${names.size + 1}`;
        names.set(key, name);
        written.push(entry(unit, row, finding, name, written, input));
        return { name, isNew, ...marks };
      }),
    );
    sheet = unitSheet(shape, {
      ...sheetSize,
      stations: worstStations(rows),
      overlays: overlays.filter((o) => o.isNew),
      share: `g-${unit.unit.replace(/[^A-Za-z0-9]/g, "")}-${W}`,
    });
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
    trouble = e.message;
    written.length = 0;
    for (const row of rows)
      for (const finding of writtenOf(row)) written.push(entry(unit, row, finding, "", written, input));
  }
  return { W, rows, tape, scene, sheet, trouble, written };
}

/** Hard checks that do not plainly feed: the first to stop first, then those that a record contradicts. */
export function writtenOf(row: TapeResult): Finding[] {
  const open = row.findings.filter((f) => f.severity === "S" && (f.verdict === "stops" || f.verdict === "depends"));
  const rank = (f: Finding): number => {
    const at = row.first.indexOf(f.check);
    return at < 0 ? row.first.length : at;
  };
  const joint = row.verdict === "depends" || row.verdict === "stops" ? row.first[0] : undefined;
  // Where each check alone feeds and the tape does not, the least of them is what decides.
  const first = row.findings.find((f) => f.check === joint && !open.includes(f));
  return [...(first ? [first] : []), ...open].sort((a, b) => rank(a) - rank(b));
}

function entry(
  unit: JudgedUnit,
  row: TapeResult,
  finding: Finding,
  overlay: string,
  before: readonly Written[],
  input: ReportInput,
): Written {
  const scene = input.sceneOf(unit.unit, row.tape);
  const { check, shownIn } = checkOf(finding, scene);
  const title = check?.title ?? finding.check;
  const isFirst = row.first[0] === finding.check;
  const words = (f: Finding): string => JSON.stringify([f.check, headline(f, title, shownIn), f.because, f.where]);
  const like = before.find((w) => w.isFirst === isFirst && words(w.finding) === words(finding));
  return { row, finding, scene, title, shownIn, overlay, isFirst, ...(like ? { like } : {}) };
}

/** The check behind a finding, and the unit its value is read in. */
export function checkOf(
  finding: Finding,
  scene: Scene,
): { readonly check: Check | undefined; readonly shownIn: string } {
  const check = checkNamed(finding.check);
  const value = check && finding.verdict !== "n/a" ? chosen(check.value, scene) : undefined;
  return { check, shownIn: value ? shownUnit(value) : "" };
}

const rank: Readonly<Record<Verdict, number>> = { stops: 3, depends: 2, feeds: 1, "n/a": 0 };
/** The worst verdict of each station over the tapes of one width: what the balloons of their drawing show. */
function worstStations(rows: readonly TapeResult[]): ReturnType<typeof stationVerdicts> {
  const out: ReturnType<typeof stationVerdicts> = {};
  for (const row of rows)
    for (const [n, verdict] of Object.entries(stationVerdicts(row))) {
      const station = Number(n) as keyof typeof out;
      if (rank[verdict] >= rank[out[station] ?? "n/a"]) out[station] = verdict;
    }
  return out;
}
function worstOf(widths: readonly WidthPart[]): WidthPart | undefined {
  const share = (w: WidthPart): number => Math.min(2, ...w.rows.map((r) => r.share ?? 2));
  const margin = (w: WidthPart): number => Math.min(7, ...w.written.map(({ finding }) => finding.margin ?? 7));
  const amiss = (w: WidthPart): number => w.rows.filter((r) => r.verdict === "stops").length;
  return [...widths].sort(
    (a, b) => share(a) - share(b) || margin(a) - margin(b) || amiss(b) - amiss(a) || a.W - b.W,
  )[0];
}
