import { openQuestions, type TapeResult } from "@tapeworthy/core";
import { frameShapes, questionRows, toSvg, zonesFor } from "@tapeworthy/drawing";
import { type ReactNode, type RefObject, useEffect, useImperativeHandle, useMemo, useRef, useState } from "react";
import type { Asker } from "../ask/asker.ts";
import type { BenchAnswer, NextAnswer, TrialView } from "../ask/bench-answers.ts";
import type { Answer } from "../ask/question.ts";
import { type Answering, useAnswer } from "../ask/use-answer.ts";
import type { Engine, EngineState } from "../engine/engine.ts";
import type { Choice } from "../sheet/choice.ts";
import type { Choose } from "../sheet/sheet.tsx";
import { useSize } from "../sheet/size.ts";
import type { RankedFirst } from "../sheet/strip.tsx";
import { Written } from "../sheet/written.tsx";
import { useActs } from "./acts.ts";
import { BenchPanel } from "./bench-panel.tsx";
import { cardAsked } from "./card-asked.ts";
import { CardView } from "./card-view.tsx";
import { Log } from "./log.tsx";
import { Piece } from "./piece.tsx";
import { Questions } from "./questions.tsx";
import { nextTrial } from "./trial-names.ts";
import { useTyped } from "./typed.ts";

/** What the bench does with the page's keys; `fold` says whether there was something to fold. */
export interface BenchKeys {
  readonly next: () => void;
  readonly readLog: () => void;
  readonly fold: () => boolean;
}
/** All that the parts of the bench look at. */
export interface BenchView {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly engine: Engine;
  readonly bench: BenchAnswer | undefined;
  /** Judged rows of every wanted pair, as far as they are worked out. */
  readonly rows: readonly TapeResult[];
  readonly questions: NextAnswer["questions"] | undefined;
  /** Of all wanted pairs, by the draws of belief or by the shares of findings alone. */
  readonly isRanked: boolean;
  readonly shapes: NextAnswer["shapes"];
  /** The question that is chosen, by address or check. */
  readonly question: string | undefined;
  readonly trial: TrialView | undefined;
  /** What day is written beside what is done here. */
  readonly date: string;
  readonly setDate: (date: string) => void;
}
const noShapes: NextAnswer["shapes"] = {};
/** The last answer of a kind: it stays in sight while a newer one is worked out. */
function useLast<K extends Answer["kind"]>(
  answering: Answering | undefined,
  kind: K,
): Extract<Answer, { kind: K }> | undefined {
  const last = useRef<Extract<Answer, { kind: K }>>(undefined);
  if (answering?.answer?.kind === kind) last.current = answering.answer as Extract<Answer, { kind: K }>;
  return last.current;
}
const today = (): string => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => `${n}`.padStart(2, "0")).join("-");
};

