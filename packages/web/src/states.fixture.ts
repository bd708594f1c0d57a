import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import {
  accuracyInSteps,
  asWritten,
  checks,
  Deviates,
  evenWeights,
  type Finding,
  finished,
  isPlace,
  judge,
  misfeeds,
  Realiser,
  type Scene,
  type TapeResult,
  unitOf,
} from "@tapeworthy/core";
import { type IndexPicture, indexPicture, unitShape } from "@tapeworthy/drawing";
import { type Project, readProject, sceneOf, showError } from "@tapeworthy/project";
import type { Answer } from "./ask/question.ts";
import type { EngineState, FileError, NumberView, PairState } from "./engine/state.ts";

/** The bundled example cut down to two tapes, so that its states can be made in a moment. */
const example = resolve(import.meta.dirname, "../../../examples/saltgrass");
export const wantedTapes = ["so16-16", "so20-24"] as const;
export function smallProject(): Map<string, string> {
  const texts = new Map<string, string>();
  const read = (path: string) => texts.set(path, readFileSync(`${example}/${path}`, "utf8"));
  read("project.yaml");
  for (const name of readdirSync(`${example}/units`)) read(`units/${name}`);
  // dpak-16: one of the tapes that Dunlin is built for.
  for (const tape of [...wantedTapes, "dpak-16"]) read(`tapes/${tape}.yaml`);
  const main = texts.get("project.yaml")!;
  const wanted = `wanted:\n  plover: [${wantedTapes.join(", ")}]\n  dunlin: [so20-24]\n`;
  texts.set(
    "project.yaml",
    main.replace(/^wanted:\n(?: .*\n)+/m, wanted).replace(/^ladder:.*\n/m, "ladder: [so16-16, so20-24]\n"),
  );
  texts.set(
    "known.yaml",
    "format: 1\nknown:\n  - {unit: plover, tape: so16-16, result: runs, reels run: 240, reels refused: 2}\n",
  );
  return texts;
}

function numbersOf(project: Project, scene: Scene, stem: string): NumberView[] {
  const givens = [...scene.unit.givens.values()].filter((g) => isPlace(g.origin));
  const run = new Realiser(scene, givens).run(asWritten);
  return givens.map((g): NumberView => {
    const path = g.address.slice(stem.length + 1);
    const { factor } = unitOf(g.shownIn);
    return {
      address: g.address,
      path,
      symbol: g.symbol,
      means: "",
      text: g.text,
      place: g.origin as NumberView["place"],
      value: run.number(g),
      unit: g.unit,
      shownIn: g.shownIn,
      letter: g.letter,
      least: g.lever?.[0],
      most: g.lever?.[1],
      step: g.expression ? 0.05 * factor : 0,
      coarse: factor,
      draggable: g.expression !== undefined,
      guess: undefined,
      onlyWidth: undefined,
      widths: [...project.units.get(stem)!.variants.keys()],
      names: [],
    };
  });
}
/** Errors of a text as the page is told them. */
export function errorsOf(texts: ReadonlyMap<string, string>): FileError[] {
  return readProject(texts).errors.map((e) => ({
    place: e.place,
    found: e.found,
    expected: e.expected,
    hint: e.hint,
    shown: showError(e),
  }));
}

/** A state in which everything is worked out and nothing is amiss: plover on so20-24. */
export function goodState(): EngineState {
  const texts = smallProject();
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map((e) => showError(e)).join("\n"));
  const deviates = new Deviates(1);
  const results = wantedTapes.map(
    (tape): TapeResult =>
      judge({
        unit: "plover",
        tape,
        scene: sceneOf(project, "plover", tape),
        checks,
        deviates,
        weights: evenWeights,
        contradicted: new Set(),
      }),
  );
  const scene = sceneOf(project, "plover", "so20-24");
  const icon = { W: 0.024, A0: 0.0108, B0: 0.0133, P1: 0.012, E1: 0.00175, F: 0.0115 };
  return {
    texts,
    project: {
      name: project.name,
      allowPairs: project.requirement.allowPairs,
      units: [...project.units].map(([stem, u]) => ({
        stem,
        file: `units/${stem}.yaml`,
        name: u.name,
        revision: [...u.variants.values()][0]!.revision ?? "",
        widths: u.widths,
        wanted: project.wanted.get(stem) ?? [],
      })),
      tapes: [...project.tapes].map(([stem, { tape }]) => ({
        stem,
        file: `tapes/${stem}.yaml`,
        name: tape.name,
        part: tape.part,
        kind: tape.kind,
        row: tape.row,
        icon,
      })),
    },
    errors: [],
    pairs: results.map(
      (result): PairState => ({
        unit: "plover",
        tape: result.tape,
        sharpness: "drawn",
        result,
        quick: new Set(),
        before: undefined,
      }),
    ),
    known: {
      of: 1,
      reproduced: 1,
      open: 0,
      contradicted: [],
      contradictedChecks: [],
      lines: [
        {
          unit: "plover",
          tape: "so16-16",
          result: "runs",
          reelsRun: 240,
          reelsRefused: 2,
          share: 0.97,
          verdict: "feeds",
          standing: "reproduced",
          checks: [],
        },
      ],
      weighed: true,
      effective: 640,
      sharp: true,
    },
    look: { unit: "plover", tape: "so20-24" },
    shape: unitShape(scene),
    trouble: undefined,
    numbers: numbersOf(project, scene, "plover"),
    gesture: undefined,
    changed: undefined,
    busy: undefined,
    connection: "live",
    unsaved: 0,
    conflicts: [],
    canUndo: false,
    canRedo: false,
    offered: [],
    troubles: [],
    examples: ["saltgrass"],
    seed: 1,
  };
}

