import { fontFaces, theme } from "@tapeworthy/drawing";
import { idOf } from "./anchor.ts";
import { printStyle } from "./print-style.ts";
import type { ReportInput } from "./report-input.ts";
import type { UnitPart } from "./unit-part.ts";

/** The page's rules: lettering, the theme of drawings and panels, layout, what an open finding shows, paper. */
export const pageStyle = (parts: readonly UnitPart[], input: ReportInput): string =>
  [
    "/* Lettering: Sofia Sans Semi Condensed, SIL Open Font License 1.1 */",
    fontFaces(input.font),
    theme(),
    base,
    strip,
    desk,
    entries,
    tables,
    narrow,
    wide,
    shownByTarget(parts),
    printStyle(parts, input),
  ].join("\n");

const base = `:root{--t0:.65625rem;--t1:.75rem;--t2:.84375rem;--t3:.96875rem;--t4:1.25rem;--edge:14px;--strip:46px}
svg.tw{--t0:10.5px;--t1:12px;--t2:13.5px;--t3:15.5px;--t4:20px}
*{box-sizing:border-box}
html{scroll-padding-top:calc(var(--strip) + 10px)}
body{margin:0;background:var(--paper);color:var(--ink);font:400 var(--t2)/1.38 var(--face);font-variant-numeric:tabular-nums lining-nums;-webkit-text-size-adjust:100%}
h1,h2,h3,h4,h5,h6,p,ul,dl,dd{margin:0}
a{color:inherit;text-decoration-color:var(--rule);text-underline-offset:2px}
a:hover{text-decoration-color:var(--hand);text-decoration-thickness:2px}
:focus-visible{outline:2px solid var(--hand);outline-offset:1px}
[tabindex="-1"]:focus{outline:none}
code{font:inherit;color:var(--ink2)}
small{font-size:var(--t1);font-weight:400;color:var(--ink3)}
svg.shared{position:absolute}
.unseen{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden;white-space:nowrap}
.skip{position:absolute;left:8px;top:-60px;z-index:9;background:var(--hand);color:var(--onhand);padding:6px 12px;font-weight:600}
.skip:focus{top:4px}
.scroll{overflow-x:auto;position:relative}
.verdict{display:inline-flex;align-items:baseline;gap:5px;font-weight:600;white-space:nowrap}
.verdict svg{flex:none;align-self:center}
.verdict.stops{color:var(--fail)}.verdict.depends{color:var(--ask)}.verdict.feeds{color:var(--ink2)}.verdict.na,.verdict.soft{color:var(--ink3);font-weight:400}
.letter{display:inline-block;font-weight:700;font-size:var(--t0);line-height:13px;width:14px;height:14px;text-align:center;border:1px solid var(--ink2);color:var(--ink);vertical-align:1px}
.letter.m{background:var(--ink);color:var(--paper);border-color:var(--ink)}
.letter.g{border:1px dashed var(--ask);color:var(--ask);background:var(--askbg)}
.top{display:flex;flex-wrap:wrap;align-items:baseline;gap:2px 18px;padding:7px var(--edge) 6px;border-bottom:1px solid var(--hair)}
.top h1{font-size:var(--t3);font-weight:600}
.top p{color:var(--ink2)}
.top nav{margin-left:auto;display:flex;flex-wrap:wrap;gap:2px 16px}
.top button{font:inherit;font-size:var(--t1);font-weight:600;color:var(--ink2);background:none;border:1px solid var(--rule);padding:2px 10px;min-height:24px;cursor:pointer}
.top button:hover{background:var(--well)}
footer{border-top:1px solid var(--hair);padding:10px var(--edge) 24px;color:var(--ink3);font-size:var(--t1)}`;

const strip = `.strip{position:sticky;top:0;z-index:3;display:flex;background:var(--paper);border-top:2px solid var(--ink);border-bottom:1px solid var(--rule);min-height:var(--strip)}
.strip>*{border-right:1px solid var(--hair);padding:5px 12px 4px;min-width:0;display:flex;flex-direction:column;justify-content:center;white-space:nowrap;text-decoration:none}
.strip small{font-size:var(--t0);line-height:1.2;color:var(--ink3);font-weight:500;overflow:hidden;text-overflow:ellipsis}
.strip b,.strip h2{font-size:var(--t2);font-weight:600;line-height:1.25;overflow:hidden;text-overflow:ellipsis}
.strip .who{padding-left:var(--edge);max-width:230px}
.strip .next{flex:1 1 150px;border-left:4px solid var(--rule);margin-left:-1px}
.strip .next.ask{background:var(--askbg);border-left-color:var(--ask)}
.strip a.next:hover b{text-decoration:underline;text-decoration-color:var(--hand)}
.strip .widths span{display:flex;gap:0}
.strip .widths a{min-width:30px;text-align:center;font-weight:600;text-decoration:none;line-height:1.25;border-bottom:3px solid transparent;padding:0 4px}
.strip .widths a.stops{color:var(--fail)}.strip .widths a.depends{color:var(--ask)}
.strip .widths a:hover{background:var(--well)}
.strip nav.goto{flex-direction:row;align-items:center;gap:0;border-right:0;padding:0 6px}
.strip nav.goto a{padding:10px 8px}
@media screen and (max-width:1279px){.strip>*{padding-left:8px;padding-right:8px}.strip .next{flex-basis:60px}.strip nav.goto a{padding:10px 5px}.strip .widths a{min-width:26px;padding:0 2px}.strip .who{max-width:170px}}`;

