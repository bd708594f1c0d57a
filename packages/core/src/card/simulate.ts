import { fromSI, toSI, unitOf } from "../quantity/units.ts";
import { Stream } from "../study/stream.ts";
import type { Method, Readings } from "./method.ts";
import { settingsOf } from "./read-off.ts";

/** A bench on which a card is carried out: the value that its pieces scatter about (SI), and the readings an instrument would show. */
export interface Bench {
  readonly truth: number;
  readonly readings: Readings;
}
/**
 * Readings of a known truth: pieces differ by a normal law, readings of a piece by another, nought, scale and settings lie evenly within
 * their half widths and are the same throughout, every entry is rounded to the step of its instrument.
 */
export function simulateBench(
  method: Method,
  { truth, seed }: { readonly truth?: number; readonly seed: number },
): Bench {
  const stream = new Stream(seed, method.id);
  const value = truth ?? toSI(method.typical.value, unitOf(method.shownIn));
  const even = (half: number): number => half * (2 * stream.uniform() - 1);
  const drawn = settingsOf(method);
  const set = Object.fromEntries(
    method.settings.map((s) => [s.symbol, drawn[s.symbol]! + even(toSI(s.within, unitOf(s.unit)))]),
  );
  const off = method.entries.map((e) => ({ zero: even(e.zero ?? 0), scale: 1 + even(e.scale ?? 0) }));
  const pieces = Array.from({ length: method.pieces }, () => {
    const ofPiece = value + stream.normal() * method.typical.pieces * Math.abs(value);
    return Array.from({ length: method.repeats }, (_, k) => {
      // A limit is one number of its piece; what scatters is where the steps of the search happen to stand.
      const one = ofPiece + stream.normal() * method.typical.readings * Math.abs(value);
      const row = method.shows(one, set, k);
      if (method.between) return caught(method, row, stream);
      return method.entries.map((e, i) => {
        const shown = fromSI(row[e.symbol]!, unitOf(e.unit)) * off[i]!.scale + off[i]!.zero;
        return Number((Math.round(shown / e.resolution) * e.resolution).toPrecision(12));
      });
    });
  });
  return { truth: value, readings: { pieces } };
}
/** The two steps of a ladder between which a limit was caught; where the ladder begins is as it happens. */
function caught(method: Method, row: Readonly<Record<string, number>>, stream: Stream): number[] {
  const [low, high] = method.between!;
  const begins = stream.uniform();
  return method.entries.map((e) => {
    const limit = fromSI(row[e.symbol]!, unitOf(e.unit));
    const step = e.resolution;
    // A limit below the ladder's first step is come to from nearer nought.
    const first = Math.min(begins, (begins * limit) / step);
    const below = Math.max(0, Math.floor(limit / step - first)) + first;
    return e.symbol === low ? below * step : e.symbol === high ? (below + 1) * step : limit;
  });
}
