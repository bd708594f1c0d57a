import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  applies,
  Cell,
  checks,
  Deviates,
  type Drag,
  decide,
  dragInSteps,
  evenWeights,
  finished,
  judgeInSteps,
  movedBy,
  type Scene,
  type Steps,
  type Studied,
  shareHolding,
  studyInSteps,
  type TapeResult,
} from "@tapeworthy/core";
import { type Project, readProject } from "@tapeworthy/project";
import { measureDragPage } from "./drag-page.ts";
import { type Measured, machine, median, timed } from "./measure.ts";

const steps = 200;
/** A frame at 60 a second, s: what a step leaves of it goes to taking slopes afresh, as on the page. */
const frame = 1 / 60;
/** What a hand drags, out and back again, so far a step, SI. */
const gestures = [
  { unit: "plover", address: "plover/film.guides.shoulder.through.2", step: 0.05e-3, onScreen: "so20-24" },
  { unit: "plover", address: "plover/nip.preload", step: 0.02, onScreen: "so16-16" },
  { unit: "dunlin", address: "dunlin/nip.preload", step: 0.02, onScreen: "so20-24" },
] as const;

interface Pair {
  readonly tape: string;
  readonly scene: Scene;
  readonly studied: readonly Studied[];
  readonly result: TapeResult;
}
interface Ready {
  readonly pair: Pair;
  readonly drag: Drag;
}
const deviates = new Deviates(1);

function readExample(): Project {
  const example = fileURLToPath(new URL("../../examples/saltgrass/", import.meta.url));
  const texts = new Map([["project.yaml", readFileSync(`${example}project.yaml`, "utf8")]]);
  for (const folder of ["units", "tapes"])
    for (const name of readdirSync(example + folder))
      texts.set(`${folder}/${name}`, readFileSync(`${example}${folder}/${name}`, "utf8"));
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map((e) => `${e.place.file}:${e.place.line} ${e.message}`).join("\n"));
  return project;
}
const judgingOf = (unit: string, tape: string, scene: Scene) => ({
  unit,
  tape,
  scene,
  checks,
  deviates,
  weights: evenWeights,
  contradicted: new Set<string>(),
});
function drawn(project: Project, unit: string): Pair[] {
  return project.wanted.get(unit)!.map((name) => {
    const { tape } = project.tapes.get(name)!;
    const scene = { unit: project.units.get(unit)!.variants.get(tape.row)!, tape, requirement: project.requirement };
    const studied = checks.filter((c) => applies(c, scene)).map((c) => finished(studyInSteps(scene, c, deviates)));
    const { result } = finished(judgeInSteps(judgingOf(unit, name, scene), studied));
    return { tape: name, scene, studied, result };
  });
}

const at = (x: readonly number[], p: number): number =>
  [...x].sort((a, b) => a - b)[Math.min(x.length - 1, Math.floor(p * x.length))]!;

/** Two hundred steps of one drag, all pairs of its unit at every step. */
function dragged(pairs: readonly Pair[], { unit, address, step, onScreen }: (typeof gestures)[number]) {
  const ready: Ready[] = [];
  const members = [address];
  const preparing = timed(() => {
    for (const pair of pairs) {
      const { scene, studied, result, tape } = pair;
      const judging = judgingOf(unit, tape, scene);
      ready.push({ pair, drag: finished(dragInSteps({ judging, studied, result, members, reach: 40 * step })) });
    }
  });
  const one = (by: number): void => {
    for (const { pair, drag } of ready)
      drag.at(by, pair.tape === onScreen ? { told: pair.result.findings[0]?.check } : undefined);
  };
  const begun = Array.from({ length: 20 }, (_, i) => timed(() => one(i % 2 === 0 ? 0 : step)));
  const took: number[] = [];
  const cpu: number[] = [];
  const renewed: number[] = [];
  for (let i = 1; i <= steps; i++) {
    const by = step * (i <= steps / 2 ? i : steps - i);
    const before = process.cpuUsage();
    took.push(timed(() => one(by)));
    const after = process.cpuUsage(before);
    cpu.push((after.user + after.system) / 1e6);
    // Between the steps: as many slopes as the frame has room for, and never more than one step beyond.
    const left = frame - took.at(-1)!;
    let spent = 0;
    const all = renewing(ready, by);
    for (let more = true; more && spent < left; ) spent += timed(() => (more = !all.next().done));
    renewed.push(spent);
  }
  return {
    address,
    pairs: ready.filter(({ drag }) => drag.checks.size > 0).length,
    of: pairs.length,
    checks: ready.reduce((n, { drag }) => n + drag.checks.size, 0),
    steps,
    median: median(took),
    p95: at(took, 0.95),
    most: Math.max(...took),
    processorMean: cpu.reduce((a, b) => a + b, 0) / steps,
    firstSteps: median(begun),
    preparingAll: preparing,
    slopesBetweenSteps: { median: median(renewed), p95: at(renewed, 0.95) },
    errorOfShares: errorsOf(ready, members, step),
  };
}
function* renewing(ready: readonly Ready[], by: number): Steps<void> {
  for (const { drag } of ready) yield* drag.renew(by);
}
/** How far quick shares of checks are off from full draws of the moved number, so many steps out. */
function errorsOf(ready: readonly Ready[], members: readonly string[], step: number) {
  return [20, 100].map((n) => {
    const moved = movedBy(members, n * step);
    const off = ready.flatMap(({ pair, drag }) => {
      const touched = pair.studied.filter(({ check }) => drag.checks.has(check.id)).map(({ check }) => check);
      const quick = drag.at(n * step);
      return decide(new Cell(pair.scene, touched), deviates, { moved }).map(({ gap }, c) => {
        const found = quick.findings.find((f) => f.check === touched[c]!.id)!;
        return Math.abs(found.share! - shareHolding([gap], evenWeights));
      });
    });
    return { steps: n, greatest: Math.max(...off), mean: off.reduce((a, b) => a + b, 0) / off.length };
  });
}

/** A step of a drag on the whole example, against drawing the same pairs anew. */
export async function measureDrag(): Promise<Measured> {
  const project = readExample();
  const all = new Map(["plover", "dunlin"].map((unit) => [unit, drawn(project, unit)]));
  const drags = gestures.map((gesture) => dragged(all.get(gesture.unit)!, gesture));
  const [first] = drags;
  const pairs = all.get("plover")!;
  const redrawn = timed(() => {
    for (const { tape, scene, studied } of pairs) {
      const touched = studied.filter(({ alone }) => alone.addresses.has(gestures[0].address));
      const moved = touched.map(({ check }) => finished(studyInSteps({ ...scene }, check, deviates)));
      finished(judgeInSteps(judgingOf("plover", tape, scene), moved));
    }
  });
  return {
    name: "drag",
    ratio: first!.median / redrawn,
    against: "drawing in full what rests on the dragged number, on the same ten tapes",
    ours: first!.median,
    theirs: redrawn,
    spread: (first!.p95 - first!.median) / first!.median,
    machine: machine(),
    drags,
    page: await measureDragPage(),
    why: "a step is bounded by the models of the film's path at the pair on screen, and by some twelve columns of two hundred numbers a check elsewhere; clearances stand by their slopes, which are taken afresh between the steps",
  };
}
