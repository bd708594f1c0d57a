/**
 * The one CSS of all drawings: tokens for light, dark, print and forced colours, then rules of classes. No drawing carries a colour.
 *
 * Colour appears only where a person must act; a verdict is told by form first and by hue second. The contrast of every pair that a
 * reader has to tell apart is held by a test of this text.
 */
type Tokens = Readonly<Record<string, string>>;

export const lightTokens: Tokens = {
  paper: "#f7f8f4",
  well: "#eef1ec",
  raise: "#fdfdfb",
  ink: "#15201e",
  ink2: "#42504c",
  ink3: "#5d6b66",
  rule: "#7b8984",
  hair: "#c5cdc8",
  grid: "#e6eae4",
  tape: "#15201e",
  land: "#8b9892",
  cavity: "#dde3de",
  part: "#3f4b48",
  film: "#00708c",
  seal: "#8d2b78",
  steel: "#4a5f74",
  body: "#e6ebe4",
  hatch: "#a2aea8",
  board: "#3e7048",
  fail: "#b02a18",
  failbg: "#f9e6e1",
  tight: "#7d5400",
  pass: "#6d8078",
  ask: "#5b41a3",
  askbg: "#ece8f7",
  hand: "#1b4fd0",
  handbg: "#e3eafb",
  onhand: "#ffffff",
};
export const darkTokens: Tokens = {
  paper: "#121a1b",
  well: "#192324",
  raise: "#1e292a",
  ink: "#e6ece8",
  ink2: "#b7c3be",
  ink3: "#93a19c",
  rule: "#6b7b75",
  hair: "#344241",
  grid: "#1b2627",
  tape: "#f0f4f1",
  land: "#6f7f79",
  cavity: "#2c3938",
  part: "#a9b6b1",
  film: "#4cc3e0",
  seal: "#e58bcf",
  steel: "#9db4cb",
  body: "#1f2b2c",
  hatch: "#52635f",
  board: "#7dbb88",
  fail: "#ff8a73",
  failbg: "#3d1d18",
  tight: "#e6b450",
  pass: "#7c9089",
  ask: "#b9a4f5",
  askbg: "#2a2442",
  hand: "#8db0ff",
  handbg: "#1f2d4d",
  onhand: "#0c1430",
};
/** Print is the light sheet on white paper, without what only a screen has. */
export const printTokens: Tokens = {
  ...lightTokens,
  paper: "#ffffff",
  well: "#ffffff",
  raise: "#ffffff",
  grid: "#ffffff",
  handbg: "#ffffff",
};
/** Where the system sets the colours the forms have to do alone. */
const grounds = ["paper", "well", "raise", "body", "cavity", "failbg", "askbg", "handbg", "grid"];
const greys = ["land", "part", "hatch", "rule", "hair"];
const forcedOf = (name: string): string =>
  grounds.includes(name)
    ? "Canvas"
    : greys.includes(name)
      ? "GrayText"
      : name === "hand"
        ? "Highlight"
        : name === "onhand"
          ? "HighlightText"
          : "CanvasText";
const forcedTokens: Tokens = Object.fromEntries(Object.keys(lightTokens).map((name) => [name, forcedOf(name)]));

const declared = (tokens: Tokens): string =>
  Object.entries(tokens)
    .map(([name, value]) => `--${name}:${value}`)
    .join(";");

/** The files of the lettering; the licence lies beside them. */
export const fontFiles = [400, 500, 600, 700]
  .map((w) => `sofia-sc-latin-${w}.woff2`)
  .concat([400, 600].map((w) => `sofia-sc-greek-${w}.woff2`));
