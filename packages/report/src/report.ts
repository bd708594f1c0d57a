import { escaped, Shared } from "@tapeworthy/drawing";
import { toId } from "./anchor.ts";
import { readingHtml } from "./reading.ts";
import type { ReportInput } from "./report-input.ts";
import { script } from "./script.ts";
import { tallied } from "./strip.ts";
import { pageStyle } from "./style.ts";
import { unitParts } from "./unit-part.ts";
import { unitSection } from "./unit-section.ts";

/**
 * The report of a judged project: one HTML page that needs nothing outside itself. Same input, same bytes. Everything can be read without its
 * script, which only changes the theme and moves the focus about the map.
 */
export function reportHtml(input: ReportInput): string {
  const { project, judged, version } = input;
  const parts = unitParts(input);
  const shared = new Shared("shared");
  const sections = parts.map((part, i) => unitSection(part, input, i + 1, shared));
  const verdicts = judged.units.flatMap((u) => u.tapes.map((t) => t.verdict));
  const units = judged.units.map((u) => `<a${toId("unit", u.unit)}>${escaped(u.name)}</a>`);
  const name = escaped(project.name);
  const first = judged.units[0];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${name}: which tapes feed</title>
<meta name="generator" content="Tapeworthy ${escaped(version)}">
<style>
${pageStyle(parts, input)}</style>
</head>
<body>
<a class="skip"${first ? toId("unit", first.unit) : ' href="#main"'}>Skip to ${first ? escaped(first.name) : "the report"}</a>
<header class="top">
<h1>${name}</h1>
<p>${verdicts.length} wanted ${verdicts.length === 1 ? "pair" : "pairs"}: ${tallied(verdicts)}</p>
<nav aria-label="Units">${units.join("")}<a href="#reading">How to read</a></nav>
<button type="button" id="theme" hidden>Dark</button>
</header>
<main id="main" tabindex="-1">
${sections.join("\n")}
${readingHtml()}
</main>
<footer><p>Tapeworthy ${escaped(version)}, seed ${judged.seed}. Computation ranks and explains; only tests promise.</p></footer>
${shared.svg()}
<script>${script}</script>
</body>
</html>
`;
}
