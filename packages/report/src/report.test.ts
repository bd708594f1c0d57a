import { parseExpression, type Scene, tabled } from "@tapeworthy/core";
import { escaped, Shared } from "@tapeworthy/drawing";
import { describe, expect, test } from "vitest";
import { boardHtml } from "./board.ts";
import {
  elementsOf,
  example,
  exampleTexts,
  few,
  fewWanted,
  inputOf,
  judgedAsWritten,
  projectOf,
} from "./report.fixture.ts";
import { reportHtml } from "./report.ts";
import { unitParts } from "./unit-part.ts";

const input = few();
const page = reportHtml(input);
const body = page.slice(page.indexOf("<body>"));
const elements = elementsOf(page);
const attribute = (name: string): string[] =>
  elements.flatMap((e) => (e.attributes[name] === undefined ? [] : [e.attributes[name]]));

test("the same project gives the same bytes", () => {
  expect(reportHtml(few())).toBe(page);
});
test("no number on the page is none", () => {
  expect(page).not.toMatch(/NaN|undefined|\bnull\b|\[object/);
});

describe("it needs nothing beside it:", () => {
  test("every address in it is the name of a markup language", () => {
    const addresses = new Set([...page.matchAll(/\b(?:https?|ftp|wss?):[^"'\s)<]*/g)].map(([found]) => found));
    expect([...addresses].sort()).toEqual(["http://www.w3.org/2000/svg"]);
  });
  test("nothing is fetched: fonts are data, links stay on the page", () => {
    expect(attribute("src")).toEqual([]);
    expect(attribute("href").filter((href) => !href.startsWith("#"))).toEqual([]);
    expect([...page.matchAll(/url\(([^)]*)\)/g)].filter(([, to]) => !/^(#|"data:font\/woff2;)/.test(to!))).toEqual([]);
    expect(page).not.toMatch(/@import|<link|<iframe|<img/);
  });
  test("every face of the lettering is asked for by its file", () => {
    const files: string[] = [];
    reportHtml(few({ font: (file) => `data:font/woff2;base64,${files.push(file)}` }));
    expect(files).toHaveLength(6);
    expect(files.every((file) => file.endsWith(".woff2"))).toBe(true);
  });
});

test("no id is there twice, and every link leads to one", () => {
  const ids = attribute("id");
  expect(new Set(ids).size).toBe(ids.length);
  const there = new Set(ids.map((id) => `#${id}`));
  expect([...new Set(attribute("href"))].filter((href) => !there.has(href))).toEqual([]);
  const named = ["aria-labelledby", "aria-describedby"].flatMap(attribute).flatMap((list) => list.split(" "));
  expect(named.filter((id) => !there.has(`#${id}`))).toEqual([]);
  const drawn = [...page.matchAll(/url\(#([^)]+)\)/g)].map(([, id]) => `#${id}`);
  expect([...new Set(drawn)].filter((id) => !there.has(id))).toEqual([]);
});
test("headings go down one level at a time, from one first heading", () => {
  const levels = elements.flatMap((e) => (/^h[1-6]$/.test(e.name) ? [Number(e.name[1])] : []));
  expect(levels.filter((level) => level === 1)).toHaveLength(1);
  expect(levels[0]).toBe(1);
  expect(
    levels.flatMap((level, i) => (i > 0 && level > levels[i - 1]! + 1 ? [`${levels[i - 1]} to ${level}`] : [])),
  ).toEqual([]);
});
test("every table has a caption and heads with a scope", () => {
  const tables = page.match(/<table[\s\S]*?<\/table>/g)!;
  expect(tables.length).toBeGreaterThan(8);
  const bare = tables.filter((t) => !/<caption/.test(t));
  expect(bare.map((t) => t.slice(0, 120))).toEqual([]);
  expect(elements.filter((e) => e.name === "th" && e.attributes.scope === undefined)).toEqual([]);
});

describe("names out of files", () => {
  const nasty = `</style></script><img src=x onerror=alert(1)>"'&`;
  const texts = exampleTexts();
  const quoted = JSON.stringify(nasty);
  texts.set("project.yaml", texts.get("project.yaml")!.replace(/^project: .*$/m, `project: ${quoted}`));
  texts.set("units/plover.yaml", texts.get("units/plover.yaml")!.replace(/^unit: .*$/m, `unit: ${quoted}`));
  const project = projectOf(texts);
  const judged = judgedAsWritten(project, fewWanted);
  const odd = {
    ...judged,
    units: judged.units.map((u) => ({
      ...u,
      revision: nasty,
      tapes: u.tapes.map((t) => ({
        ...t,
        findings: t.findings.map((f) => ({ ...f, because: nasty, where: nasty })),
      })),
    })),
  };
  const html = reportHtml(inputOf(project, odd));
  test("stay text wherever they stand", () => {
    const found = elementsOf(html);
    expect(found.map((e) => e.name)).not.toContain("img");
    expect(found.filter((e) => e.name === "style" || e.name === "script")).toHaveLength(2);
    expect(html.split("</style>")).toHaveLength(2);
    expect(html.split("</script>")).toHaveLength(2);
  });
  test("are shown as they are written", () => {
    expect(html).toContain("<h1>&lt;/style&gt;&lt;/script&gt;&lt;img src=x onerror=alert(1)&gt;&quot;&#39;&amp;</h1>");
  });
});

describe.each(input.judged.units)("of $name", (unit) => {
  const within = body.slice(body.indexOf(`id="unit/${unit.unit}"`));
  test("strip, drawings, map, findings, checks, inputs, clearances, cautions and limits are there", () => {
    for (const name of ["name", "findings", "checks", "clearances", "inputs", "table", "cautions", "limits"])
      expect(attribute("id")).toContain(`${name}/${unit.unit}`);
    expect(within).toContain(`${unit.name}, revision ${unit.revision}`);
    expect(within).toContain("1 of 2 come out right");
  });
  test.each(unit.tapes)("on $tape every check has its row, and what is not plainly fine is written out", (row) => {
    const ids = attribute("id");
    for (const f of row.findings) {
      const at = `${unit.unit}/${row.tape}/${f.check}`;
      const open = f.severity === "S" && (f.verdict === "stops" || f.verdict === "depends");
      expect([at, ids.includes(`check/${at}`)]).toEqual([at, f.verdict !== "n/a"]);
      expect([at, ids.includes(`finding/${at}`)]).toEqual([at, open]);
      expect([at, ids.includes(`cell/${at}`)]).toEqual([at, f.verdict !== "n/a"]);
    }
    expect(ids).toContain(`tape/${unit.unit}/${row.tape}`);
  });
  test.each(unit.tapes)("the cell of $tape leads to its finding, and the finding back to the cell", (row) => {
    for (const f of row.findings.filter((one) => one.severity === "S" && one.verdict === "stops")) {
      const at = `${unit.unit}/${row.tape}/${f.check}`;
      expect(elements.find((e) => e.attributes.id === `cell/${at}`)!.attributes.href).toBe(`#finding/${at}`);
      const finding = body.slice(body.indexOf(`id="finding/${at}"`));
      const back = finding.slice(0, finding.indexOf("Back to the map") + 1);
      expect([at, back.endsWith(`<a href="#cell/${at}">B`)]).toEqual([at, true]);
    }
  });
});
test("a finding shows its sentence, window, place on the drawing and equation", () => {
  const finding = body.slice(body.indexOf('id="finding/plover/so20-24/film.mismatch"'));
  const one = finding.slice(0, finding.indexOf('<div class="entry"'));
  const sentence = input.judged.units[0]!.tapes[1]!.findings.find((f) => f.check === "film.mismatch")!.because;
  expect(sentence).toMatch(/fibres differ by \d\.\d % of the span/);
  for (const part of [escaped(sentence), "Window of", "Where it acts on Plover", "<math", "zone B"])
    expect([part, one.includes(part)]).toEqual([part, true]);
});
test("a finding shows the record of its check's trials, where the project keeps a ledger", () => {
  const ledger = `format: 1
ledger:
  - {frozen: L-01, trial: T-01, question: film.mismatch, unit: plover, tape: so20-24, fails: [0.2, 0.1, 0.4], share: 0.7, date: 2026-03-01, seed: 1, version: 0.1.0, sha: ${"0".repeat(64)}, rests on: {}}
`;
  const kept = projectOf(new Map([...exampleTexts(), ["ledger.yaml", ledger]]));
  const strokes = [{ trial: "T-01", agreed: true }];
  const records = [{ check: "film.mismatch", agreed: 1, trials: 1, strokes }];
  const html = reportHtml(inputOf(kept, { ...judgedAsWritten(kept, fewWanted), records }));
  const of = (page: string) => {
    const at = page.indexOf('id="finding/plover/so20-24/film.mismatch"', page.indexOf("<body>"));
    return page.slice(at, page.indexOf('<div class="entry"', at));
  };
  expect(of(html).includes("agreed with 1 of 1 trial</dd>")).toBe(true);
  expect(html.includes("no trial yet")).toBe(true);
  expect(of(page).includes("<dt>record</dt>")).toBe(false);
});
test("two tapes of one width share one drawing, whose geometry is written once", () => {
  const both = reportHtml(inputOf(example, judgedAsWritten(example, new Map([["plover", ["so20-24", "carrier-24"]]]))));
  const ids = elementsOf(both).flatMap((e) =>
    e.attributes.id?.startsWith("shared-g-plover-24-") ? [e.attributes.id] : [],
  );
  expect(ids.filter((id) => id.endsWith("-side"))).toHaveLength(1);
  const sheets = elementsOf(both).filter((e) => e.attributes["data-at"] === "24");
  expect(sheets).toHaveLength(1);
});
test("a check that says the same of two tapes in every word is written once", () => {
  const judged = judgedAsWritten(example, new Map([["plover", ["so20-24", "carrier-24"]]]));
  const [first, second] = judged.units[0]!.tapes;
  const same = {
    ...second!,
    findings: first!.findings,
    first: first!.first,
    verdict: first!.verdict,
    share: first!.share,
  };
  const html = reportHtml(inputOf(example, { ...judged, units: [{ ...judged.units[0]!, tapes: [first!, same] }] }));
  const open = first!.findings.filter((f) => f.severity === "S" && (f.verdict === "stops" || f.verdict === "depends"));
  expect(open.length).toBeGreaterThan(2);
  expect(html.match(/the same in every word/g)).toHaveLength(1);
  expect(html).toContain('id="tape/plover/carrier-24"');
  for (const f of open) {
    const there = elementsOf(html).find((e) => e.attributes.id === `finding/plover/carrier-24/${f.check}`)!;
    expect(there.attributes).toMatchObject({ href: `#finding/plover/so20-24/${f.check}`, "data-w": "24" });
  }
});
test("the whole example, with every ninth check made open, stays under 4 MB without its lettering", () => {
  const html = reportHtml(inputOf(example, judgedAsWritten(example)));
  expect(html.length).toBeGreaterThan(500_000);
  expect(html.length).toBeLessThan(4_000_000);
}, 360_000);
test("where two tapes share some findings only, those are named and the others written out", () => {
  const judged = judgedAsWritten(example, new Map([["plover", ["so20-24", "carrier-24"]]]));
  const [first, second] = judged.units[0]!.tapes;
  const findings = first!.findings.map((f) =>
    f.check === first!.first[0] ? f : { ...f, because: `${f.because} Else.` },
  );
  const mixed = { ...second!, findings, first: first!.first, verdict: first!.verdict, share: first!.share };
  const html = reportHtml(inputOf(example, { ...judged, units: [{ ...judged.units[0]!, tapes: [first!, mixed] }] }));
  expect(html.match(/The same in every word as on so20-24/g)).toHaveLength(1);
  expect(html).toContain(`id="finding/plover/carrier-24/${first!.first[1]}"`);
  expect(html).toContain("Else.");
});
test("a width whose numbers are none says why it is not drawn, and its findings are written all the same", () => {
  const broken = tabled("plover/sprocket.at", "s", "1 mm", [1, 0, 0, 0, 0], { cite: "a test", how: "judgement" });
  const without = { ...broken, expression: parseExpression("0 / 0") };
  const plain = few();
  const sceneOf = (unit: string, tape: string): Scene => {
    const scene = plain.sceneOf(unit, tape);
    const { sprocket } = scene.unit;
    return tape === "so20-24" && sprocket
      ? { ...scene, unit: { ...scene.unit, sprocket: { ...sprocket, at: without } } }
      : scene;
  };
  const part = unitParts({ ...plain, sceneOf })[0]!.widths.find((w) => w.W === 24)!;
  expect(part.sheet).toBeUndefined();
  expect(part.trouble).toContain("plover/sprocket.at is no finite number");
  expect(part.written.map((w) => w.finding.check)).toContain("film.mismatch");
  const shared = new Shared("shared");
  const html = boardHtml(unitParts({ ...plain, sceneOf })[0]!, "u1", shared);
  expect(html).toContain("It can't be drawn: plover/sprocket.at");
  expect(html.match(/class="sheet scroll/g)).toHaveLength(5);
});
