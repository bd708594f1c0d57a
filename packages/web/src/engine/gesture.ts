import type { ChangeSet } from "@codemirror/state";
import { movedText } from "@tapeworthy/core";
import { replacedFrom } from "@tapeworthy/project";
import type { NumberView } from "./state.ts";

/** One number of a gesture: its text as the gesture began, and where its text stands now. */
interface Held {
  readonly number: NumberView;
  readonly file: string;
  from: number;
  to: number;
  /** What stands there, by this gesture's hand. */
  written: string;
}

/**
 * A hand on numbers, from taking hold to letting go. All of them move by one distance, always from their texts as they were taken hold of, so
 * that no step adds up an error; onto the grid and within their bounds. Their places move along with what others write meanwhile.
 */
export class Gesture {
  readonly id: string;
  readonly members: readonly string[];
  private readonly held: readonly Held[];
  private readonly least: number;
  private readonly most: number;
  by = 0;

  constructor(id: string, numbers: readonly NumberView[], texts: ReadonlyMap<string, string>) {
    this.id = id;
    this.members = numbers.map((n) => n.address);
    this.held = numbers.flatMap((number): Held[] => {
      const { file, line, column, length } = number.place;
      const text = texts.get(file);
      if (text === undefined || !number.draggable) return [];
      const from = lineStart(text, line) + column - 1;
      const to = from + length;
      return [{ number, file, from, to, written: text.slice(from, to) }];
    });
    const room = (bound: "least" | "most", pick: (...v: number[]) => number): number =>
      pick(...this.held.map(({ number }) => (number[bound] ?? (bound === "least" ? -far : far)) - number.value));
    this.least = Math.min(0, room("least", Math.max));
    this.most = Math.max(0, room("most", Math.min));
  }
  /** How far slopes may be trusted, SI: forty steps. */
  get reach(): number {
    return 40 * (this.held[0]?.number.step ?? 0);
  }
  /** The distance wished for, onto the grid and within all bounds. */
  onGrid(by: number, grid: "fine" | "coarse" | "free"): number {
    const [first] = this.held;
    if (!first) return 0;
    const size = grid === "free" ? 0 : grid === "fine" ? first.number.step : first.number.coarse;
    const within = Math.min(this.most, Math.max(this.least, by));
    if (size <= 0) return within;
    const steps = Math.round(within / size);
    const out = steps * size;
    // Rounding must not step over a bound.
    return out > this.most + 1e-12 ? (steps - 1) * size : out < this.least - 1e-12 ? (steps + 1) * size : out;
  }
  /** Edits that bring all numbers to a distance; undefined where somebody else has written over one of them. */
  edits(by: number, texts: ReadonlyMap<string, string>): { file: string; changes: ChangeSet }[] | undefined {
    const byFile = new Map<string, ChangeSet>();
    for (const { number, file, from, to, written } of this.held) {
      const text = texts.get(file);
      if (text === undefined || text.slice(from, to) !== written) return undefined;
      const { changes } = replacedFrom(text, file, from, to, by === 0 ? number.text : movedText(number, by));
      const all = byFile.get(file);
      byFile.set(file, all ? all.compose(changes.map(all)) : changes);
    }
    return [...byFile].map(([file, changes]) => ({ file, changes }));
  }
  /** A text changed, by this gesture or by others: places move along. */
  follow(file: string, changes: ChangeSet | undefined, text: string | undefined, own: boolean): void {
    for (const one of this.held) {
      if (one.file !== file || !changes) continue;
      one.from = changes.mapPos(Math.min(one.from, changes.length), own ? -1 : 1);
      one.to = changes.mapPos(Math.min(one.to, changes.length), own ? 1 : -1);
      if (own) one.written = text?.slice(one.from, one.to) ?? "";
    }
  }
  /** What the numbers' texts are now, for the page. */
  now(
    by: number,
  ): { readonly address: string; readonly before: string; readonly after: string; readonly number: NumberView }[] {
    return this.held.map(({ number }) => ({
      number,
      address: number.address,
      before: number.text,
      after: by === 0 ? number.text : movedText(number, by),
    }));
  }
}
/** Where no bounds are given a length moves so far, and any other number. */
const far = 1e6;
function lineStart(text: string, line: number): number {
  let at = 0;
  for (let i = 1; i < line; i++) at = text.indexOf("\n", at) + 1;
  return at;
}
