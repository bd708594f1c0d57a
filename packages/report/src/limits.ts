import { type Finding, type Station, stations } from "@tapeworthy/core";
import { list, shortName } from "@tapeworthy/drawing";
import type { UnitPart } from "./unit-part.ts";

/** What this page cannot tell of a unit, in sentences, read from what was judged. */
export function limitsOf(part: UnitPart): string[] {
  const { unit, unseen } = part;
  const findings = unit.tapes.flatMap((t) => t.findings);
  const checks = (wanted: (f: Finding) => boolean): string[] => [
    ...new Set(findings.filter(wanted).map((f) => f.check)),
  ];
  const out = [
    "A tape that feeds passes the checks on this page, no more. Computation ranks and explains; only tests on your own unit promise anything.",
  ];
  const looked = new Set(findings.map((f) => f.station));
  const missing = (Object.keys(stations).map(Number) as Station[]).filter((s) => !looked.has(s));
  if (missing.length > 0) out.push(`No check looks yet at: ${list(missing.map((s) => stations[s]))}.`);
  const always = checks((f) => f.verdict === "n/a").filter((id) =>
    findings.every((f) => f.check !== id || f.verdict === "n/a"),
  );
  if (always.length > 0)
    out.push(`Without an answer on every tape, because the unit has no such member: ${list(always.map(shortName))}.`);
  const outside = checks((f) => f.status === "outside range" && f.verdict !== "n/a");
  if (outside.length > 0)
    out.push(
      `Used outside the range in which their equation is known to hold, on one tape at least: ${list(outside.map(shortName))}.`,
    );
  const judged = checks((f) => f.status === "judgement" && f.verdict !== "n/a");
  if (judged.length > 0) out.push(`Held against a bound that is a judgement: ${list(judged.map(shortName))}.`);
  const contradicted = checks((f) => f.contradicted);
  if (contradicted.length > 0)
    out.push(
      `Contradicted by the record of known units, so they rank and stop nothing: ${list(contradicted.map(shortName))}.`,
    );
  if (findings.some((f) => f.marginBy === "first order"))
    out.push(
      "Margins marked ~ are first order: with inputs that are limits of a drawing they overstate the chance of failing, 2 to 5 times as measured. Verdicts come from shares, not from margins.",
    );
  const unwanted = part.widths.filter((w) => w.rows.length === 0).map((w) => `${w.W}`);
  if (unwanted.length > 0) out.push(`Drawn, but judged on no tape: ${list(unwanted)} mm.`);
  if (unseen.length > 0)
    out.push(`It also serves ${list(unseen.map(String))} mm; the project has no tape of that width.`);
  out.push(
    "Geometry is routes in one plane and prisms across it; what is not in the unit's file is drawn without an edge, or not at all.",
  );
  return out;
}
