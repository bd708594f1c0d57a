import { asWritten, fieldAt, type Given, isPlace, Realiser, type Scene, unitOf } from "@tapeworthy/core";
import type { Project, ProjectError, UnitFile } from "@tapeworthy/project";
import { recordsOf, showError } from "@tapeworthy/project";
import type { FileError, NumberView, ProjectView } from "./state.ts";

/** A project as plain data: what the page names and pictures. */
export function projectView(project: Project): ProjectView {
  return {
    name: project.name,
    allowPairs: project.requirement.allowPairs,
    ...(project.ledger.frozen.length > 0 ? { records: [...recordsOf(project.ledger).values()] } : {}),
    units: [...project.units].map(([stem, unit]) => ({
      stem,
      file: unit.source.file,
      name: unit.name,
      revision: [...unit.variants.values()][0]!.revision ?? "",
      widths: unit.widths,
      wanted: project.wanted.get(stem) ?? [],
    })),
    tapes: [...project.tapes].map(([stem, { tape }]) => {
      const { W, A0, B0, P1, E1, F } = tape.letters;
      const run = new Realiser({ tape } as Scene, [W, A0, B0, P1, E1, F]).run(asWritten);
      const [w, a, b, p, e, f] = [W, A0, B0, P1, E1, F].map((q) => run.number(q)) as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      return {
        stem,
        file: `tapes/${stem}.yaml`,
        name: tape.name,
        part: tape.part,
        kind: tape.kind,
        row: tape.row,
        icon: { W: w, A0: a, B0: b, P1: p, E1: e, F: f },
      };
    }),
  };
}

export const errorView = (e: ProjectError): FileError => ({
  place: e.place,
  found: e.found,
  expected: e.expected,
  hint: e.hint,
  shown: showError(e),
});

/** Grid of a drag, SI: lengths, angles; other numbers move by one in their second figure. */
const lengths = [0.05e-3, 1e-3] as const;
const angles = [(0.5 * Math.PI) / 180, (5 * Math.PI) / 180] as const;
function gridOf(given: Given, value: number): readonly [fine: number, coarse: number] {
  if (given.unit === "m") return lengths;
  if (given.shownIn === "deg") return angles;
  const { factor } = unitOf(given.shownIn);
  const size = Math.abs(value / factor) || 1;
  const fine = factor * 10 ** (Math.floor(Math.log10(size) + 1e-9) - 1);
  return [fine, 10 * fine];
}

/** Numbers of one variant's file and of its tape's: what can be dragged, and between which bounds; what can be typed over. */
export function numberViews(scene: Scene, { stem, variants }: UnitFile): NumberView[] {
  const givens = new Map([...scene.unit.givens, ...scene.tape.givens]);
  // Bounds of what is free for sizing are no numbers of the unit.
  const own = [...givens.values()].filter((g) => isPlace(g.origin) && !g.address.startsWith(`${stem}/free.`));
  const run = new Realiser(scene, own).run(asWritten);
  return own.map((given): NumberView => {
    const isUnits = given.address.startsWith(`${stem}/`);
    const inFile = isUnits ? given.address.slice(stem.length + 1) : given.address.replace(/^tapes\/[^/]*\//, "");
    const only = /^per width\.(\d+)\.(.*)$/.exec(inFile);
    const path = only ? only[2]! : inFile;
    const field = isUnits ? fieldAt(path) : undefined;
    const value = run.number(given);
    const { factor } = field && field.unit !== "any" ? unitOf(field.unit) : { factor: Number.NaN };
    const bound = (v: number | undefined): number | undefined => (v === undefined ? undefined : v * factor);
    const [low, high] = given.lever ?? [bound(field?.least), bound(field?.most)];
    const { unknown } = given;
    const isRange = unknown !== undefined && unknown.law !== "switch";
    const draggable = given.expression !== undefined;
    const [step, coarse] = draggable ? gridOf(given, value) : [0, 0];
    const reads = given.reads(scene);
    return {
      address: given.address,
      path,
      symbol: given.symbol,
      means: field?.means ?? "",
      text: given.text,
      place: isPlace(given.origin) ? { ...given.origin } : { file: "", line: 1, column: 1, length: 1 },
      value,
      unit: given.unit,
      shownIn: given.shownIn,
      letter: given.letter,
      // What stands outside its bounds already may be moved back, no farther out.
      least: low === undefined ? undefined : Math.min(low, value),
      most: high === undefined ? undefined : Math.max(high, value),
      step,
      coarse,
      draggable,
      guess: isRange ? { low: unknown.low, high: unknown.high } : undefined,
      onlyWidth: only ? Number(only[1]) : undefined,
      widths: [...variants].flatMap(([width, unit]) => (unit.givens.has(given.address) ? [width] : [])),
      names: Object.entries(reads).map(([name, q]) => ({
        name,
        address: q.kind === "given" && givens.has(q.address) ? q.address : undefined,
      })),
    };
  });
}
