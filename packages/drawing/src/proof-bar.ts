import { cyclesToShow, roundedDown, spaced } from "@tapeworthy/core";
import { aloud, counted } from "./say.ts";
import { box, type Drawing, line, type Shape, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";

/** Indexes counted on the built units of one design. */
export interface ProofInput {
  readonly unit: string;
  readonly tapes?: readonly string[];
  readonly run: number;
  readonly failed: number;
  readonly confidence?: number;
  /** Chance per index that the project allows. */
  readonly allowed?: number;
}
/** A rate that may be said once so many indexes are run without a further misfeed. */
export interface ProofStep {
  readonly oneIn: number;
  readonly cycles: number;
  readonly reached: boolean;
}

/**
 * The 1-2-5 steps about where the count stands: those it has reached down to a tenth, and the next two. Counted as `cyclesToShow` of core does: all units
 * alike, so these are the kindest of the three statements.
 */
export function proofSteps({ run, failed, confidence = 0.95 }: ProofInput): readonly ProofStep[] {
  const step = (oneIn: number): ProofStep => {
    const cycles = cyclesToShow(1 / oneIn, confidence, failed);
    return { oneIn, cycles, reached: run >= cycles };
  };
  // The rate falls with the count: begin near and walk.
  let at = roundedDown(Math.max(least, run / (3 + 2 * failed)));
  while (at > least && !step(at).reached) at = stepDown(at);
  while (step(stepUp(at)).reached) at = stepUp(at);
  const out: ProofStep[] = [];
  for (let k = at, n = 0; n < 3 && k >= least; k = stepDown(k), n++) out.unshift(step(k));
  for (let k = stepUp(at), n = 0; n < 2; k = stepUp(k), n++) out.push(step(k));
  return out;
}
/** Nobody counts to say less than 1 in 10. */
const least = 10;
const stepUp = (v: number): number => (/^2/.test(`${v}`) ? v * 2.5 : v * 2);
const stepDown = (v: number): number => (/^5/.test(`${v}`) ? v / 2.5 : v / 2);

/** Indexes so far as a bar against the steps of the rate that may be said, and the allowance where it is near. */
export function proofBar(input: ProofInput, { width }: { readonly width: number }): Drawing {
  const { run, failed, confidence = 0.95, allowed, unit } = input;
  const steps = proofSteps(input);
  const next = steps.find((s) => !s.reached)!;
  const target =
    allowed !== undefined && allowed > 0 && allowed < 1 ? cyclesToShow(allowed, confidence, failed) : undefined;
  // As far as the next step, or the allowance where it is in sight.
  const near = target !== undefined && (run === 0 || target <= 12 * run) ? target : 0;
  const end = Math.max(next.cycles, near, run) * 1.04;
  const [x0, x1] = [8, width - 8];
  const x = (n: number): number => x0 + (Math.min(n, end) / end) * (x1 - x0);
  const percent = `${+(100 * confidence).toPrecision(4)} %`;
  const counts =
    run === 0
      ? "no index counted yet"
      : `${spaced(run)} ${failed === 0 ? "clean" : `run, ${counted(failed, "misfeed")}`}, ${percent}`;
  const shapes: Shape[] = [
    box([x0, 20], x1 - x0, 11, "faint"),
    ...(run > 0 ? [box([x0, 20], x(run) - x0, 11, "of-ink2", { data: { run: `${run}` } })] : []),
  ];
  const w = textWidth(counts, 10.5, true);
  shapes.push(text([Math.min(x1 - w, Math.max(x0, x(run) - w / 2)), 12], counts, "strong"));
  // Words of steps keep off each other and off the allowance. From the greatest down: what may be said next matters more than what could be said long ago.
  const wanted = target === undefined ? undefined : `allowed 1 in ${spaced(1 / allowed!)}`;
  const merged = steps.find((s) => s.cycles === target && s.cycles <= end);
  const taken: { readonly from: number; readonly to: number }[] = [];
  if (target !== undefined && !merged && target <= end) taken.push({ from: x(target) - 3, to: x(target) + 3 });
  const put = (words: string, at: number, cls: string): boolean => {
    const wide = textWidth(words, 10.5, cls === "strong");
    const from = Math.max(x0, Math.min(x1 - wide, at - wide / 2));
    if (taken.some((t) => from < t.to + 8 && t.from < from + wide + 8)) return false;
    taken.push({ from, to: from + wide });
    shapes.push(text([from, 46], words, cls));
    return true;
  };
  const order = [...steps].reverse().sort((a, b) => Number(b === merged) - Number(a === merged));
  for (const s of order) {
    // What lies at the very edge of the bar says nothing there.
    if (s.cycles > end || (s.cycles < 0.03 * end && s !== merged)) continue;
    const at = x(s.cycles);
    const said = put(
      s === merged ? wanted! : `1 in ${spaced(s.oneIn)}`,
      at,
      s === merged ? "strong" : s.reached ? "dark" : "quiet",
    );
    const cls = s === merged ? "heavy" : s.reached && at < x(run) - 1 ? "tick-over" : "outline";
    shapes.push(line([at, 18], [at, said ? 35 : 31], cls, { data: { step: `${s.oneIn}` } }));
  }
  let height = 52;
  if (target !== undefined && !merged) {
    height = 66;
    const words = cutTo(`${wanted!}: ${target <= run ? "shown" : `from ${spaced(target)} on`}`, 10.5, x1 - x0, true);
    const wide = textWidth(words, 10.5, true);
    const at = x(target);
    if (target <= end) shapes.push(line([at, 16], [at, 51], "heavy", { data: { allowed: `${target}` } }));
    shapes.push(text([Math.max(x0, Math.min(x1 - wide, at - wide / 2)), 62], words, "strong"));
  }
  return {
    title: `Proof of ${unit}`,
    desc: proofWords(input),
    width,
    height,
    shapes: [box([0, 0], width, height, "ground"), ...shapes],
  };
}
export function proofWords(input: ProofInput): string {
  const { run, failed, unit, tapes, allowed, confidence = 0.95 } = input;
  const steps = proofSteps(input);
  const said = steps.findLast((s) => s.reached);
  const next = steps.find((s) => !s.reached)!;
  const on = tapes && tapes.length > 0 ? ` on ${tapes.join(", ")}` : "";
  const out = [`${spaced(run)} indexes of ${unit}${on}, ${failed === 0 ? "no misfeed" : counted(failed, "misfeed")}.`];
  out.push(
    said
      ? `Were all units alike, fewer than 1 in ${spaced(said.oneIn)} may be said at ${+(100 * confidence).toPrecision(4)} %.`
      : "Nothing may be said of it yet.",
    `1 in ${spaced(next.oneIn)} takes ${spaced(next.cycles)}, ${spaced(next.cycles - run)} more without a misfeed.`,
  );
  if (allowed !== undefined && allowed > 0 && allowed < 1)
    out.push(`Allowed is 1 in ${spaced(1 / allowed)}: ${spaced(cyclesToShow(allowed, confidence, failed))} indexes.`);
  return aloud(out.join(" "));
}