/** A state with one check of one tape changed. */
export function withFinding(state: EngineState, tape: string, check: string, more: Partial<Finding>): EngineState {
  return {
    ...state,
    pairs: state.pairs.map((p) =>
      p.tape === tape && p.result
        ? {
            ...p,
            result: {
              ...p.result,
              findings: p.result.findings.map((f) => (f.check === check ? { ...f, ...more } : f)),
            },
          }
        : p,
    ),
  };
}

/** One index of plover on so20-24 as the page is told it, as text: arrays of numbers as lists, so that they may go into a page. */
export function indexAnswer(more: Partial<IndexPicture> = {}): string {
  const { project } = readProject(smallProject());
  const picture = { ...indexPicture(sceneOf(project!, "plover", "so20-24")), ...more };
  return JSON.stringify({ kind: "index", picture }, (_, v) => (ArrayBuffer.isView(v) ? [...(v as Float64Array)] : v));
}

const flat = (answer: Answer): string =>
  JSON.stringify(answer, (_, v) => (ArrayBuffer.isView(v) ? [...(v as Float64Array)] : v));
/** Error at the pick and misfeeds of the pair on screen, from few draws. */
export function sureAnswers(): { readonly pick: string; readonly misfeed: string } {
  const { project } = readProject(smallProject());
  const pair = { unit: "plover", tape: "so20-24" };
  const scene = sceneOf(project!, pair.unit, pair.tape);
  const deviates = new Deviates(1);
  const accuracy = finished(accuracyInSteps(scene, pair, deviates, evenWeights, { draws: 16_384 }));
  return {
    pick: flat({ kind: "pick", accuracy }),
    misfeed: flat({ kind: "misfeed", misfeeds: misfeeds(scene, { deviates, draws: 40, allowance: 1e-5 }) }),
  };
}
/** A sizing as it might come out; every figure made up. */
export function sizeAnswer(): string {
  const of = (path: string, symbol: string, shownIn: string, value: number, least: number, most: number) => ({
    path,
    symbol,
    unit: shownIn === "N" ? "N" : "m",
    shownIn,
    least,
    most,
    grain: shownIn === "N" ? 0.1 : 5e-5,
    drawn: [{ W: 12, value }],
  });
  const dimensions = [
    of("nip.preload", "N", "N", 4.7, -2, 4),
    of("tape.section.lips.gap", "g", "mm", 6e-4, -2e-4, 6e-4),
  ];
  const told = (verdict: "feeds" | "depends" | "stops", share: number, margin: number) => ({ verdict, share, margin });
  const cell = { tape: "so20-24", W: 24, check: "nip.pulls", station: 7 } as const;
  const windows = dimensions.map(({ path, least, most }) => ({
    path,
    at: Float64Array.from({ length: 91 }, (_, i) => least + ((most - least) * i) / 90),
    least: Float64Array.from({ length: 91 }, (_, i) => 1 - Math.abs(i - 50) / 20),
    runs: [
      {
        from: least + (most - least) / 3,
        to: least + 0.8 * (most - least),
        below: { tape: "so20-24", check: "nip.pulls" },
        above: { tape: "so8-12", check: "nip.slips" },
      },
    ],
  }));
  const text = smallProject().get("units/plover.yaml")!;
  return flat({
    kind: "size",
    sizing: {
      unit: "plover",
      dimensions,
      at: [0.6, 0],
      windows,
      aside: [
        {
          ...cell,
          check: "film.mismatch",
          station: 4,
          verdict: "stops",
          share: 0,
          why: "unmoved",
          best: 0,
        },
      ],
      proposals: [],
      written: { file: "units/plover.yaml", text: text.replace("preload: 4.7 ±0.5 N", "preload: 5.3 ±0.5 N") },
      result: {
        unit: "plover",
        seed: 1,
        dimensions: dimensions.map((d, i) => ({
          path: d.path,
          symbol: d.symbol,
          unit: d.unit,
          shownIn: d.shownIn,
          bounds: [{ W: 12, low: d.drawn[0]!.value + d.least, high: d.drawn[0]!.value + d.most }],
          drawn: d.drawn,
          by: i === 0 ? 0.6 : 0,
        })),
        before: { least: -0.8, tape: "so20-24", check: "nip.pulls" },
        after: { least: 0.4, tape: "so8-12", check: "nip.slips" },
        tapes: [],
        front: [
          { path: undefined, least: -0.8, open: 3 },
          { path: "nip.preload", least: 0.4, open: 1 },
        ],
        pays: [
          {
            ...cell,
            tape: "so8-12",
            check: "nip.slips",
            before: told("feeds", 1, 5.1),
            after: told("feeds", 0.98, 2.9),
          },
        ],
        gains: [{ ...cell, before: told("depends", 0.4, -0.2), after: told("feeds", 0.99, 3.2) }],
        aside: [],
        widths: [],
        lines: [
          {
            path: "nip.preload",
            address: "plover/nip.preload",
            width: undefined,
            text: "4.7 ±0.5 N",
            written: "5.3 ±0.5 N",
          },
        ],
        starts: [],
        evaluations: 100,
        stopped: false,
      },
    },
  });
}

/** A state as text that a page turns into a state again: maps and sets as lists. */
export const asText = (state: EngineState): string =>
  JSON.stringify({
    ...state,
    texts: [...state.texts],
    pairs: state.pairs.map((p) => ({ ...p, quick: [...p.quick] })),
  });
