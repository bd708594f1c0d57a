import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { notLedToNip } from "./friction.ts";
import { dot, guideNames, path, type Span } from "./path.ts";
import { greatestStrain, slackShare } from "./strip.ts";

/**
 * Chord mismatch of a span: what is left of the difference in fibre length after its part linear in y is taken out, over the
 * length of the span.
 *
 *     l(y) = |r + y q|,   m = (max - min over |y| <= b/2 of l(y) - a_1 y) / L
 *
 * r  run of the span's middle fibre, m; q  difference of the two guides' fans, 1
 * b  width of the film, m              0.003 .. 0.2       L = |r|, m    0.005 .. 0.5
 * a_1  slope of the least-squares line through l(y)
 *
 * The linear part costs skew, not strain: the peel front swings and the film walks. The rest must be stretched or buckled. For a
 * free twist by phi it is sqrt(1 + (b sin(phi/2)/L)^2) - 1, so a quarter turn grows as b^2/(4 L^2). Straight chords lie inside
 * the true surface, so it is a lower bound; `flatMismatch` is the flat film's value beside it. The limit belongs to this measure.
 * Exact for straight fibres; the least-squares slope by 8-point Gauss-Legendre quadrature (relative error under 1e-9 for b <= L).
 */
export function chordMismatch(span: Span, b: number): number {
  const A = dot(span.run, span.run);
  const B = 2 * dot(span.run, span.fan);
  const C = dot(span.fan, span.fan);
  const l = (y: number): number => Math.sqrt(Math.max(0, A + y * (B + y * C)));
  const h = b / 2;
  let moment = 0;
  for (const [t, w] of gauss8) moment += w * t * (l(h * t) - l(-h * t));
  const slope = (3 * moment) / (2 * h);
  const rest = (y: number): number => l(y) - slope * y;
  const k = C - slope * slope;
  // l is convex, so the rest has one lowest point; where it lies outside the film an edge is lowest.
  const bottom =
    k > 0 && C > 0 ? -B / (2 * C) + (slope * Math.sqrt(Math.max(0, (4 * A * C - B * B) / k))) / (2 * C) : h;
  const least = Math.abs(bottom) < h ? Math.min(rest(bottom), rest(h), rest(-h)) : Math.min(rest(h), rest(-h));
  return (Math.max(rest(h), rest(-h)) - least) / span.length;
}
/** Positive nodes and weights of the 8-point Gauss-Legendre rule (Abramowitz & Stegun table 25.4; memory, checked by a test). */
const gauss8: readonly (readonly [node: number, weight: number])[] = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
];

/** The same for a flat film laid on a helicoid, whose edges follow the curved surface: sqrt(1 + (phi b/(2 L))^2) - 1. */
export const flatMismatch = (twist: number, b: number, length: number): number =>
  Math.hypot(1, (twist * b) / (2 * length)) - 1;

const worstSpan = (spans: readonly Span[], b: number): number => {
  let worst = 0;
  let most = -1;
  spans.forEach((span, i) => {
    const m = chordMismatch(span, b);
    if (m > most) {
      most = m;
      worst = i;
    }
  });
  return worst;
};
const origin = { cite: "geometry of straight fibres; the criterion is ours", how: "derived" } as const;
const reads = (scene: Scene) =>
  notLedToNip(scene) ? undefined : { path, b: scene.tape.film.width, names: guideNames(scene) };

export const mismatch = model({
  id: "film.chord-mismatch",
  symbol: "m",
  unit: "1",
  shownIn: "%",
  title: "chord mismatch of the worst span",
  equation: "(max(l(y) - a_1*y) - min(l(y) - a_1*y))/L over the film's width",
  form: "solved",
  origin,
  valid: { b: [0.003, 0.2] },
  costly: true,
  reads,
  value: ({ path: p, b }) => p.spans.reduce((most, span) => Math.max(most, chordMismatch(span, b)), 0),
  where: ({ path: p, b, names }) => {
    const i = worstSpan(p.spans, b);
    return `span ${names[i]} to ${names[i + 1]}, ${(p.spans[i]!.length * 1e3).toFixed(0)} mm`;
  },
});
export const flatFilm = model({
  id: "film.flat-mismatch",
  symbol: "m_flat",
  unit: "1",
  shownIn: "%",
  title: "mismatch of a flat film in the same span",
  equation: "sqrt(1 + (phi*b/(2*L))^2) - 1",
  form: "solved",
  origin: { cite: "edge of a helicoid", how: "derived" },
  costly: true,
  reads,
  value: ({ path: p, b }) => {
    const span = p.spans[worstSpan(p.spans, b)]!;
    return flatMismatch(span.twist, b, span.length);
  },
});

export const checkMismatch: Check = {
  id: "film.mismatch",
  station: 4,
  severity: "S",
  status: "judgement",
  title: "fibres of the film differ little in length",
  value: mismatch,
  atMost: ({ requirement }) => requirement.assume["mismatch limit"],
  absent: notLedToNip,
  because: (say, { requirement }) =>
    `Led sideways, the film's fibres differ by ${say(mismatch)} of the span; it bears about ${say(requirement.assume["mismatch limit"])} before it folds.`,
  beside: () => [flatFilm, greatestStrain, slackShare],
};
