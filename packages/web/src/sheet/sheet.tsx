import { questionsOf, sayRecord } from "@tapeworthy/core";
import { headline, sayVerdict } from "@tapeworthy/drawing";
import {
  type ComponentProps,
  type ComponentType,
  lazy,
  Suspense,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from "react";
import { flushSync } from "react-dom";
import { useAsker } from "../ask/use-answer.ts";
import type { BenchKeys, BenchSheet as BenchPart } from "../bench/bench-sheet.tsx";
import type { Engine, EngineState } from "../engine/engine.ts";
import { chosenFinding, chosenRow, rowsOf, shownInOf, titleOf } from "../panel/chosen.ts";
import type { TextPane as TextPart } from "../text/text-pane.tsx";
import { byFrame } from "./by-frame.ts";
import { type Choice, choiceFrom, hashOf } from "./choice.ts";
import { FindDialog } from "./find-dialog.tsx";
import { findable } from "./findable.ts";
import { FirstRun } from "./first-run.tsx";
import { type KeyName, keyNamed } from "./keys.ts";
import { KeysDialog } from "./keys-dialog.tsx";
import { ChangedBench, ChangedText, partOf } from "./program-changed.tsx";
import { isDark, useSettings } from "./settings.ts";
import { type RankedFirst, Strip } from "./strip.tsx";
import { UnitSheet } from "./unit-sheet.tsx";

/** The editor is the half of the page's code, and not everybody opens it. */
const TextPane = lazy(() =>
  partOf<ComponentType<ComponentProps<typeof TextPart>>>(
    async () => (await import("../text/text-pane.tsx")).TextPane,
    ChangedText,
  ),
);

/** So is the bench: it comes when somebody goes there. */
const BenchSheet = lazy(() =>
  partOf<ComponentType<ComponentProps<typeof BenchPart>>>(
    async () => (await import("../bench/bench-sheet.tsx")).BenchSheet,
    ChangedBench,
  ),
);

export type Choose = (part: Partial<Choice>, how?: "step" | "replace") => void;

/** The page: one frame with its title strip, and in it the sheet that is chosen. */
export function Sheet({ engine }: { readonly engine: Engine }) {
  const subscribe = useMemo(() => byFrame(engine), [engine]);
  const state = useSyncExternalStore(subscribe, engine.state);
  const [choice, choose] = useChoice(state);
  const [settings, change] = useSettings();
  const [dialog, setDialog] = useState<"find" | "keys">();
  const [ranked, setRanked] = useState<RankedFirst>();
  /** What the bench does with keys of its own. */
  const bench = useRef<BenchKeys>(undefined);
  const isBench = choice.sheet === "bench";
  const { unit, tape, check } = choice;
  useEffect(() => {
    if (unit !== undefined && tape !== undefined)
      engine.look({ unit, tape, ...(check === undefined ? {} : { check }) });
  }, [engine, unit, tape, check]);

  const finding = chosenFinding(state, choice);
  const row = chosenRow(state, choice);
  const title = isBench
    ? `Bench of ${state.project?.name ?? "a project"}`
    : [state.project?.units.find((u) => u.stem === unit)?.name, tape].filter((s) => s).join(" on ");
  useEffect(() => {
    document.title = title === "" ? "Tapeworthy" : `${title} - Tapeworthy`;
  }, [title]);
  const asker = useAsker(engine.judged);

  const next = useCallback(() => {
    const rows = rowsOf(state, unit);
    const questions = questionsOf(rows);
    if (questions.length === 0) return;
    const open = finding?.decisive?.address;
    const at = questions.findIndex((q) => q.address === open);
    const question = questions[(at + 1) % questions.length]!;
    const where = rows.find((r) => r.tape === question.tapes[0])!;
    choose({ tape: where.tape, check: where.first[0], panel: "finding", over: undefined });
  }, [state, unit, finding, choose]);

  const act = useCallback(
    (name: KeyName): void => {
      if (isBench && unitKeys.has(name)) return;
      const tapes = state.project?.units.find((u) => u.stem === unit)?.wanted ?? [];
      switch (name) {
        case "find":
        case "keys":
          setDialog(name);
          break;
        case "sheet 1":
          choose({ sheet: "unit" });
          break;
        case "sheet 2":
          choose({ sheet: "bench" });
          break;
        case "known":
          choose({ panel: "known", over: undefined });
          break;
        case "moved":
          choose({ panel: "moved", over: undefined });
          break;
        case "first":
          if (row?.first[0] !== undefined) choose({ check: row.first[0], panel: "finding" });
          break;
        case "tape":
          if (tape !== undefined) choose({ tape: tapes[(tapes.indexOf(tape) + 1) % tapes.length] });
          break;
        case "question":
          if (isBench) bench.current?.next();
          else next();
          break;
        case "index":
          if (isBench) bench.current?.readLog();
          else choose({ over: choice.over === name ? undefined : name });
          break;
        case "ladder":
        case "compare":
        case "sweep":
        case "pick":
        case "misfeed":
        case "size":
          choose({ over: choice.over === name ? undefined : name });
          break;
        case "text":
          if (choice.text || unit === undefined) choose({ text: undefined });
          else choose({ text: isBench ? benchTextOf(state, choice) : textOf(state, unit) });
          break;
        case "undo":
          void engine.undo();
          break;
        case "redo":
          void engine.redo();
          break;
        case "theme":
          change({ theme: isDark(settings) ? "light" : "dark" });
          break;
        case "unfold":
          if (finding && !isBench) choose({ over: "finding" });
          break;
        case "fold":
          // What was opened last is folded first; the focus goes back to where it was opened.
          if (isBench) {
            if (bench.current?.fold()) break;
            if (choice.text) choose({ text: undefined });
            else if (choice.card) choose({ card: false });
            focusOn('.questions tr[tabindex="0"]');
            break;
          }
          if (choice.over) choose({ over: undefined });
          else if (choice.text) choose({ text: undefined });
          else if (choice.panel === "finding") choose({ panel: "known" });
          focusOn('.map a.cell[tabindex="0"]');
      }
    },
    [state, choice, choose, engine, unit, tape, row, finding, next, change, settings, isBench],
  );
  useKeys(act, settings.singleKeys && dialog === undefined, dialog !== undefined);

  const isEmpty = state.connection !== "opening" && !state.texts.has("project.yaml");
  if (isEmpty) return <FirstRun state={state} engine={engine} />;
  // What is found of a unit lies on its sheet; a text stands beside either.
  const chooseFound: Choose = (part, how) =>
    choose("text" in part || "sheet" in part ? part : { sheet: "unit", ...part }, how);
  const text = choice.text ? (
    <Suspense fallback={<section className="text" aria-label="Text of the project" />}>
      <TextPane state={state} choice={choice} choose={choose} engine={engine} />
    </Suspense>
  ) : null;
  return (
    <div
      className={`sheet${isBench ? " bench-sheet" : ""}${choice.text ? " with-text" : ""}${!isBench && choice.over === "finding" ? " whole" : ""}${state.errors.length > 0 ? " stale" : ""}`}
    >
      {isBench ? (
        <Suspense fallback={<main className="bench" aria-label="Bench" />}>
          <BenchSheet
            state={state}
            choice={choice}
            choose={choose}
            engine={engine}
            asker={asker}
            keys={bench}
            onRanked={setRanked}
          >
            {text}
          </BenchSheet>
        </Suspense>
      ) : (
        <UnitSheet state={state} choice={choice} choose={choose} engine={engine} asker={asker}>
          {text}
        </UnitSheet>
      )}
      <Strip
        state={state}
        choice={choice}
        choose={choose}
        engine={engine}
        ranked={isBench ? ranked : undefined}
        onFind={() => setDialog("find")}
        onQuestion={() => {
          if (isBench) bench.current?.next();
          else
            choose({
              sheet: "bench",
              question: questionsOf(rowsOf(state, unit))[0]?.address,
              trial: undefined,
              card: false,
            });
        }}
      />
      {isBench ? null : <Spoken state={state} choice={choice} />}
      {dialog === "find" ? (
        <FindDialog all={findable(state, choice, chooseFound, act)} onClose={() => setDialog(undefined)} />
      ) : null}
      {dialog === "keys" ? (
        <KeysDialog
          singleKeys={settings.singleKeys}
          onSingleKeys={(singleKeys) => change({ singleKeys })}
          onClose={() => setDialog(undefined)}
        />
      ) : null}
    </div>
  );
}
/** The text of a unit; at the number of the diamond that has the focus, where one has it. */
function textOf({ project, numbers }: EngineState, unit: string): NonNullable<Choice["text"]> {
  const address = document.activeElement instanceof HTMLElement ? document.activeElement.dataset.address : undefined;
  const number = numbers.find((n) => n.address === address);
  if (number) return { file: number.place.file, address: number.address };
  return { file: project?.units.find((u) => u.stem === unit)?.file ?? "project.yaml" };
}
/** On the bench: the trial that is chosen, else the first; else the ledger. */
function benchTextOf({ texts }: EngineState, { trial }: Choice): NonNullable<Choice["text"]> {
  const file = `bench/${trial}.yaml`;
  if (texts.has(file)) return { file };
  return { file: texts.has("ledger.yaml") ? "ledger.yaml" : "project.yaml" };
}
/** Keys of the unit's sheet that mean nothing on the bench. */
const unitKeys: ReadonlySet<KeyName> = new Set([
  "known",
  "moved",
  "first",
  "tape",
  "ladder",
  "compare",
  "sweep",
  "pick",
  "misfeed",
  "size",
]);
const focusOn = (selector: string): void => document.querySelector<HTMLElement>(selector)?.focus();

/** What is chosen, as the page's address says it; what that leaves open is the first unit and its first wanted tape. */
function useChoice({ project, pairs }: EngineState): readonly [Choice, Choose] {
  const [written, setWritten] = useState<Choice>(() => choiceFrom(location.hash));
  const named = (stem: string | undefined) => project?.units.find((u) => u.stem === stem);
  const unit = named(written.unit) ?? named(pairs[0]?.unit) ?? project?.units[0];
  const tape = unit?.wanted.find((t) => t === written.tape) ?? unit?.wanted[0];
  const stem = unit?.stem;
  const choice = useMemo((): Choice => ({ ...written, unit: stem, tape }), [written, stem, tape]);
  const now = useRef(choice);
  now.current = choice;
  const choose = useCallback<Choose>((part, how = "step") => {
    const next = { ...now.current, ...part };
    now.current = next;
    if (hashOf(next) === location.hash) return;
    history[how === "step" ? "pushState" : "replaceState"](null, "", hashOf(next));
    setWritten(next);
  }, []);
  useEffect(() => {
    const follow = () => setWritten(choiceFrom(location.hash));
    addEventListener("popstate", follow);
    addEventListener("hashchange", follow);
    return () => {
      removeEventListener("popstate", follow);
      removeEventListener("hashchange", follow);
    };
  }, []);
  return [choice, choose];
}

/** Keys heard anywhere on the page. */
function useKeys(act: (name: KeyName) => void, single: boolean, inDialog: boolean): void {
  const now = useRef(act);
  now.current = act;
  useEffect(() => {
    const hear = (event: KeyboardEvent) => {
      if (event.defaultPrevented || inDialog) return;
      const [target] = event.composedPath();
      const element = target instanceof Element ? target : document.body;
      const typing = element.closest("input, textarea, select, [contenteditable=true], .cm-editor") !== null;
      const name = keyNamed({ ...pressedOf(event), typing }, single);
      if (!name) return;
      // Enter on a link or button is its own.
      if (name === "unfold" && element.closest("a, button, summary, [role=slider]")) return;
      event.preventDefault();
      // Drawn before the next key is heard: keys typed fast on a busy machine act on what the one before has chosen.
      flushSync(() => now.current(name));
    };
    addEventListener("keydown", hear);
    return () => removeEventListener("keydown", hear);
  }, [single, inDialog]);
}
const pressedOf = ({ key, shiftKey, ctrlKey, metaKey, altKey }: KeyboardEvent) => ({
  key,
  shiftKey,
  ctrlKey,
  metaKey,
  altKey,
});

/** What a screen reader is told when the sheet shows something else: politely, and not while a hand moves something. */
function Spoken({ state, choice }: { readonly state: EngineState; readonly choice: Choice }) {
  const [said, setSaid] = useState("");
  const finding = chosenFinding(state, choice);
  const row = chosenRow(state, choice);
  const { changed, gesture } = state;
  const record = finding && state.project?.records?.find((one) => one.check === finding.check);
  const words = finding
    ? [headline(finding, titleOf(finding.check), shownInOf(finding)), ...(record ? [sayRecord(record)] : [])].join("; ")
    : row
      ? `${row.tape}: ${sayVerdict(row.verdict, row.share)}`
      : "";
  const turned = changed?.settled ? `${changed.worse} worse, ${changed.better} better` : "";
  const all = turned === "" ? words : `${words}. The change turned: ${turned}`;
  useEffect(() => {
    if (gesture) return;
    const timer = setTimeout(() => setSaid(all), 400);
    return () => clearTimeout(timer);
  }, [all, gesture]);
  return (
    <p className="unseen" role="status" data-spoken>
      {said}
    </p>
  );
}
