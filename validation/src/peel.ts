import { independentReadings, peelTrace, summary } from "@tapeworthy/core";
import { type Near, type Row, row, sureNotes } from "./row.ts";

/** Start-up bump, then a triangle of 0.40 to 0.60 N of 8 mm, one reading a millimetre. */
const bump = [1.1, 0.915745351873, 0.80805027142, 0.752333692644, 0.731798569058];
export const trace = Array.from({ length: 151 }, (_, s) => {
  const past = (s + 4) % 8;
  return bump[s] ?? 0.6 - 0.05 * Math.min(past, 8 - past);
});

export function peelRows(): Row[] {
  const rows: Row[] = [];
  const add = (
    id: string,
    model: string,
    expected: number,
    got: number,
    near: Near,
    source: string,
    how: Row["how"] = "derived",
    unit = "1",
  ) => rows.push(row({ id, model, expected, got, near, source, how, unit }));
  // Read fine enough the trace would have the same peaks; at 1 mm it is named as too coarse for an 8 mm ripple.
  const got = peelTrace({ force: trace, step: 1e-3, pocketPitch: 8e-3, holePitch: 4e-3 });
  const rule = `${sureNotes}, 8: plateau 25 .. 145 mm (ISO 11339: memory), by hand`;
  add("peel.trace first reading", "peel trace", 25, got.plateau[0], { within: 0 }, rule);
  add("peel.trace last reading", "peel trace", 145, got.plateau[1], { within: 0 }, rule);
  add("peel.trace mean", "peel trace", 0.49958677685950414, got.mean, { share: 1e-11 }, rule, "derived", "N");
  add("peel.trace sd", "peel trace", 0.06140570948230134, got.sd, { share: 1e-10 }, rule, "derived", "N");
  add("peel.trace least", "peel trace", 0.4, got.least, { share: 1e-12 }, rule, "derived", "N");
  add("peel.trace greatest", "peel trace", 0.6, got.greatest, { share: 1e-12 }, rule, "derived", "N");
  add("peel.trace peaks", "peel trace", 15, got.peaks.count, { within: 0 }, rule);
  add("peel.trace median peak", "peel trace", 0.6, got.peaks.median, { share: 1e-12 }, rule, "derived", "N");
  add(
    "peel.trace raw mean",
    "summary",
    0.5123041581787726,
    summary(trace).mean,
    { share: 1e-11 },
    `${sureNotes}: nothing left out`,
    "derived",
    "N",
  );
  add(
    "peel.trace named as too coarse",
    "peel trace",
    1,
    got.usable ? 0 : 1,
    { within: 0 },
    `${sureNotes}, 8: 1 mm is more than a tenth of 8 mm`,
  );
  add(
    "peel.autocorr 0.9",
    "independent readings",
    52.631578947368425,
    independentReadings(1000, 0.9),
    { share: 1e-12 },
    "by hand, 1000/19",
    "derived",
  );
  add(
    "peel.autocorr 0.5",
    "independent readings",
    333.3333333333333,
    independentReadings(1000, 0.5),
    { share: 1e-12 },
    "by hand, 1000/3",
    "derived",
  );
  return rows;
}
