// The tables of the pages that come from the program's own objects: checks, assumptions, how a text is read, what is refused.
// Imported only after a build.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import {
  assumptions,
  checks,
  chosen,
  namesIn,
  nominalOf,
  parseExpression,
  showIn,
  shownUnit,
  stations,
  symbolInPrint,
  typesetText,
} from "../packages/core/dist/index.js";
import { scenes as scenesOfTests } from "../packages/core/dist/scene.fixture.js";
import { readProject } from "../packages/project/dist/index.js";
import { root } from "./setup.mjs";

const example = join(root, "examples/saltgrass");

/** Texts of the bundled example by path. */
function exampleTexts() {
  const texts = new Map();
  const take = (/** @type {string} */ path) => texts.set(path, readFileSync(join(example, path), "utf8"));
  take("project.yaml");
  for (const folder of ["units", "tapes"])
    for (const name of readdirSync(join(example, folder))) take(`${folder}/${name}`);
  return texts;
}
/**
 * The texts with one file's piece replaced.
 * @param {Map<string, string>} texts
 * @param {string} path
 * @param {string} before
 * @param {string} after
 */
function changed(texts, path, before, after) {
  const text = texts.get(path) ?? "";
  if (text.split(before).length !== 2) throw new Error(`"${before}" does not stand once in the example's ${path}`);
  return new Map(texts).set(
    path,
    text.replace(before, () => after),
  );
}

/** Scenes that together show every form a check takes: a friction nip, a clutch, a drive whose stall is given, a bent route. */
function scenes() {
  const texts = exampleTexts();
  const stalling = changed(texts, "units/plover.yaml", "peel drive:\n", "peel drive:\n  stall: 60 N*mm\n");
  return [texts, stalling].flatMap((one) => {
    const { project, errors } = readProject(one);
    if (!project) throw new Error(errors.map((e) => e.message).join("\n"));
    return [...project.wanted].flatMap(([unit, tapes]) =>
      tapes.flatMap((name) => {
        const tape = project.tapes.get(name)?.tape;
        const variant = tape && project.units.get(unit)?.variants.get(tape.row);
        return tape && variant ? [{ unit: variant, tape, requirement: project.requirement }] : [];
      }),
    );
  });
}

/** @param {string[]} cells */
const tableRow = (cells) => `| ${cells.map((cell) => cell.replaceAll("|", "\\|").replaceAll("\n", " ")).join(" | ")} |`;
/**
 * @param {string[]} head
 * @param {string[][]} rows
 */
const table = (head, rows) => [tableRow(head), tableRow(head.map(() => "---")), ...rows.map(tableRow)].join("\n");

/** @typedef {import("../packages/core/dist/index.js").Quantity} Quantity */
/** @typedef {import("../packages/core/dist/index.js").Scene} Scene */

/** @param {Quantity} q */
const named = (q) =>
  q.kind === "model" ? `${q.title} ${symbolInPrint(q.symbol)}` : `${q.symbol === "one" ? "1" : inWords(q)}`;
