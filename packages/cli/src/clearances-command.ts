import {
  asWritten,
  type LeastGaps,
  leastGaps,
  mountHeight,
  mountWidth,
  Realiser,
  type Scene,
  showIn,
  slotsTaken,
} from "@tapeworthy/core";
import type { Project } from "@tapeworthy/project";
import { sceneOf } from "@tapeworthy/project";
import type { Command } from "commander";
import { type Common, ofUnits, onFiles, open, print, printJson, width } from "./call.ts";
import { CallError } from "./folder.ts";
import { unitNamed } from "./ladder-command.ts";
import { type Paint, paintFor, wrapped } from "./paint.ts";
import { version } from "./version.ts";

/** What one unit asks of the machine on one width: m, and slots of the machine. */
interface Room {
  readonly W: number;
  readonly width: number | null;
  readonly height: number;
  readonly slots: number | null;
}
interface UnitClearances extends LeastGaps {
  readonly unit: string;
  readonly name: string;
  readonly tapes: readonly string[];
  readonly room: readonly Room[];
}

/** `clearances`: every pair that is not meant to touch, where it comes nearest over the wanted tapes. */
export function clearancesCommand(program: Command): void {
  onFiles(
    ofUnits(
      program
        .command("clearances")
        .description(
          "every pair that is not meant to touch: its least gap over the wanted tapes, where and on which tape",
        )
        .argument("[folder]", "the project's folder", "."),
    ),
  )
    .addHelpText(
      "after",
      "\nExamples:\n  tapeworthy clearances examples/saltgrass\n  tapeworthy clearances . --unit dunlin --json",
    )
    .action((folder: string, options: Pick<Common, "vary" | "json"> & { readonly unit?: string }) => {
      const { project } = open(folder, options.vary);
      const names = options.unit === undefined ? [...project.wanted.keys()] : [unitNamed(project, options.unit)];
      const units = names.map((unit) => clearancesOf(project, unit));
      if (units.length === 0)
        throw new CallError('No tape is wanted of any unit: list some under "wanted" in project.yaml.');
      if (options.json) printJson({ version, units });
      else print(units.map((one) => showClearances(one, paintFor(process.stdout), width())).join("\n\n"));
    });
}

function clearancesOf(project: Project, unit: string): UnitClearances {
  const tapes = project.wanted.get(unit) ?? [];
  const on = tapes.map((tape) => ({ tape, scene: sceneOf(project, unit, tape) }));
  // What it asks of the machine is the unit's own, and the same for every tape of a width but for its film.
  const rows = new Map<number, Room>();
  for (const { scene } of on) {
    const one = roomOf(scene);
    const before = rows.get(one.W);
    if (!before || one.height > before.height) rows.set(one.W, one);
  }
  return { unit, name: project.units.get(unit)!.name, tapes, room: [...rows.values()], ...leastGaps(on) };
}
function roomOf(scene: Scene): Room {
  const asked = [mountHeight, ...(scene.unit.mount ? [mountWidth, slotsTaken] : [])];
  const run = new Realiser(scene, asked).run(asWritten);
  const { mount, row } = scene.unit;
  return {
    W: row,
    height: run.number(mountHeight),
    width: mount ? run.number(mountWidth) : null,
    slots: mount ? run.number(slotsTaken) : null,
  };
}

function showClearances({ name, tapes, pairs, without, room }: UnitClearances, paint: Paint, wide: number): string {
  const out = [
    paint.strong(name),
    ...wrapped(`  Least over ${tapes.join(", ")}; as written, what is not known at its middle.`, wide, "  ").split(
      "\n",
    ),
  ];
  const mm = (v: number): string => showIn("mm", v).replace(/ mm$/, "");
  const pair = Math.max(4, ...pairs.map(({ a, b }) => `${a} / ${b}`.length));
  const tape = Math.max(4, ...pairs.map((p) => p.tape.length));
  out.push("", paint.faint(`  ${"pair".padEnd(pair)}  gap, mm  wanted  ${"tape".padEnd(tape)}  where`));
  for (const p of pairs) {
    const near = p.gap < p.wanted;
    const line = `${`${p.a} / ${p.b}`.padEnd(pair)}  ${mm(p.gap).padStart(7)}  ${mm(p.wanted).padStart(6)}  ${p.tape.padEnd(tape)}  ${near ? "too near, " : ""}${p.place}`;
    out.push(`  ${near ? paint.stops(line) : line}`);
  }
  for (const { a, b, trouble } of without) out.push(`  ${`${a} / ${b}`.padEnd(pair)}  no answer: ${trouble}`);
  out.push("", "  Room it asks of the machine, the guides, the film and its bodies in it:");
  for (const { W, width, height, slots } of room)
    out.push(
      `  at ${`${W}`.padStart(2)} mm  ${width === null ? "" : `${mm(width)} mm wide, ${slots} ${slots === 1 ? "slot" : "slots"}; `}${mm(height)} mm over the tape`,
    );
  return out.join("\n");
}
