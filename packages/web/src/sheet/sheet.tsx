import { mostCompared, questionsOf } from "@tapeworthy/core";
import { headline, sayVerdict } from "@tapeworthy/drawing";
import { lazy, Suspense, useCallback, useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import { flushSync } from "react-dom";
import type { Question } from "../ask/question.ts";
import { useAnswer, useAsker } from "../ask/use-answer.ts";
import type { Engine, EngineState, ExplainedCheck } from "../engine/engine.ts";
import { Playhead } from "../over/playhead.ts";
import { Unfolded } from "../over/unfolded.tsx";
import { chosenFinding, chosenRow, rowsOf, shownInOf, titleOf } from "../panel/chosen.ts";
import { Panel } from "../panel/panel.tsx";
import { byFrame } from "./by-frame.ts";
import { type Choice, choiceFrom, hashOf } from "./choice.ts";
import { DrawingView } from "./drawing.tsx";
import { FindDialog } from "./find-dialog.tsx";
import { findable } from "./findable.ts";
import { FirstRun } from "./first-run.tsx";
import { type KeyName, keyNamed } from "./keys.ts";
import { KeysDialog } from "./keys-dialog.tsx";
import { MapView } from "./map.tsx";
import { isDark, useSettings } from "./settings.ts";
import { Strip } from "./strip.tsx";

/** The editor is the half of the page's code, and not everybody opens it. */
const TextPane = lazy(async () => ({ default: (await import("../text/text-pane.tsx")).TextPane }));

export type Choose = (part: Partial<Choice>, how?: "step" | "replace") => void;

/** Sheet 1: a unit drawn with a tape, its route map, the finding that is open, the title strip. */
export function Sheet({ engine }: { readonly engine: Engine }) {
  const subscribe = useMemo(() => byFrame(engine), [engine]);
  const state = useSyncExternalStore(subscribe, engine.state);
  const [choice, choose] = useChoice(state);
  const [settings, change] = useSettings();
  const [dialog, setDialog] = useState<"find" | "keys">();
  const [zone, setZone] = useState<string>();
  const { unit, tape, check } = choice;
  useEffect(() => {
    if (unit !== undefined && tape !== undefined)
      engine.look({ unit, tape, ...(check === undefined ? {} : { check }) });
  }, [engine, unit, tape, check]);

  const finding = chosenFinding(state, choice);
  const row = chosenRow(state, choice);
  const explained = useExplained(engine, choice, row);
  const title = [state.project?.units.find((u) => u.stem === unit)?.name, tape].filter((s) => s).join(" on ");
  useEffect(() => {
    document.title = title === "" ? "Tapeworthy" : `${title} - Tapeworthy`;
  }, [title]);
  const asker = useAsker();
  const [playhead] = useState(() => new Playhead());
  const unfolds = overQuestion(state, choice);
  const answering = useAnswer(asker, state, unfolds);
  const ways = useAnswer(asker, state, waysQuestion(state, choice), unfolds !== undefined);

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
      const tapes = state.project?.units.find((u) => u.stem === unit)?.wanted ?? [];
      switch (name) {
        case "find":
        case "keys":
          setDialog(name);
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
          next();
          break;
        case "ladder":
        case "compare":
        case "sweep":
        case "index":
        case "pick":
        case "misfeed":
        case "size":
          choose({ over: choice.over === name ? undefined : name });
          break;
        case "text":
          choose({ text: choice.text || unit === undefined ? undefined : textOf(state, unit) });
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
          if (finding) choose({ over: "finding" });
          break;
        case "fold":
          // What was opened last is folded first; the focus goes back to the map.
          if (choice.over) choose({ over: undefined });
          else if (choice.text) choose({ text: undefined });
          else if (choice.panel === "finding") choose({ panel: "known" });
          focusOn('.map a.cell[tabindex="0"]');
      }
    },
    [state, choice, choose, engine, unit, tape, row, finding, next, change, settings],
  );
  useKeys(act, settings.singleKeys && dialog === undefined, dialog !== undefined);

  const isEmpty = state.connection !== "opening" && !state.texts.has("project.yaml");
  if (isEmpty) return <FirstRun state={state} engine={engine} />;
  return (
    <div
      className={`sheet${choice.text ? " with-text" : ""}${choice.over === "finding" ? " whole" : ""}${state.errors.length > 0 ? " stale" : ""}`}
    >
      <button type="button" className="skip" onClick={() => focusOn('.map a.cell[tabindex="0"]')}>
        To the route map
      </button>
      <button type="button" className="skip" onClick={() => focusOn(".panel")}>
        To the finding
      </button>
      <main className="draw" aria-label="Drawing">
        <h1 className="unseen">
          {state.project ? `${state.project.name}: sheet 1, unit` : "Tapeworthy: sheet 1, unit"}
        </h1>
        <DrawingView state={state} choice={choice} choose={choose} engine={engine} onZone={setZone} />
      </main>
      <section className="route" aria-label="Route map">
        <MapView state={state} choice={choice} choose={choose} />
      </section>
      {choice.over ? (
        <Unfolded
          state={state}
          choice={choice}
          choose={choose}
          answering={answering}
          ways={ways}
          explained={explained}
          zone={zone}
          playhead={playhead}
          engine={engine}
          asker={asker}
        />
      ) : null}
      {choice.text ? (
        <Suspense fallback={<section className="text" aria-label="Text of the project" />}>
          <TextPane state={state} choice={choice} choose={choose} engine={engine} />
        </Suspense>
      ) : null}
      <Panel
        state={state}
        choice={choice}
        choose={choose}
        engine={engine}
        explained={explained}
        ways={ways}
        zone={zone}
        index={choice.over === "index" && answering?.answer?.kind === "index" ? answering.answer.picture : undefined}
        playhead={playhead}
        comparison={
          choice.over === "compare" && answering?.answer?.kind === "compare" ? answering.answer.comparison : undefined
        }
      />
      <Strip
        state={state}
        choice={choice}
        choose={choose}
        engine={engine}
        onFind={() => setDialog("find")}
        onQuestion={next}
      />
      <Spoken state={state} choice={choice} />
      {dialog === "find" ? (
        <FindDialog all={findable(state, choice, choose, act)} onClose={() => setDialog(undefined)} />
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

function useExplained(engine: Engine, { unit, tape, check, panel }: Choice, row: unknown): ExplainedCheck | undefined {
  const [found, setFound] = useState<{ key: string; explained: ExplainedCheck | undefined }>();
  const key = `${unit} ${tape} ${check}`;
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is asked again when the numbers of the row are others
  useEffect(() => {
    if (unit === undefined || tape === undefined || check === undefined || panel === "known") return;
    let is = true;
    engine.explain(unit, tape, check).then(
      (explained) => is && setFound({ key, explained }),
      () => is && setFound({ key, explained: undefined }),
    );
    return () => {
      is = false;
    };
  }, [engine, unit, tape, check, panel, key, row]);
  return found?.key === key ? found.explained : undefined;
}

/** What is unfolded over the drawing and takes long to work out. */
function overQuestion({ project }: EngineState, { unit, tape, check, over, sweep }: Choice): Question | undefined {
  if (!project || unit === undefined || tape === undefined) return undefined;
  switch (over) {
    case "ladder":
      return { kind: "ladder", unit };
    case "compare": {
      const others = project.units.map((u) => u.stem).filter((u) => u !== unit);
      const W = project.tapes.find((t) => t.stem === tape)?.row ?? 0;
      return { kind: "compare", units: [unit, ...others].slice(0, mostCompared), W };
    }
    case "sweep":
      return check === undefined ? undefined : { kind: "sweep", unit, tape, check, ...sweep };
    case "index":
    case "pick":
    case "misfeed":
      return { kind: over, unit, tape };
    case "size":
      return { kind: "size", unit };
    default:
      return undefined;
  }
}
/** Ways out of the finding that is open, once everything else is drawn. */
function waysQuestion(state: EngineState, choice: Choice): Question | undefined {
  const { unit, tape, check } = choice;
  const finding = chosenFinding(state, choice);
  const isOpen = finding?.severity === "S" && (finding.verdict === "stops" || finding.verdict === "depends");
  if (!isOpen || state.busy || unit === undefined || tape === undefined || check === undefined) return undefined;
  return { kind: "cures", unit, tape, check };
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
  const words = finding
    ? headline(finding, titleOf(finding.check), shownInOf(finding))
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
