import { checks } from "@tapeworthy/core";
import { capital, stationWords } from "@tapeworthy/drawing";
import { type SchemaKind, schemaKindOf } from "@tapeworthy/project";
import type { EngineState } from "../engine/engine.ts";
import { rowsOf } from "../panel/chosen.ts";
import type { Choice } from "./choice.ts";
import type { Found } from "./find.ts";
import { type KeyName, keys } from "./keys.ts";
import type { Choose } from "./sheet.tsx";

const fileWords: Readonly<Record<SchemaKind, string>> = {
  unit: "a unit",
  tape: "a tape",
  project: "what is asked and wanted",
  known: "what is known of units",
  trial: "a trial of the bench",
  ledger: "predictions and how they came out",
};
/** All that can be found by name: files, checks, tapes, units, parts and numbers of the unit on screen, keys. */
export function findable(
  state: EngineState,
  choice: Choice,
  choose: Choose,
  act: (name: KeyName) => void,
): Found<() => void>[] {
  const { project, numbers, shape, texts } = state;
  const rows = rowsOf(state, choice.unit);
  const row = rows.find((r) => r.tape === choice.tape);
  return [
    ...checks
      // While its tape is being worked out every check can be gone to.
      .filter((c) => !row || row.findings.some((f) => f.check === c.id))
      .map((c) => ({
        kind: "check",
        name: c.id,
        note: `${stationWords[c.station - 1]}; ${c.title}`,
        to: () => choose({ check: c.id, panel: "finding" as const, over: undefined }),
      })),
    ...(project?.units.find((u) => u.stem === choice.unit)?.wanted ?? []).map((stem) => {
      const tape = project?.tapes.find((t) => t.stem === stem);
      return {
        kind: "tape",
        name: stem,
        note: tape ? `${tape.row} mm, ${tape.part}` : "",
        to: () => choose({ tape: stem, over: undefined }),
      };
    }),
    ...(project?.units ?? []).map((u) => ({
      kind: "unit",
      name: u.name,
      note: u.file,
      to: () => choose({ unit: u.stem, tape: undefined, check: undefined, panel: "known" as const, over: undefined }),
    })),
    ...[...texts.keys()].flatMap((file) => {
      const trial = /^bench\/([^/]+)\.yaml$/.exec(file)?.[1];
      if (trial === undefined) return [];
      const to = () => choose({ sheet: "bench", trial, question: undefined, run: undefined, card: false });
      return [{ kind: "trial", name: trial, note: file, to }];
    }),
    ...(shape?.bodies ?? []).map((b) => ({
      kind: "part",
      name: b.name,
      note: b.part ?? "",
      to: () => {
        const number = numbers.find((n) => n.path.startsWith("bodies.") && n.path.includes(`.${b.name}.`));
        if (number) choose({ text: { file: number.place.file, address: number.address } });
      },
    })),
    ...[...state.texts.keys()].sort().map((file) => ({
      kind: "file",
      name: file,
      note: fileWords[schemaKindOf(file)],
      to: () => choose({ text: { file } }),
    })),
    ...numbers.map((n) => ({
      kind: "number",
      name: n.path,
      note: `${n.text}${n.means === "" ? "" : `; ${n.means}`}`,
      to: () => choose({ text: { file: n.place.file, address: n.address } }),
    })),
    ...keys
      .filter(({ name }) => name !== "find" && name !== "fold")
      .map(({ name, key, says }) => ({ kind: `key ${key}`, name: capital(says), note: "", to: () => act(name) })),
  ];
}