/** @param {Extract<Quantity, { kind: "given" }>} q */
function inWords(q) {
  const name = q.address.replace(/^assume\//, "");
  if (q.address.startsWith("bound/")) return q.text.replace(/^0 .*/, "0");
  return `${name} ${symbolInPrint(q.symbol)} (${q.text})`;
}
/** @param {Quantity} q */
function equationOf(q) {
  if (q.kind === "given") return undefined;
  const text = q.form === "closed" ? typesetText(parseExpression(q.equation)) : q.equation;
  return `${symbolInPrint(q.symbol)} = ${text}`;
}

/** Every check: what is held against what, with the equations of both sides. */
export function checksTable() {
  const ofExample = scenes();
  const invented = scenesOfTests.map(([, scene]) => scene);
  /**
   * Different quantities that a check takes over scenes, in order.
   * @param {Scene[]} all
   * @param {(scene: Scene) => Quantity | undefined} of
   */
  const eachOf = (all, of) => [
    ...new Map(all.flatMap((scene) => of(scene) ?? []).map((q) => [q.kind === "model" ? q.id : q.address, q])).values(),
  ];
  const rows = checks.map((check) => {
    // What the example does not have is shown by the invented scenes of the tests.
    const isShown = ofExample.some((scene) => check.absent(scene) === undefined);
    /** @param {(scene: Scene) => Quantity | undefined} of */
    const each = (of) => eachOf(isShown ? ofExample : invented, of);
    const value = each((scene) => (check.absent(scene) === undefined ? chosen(check.value, scene) : undefined));
    const least = each((scene) => chosen(check.atLeast, scene));
    const most = each((scene) => chosen(check.atMost, scene));
    const first = value[0];
    if (!first) throw new Error(`no scene shows ${check.id}`);
    const sides = [
      ...(least.length > 0 ? [`at least ${[...new Set(least.map(named))].join(", or ")}`] : []),
      ...(most.length > 0 ? [`at most ${[...new Set(most.map(named))].join(", or ")}`] : []),
    ];
    const equations = [...new Set([...value, ...least, ...most].flatMap((q) => equationOf(q) ?? []))];
    return [
      `\`${check.id}\``,
      `${check.station} ${stations[check.station]}`,
      check.severity,
      check.status,
      `${named(first)}: ${sides.join("; ")}`,
      equations.join("; "),
    ];
  });
  return table(["check", "station", "severity", "status", "what is held against what", "equations"], rows);
}

/** What is assumed where no file gives it. */
export const assumptionsTable = () =>
  table(
    ["name", "", "value", "what it is", "where it comes from"],
    Object.entries(assumptions).map(([name, a]) => [
      `\`${name}\``,
      symbolInPrint(a.symbol),
      `\`${a.text}\``,
      a.means,
      `${a.origin.cite} (${a.origin.how})`,
    ]),
  );

/** Rows of a table on a page: the cells of each, without the code marks. @param {string} body */
const rowsIn = (body) =>
  body
    .split("\n")
    .filter((line) => line.startsWith("| `"))
    .map((line) => [...line.matchAll(/`((?:[^`\\]|\\.)*)`/g)].map(([, text]) => (text ?? "").replaceAll("\\|", "|")));

/** Fields of the example in which a page shows how a text is read or refused: where it stands there, and its address. */
const fields = /** @type {const} */ ({
  force: ["units/dunlin.yaml", "  preload: 5.5 ±0.4 N\n", "  preload: ", "dunlin/nip.preload"],
  length: ["units/plover.yaml", "    width: W + 0.45 ±0.10 mm\n", "    width: ", "plover/tape.section.width"],
  number: ["units/plover.yaml", "  friction: 0.18..0.35 guess\n", "  friction: ", "plover/film.friction"],
  let: [
    "units/plover.yaml",
    "  gap: 0.60 ±0.15 mm                   # air under the pocket\n",
    "  gap: ",
    "plover/let.gap",
  ],
  angle: [
    "units/plover.yaml",
    "  place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}\n",
    "  place: {mark: pick, x: 0 mm, z: 0 mm, heading: ",
    "plover/tape.place.heading",
  ],
  play: [
    "units/dunlin.yaml",
    "  - {name: nip bearing near, kind: bushing, play: 0.02..0.05 mm}\n",
    "  - {name: nip bearing near, kind: bushing, play: ",
    "dunlin/joints.nip bearing near.play",
  ],
  seal: [
    "tapes/so8-12.yaml",
    "  seal: 0.38 N per reel sd 15 % per index sd 8 % measured\n",
    "  seal: ",
    "tapes/so8-12/film.seal",
  ],
  pocket: ["tapes/so8-12.yaml", "A0: 6.40 ±0.06 mm measured\n", "A0: ", "tapes/so8-12/A0"],
  line: ["units/plover.yaml", "revision: C\n", "", ""],
});
/** @param {string} text */
const quoted = (text) => (/^[\w.+-][^#:]*$/.test(text) && !/[,{}[\]]/.test(text) ? text : JSON.stringify(text));

/** One file of the example in a project of its own, with the tapes it may name. @param {string} path */
function alone(path) {
  const needed = [...exampleTexts()].filter(
    ([one]) => one === path || (path.startsWith("units/") && one.startsWith("tapes/")),
  );
  return new Map([["project.yaml", "format: 1\nproject: one file\nwanted: {}\n"], ...needed]);
}
/**
 * The example read with one text in one field.
 * @param {string} field
 * @param {string} text
 */
function readWith(field, text) {
  if (!Object.hasOwn(fields, field)) throw new Error(`"${field}" is none of ${Object.keys(fields).join(", ")}`);
  const [path, line, before, address] = fields[/** @type {keyof typeof fields} */ (field)];
  const end = before.includes("{") ? "}\n" : "\n";
  const value = field === "line" ? text.replaceAll("\\n", "\n") : quoted(text);
  const { project, errors } = readProject(changed(alone(path), path, line, `${before}${value}${end}`));
  return { given: project?.givens.get(address), errors };
}

/**
 * How a text is read: centre, scatters, letter. Its first two columns stand on the page, the rest is worked out.
 * @param {string} body
 */
export function readings(body) {
  return table(
    ["written", "in a field that wants", "read as", "letter"],
    rowsIn(body).map(([text = "", field = ""]) => {
      const { given, errors } = readWith(field, text);
      if (errors.length > 0 || !given)
        throw new Error(`${text} in ${field}: ${errors.map((e) => e.message).join("; ") || "not found"}`);
      return [`\`${text}\``, `\`${field}\``, meaning(given), given.letter];
    }),
  );
}
/** @param {import("../packages/core/dist/index.js").Given} g */
function meaning(g) {
  const unit = shownUnit(g);
  const show = (/** @type {number} */ v) => showIn(unit, v, 3);
  const u = g.unknown;
  const centre = !u
    ? g.expression && namesIn(g.expression).length > 0
      ? "as its formula says"
      : show(nominalOf(g))
    : u.law === "switch"
      ? u.words.join(" or ")
      : `unknown: 95 % of belief from ${show(u.low)} to ${show(u.high)}, ${u.law === "lognormal" ? "a normal law of the logarithm" : "a normal law"}`;
  const scatters = g.scatters.map((s) =>
    s.law === "uniform"
      ? `${show(s.from)} to ${show(s.to).replace(/^(?=\d)/, "+")} about it, evenly, between ${s.level}s`
      : s.law === "normal"
        ? `a normal law with sd ${show(s.sd)} between ${s.level === "index" ? "indexes" : `${s.level}s`}`
        : `a lognormal law about it, sd of the logarithm ${s.sd.toPrecision(3)}, between ${s.level === "index" ? "indexes" : `${s.level}s`}`,
  );
  return [centre, ...scatters].join("; ");
}

/**
 * What is refused, with the program's own words.
 * @param {string} body
 */
export function refusals(body) {
  return table(
    ["written", "in a field that wants", "the program says", "way out"],
    rowsIn(body).map(([text = "", field = ""]) => {
      const { errors } = readWith(field, text);
      const [first] = errors;
      if (!first) throw new Error(`${text} in ${field} is not refused`);
      return [`\`${text}\``, `\`${field}\``, first.message, first.hint ?? ""];
    }),
  );
}