/** Faces of the lettering, from files beside `base` ("fonts/", "/assets/"), or from where `base` says each file is. */
export function fontFaces(base: string | ((file: string) => string), weights: "all" | "two" = "all"): string {
  const at = (file: string): string => JSON.stringify(typeof base === "string" ? base + file : base(file));
  const face = (weight: string, file: string, range = "") =>
    `@font-face{font-family:"Sofia Sans Semi Condensed";font-weight:${weight};font-display:swap;src:url(${at(`sofia-sc-${file}.woff2`)}) format("woff2")${range}}`;
  const greek = ";unicode-range:U+0370-03FF";
  // Two faces stand for four where a file should stay small. Faces of one weight need the same range, or the narrower alone is taken.
  const range = (w: number): string => (weights === "all" ? `${w}` : `${w} ${w + 100}`);
  const latin = weights === "all" ? [400, 500, 600, 700] : [400, 600];
  return [
    ...latin.map((w) => face(range(w), `latin-${w}`)),
    ...[400, 600].map((w) => face(range(w), `greek-${w}`, greek)),
  ].join("\n");
}

const lettersOnly = `--face:"Sofia Sans Semi Condensed","Noto Sans","Segoe UI",system-ui,sans-serif;--t0:10.5px;--t1:12px;--t2:13.5px;--t3:15.5px;--t4:20px`;
const tokens = `:root,[data-theme=light]{color-scheme:light;${declared(lightTokens)};
${lettersOnly}}
@media (prefers-color-scheme:dark){:root:not([data-theme=light]){color-scheme:dark;${declared(darkTokens)}}}
[data-theme=dark]{color-scheme:dark;${declared(darkTokens)}}
@media print{:root,:root[data-theme],:root:not([data-theme=light]),[data-theme=dark]{color-scheme:light;${declared(printTokens)}}}
@media (forced-colors:active){:root,:root[data-theme],:root:not([data-theme=light]),[data-theme=dark]{${declared(forcedTokens)}}}`;

const strokes = `.tw{fill:none;stroke:none}
svg.tw{fill:none;stroke:none;font-family:var(--face);font-variant-numeric:tabular-nums lining-nums;forced-color-adjust:none;display:block}
.tw .ground{fill:var(--paper)}
.tw .outline{stroke:var(--ink);stroke-width:1.4;stroke-linejoin:round}
.tw .heavy{stroke:var(--ink);stroke-width:2;stroke-linecap:square}
.tw .thin{stroke:var(--ink2);stroke-width:.8}
.tw .bell-kind{stroke-dasharray:5 2.5}
.tw .faint{stroke:var(--rule);stroke-width:.8}
.tw .hair{stroke:var(--hair);stroke-width:1}
.tw .grid{stroke:var(--grid);stroke-width:1}
.tw .paper-line{stroke:var(--paper);stroke-width:5;stroke-linecap:round}
.tw .tick-over{stroke:var(--paper);stroke-width:1.2}
.tw .hidden-line{stroke:var(--ink3);stroke-width:.8;stroke-dasharray:4 2.5}
.tw .axis{stroke:var(--ink3);stroke-width:.7;stroke-dasharray:11 2.5 2 2.5}
.tw .phantom{stroke:var(--ink3);stroke-width:.9;stroke-dasharray:13 2.5 2 2.5 2 2.5}
.tw .board-line{stroke:var(--board);stroke-width:1}
.tw .board-line.phantom{stroke-dasharray:13 2.5 2 2.5 2 2.5}
.tw .steel-line{stroke:var(--steel);stroke-width:2.2;stroke-linejoin:round}
.tw .steel-line.thinner{stroke-width:1.5}
.tw .steel-line.fine{stroke-width:1;stroke-dasharray:3 2}
.tw .carrier{fill:var(--tape);stroke:var(--tape);stroke-width:.7;stroke-linejoin:round}
.tw .film-line{stroke:var(--film);stroke-width:1.9;stroke-linejoin:round;stroke-linecap:round}
.tw .carrier-cut{fill:var(--cavity);stroke:var(--ink);stroke-width:1.2}
.tw .rim-line{stroke:var(--ink3);stroke-width:.8;stroke-dasharray:3 2}
.tw .film-edge{stroke:var(--film);stroke-width:1;stroke-linejoin:round}
.tw .film-face{fill:var(--film);fill-opacity:.18}
.tw .film-edge.far{stroke-dasharray:5 2.5}
.tw .film-line.thinner{stroke-width:1.5}
.tw .film-line.far{stroke-dasharray:5 2.5;stroke-width:1.2}
.tw .hatching{stroke:var(--hatch);stroke-width:1.25}
.tw .hatching.fine{stroke-width:.9}
.tw .thin-hatching{stroke:var(--rule);stroke-width:.8}
.tw .fail-hatching{stroke:var(--fail);stroke-width:2}
.tw .fail-line{stroke:var(--fail);stroke-width:1.4}
.tw .fail-line.heavy{stroke-width:2.2}
.tw .ask-line{stroke:var(--ask);stroke-width:1.2}
.tw .ask-line.heavy{stroke-width:2.4;stroke-dasharray:2.5 2}
.tw .ask-line.dashed{stroke-dasharray:4 3}
.tw .hand-line{stroke:var(--hand);stroke-width:2;stroke-linejoin:round}
.tw .hand-line.dashed{stroke-dasharray:7 4}
.tw .hand-line.thinner{stroke-width:1.2}
.tw .hand-line.cut{stroke-width:1.8;stroke-dasharray:13 3 2 3 2 3}
.tw .tight-line{stroke:var(--tight);stroke-width:1.5;stroke-linejoin:round}
.tw .limit-line{stroke:var(--ink);stroke-width:1;stroke-dasharray:6 3}
.tw .trace{stroke:var(--ink2);stroke-width:1.1;stroke-linejoin:round}
.tw .trace.film{stroke:var(--film)}.tw .trace.seal{stroke:var(--seal)}
.tw .pick{display:none}
.tw .pass-line{stroke:var(--pass);stroke-width:1.2}
.tw .seal-line{stroke:var(--seal);stroke-width:.9;stroke-dasharray:3 2}`;

