import type { ReportInput } from "./report-input.ts";
import type { UnitPart } from "./unit-part.ts";

/** A text as a string of CSS: nothing in it can end the string, the rule or the style. */
export const cssString = (words: string): string =>
  `"${words.replace(/[^A-Za-z0-9 ]/gu, (letter) => `\\${letter.codePointAt(0)!.toString(16)} `)}"`;

/** A4 across: a page a width with its drawing and its findings, the map on the first page of a unit, the tables behind. */
export function printStyle(parts: readonly UnitPart[], { project }: ReportInput): string {
  const pages = parts.map(({ unit }, i) => {
    const name = `${unit.name}${unit.revision === "" ? "" : `, revision ${unit.revision}`}`;
    return `@page unit-${i + 1}{@bottom-center{content:${cssString(name)}}}\n.unit-${i + 1}{page:unit-${i + 1}}`;
  });
  return `@page{size:A4 landscape;margin:10mm 10mm 14mm;font:400 8pt "Sofia Sans Semi Condensed",sans-serif;color:#42504c;@bottom-left{content:${cssString(project.name)}}@bottom-right{content:counter(page) " of " counter(pages)}}
${pages.join("\n")}
@media print{
html{font-size:12.6px}
body{background:none}
.skip,.top nav,.top button,.strip nav,.entry .back,.entry .where,.block.table{display:none}
.top{padding:0 0 4px;border:0;page:unit-1}
.unit{break-before:page;display:flex;flex-direction:column}
.unit-1{break-before:avoid}
.desk,.board,.panel{display:contents}
.board>h3,.map>h3{display:none}
.strip{position:static;order:0}
.strip .who{padding-left:0}
.strip .next{border-left-width:2px}
.map{order:1;border-top:0;break-inside:avoid}
.panel>.known,.panel>.questions{order:2;margin-top:8px;max-width:190mm;line-height:1.25}
.panel>.known td,.panel>.known tbody th{padding:2px 8px 2px 0}
.panel>section+section{margin-top:8px}
.sheet{order:var(--order);break-before:page;break-inside:avoid}
.width{order:var(--order);margin-top:6px}
.width>.headline{border-top:1px solid var(--ink);padding-top:4px}
.rest{order:9999;border-top:0;padding:0;break-before:page}
.scroll{overflow:visible}
.board svg{width:100%;height:auto}
.board .sheet svg{width:93%}
.entries{columns:3;column-gap:6mm;column-fill:balance}
.entry{margin:0 0 4mm;break-inside:auto;padding:0 0 0 2.5mm;border-width:0 0 0 2px;border-left-color:var(--rule)}
.entry .facts,.entry svg,.entry .where,.entry tr,.entry .part,table.list tr,h3,h4,.tw-panel .headline,.kick{break-inside:avoid}
h3,h4,.part,.kick,.tw-panel .headline,thead,details>summary{break-after:avoid}
table.list tbody tr:nth-child(-n+2){break-before:avoid}
details.checks::details-content,details.inputs::details-content,details.equation::details-content{content-visibility:visible;display:block;height:auto}
details.checks,details.inputs{break-inside:auto}
summary{list-style:none}
summary.stands::after{content:", not shown on paper"}
details.inputs.d{display:none}
table.list tbody th small{display:inline;margin-left:1mm}
table.list td,table.list tbody th{padding:2px 10px 2px 0;line-height:1.22}
.block.inputs>p::after{content:" On paper without those from drawings and standards."}
.block{max-width:none;padding-top:5mm}
.block.limits,.block.cautions{break-inside:avoid}
.block ul,.block p{max-width:none}
table.list td.words{min-width:0}
.ladder svg{width:88%;min-width:0;max-width:none}
.reading{break-before:page;padding:0;border:0}
footer{padding:4mm 0 0;border:0}
a{text-decoration:none}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
}`;
}