const desk = `.unit{scroll-margin-top:calc(-10px - var(--strip))}
.board{background:var(--paper)}
.board svg{width:100%;height:auto;min-width:860px}
.board .map{border-top:1px solid var(--rule)}
.map a:focus{outline:none}
.map a .pick{display:none}
.map a:hover .clear{fill:var(--ink);fill-opacity:.07}
.map a:focus-visible .pick,.map a:target .pick{display:inline}
.tw .overlay{display:none}
.panel{padding:12px 16px 20px;background:var(--paper)}
.panel>section+section{margin-top:20px}
.panel .headline{font-size:1.09rem;line-height:1.16}
.panel .known td:nth-child(2) small{display:inline;color:var(--ink3)}
.panel .known th[scope=row],.tape h4,.strip b{white-space:nowrap}
.rest{border-top:2px solid var(--ink);padding:0 var(--edge) 28px}
.block{padding-top:20px;max-width:1500px}
.block>h3,.reading h2{font-size:1.09rem;font-weight:600;margin-bottom:6px}
.block ul{padding-left:18px;max-width:82ch}.block li{margin:3px 0}
.block p{max-width:82ch;margin:4px 0 8px}
.ladder svg{width:100%;height:auto;min-width:760px;max-width:1100px}
.reading{border-top:2px solid var(--ink);padding:18px var(--edge) 26px}
.reading dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(300px,1fr));gap:10px 28px;max-width:1500px}
.reading dt{font-weight:600}.reading dd{color:var(--ink2);max-width:62ch}
@media screen and (min-width:1180px){
.desk{display:grid;grid-template-columns:minmax(0,1fr) 352px}
.board{align-self:start;border-right:1px solid var(--rule)}
.board svg{min-width:0}
}
@media screen and (min-width:1180px) and (min-height:640px){
.board{position:sticky;top:var(--strip);max-height:calc(100vh - var(--strip));overflow:auto;scrollbar-width:thin}
}`;

const entries = `.width>.headline{font-weight:600;border-top:2px solid var(--ink);padding-top:8px}
.tape{margin-top:8px}
.tape>h4{font-size:var(--t2);font-weight:600;display:flex;gap:10px;align-items:baseline}
.tape>h4 a{text-decoration-color:transparent}.tape>h4 a:hover{text-decoration-color:var(--hand)}
.twin{margin-top:6px;font-size:var(--t2)}
.twin a{text-decoration-color:transparent}.twin .notes a,.twin a:hover{text-decoration-color:var(--rule)}
.twin:target{background:var(--handbg)}
.notes{color:var(--ink2);font-size:var(--t1)}
.plain{color:var(--ink2)}
.entry{margin-top:10px;padding:9px 10px 12px;border:1px solid var(--hair);border-left-width:4px;background:var(--paper);scroll-margin-top:calc(var(--strip) + 10px)}
.tape.stops .entry.leads{border-left-color:var(--fail)}.tape.depends .entry.leads{border-left-color:var(--ask)}
.alike:target{background:var(--handbg);outline:2px solid var(--hand);outline-offset:1px}
.entry .tw-panel{background:none}
.entry .tw-panel .headline{font-size:1rem}
.entry svg{max-width:100%;height:auto}
.entry svg.inline{max-width:none}
.entry .back{display:flex;flex-wrap:wrap;gap:0 16px;font-size:var(--t1);color:var(--ink2);margin-top:10px}
.entry .back a{min-height:24px;padding-top:3px}
.entry .where{margin-top:8px;border:1px solid var(--hair);width:fit-content;max-width:100%}
.entry.leads{scroll-margin-top:calc(var(--strip) + 72px)}
.width:target>.headline,.tape:target>h4,tr:target>*{background:var(--handbg)}
.entry:target{outline:2px solid var(--hand);outline-offset:-1px}
.entry details{margin-top:4px}
.tw-panel summary .part{display:inline-flex}
.tw-panel details.equation>summary{list-style-position:inside;border-top:1px solid var(--hair);padding-top:6px;margin-top:12px;cursor:pointer}
.tw-panel details.equation>summary .part{border:0;margin:0;padding:0}
.tw-panel .ground{fill:none}
.tw-equation{overflow-x:auto;overflow-wrap:anywhere}`;

