import { type Accuracy, type AccuracyBand, figures, showIn } from "@tapeworthy/core";
import { type Paint, wrapped } from "./paint.ts";

/** Errors below half a micrometre are dust of the draws. */
const um = (v: number): string => (Math.abs(v) < 0.5e-6 ? "0 um" : showIn("um", v));
const um3 = (v: number): string => showIn("um", v, 3);
const mm = (v: number): string => showIn("mm", v);
const between = ({ low, high }: AccuracyBand): string => `belief ${mm(low)} to ${mm(high)}`;
const percent = (v: number): string => {
  if (v >= 1) return "all drawn";
  // As many nines as there are, and one figure more.
  const digits = v > 0.5 ? Math.min(6, Math.max(0, Math.ceil(-Math.log10(1 - v)) - 1)) : 0;
  return `${(v * 100).toFixed(digits)} %`;
};
const levels = { unit: "fixed for a unit", reel: "each reel", index: "each index" } as const;
const taught = {
  none: "the place is not taught",
  "one point": "the place is taught once, with another reel",
  "two points": "the place is taught cold and warm",
} as const;

/** What `accuracy` prints of one pair. */
export function showAccuracy(a: Accuracy, paint: Paint, wide: number): string {
  const title = paint.strong(`${a.unit} on ${a.tape}`);
  if (a.absent !== undefined) return `${title}: no pick chain: ${a.absent}.`;
  const out = [`${title}: ${+(a.share * 100).toPrecision(8)} % of indexes within`];
  const line = (name: string, band: AccuracyBand | null): void => {
    if (!band) return;
    const over = a.takes !== null && name.startsWith("any") && band.middle > a.takes;
    out.push(
      `${mm(band.middle).padStart(9)}  ${name.padEnd(40)} ${between(band)}${over ? ", more than the tool takes" : ""}`,
    );
  };
  line("a known unit and reel, its place taught", a.radii.known);
  line("any cycle of any unit", a.radii.any);
  line("a unit's mean, before its place is taught", a.radii.unitMean);
  const say = (text: string): void => void out.push(...wrapped(`  ${text}`, wide, "  ").split("\n"));
  if (a.takes !== null) say(`The pick tool forgives ${mm(a.takes)}; ${taught[a.calibration]}.`);
  say(
    `Off by ${um(a.offset.x)} along and ${um(a.offset.y)} across in the mean, sd ${um(a.sd.x)} and ${um(a.sd.y)}; of one unit on one reel ${um(a.indexSd.x)} and ${um(a.indexSd.y)}.`,
  );
  if (a.turn && a.height)
    say(
      `Turned by ${showIn("deg", a.turn.mean)}, sd ${showIn("deg", a.turn.sd)}; height within ${mm(3 * a.height.sd)} either way (3 sd).`,
    );
  const shown = a.terms.filter((t) => t.left === null && (t.share ?? 0) >= 0.005).sort((p, q) => q.share! - p.share!);
  out.push("", paint.strong("Who makes the spread"));
  for (const t of shown) {
    const counts = t.parts.filter((p) => (p.axis === "x" || p.axis === "y") && (a.calibration === "none" || !p.trims));
    const at = [...new Set(counts.map((p) => levels[p.level]))];
    const axes = [...new Set(t.parts.map((p) => p.axis).filter((x) => x === "x" || x === "y"))].join("");
    out.push(`${percent(t.share!).padStart(7)}  ${t.title.padEnd(30)} ${axes.padEnd(3)} ${paint.faint(at.join(", "))}`);
  }
  const left = a.terms.filter((t) => t.left !== null);
  if (left.length > 0) say(`Not in it: ${left.map((t) => `${t.title} (${t.left})`).join("; ")}.`);
  out.push("", paint.strong("By input"));
  for (const c of a.contributions.slice(0, 8))
    out.push(
      `${percent(c.share).padStart(7)}  ${c.letter} ${c.address}${c.actsTogether ? ", acts together with others" : ""} ${paint.faint(levels[c.level])}`,
    );
  if (a.yields.length > 0) {
    out.push("", paint.strong("Parts on the tool, by package"));
    for (const y of a.yields)
      out.push(
        `  ${y.family.padEnd(18)} within ${mm(y.radius).padStart(8)}  ${percent(y.any.middle).padStart(9)}  ${paint.faint(`known ${percent(y.known.middle)}`)}${y.cpk === null ? "" : `  Cpk ${figures(y.cpk, 2)}${y.interval ? paint.faint(` (${figures(y.interval[0], 2)} to ${figures(y.interval[1], 2)} from ${y.n} parts)`) : ""}`}`,
      );
  }
  out.push("", paint.strong("What would narrow it"));
  if (a.narrowing.length === 0) say("No lever of the unit file by a step of its own.");
  for (const n of a.narrowing)
    say(
      `${n.address}: ${showIn(n.shownIn, n.from, 3)} to ${showIn(n.shownIn, n.to, 3)}, radius ${um3(n.before)} to ${um3(n.after)}${n.falls.length > 0 ? `; falls: ${n.falls.join(", ")}` : ""}.`,
    );
  say(
    paint.faint(
      `${a.draws} draws${a.agreement ? `; radius by draws over that in closed form ${figures(a.agreement.ratio, 3)} (sd ${figures(a.agreement.sd, 2)})` : ""}.`,
    ),
  );
  return out.join("\n");
}
