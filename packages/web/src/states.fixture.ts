import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import {
  asWritten,
  checks,
  Deviates,
  evenWeights,
  type Finding,
  isPlace,
  judge,
  Realiser,
  type Scene,
  type TapeResult,
  unitOf,
} from "@tapeworthy/core";
import { type IndexPicture, indexPicture, unitShape } from "@tapeworthy/drawing";
import { type Project, readProject, showError } from "@tapeworthy/project";
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

export function sceneOf(project: Project, unit: string, tape: string): Scene {
  const served = project.tapes.get(tape)!.tape;
  return { unit: project.units.get(unit)!.variants.get(served.row)!, tape: served, requirement: project.requirement };
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

/** A state as text that a page turns into a state again: maps and sets as lists. */
export const asText = (state: EngineState): string =>
  JSON.stringify({
    ...state,
    texts: [...state.texts],
    pairs: state.pairs.map((p) => ({ ...p, quick: [...p.quick] })),
  });
