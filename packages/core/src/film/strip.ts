import { model } from "../quantity/model.ts";
import { rootBetween } from "../study/root.ts";
import { notLedToNip } from "./friction.ts";
import { filmEh } from "./laminate.ts";
import { norm, type Path, path, plus } from "./path.ts";
import { filmPull } from "./pull.ts";

/**
 * The film as parallel fibres that bear tension only, all of one material length l_0, over the whole path.
 *
 *     integral over |y| <= b/2 of Eh max(0, (l(y) - l_0)/l_0) dy = P
 *
 * Eh stretching stiffness per width, N/m; P pull, N; b width, m; l(y) length of fibre y over all spans, m. With the front free the
 * part of l linear in y is taken out first (the peel front swings).
 *
 * These numbers are reported and decide nothing: with l_0 set by the pull, the greatest strain is limited by the pull and not by the
 * route, so neither it nor the slack share tells the widths apart. Straight chords underestimate the edge strain of a shell by 20 % at
 * 8 mm to 50 % at 24 mm.
 */
export interface Strip {
  readonly greatest: number;
  /** Share of the width that hangs slack. */
  readonly slack: number;
  /** Where the line of pull lies from the middle, m. */
  readonly offset: number;
}
const points = 401;

export function strip(
  lengthOf: (y: number) => number,
  b: number,
  Eh: number,
  P: number,
  front: "free" | "clamped",
): Strip {
  const y = Array.from({ length: points }, (_, i) => (b * i) / (points - 1) - b / 2);
  const l = y.map(lengthOf);
  if (front === "free") {
    let top = 0;
    let bottom = 0;
    y.forEach((v, i) => {
      top += v * l[i]!;
      bottom += v * v;
    });
    for (let i = 0; i < points; i++) l[i]! -= (top / bottom) * y[i]!;
  }
  const longest = Math.max(...l);
  const shortest = Math.min(...l);
  const dy = b / (points - 1);
  const end = (i: number): number => (i === 0 || i === points - 1 ? 0.5 : 1);
  const pull = (l0: number): number => l.reduce((sum, v, i) => sum + end(i) * Math.max(0, (v - l0) / l0), 0) * Eh * dy;
  const l0 = rootBetween((x) => pull(x) - P, shortest * 0.5, longest, longest * 1e-13);
  if (l0 === undefined) throw new RangeError(`no length of film carries a pull of ${P} N over this path`);
  let total = 0;
  let moment = 0;
  let slack = 0;
  l.forEach((v, i) => {
    const t = Math.max(0, (v - l0) / l0) * end(i);
    total += t;
    moment += t * y[i]!;
    if (v <= l0) slack += end(i);
  });
  return { greatest: longest / l0 - 1, slack: slack / (points - 1), offset: moment / total };
}
/** Length of fibre y over all spans of a path. */
export const fibreLength = (p: Path, y: number): number =>
  p.spans.reduce((sum, s) => sum + norm(plus(s.run, s.fan, y)), 0);

const solvedStrip = model({
  id: "film.strip",
  symbol: "strip",
  unit: "",
  title: "tension-only fibres of the film, front free",
  equation: "integral of Eh*max(0, l(y)/l_0 - 1) over the width = F",
  form: "solved",
  origin: { cite: "tension-only fibres; the strip model of wide film", how: "derived" },
  reads: (scene) => (notLedToNip(scene) ? undefined : { path, b: scene.tape.film.width, Eh: filmEh, F: filmPull }),
  value: ({ path: p, b, Eh, F }) => strip((y) => fibreLength(p, y), b, Eh, F, "free"),
});
export const greatestStrain = model({
  id: "film.greatest-strain",
  symbol: "e_max",
  unit: "1",
  shownIn: "%",
  title: "greatest fibre strain (reported, decides nothing)",
  equation: "max(l(y))/l_0 - 1",
  form: "solved",
  origin: { cite: "tension-only fibres", how: "derived" },
  reads: () => ({ s: solvedStrip }),
  value: ({ s }) => s.greatest,
});
export const slackShare = model({
  id: "film.slack-share",
  symbol: "q_s",
  unit: "1",
  shownIn: "%",
  title: "share of the width that hangs slack (reported, decides nothing)",
  equation: "share of the width with l(y) <= l_0",
  form: "solved",
  origin: { cite: "tension-only fibres", how: "derived" },
  reads: () => ({ s: solvedStrip }),
  value: ({ s }) => s.slack,
});
