import {
  type Check,
  type CheckRecord,
  type Explained,
  explain,
  type Finding,
  placeText,
  type Scene,
  sayRecord,
  showIn,
  showShare,
  showVerdict,
  type TapeResult,
} from "@tapeworthy/core";
import { type Paint, wrapped } from "./paint.ts";
import { showDecisive } from "./show-check.ts";
import { cureLines } from "./show-cures.ts";

/** The drill-down of one check on one tape: sentence, window, what decides, then every equation down to the files. */
export function showWhy(
  check: Check,
  result: TapeResult,
  scene: Scene,
  record: CheckRecord | undefined,
  paint: Paint,
  width: number,
): string {
  const finding = result.findings.find((f) => f.check === check.id)!;
  const lines = [
    paint.strong(`${check.id}: ${check.title}`),
    `${scene.unit.name} on ${result.tape}, ${result.W} mm wide`,
    "",
  ];
  lines.push(...wrapped(finding.because, width).split("\n"));
  if (finding.verdict === "n/a") return lines.join("\n");
  lines.push("", ...summary(finding, record));
  for (const cures of result.cures ?? []) lines.push("", ...cureLines(cures, paint, width));
  const tree = explain(check, scene);
  if (tree) {
    lines.push("", paint.strong("Value"), ...rows(tree.value, paint, width));
    if (tree.least) lines.push("", paint.strong("At least"), ...rows(tree.least, paint, width));
    if (tree.most) lines.push("", paint.strong("At most"), ...rows(tree.most, paint, width));
  }
  if (finding.beside.length > 0) {
    lines.push("", paint.strong("Beside it"));
    for (const b of finding.beside) lines.push(`  ${b.title}: ${showIn(b.shownIn, b.value, 3)}`);
  }
  return lines.join("\n");
}

function summary(f: Finding, record: CheckRecord | undefined): string[] {
  const verdict = f.verdict === "n/a" ? f.verdict : showVerdict(f.verdict, f.share);
  const by = f.marginBy === "first order" ? "~" : "";
  const out = [
    `verdict      ${verdict}; holds in ${showShare(f.share!)} of belief${f.shareAlone !== null && Math.abs(f.shareAlone - f.share!) > 0.005 ? ` (${showShare(f.shareAlone)} before known units)` : ""}`,
  ];
  if (f.where) out.push(`where        ${f.where}`);
  if (f.ratio !== null) out.push(`ratio        ${f.ratio.toPrecision(2)} of the nearer bound`);
  if (f.nearest)
    out.push(
      `known        ${f.nearest.ratio.toPrecision(2)} times the value of ${f.nearest.unit} on ${f.nearest.tape}, which runs`,
    );
  out.push(
    f.marginBy === "cannot fail as drawn"
      ? "margin       cannot fail as drawn"
      : `margin       ${by}${f.margin!.toFixed(1)} of 6`,
  );
  if (record) out.push(`record       ${sayRecord(record)}`);
  out.push(
    `stands on    ${{ m: "measured here", d: "a drawing or standard", g: "a guess or memory" }[f.letter!]}${f.more > 0 ? `, and ${f.more} more inputs` : ""}; status: ${f.status}`,
  );
  if (f.decisive) out.push(`${showDecisive(f.decisive)}`);
  if (f.contradicted) out.push("the record of known units contradicts this check, so it stops no tape");
  return out;
}

/** Equations first, each once; a number already shown is only named again. */
function rows(tree: Explained, paint: Paint, width: number, depth = 1, seen = new Set<string>()): string[] {
  const pad = "  ".repeat(depth);
  const given = tree.given;
  if (given) {
    const note = given.unknown
      ? "; nobody has measured it"
      : given.scatters.length > 0
        ? `; scatters between ${[...new Set(given.scatters)].map((s) => (s === "index" ? "indexes" : `${s}s`)).join(" and ")}`
        : "";
    const formula = tree.filled && tree.filled !== tree.shown ? ` = ${tree.filled}` : "";
    const out = [
      `${pad}${tree.symbol}${formula} = ${tree.shown}   ${paint.faint(`"${given.text}" [${given.letter}]${note}`)}`,
      paint.faint(`${pad}    ${placeText(given.origin)}`),
    ];
    const key = given.address;
    if (seen.has(key)) return out.slice(0, 1);
    seen.add(key);
    return [...out, ...tree.rests.flatMap((r) => rows(r, paint, width, depth + 1, seen))];
  }
  const key = `${tree.title}${tree.symbol}`;
  const value = tree.value === null ? "" : ` = ${tree.shown}`;
  const out: string[] = [];
  if (seen.has(key)) return [`${pad}${tree.symbol}${value}   ${paint.faint("(above)")}`];
  seen.add(key);
  out.push(`${pad}${tree.symbol} = ${tree.equation}${tree.form === "solved" ? paint.faint("   (solved)") : ""}`);
  if (tree.filled)
    out.push(
      ...wrapped(`= ${tree.filled}${value}`, Math.max(50, width - pad.length - 2), "  ")
        .split("\n")
        .map((line) => `${pad}  ${line}`),
    );
  else if (value !== "") out.push(`${pad} ${value}`);
  out.push(paint.faint(`${pad}  ${tree.title}; ${tree.source}${tree.where ? `; worst at ${tree.where}` : ""}`));
  return [...out, ...tree.rests.flatMap((r) => rows(r, paint, width, depth + 1, seen))];
}