const fills = [
  ...[
    "paper",
    "well",
    "body",
    "ink",
    "ink2",
    "ink3",
    "rule",
    "land",
    "cavity",
    "part",
    "film",
    "seal",
    "steel",
    "pass",
    "fail",
    "failbg",
    "ask",
    "askbg",
    "hand",
    "handbg",
    "grid",
    "hair",
  ].map((name) => `.tw .of-${name}{fill:var(--${name})}`),
  ".tw .veil{fill:var(--paper);fill-opacity:.86}",
  ".tw .ask-veil{fill:var(--ask);fill-opacity:.1}",
  ".tw .hand-veil{fill:var(--hand);fill-opacity:.12}",
  ".tw .clear{fill:transparent}",
  ".tw .softly{opacity:.5}",
  ".tw .pale{opacity:.25}",
  ".tw .spread{fill:var(--ink2);fill-opacity:.14}.tw .spread.film{fill:var(--film)}.tw .spread.seal{fill:var(--seal)}",
].join("\n");

const lettering = `.tw text{fill:var(--ink2);font-size:var(--t0)}
.tw .t1{font-size:var(--t1)}.tw .t2{font-size:var(--t2)}.tw .t3{font-size:var(--t3)}
.tw .strong{fill:var(--ink);font-weight:600}
.tw .dark{fill:var(--ink)}
.tw .quiet{fill:var(--ink3);font-weight:400}
.tw .halo{paint-order:stroke;stroke:var(--paper);stroke-width:4px;stroke-linejoin:round}
.tw .is-fail{fill:var(--fail);font-weight:700}
.tw .is-ask{fill:var(--ask);font-weight:600}
.tw .is-hand{fill:var(--hand);font-weight:700}
.tw .is-tight{fill:var(--tight);font-weight:600}
@media (forced-colors:active){.tw .is-hand{fill:CanvasText;text-decoration:underline}}
.tw .is-board{fill:var(--board)}
.tw .is-seal{fill:var(--seal)}
.tw .onhand{fill:var(--onhand);font-weight:600}
.tw .dim{stroke:var(--ink3);stroke-width:.75}
.tw .dim.fails{stroke:var(--fail)}
.tw .arrow{fill:var(--ink2)}
.tw .arrow.fails{fill:var(--fail)}
.tw .dim-text{fill:var(--ink);font-size:var(--t1);font-weight:500}
.tw .dim-text.fails{fill:var(--fail);font-weight:700}
.tw .balloon{fill:var(--paper);stroke:var(--ink2);stroke-width:1.1}
.tw .balloon.stops{stroke:var(--fail);stroke-width:2}
.tw .balloon.depends{stroke:var(--ask);stroke-width:1.8;stroke-dasharray:4 1.6}
.tw .balloon.chosen{fill:var(--hand);stroke:var(--hand);stroke-dasharray:none}
.tw .leader{stroke:var(--ink3);stroke-width:.75}
.tw .leader.stops{stroke:var(--fail)}.tw .leader.depends{stroke:var(--ask)}.tw .leader.chosen{stroke:var(--hand)}
.tw .dot{fill:var(--ink3)}.tw .dot.stops{fill:var(--fail)}.tw .dot.depends{fill:var(--ask)}.tw .dot.chosen{fill:var(--hand)}`;