/** Sheet 2: what to find out next, how to measure it, what trials said, and what that does to the design. */
export function BenchSheet({
  state,
  choice,
  choose,
  engine,
  asker,
  keys,
  onRanked,
  children,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly engine: Engine;
  /** Answers what takes long. */
  readonly asker: Asker;
  readonly keys: RefObject<BenchKeys | undefined>;
  /** Told which question is the first. */
  readonly onRanked: (first: RankedFirst | undefined) => void;
  readonly children: ReactNode;
}) {
  const [date, setDate] = useState(today);
  const [isReading, setReading] = useState(false);
  const rows = useMemo(() => state.pairs.flatMap((p) => p.result ?? []), [state.pairs]);
  const acts = useActs(engine, state, asker);
  // One thread answers all: what is chosen before what is ranked before what may be promised; what is done before all of it.
  const isActing = acts.doing !== undefined;
  const standing = useAnswer(asker, state, { kind: "bench" }, isActing);
  const bench = useLast(standing, "bench")?.bench;
  const [isBusy, setBusy] = useState(true);
  const ranking = useAnswer(asker, state, { kind: "next" }, isActing || isBusy);
  const next = useLast(ranking, "next")?.next;
  // Until the draws have been asked the shares of the findings rank.
  const quick = useMemo(
    () => (next || rows.length === 0 ? undefined : openQuestions(rows.map((result) => ({ result })))),
    [next, rows],
  );
  const questions = useMemo(() => next?.questions ?? (quick && withoutPieces(quick)), [next, quick]);
  const listed = useMemo(() => (questions ? questionRows(questions) : undefined), [questions]);
  const addresses = useMemo(
    () => (listed ? [...listed.ranked, ...listed.open, ...listed.dropped].map((q) => q.address) : []),
    [listed],
  );
  const first = listed?.ranked[0];
  const [asks, way] = [first?.asks, first && `${first.by.words}, ${first.by.takes}`];
  useEffect(() => onRanked(asks === undefined || way === undefined ? undefined : { asks, way }), [onRanked, asks, way]);
  const named = bench?.trials.find((t) => t.name === choice.trial);
  // While pairs come in the first question is another one with each of them: none is chosen then but by a hand.
  const isRanked = next !== undefined || (rows.length > 0 && rows.length === state.pairs.length);
  const question =
    choice.question ?? named?.question ?? (isRanked ? (addresses[0] ?? bench?.trials[0]?.question) : undefined);
  const trial = named ?? bench?.trials.findLast((t) => t.question === question && choice.trial === undefined);
  const view: BenchView = {
    state,
    choice,
    choose,
    engine,
    bench,
    rows,
    questions,
    isRanked,
    shapes: next?.shapes ?? noShapes,
    question,
    trial,
    date,
    setDate,
  };
  const card = useMemo(
    () => (question === undefined ? undefined : cardAsked(question, rows, questions, state)),
    [question, rows, questions, state],
  );
  // Readings go into the trial that waits for them, else into a new one.
  const into =
    trial && trial.runs.length === 0 && trial.counts === 0 && isOpen(trial) ? trial.name : nextTrial(state.texts);
  const typed = useTyped(card, question, into, state, choice, date);
  const about = typed?.about ?? state;
  const seen = choice.card && typed?.about ? into : trial?.name;
  const result = useAnswer(
    asker,
    about,
    seen === undefined ? undefined : { kind: "trial", trial: seen, date },
    isActing || isPending(standing),
  );
  const waits = isPending(standing) || isPending(result);
  useEffect(() => setBusy(waits), [waits]);
  const unitOfProof =
    bench?.counted.find((u) => u === (trial?.unit ?? card?.pair?.unit ?? choice.unit)) ?? bench?.counted[0];
  const proof = useAnswer(
    asker,
    state,
    unitOfProof === undefined ? undefined : { kind: "proof", unit: unitOfProof },
    isActing || waits || isPending(ranking),
  );

  const isOpenCard = choice.card && card !== undefined;
  useImperativeHandle(keys, () => ({
    next: () => {
      if (addresses.length === 0) return;
      const at = addresses.indexOf(question ?? "");
      choose({ question: addresses[(at + 1) % addresses.length], trial: undefined, run: undefined, card: false });
    },
    readLog: () => setReading(true),
    fold: () => {
      if (!isReading) return false;
      setReading(false);
      return true;
    },
  }));
  const [frame, size] = useSize<HTMLDivElement>();
  const zones = useMemo(
    () =>
      size
        ? toSvg(
            {
              title: "Zones",
              desc: "",
              width: size.width,
              height: size.height,
              shapes: frameShapes(size.width, size.height, zonesFor(size.width)),
            },
            { prefix: "zones" },
          )
        : "",
    [size],
  );
  return (
    <>
      <button type="button" className="skip" onClick={() => focusOn('.questions tr[tabindex="0"]')}>
        To the questions
      </button>
      <button type="button" className="skip" onClick={() => focusOn(".panel")}>
        To the result
      </button>
      <main
        className={`bench${isOpenCard ? " with-card" : ""}${isReading || (trial && trial.runs.length > 0) ? "" : " no-log"}`}
        aria-label="Bench"
      >
        <h1 className="unseen">
          {state.project ? `${state.project.name}: sheet 2, bench` : "Tapeworthy: sheet 2, bench"}
        </h1>
        <div className="zones" ref={frame} aria-hidden="true">
          <Written html={zones} zoom={size?.zoom} />
        </div>
        {isOpenCard ? (
          <CardView view={view} card={card.card} revision={card.revision} frozenOf={into} />
        ) : (
          <>
            <Questions view={view} rows={listed} ranking={ranking} />
            <Piece
              view={view}
              card={card?.card}
              tried={result?.answer?.kind === "trial" ? result.answer.trial : undefined}
            />
            <Log view={view} isReading={isReading} setReading={setReading} />
          </>
        )}
      </main>
      {children}
      <BenchPanel
        view={view}
        card={card?.card}
        typed={isOpenCard ? typed : undefined}
        pair={card?.pair}
        into={into}
        result={result}
        proof={proof}
        acts={acts}
      />
      <Spoken view={view} result={result} />
    </>
  );
}
const focusOn = (selector: string): void => document.querySelector<HTMLElement>(selector)?.focus();
/** Asked, and neither answered nor given up. */
const isPending = (one: Answering | undefined): boolean =>
  one !== undefined && one.answer === undefined && one.bug === undefined && !one.stopped;
const isOpen = ({ state, readings }: TrialView): boolean => state === "nothing yet" && readings === 0;
function withoutPieces(found: ReturnType<typeof openQuestions>): NextAnswer["questions"] {
  const bare = (list: typeof found.ranked) => list.map((q) => ({ ...q, piece: null }));
  return { ...found, ranked: bare(found.ranked), open: bare(found.open), dropped: bare(found.dropped) };
}

/** What a screen reader is told when something else lies on the bench. */
function Spoken({ view, result }: { readonly view: BenchView; readonly result: Answering | undefined }) {
  const [said, setSaid] = useState("");
  const { trial, question } = view;
  const answer = result?.answer;
  const words =
    answer?.kind === "trial"
      ? `${answer.trial.trial}: ${answer.trial.says}`
      : trial
        ? `${trial.name}: ${trial.says}`
        : question === undefined
          ? ""
          : `Question chosen: ${question}`;
  useEffect(() => {
    const timer = setTimeout(() => setSaid(words), 400);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <p className="unseen" role="status" data-spoken>
      {said}
    </p>
  );
}
