import { existsSync, statSync } from "node:fs";
import {
  circumstances,
  type FirmwareConstant,
  noIndex,
  type SceneIndex,
  sceneHeader,
  sceneIndex,
  showIn,
} from "@tapeworthy/core";
import type { Project } from "@tapeworthy/project";
import { nearest, sceneOf } from "@tapeworthy/project";
import type { Command } from "commander";
import { type Common, onFiles, open, print, printJson, width } from "./call.ts";
import { CallError, writeWhole } from "./folder.ts";
import { unitNamed } from "./ladder-command.ts";
import { type Paint, paintFor, wrapped } from "./paint.ts";
import { version } from "./version.ts";

interface IndexOptions extends Pick<Common, "vary" | "json"> {
  readonly unit: string;
  readonly tape: string;
  readonly header?: string;
}

/** `index`: one index in time, what the firmware needs for it, and a C header of that. */
export function indexCommand(program: Command): void {
  onFiles(
    program
      .command("index")
      .description("one index in time: what happens when, what the firmware needs, and a C header of it")
      .argument("[folder]", "the project's folder", ".")
      .requiredOption("--unit <name>", "the unit's file, without .yaml")
      .requiredOption("--tape <name>", "the tape's file, without .yaml")
      .option("--header <file>", "write the firmware constants to this file as a C header"),
  )
    .addHelpText(
      "after",
      "\nExamples:\n  tapeworthy index examples/saltgrass --unit plover --tape so8-12\n  tapeworthy index . --unit dunlin --tape so20-24 --header index.h",
    )
    .action((folder: string, options: IndexOptions) => {
      const { project } = open(folder, options.vary);
      const unit = unitNamed(project, options.unit);
      const tape = tapeNamed(project, unit, options.tape);
      const scene = sceneOf(project, unit, tape);
      const why = noIndex(scene);
      if (why) throw new CallError(`${unit} on ${tape} has no index to simulate: ${why}.`);
      const { header } = options;
      if (header !== undefined && existsSync(header) && statSync(header).isDirectory())
        throw new CallError(`"${header}" is a folder; name a file for the header.`);
      const one = sceneIndex(scene);
      const { name, revision } = scene.unit;
      const text = sceneHeader(one, { unit: name, revision, tape, width: scene.unit.row, version });
      if (options.json) printJson(jsonOf(one, { unit, tape, revision: revision ?? null, width: scene.unit.row }));
      else print(showIndex(one, `${name} on ${tape}`, paintFor(process.stdout), width()));
      if (header !== undefined) {
        writeWhole(header, text);
        if (!options.json) print(`\nThe constants are in ${header}.`);
      }
    });
}

/** A tape of the project that the unit is cut for. Throws CallError with the way out. */
export function tapeNamed(project: Project, unit: string, name: string): string {
  const served = project.tapes.get(name);
  if (!served) {
    const near = nearest(name, project.tapes.keys());
    throw new CallError(
      `There is no tape "${name}".${near ? ` Did you mean "${near}"?` : ` Tapes here: ${[...project.tapes.keys()].join(", ")}.`}`,
    );
  }
  const variants = project.units.get(unit)!.variants;
  if (!variants.has(served.tape.row))
    throw new CallError(
      `${unit} is not made for ${served.tape.row} mm, the width of ${name}; it serves ${[...variants.keys()].join(", ")} mm.`,
    );
  return name;
}

/** Times in s, lengths in m, forces in N. */
function jsonOf(
  { run, story, firmware, slowest, withoutFilm }: SceneIndex,
  of: { readonly unit: string; readonly tape: string; readonly revision: string | null; readonly width: number },
) {
  const lanes = Object.fromEntries(
    Object.entries(run.lanes).map(([name, lane]) => [name, [...lane].map((v) => Number(v.toPrecision(7)))]),
  );
  return {
    version,
    // Which index it is: unit and tape by their files, the drawing's revision, the width in mm as the standard names it.
    ...of,
    events: story.events,
    said: story.said,
    measures: story.measures,
    slowest: { time: slowest.time, finished: slowest.finished },
    firmware: {
      constants: firmware.constants,
      stopScatter: firmware.stopScatter,
      openLoop: firmware.openLoop,
      ramping: firmware.ramping,
      warnings: firmware.warnings,
    },
    withoutFilm: withoutFilm ?? null,
    steps: run.steps,
    lanes,
  };
}

const shownIn = { m: "um", s: "ms", A: "mA" } as const;
const shown = (unit: FirmwareConstant["unit"], v: number): string =>
  unit === "V/s" ? `${v.toPrecision(2)} V/s` : showIn(shownIn[unit], v);

function showIndex(
  { story, firmware, slowest, withoutFilm, run }: SceneIndex,
  title: string,
  paint: Paint,
  wide: number,
): string {
  const out = [paint.strong(`${title}: one index, motors cold`)];
  const say = (text: string): void => void out.push(...wrapped(`  ${text}`, wide, "  ").split("\n"));
  if (withoutFilm) say(`The film is left out: ${withoutFilm}.`);
  out.push("", paint.faint("      at  what happens"));
  for (const { t, says } of story.events) out.push(`${showIn("ms", t, 3).padStart(8)}  ${says}`);
  out.push("");
  for (const sentence of story.said) say(sentence);
  say(
    slowest.finished
      ? `At the least volts, hot, it takes ${showIn("ms", slowest.time)}.`
      : "At the least volts, hot, it does not finish.",
  );
  out.push(
    "",
    paint.strong("What the firmware needs"),
    paint.faint(`  ${"constant".padEnd(14)}${"value".padStart(9)}  what it is`),
  );
  for (const c of firmware.constants) {
    out.push(`  ${c.name.padEnd(14)}${shown(c.unit, c.value).padStart(9)}  ${c.means}`);
    for (const s of [...c.shifts].sort((a, b) => Math.abs(b.by) - Math.abs(a.by)).slice(0, 2))
      out.push(
        paint.faint(
          `  ${"".padEnd(25)}${s.by < 0 ? "−" : "+"}${shown(c.unit, Math.abs(s.by))} with ${circumstances[s.of]}`,
        ),
      );
  }
  out.push("");
  say(firmware.openLoop);
  say(firmware.ramping);
  for (const warning of firmware.warnings) out.push(...wrapped(`  ! ${warning}`, wide, "    ").split("\n"));
  say(`${run.steps.taken} steps, ${run.steps.unsolved === 0 ? "all solved" : `${run.steps.unsolved} not solved`}.`);
  return out.join("\n");
}
