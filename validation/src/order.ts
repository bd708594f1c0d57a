import { assumed } from "@tapeworthy/core";
import { crossingMismatch } from "./film.ts";
import { type Row, row } from "./row.ts";

/**
 * One fact of the trade: feeder units that lead the film sideways over a few centimetres run at 8 and 12 mm and fail at 24. Six statements
 * over spans of 35 and 55 mm: 8 mm lies below every limit believed, 12 mm not above all of them, 24 mm above all of them.
 */
export function orderRows(): Row[] {
  const limit = assumed()["mismatch limit"].unknown;
  const [low, high] = limit && "low" in limit ? [limit.low, limit.high] : [Number.NaN, Number.NaN];
  const borne = [35, 55].flatMap((L) => [
    crossingMismatch(8, L) < low,
    crossingMismatch(12, L) < high,
    crossingMismatch(24, L) > high,
  ]);
  return [
    row({
      id: "order of the trade",
      model: "film.chord-mismatch",
      expected: 6,
      got: borne.filter(Boolean).length,
      near: { within: 0 },
      unit: "of 6 statements",
      source: "common practice, no source",
      how: "common practice",
    }),
  ];
}