const tables = `table.list{border-collapse:collapse;width:100%;font-size:var(--t1)}
table.list th{font-weight:500;color:var(--ink3);text-align:left;padding:2px 14px 4px 0;vertical-align:bottom;border-bottom:1px solid var(--ink2);white-space:nowrap}
table.list td,table.list tbody th{padding:5px 14px 5px 0;border-bottom:1px solid var(--hair);vertical-align:top;color:var(--ink)}
table.list tbody th{font-weight:600;color:var(--ink);white-space:normal;min-width:110px}
table.list tbody th small{display:block}
table.list .letter,table.list .station{vertical-align:-1px;line-height:12px;height:14px}
table.list td,table.list tbody th{line-height:1.35}
table.list.snug{width:auto;min-width:min(100%,640px)}
table.list .num{white-space:nowrap}
table.list .end{text-align:right}
table.list td.words{min-width:260px;color:var(--ink2);line-height:1.3}
table.list .short{color:var(--fail);font-weight:700}
table.list ul.effects{list-style:none;padding:0;margin:0}table.list ul.effects li{margin:0 0 3px}
.station{display:inline-block;min-width:15px;height:15px;line-height:14px;text-align:center;border:1px solid var(--ink2);border-radius:8px;font-size:var(--t0);font-weight:600;margin-right:4px}
details.inputs td:nth-child(2){width:19%}details.inputs td:nth-child(3){width:29%}details.inputs td:nth-child(4){width:18%}details.inputs td:nth-child(5){width:15%}
details.inputs td a{white-space:nowrap}
details.checks,details.inputs{border-top:1px solid var(--hair)}
details.checks:last-of-type,details.inputs:last-of-type{border-bottom:1px solid var(--hair)}
details>summary{cursor:pointer}
details.checks>summary h4,details.inputs>summary h4{display:inline-flex;gap:12px;align-items:baseline;font-size:var(--t2);font-weight:600;padding:5px 0}
details.checks .notes{padding:6px 0 12px}
.block.cures h4{font-size:var(--t2);margin-top:12px}
table.tw-map a{text-decoration-color:var(--hair)}`;

const narrow = `@media screen and (max-width:1179px){
.strip{position:static;flex-wrap:wrap}.strip>*{border-bottom:1px solid var(--hair)}
html{scroll-padding-top:8px}
.panel{border-top:2px solid var(--ink);padding:14px var(--edge) 20px}
}
@media screen and (min-width:760px) and (max-width:1179px){.entries{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:0 14px;align-items:start}}
@media screen and (max-width:600px){
.strip>*{flex:1 1 40%}.strip .who{flex-basis:100%;max-width:none}.strip .next,.strip .widths,.strip nav.goto{flex-basis:100%}.strip .next{margin-left:0}
.top nav{margin-left:0}
}`;

const wide = `@media screen and (min-width:1700px){
:root{--t0:.71875rem;--t1:.8125rem;--t2:.90625rem;--t3:1.0625rem;--t4:1.375rem;--strip:50px}
.desk{grid-template-columns:minmax(0,1fr) 716px}
.entries{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:0 14px;align-items:start}
.panel{padding:14px 18px 24px}
}`;

/** Which drawing, which marks on it and which cell of the map go with what a link has opened: no script is needed for it. */
function shownByTarget(parts: readonly UnitPart[]): string {
  const widths = [...new Set(parts.flatMap((p) => p.widths.map((w) => w.W)))];
  const overlays = [
    ...new Set(parts.flatMap((p) => p.widths.flatMap((w) => w.written.map((one) => one.overlay)))),
  ].filter((o) => o !== "");
  const cells = parts.flatMap((p) =>
    p.widths.flatMap((w) =>
      w.written.map(({ row, finding }) => {
        const at = [p.unit.unit, row.tape, finding.check] as const;
        return `.unit:has([id="${idOf("finding", ...at)}"]:target) [id="${idOf("cell", ...at)}"] .pick`;
      }),
    ),
  );
  const rules = [
    ".board .sheet{display:none}.board .sheet.first{display:block}",
    ".unit:has([data-w]:target) .sheet.first{display:none}",
    ...widths.map((W) => `.unit:has([data-w="${W}"]:target) .sheet[data-at="${W}"]{display:block}`),
    ".unit:not(:has([data-w]:target)) .widths a.first{border-bottom-color:var(--hand)}",
    `${widths.map((W) => `.unit:has([data-w="${W}"]:target) .widths a[data-to="${W}"]`).join(",")}{border-bottom-color:var(--hand)}`,
    ...overlays.map((o) => `.unit:has([data-o="${o}"]:target) .overlay[data-overlay="${o}"]{display:inline}`),
    ...(cells.length > 0 ? [`${cells.join(",")}{display:inline}`] : []),
    "@media (min-width:1180px){.entry .where{display:none}}",
  ];
  return `@supports selector(:has(a)){@media screen{\n${rules.join("\n")}\n}}`;
}