const html = `.tw-panel{font:400 var(--t2,13.5px)/1.32 var(--face);font-variant-numeric:tabular-nums lining-nums;color:var(--ink);background:var(--paper)}
.tw-panel .headline{font-size:var(--t4);line-height:1.14;margin:0;font-weight:600;text-wrap:balance}
.tw-panel .part{font-size:var(--t1);font-weight:600;margin:13px 0 4px;color:var(--ink);display:flex;align-items:baseline;gap:8px;border-top:1px solid var(--hair);padding-top:7px}
.tw-panel .part span{font-weight:400;color:var(--ink3)}
.tw-panel .right{margin-left:auto}
.tw-panel p{margin:7px 0 0;text-wrap:pretty}
.tw-panel .kick{font-size:var(--t1);color:var(--ink3);margin:0 0 3px;font-weight:500;display:flex;flex-wrap:wrap;gap:2px 7px;align-items:center}
.tw-panel .kick b{color:var(--ink2);font-weight:500}
.tw-panel .station{display:inline-block;min-width:15px;height:15px;line-height:13px;text-align:center;border:1px solid var(--ink2);border-radius:8px;color:var(--ink);font-size:var(--t0);font-weight:600}
.tw-panel .verdict{display:inline-flex;align-items:baseline;gap:5px;font-weight:600;white-space:nowrap}
.tw-panel .verdict.stops{color:var(--fail)}.tw-panel .verdict.depends{color:var(--ask)}.tw-panel .verdict.feeds{color:var(--ink2)}.tw-panel .verdict.na{color:var(--ink3);font-weight:400}
.tw-panel .facts{display:grid;grid-template-columns:repeat(3,auto);justify-content:space-between;gap:3px 14px;margin:9px 0 0;border-top:1px solid var(--hair);padding-top:5px}
.tw-panel .facts dt{font-size:var(--t0);color:var(--ink3);line-height:1.25}
.tw-panel .facts dd{margin:0;font-weight:600;font-size:var(--t3);line-height:1.3}
.tw-panel .facts dd.words{font-size:var(--t1);line-height:1.6}
.tw-panel .facts dd .small{display:block;font-weight:400;line-height:1.25}
.tw-panel .facts dd.depends{color:var(--ask)}.tw-panel .facts dd.stops{color:var(--fail)}
.tw-panel .small{font-size:var(--t1);color:var(--ink2)}
.tw-panel .warning{display:flex;gap:7px;color:var(--ink)}
.tw-panel table{border-collapse:collapse;width:100%;font-size:var(--t1)}
.tw-panel caption{text-align:left;font-weight:600;padding:0 0 4px}
.tw-panel th{font-weight:500;color:var(--ink3);text-align:left;padding:2px 8px 3px 0;vertical-align:bottom}
.tw-panel td{padding:4px 8px 4px 0;border-top:1px solid var(--hair);vertical-align:top}
.tw-panel tbody th{vertical-align:top;border-top:1px solid var(--hair);padding:4px 8px 4px 0;color:var(--ink2);font-weight:400}
.tw-panel code{font:inherit;color:var(--ink2)}
.tw-panel .sign{font-size:var(--t3);font-weight:600;color:var(--ink3);line-height:1}
.tw-panel tr.contradicted .sign{color:var(--fail)}
.tw-panel td small{display:block;color:var(--ink2);font-size:var(--t1)}
.tw-panel tr.odd td,.tw-panel tr.odd th{background:var(--failbg)}
.tw-panel .end{text-align:right;white-space:nowrap}
.tw-panel .name{color:var(--ink);font-weight:600}
.tw-panel .letter{display:inline-block;font-weight:700;font-size:var(--t0);line-height:13px;width:14px;height:14px;text-align:center;border:1px solid var(--ink2);color:var(--ink);vertical-align:1px}
.tw-panel .letter.m{background:var(--ink);color:var(--paper);border-color:var(--ink)}
.tw-panel .letter.g{border:1px dashed var(--ask);color:var(--ask);background:var(--askbg)}
.tw-panel .unseen{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden;white-space:nowrap}
.tw-panel svg.inline{display:inline-block;vertical-align:-2px;flex:none;align-self:center}
.tw-equation{margin:2px 0 0;font-size:var(--t3);line-height:1.5}
.tw-equation math{font-family:var(--face);font-size:1.06em}
.tw-equation mtd{text-align:left;padding:1px 0}.tw-equation math.long{font-size:.94em}.tw-equation math.longer{font-size:.74em}
.tw-equation mo[stretchy]{font-family:math,var(--face)}
.tw-equation mi{text-transform:none;font-style:italic}.tw-equation mi[mathvariant=normal]{font-style:normal}
.tw-equation summary.stands{display:list-item;margin-left:14px;cursor:pointer}
.tw-equation .governing{font-size:var(--t2)}
.tw-equation .filled{display:block;color:var(--ink2);font-size:var(--t1)}
.tw-equation .stands{display:block;color:var(--ink3);font-size:var(--t1);line-height:1.32}
.tw-equation ul{list-style:none;margin:3px 0 0 5px;padding:0 0 0 11px;border-left:1px solid var(--hair)}
.tw-equation li{margin:5px 0 0}
.tw-equation .row{display:flex;flex-wrap:wrap;gap:0 9px;align-items:baseline}
.tw-equation .row b{font-weight:600}
table.tw-map{font:400 var(--t1)/1.3 var(--face);border-collapse:collapse;color:var(--ink)}
table.tw-map caption{text-align:left;font-weight:600;font-size:var(--t2);padding:0 0 5px}
table.tw-map th,table.tw-map td{padding:3px 7px;border:1px solid var(--hair);text-align:left;vertical-align:top;font-weight:400}
table.tw-map thead th{color:var(--ink2);font-weight:600}
table.tw-map .stops{color:var(--fail);font-weight:700}table.tw-map .depends{color:var(--ask);font-weight:600}table.tw-map .na{color:var(--ink3)}
table.tw-map .first{outline:2px solid var(--ink);outline-offset:-2px}
@media (prefers-reduced-motion:no-preference){.tw .flash{animation:tw-flash .35s ease-out 1}@keyframes tw-flash{0%{stroke-width:9;opacity:.25}100%{opacity:1}}}`;

/** All rules of drawings and panels; with `fonts`, a path to the font files, the lettering too. */
export function theme(options: { readonly fonts?: string } = {}): string {
  return `${[...(options.fonts === undefined ? [] : [fontFaces(options.fonts)]), tokens, strokes, fills, lettering, html].join("\n")}\n`;
}

/** Rules for a drawing that stands alone in one theme, whatever the system asks for; panels have none here. */
export const themeOfDrawing = (one: "light" | "dark"): string =>
  `${[`svg{${declared(one === "light" ? lightTokens : darkTokens)};${lettersOnly}}`, strokes, fills, lettering].join("\n")}\n`;
