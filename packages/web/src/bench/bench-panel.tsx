import {
  type Card,
  type CellMove,
  checkNamed,
  type DecisiveFinding,
  figures,
  sayAnswer,
  stopsSide,
} from "@tapeworthy/core";
import {
  beforeAfter,
  capital,
  cellMovesHtml,
  markInline,
  sayAddress,
  shortName,
  toSvg,
  unitsInPrint,
} from "@tapeworthy/drawing";
import { takenEdit, toJson } from "@tapeworthy/project";
import { type CSSProperties, useCallback, useEffect, useMemo, useState } from "react";
import type { TrialAnswer } from "../ask/bench-answers.ts";
import type { Answering } from "../ask/use-answer.ts";
import { Sharpening } from "../over/sharpening.tsx";
import { Notices } from "../panel/notices.tsx";
import { hashOf, nothingChosen } from "../sheet/choice.ts";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import type { Acts } from "./acts.ts";
import { keptApart } from "./apart.ts";
import type { BenchView } from "./bench-sheet.tsx";
import { Readings, Says } from "./card-panel.tsx";
import { LedgerTable } from "./ledger.tsx";
import { ProofView } from "./proof.tsx";
import { sayMinutes } from "./say-minutes.ts";
import type { Typed } from "./typed.ts";

/** What is told in words: the trial that is chosen or the readings that are typed, what moves if they are taken, then the ledger and the proof. */
export function BenchPanel({
  view,
  card,
  typed,
  pair,
  into,
  result,
  proof,
  acts,
}: {
  readonly view: BenchView;
  readonly card: Card | undefined;
  /** While the card lies open. */
  readonly typed: Typed | undefined;
  readonly pair: { readonly unit: string; readonly tape: string } | undefined;
  /** The trial that readings go into. */
  readonly into: string;
  readonly result: Answering | undefined;
  readonly proof: Answering | undefined;
  readonly acts: Acts;
}) {
  const { state, choose, engine, bench, trial } = view;
  const [aside, size] = useSize<HTMLElement>();
  const width = size ? Math.max(260, Math.min(520, size.width - 33)) : 340;
  const found = result?.answer?.kind === "trial" ? result.answer.trial : undefined;
  return (
    <aside
      className="panel"
      aria-label="Result"
      tabIndex={-1}
      ref={aside}
      style={{ "--zoom": size?.zoom ?? 1 } as CSSProperties}
    >
      <Notices state={state} choose={choose} engine={engine} />
      <div className="tw-panel result">
        <Head view={view} card={card} typed={typed} found={found} into={into} />
        {card && typed ? <Readings card={card} typed={typed} /> : null}
        {card && typed ? <Says card={card} typed={typed} width={width} /> : null}
        {found && !typed ? <BeforeAfter view={view} found={found} width={width} /> : null}
        <Moves view={view} result={result} found={found} />
        <Doing view={view} typed={typed} found={found} into={into} pair={pair} acts={acts} card={card} />
      </div>
      {bench ? <LedgerTable bench={bench} chosen={typed ? into : trial?.name} /> : null}
      <ProofView answering={proof} width={width} />
    </aside>
  );
}

/** What it is about, its headline, and why. */
function Head({
  view,
  card,
  typed,
  found,
  into,
}: {
  readonly view: BenchView;
  readonly card: Card | undefined;
  readonly typed: Typed | undefined;
  readonly found: TrialAnswer | undefined;
  readonly into: string;
}) {
  const { question, questions, trial, state, choice } = view;
  if (card && typed) {
    const { answer, stand } = typed;
    const verdict = stand?.standing === "feeds" ? "feeds" : stand?.standing === "stops" ? "stops" : "depends";
    return (
      <>
        <p className="kick">
          <Written html={markInline(verdict)} />
          <span>
            Card {card.id}, into {into}
          </span>
        </p>
        <h2 className="headline">
          {answer
            ? `${capital(card.method.title)} ${unitsInPrint(sayAnswer(answer))}: ${standWords(stand?.standing)}`
            : `${card.asks} ${sayMinutes(card.method.minutes)}`}
        </h2>
        {answer ? null : <p className="why">{unitsInPrint(card.lead)}</p>}
      </>
    );
  }
  if (trial)
    return (
      <>
        <p className="kick">
          <Written html={markInline(found?.contradicts || trial.state === "retired" ? "stops" : "depends")} />
          <span>{sayAddress(trial.question)}</span>
          <span className="right">from {trial.name}</span>
        </p>
        <h2 className="headline">{trialHeadline(trial, found)}</h2>
        <p className="why">
          {trial.unit} on {trial.tape}
          {trial.built ? `; ${trial.built}` : ""}. {sentence(found ? saidOf(found) : trial.says)}
          {found && !found.keyed && found.state === "used"
            ? " Nobody noted what it rests on, so a changed dimension would not retire it."
            : ""}
        </p>
        {trial.changes.length > 0 ? (
          <ul className="changes">
            {trial.changes.slice(0, 6).map((c) => (
              <li key={c.address}>
                {sayAddress(c.address)}: <s>{c.was ?? "not there"}</s> <b>{c.is ?? "not there"}</b>
              </li>
            ))}
            {trial.changes.length > 6 ? <li>and {trial.changes.length - 6} more</li> : null}
          </ul>
        ) : null}
      </>
    );
  const asked =
    questions && [...questions.ranked, ...questions.open, ...questions.dropped].find((q) => q.address === question);
  const check = question === undefined ? undefined : checkNamed(question);
  if (!asked && check)
    return (
      <>
        <p className="kick">
          <span>{check.id}</span>
        </p>
        <h2 className="headline">
          Does {check.id} hold for {choice.unit} on {choice.tape}?
        </h2>
        <p className="why">
          {capital(check.title)}. A trial tries it: freeze what the design foretells, run it, then read its log.
        </p>
      </>
    );
  const isRanking = question === undefined && state.pairs.length > 0 && !view.isRanked;
  if (!asked)
    return (
      <>
        <h2 className="headline">
          {state.errors.length > 0
            ? "The files can't be read as they stand"
            : isRanking
              ? "Questions are being ranked"
              : "Nothing is asked"}
        </h2>
        <p className="why">
          {state.errors.length > 0
            ? "The bench goes on from the last good reading."
            : isRanking
              ? "The order changes while wanted pairs are still being worked out. Choose one, or wait."
              : "A question comes where a wanted tape depends on what nobody knows. Choose one on the left, or read a log."}
        </p>
      </>
    );
  const [worst] = asked.hangs;
  return (
    <>
      <p className="kick">
        <Written html={markInline("depends")} />
        <span>{sayAddress(asked.address)}</span>
      </p>
      <h2 className="headline">{asked.asks}</h2>
      <p className="why">
        {asked.hangs.length} {asked.hangs.length === 1 ? "verdict hangs" : "verdicts hang"} on it
        {worst ? `, ${shortName(worst.check)} of ${worst.unit} on ${worst.tape} most` : ""}.{" "}
        {card ? unitsInPrint(card.lead) : asked.noCard ? `No card: ${asked.noCard}.` : "No card measures it."}
      </p>
    </>
  );
}
const sentence = (words: string): string => (words === "" ? "" : `${capital(words)}.`);
/** Nothing that waits is taken yet: only how likely it was is said. */
const saidOf = ({ state, contradicts, chance, says }: TrialAnswer): string =>
  state === "used" && !contradicts && chance !== undefined
    ? `it waits; the chance of such a result was ${figures(chance)} before it was known`
    : says;
const standWords = (standing: string | undefined): string =>
  standing === "feeds"
    ? "it holds"
    : standing === "stops"
      ? "it stops"
      : standing === "straddles"
        ? "straddles the tipping value"
        : "nothing tips on it alone";
function trialHeadline(trial: NonNullable<BenchView["trial"]>, found: TrialAnswer | undefined): string {
  const turned = found?.moves.filter((m) => m.before.verdict !== m.after.verdict).length ?? 0;
  const what = trial.asks === "check" ? trial.question : capital(sayAddress(trial.question));
  if (found?.contradicts) return `${trial.name} contradicts the model: look before you believe it`;
  switch (trial.state) {
    case "retired":
      return `${trial.name} is retired: what it was built from has changed`;
    case "in the design":
      return `${what} is measured, and stands in the design`;
    case "taken":
      return `${trial.name} is taken into belief`;
    case "apart":
      return `${trial.name} is kept apart`;
    case "nothing yet":
      return `${trial.name} waits for its readings`;
    default:
      return found === undefined
        ? `${what}: ${trial.waits ?? trial.says}`
        : turned === 0
          ? `${what}: no verdict turns if it is taken`
          : `${what}: ${turned} ${turned === 1 ? "verdict turns" : "verdicts turn"} if it is taken`;
  }
}

interface Tip {
  readonly at: number;
  readonly tape: string;
  readonly side: "above" | "below" | null;
}
/** Of a tape the place where it stops first; what tips farther out stops it no more. */
function firstTips(all: readonly Tip[]): Tip[] {
  const sided = all.filter(({ side }) => side !== null);
  const first = new Map<string, Tip>();
  for (const tip of sided) {
    const key = `${tip.tape} ${tip.side}`;
    const other = first.get(key);
    if (!other || (tip.side === "above" ? tip.at < other.at : tip.at > other.at)) first.set(key, tip);
  }
  return [...first.values()];
}
/** The guess and the measured value on one axis, with what tips there. */
function BeforeAfter({
  view,
  found,
  width,
}: {
  readonly view: BenchView;
  readonly found: TrialAnswer;
  readonly width: number;
}) {
  const { direct, question } = found;
  const { rows } = view;
  const svg = useMemo(() => {
    if (!direct) return "";
    const decisive = rows.flatMap((row) =>
      row.findings.flatMap((f) => (f.decisive?.address === question ? [{ tape: row.tape, d: f.decisive }] : [])),
    );
    const guess: DecisiveFinding["guess"] | undefined = direct.guess ?? decisive[0]?.d.guess;
    if (!guess) return "";
    const tips = firstTips(
      decisive.flatMap(({ tape, d }) =>
        d.tipping === null || d.words ? [] : [{ at: d.tipping, tape, side: stopsSide(d) ?? null }],
      ),
    );
    return toSvg(
      beforeAfter(
        { address: direct.address, shownIn: direct.shownIn, guess, tips, measured: direct.measured },
        { width },
      ),
      { prefix: "before-after" },
    );
  }, [direct, rows, question, width]);
  if (svg === "") return null;
  return (
    <>
      <h3 className="part">Before and after</h3>
      <Written html={svg} />
      {direct?.warnings.map((w) => (
        <p key={w} className="warning small">
          {w}.
        </p>
      ))}
    </>
  );
}

/** Cells of the map that would be others. */
function Moves({
  view,
  result,
  found,
}: {
  readonly view: BenchView;
  readonly result: Answering | undefined;
  readonly found: TrialAnswer | undefined;
}) {
  const { choice } = view;
  const moves: readonly CellMove[] = found?.moves ?? [];
  const html = useMemo(
    () =>
      // What is taken has moved them: nothing is left to be taken.
      found?.state === "used" && !found.contradicts
        ? cellMovesHtml(moves, {
            level: 3,
            most: 12,
            still: found.untouched,
            link: (unit, tape, check) =>
              hashOf({ ...nothingChosen, unit, tape, check, panel: check === undefined ? "known" : "finding" }),
          })
        : "",
    [found, moves],
  );
  if (!result) return null;
  return (
    <div className="if-taken" aria-busy={result.progress !== undefined} data-trial={choice.trial}>
      {found ? (
        <Written html={html} />
      ) : result.bug ? (
        <p className="warning">This went wrong: {result.bug}.</p>
      ) : result.answer?.kind === "none" ? (
        <p className="small">{result.answer.why}</p>
      ) : result.stopped ? null : (
        <p className="small" role="status">
          The cells that move are being worked out.
        </p>
      )}
      <Sharpening answering={result} />
      {found && found.ranAnew.length > 0 ? (
        <p className="small">The map's draws are too few for these readings: its cells were run anew with them in.</p>
      ) : null}
    </div>
  );
}

/** What can be done with it. Nothing is taken by itself. */
function Doing({
  view,
  typed,
  found,
  into,
  pair,
  acts,
  card,
}: {
  readonly view: BenchView;
  readonly typed: Typed | undefined;
  readonly found: TrialAnswer | undefined;
  readonly into: string;
  readonly pair: { readonly unit: string; readonly tape: string } | undefined;
  readonly acts: Acts;
  readonly card: Card | undefined;
}) {
  const { state, choice, choose, bench, question, trial, date, setDate } = view;
  const [apart, setApart] = useState<string>();
  const name = typed ? into : (trial?.name ?? into);
  const { say } = acts;
  const drop = useCallback(() => {
    setApart(undefined);
    say("");
  }, [say]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a reason, and what is said of it, belong to their trial
  useEffect(drop, [name]);
  const unsaved = typed?.edit !== undefined;
  const standing = bench?.trials.find((t) => t.name === name);
  const frozen = bench?.frozen.findLast((f) => f.trial === name);
  const score = bench?.scores.findLast((s) => s.frozen === frozen?.id);
  const holds = standing !== undefined && (standing.readings > 0 || standing.counts > 0 || standing.runs.length > 0);
  const canFreeze = question !== undefined && !holds && frozen === undefined;
  const on =
    pair ??
    (choice.unit !== undefined && choice.tape !== undefined ? { unit: choice.unit, tape: choice.tape } : undefined);
  const fresh = standing === undefined && on && question !== undefined ? { ...on, question } : undefined;
  const taking = !unsaved && found?.trial === name ? found.taking : undefined;
  const stale = state.errors.length > 0;
  const busy = acts.doing !== undefined || stale;
  const take = async (): Promise<void> => {
    if (!taking || taking.kind === "nothing") return;
    if (taking.kind === "design") {
      await acts.put(`Writing ${name} into the design`, [taking.edit]);
      return;
    }
    const before = state.texts.get("ledger.yaml");
    const edit = takenEdit(before, name, date);
    await acts.put(`Taking ${name} into belief`, [{ file: edit.file, base: before, changes: toJson(edit.changes) }]);
  };
  const save = async (): Promise<void> => {
    if (!typed?.edit) return;
    if (await acts.put(`Saving readings into ${into}`, [typed.edit])) {
      typed.saved();
      choose({ question: undefined, trial: into, card: false });
    }
  };
  const keepApart = async (): Promise<void> => {
    const edit = keptApart(state.texts, name, apart ?? "", date);
    if (typeof edit === "string") acts.say(edit);
    else if (await acts.put(`Keeping ${name} apart`, [edit])) setApart(undefined);
  };
  if (question === undefined && standing === undefined) return null;
  return (
    <>
      {taking?.kind === "design" ? (
        <>
          <h3 className="part">
            Would write <span>{taking.file}, one step of undo</span>
          </h3>
          <p className="write">
            <s>{taking.was}</s> <b>{taking.is}</b> <small># {taking.comment}</small>
          </p>
        </>
      ) : null}
      {taking?.kind === "nothing" && found?.state === "used" ? <p className="small">{capital(taking.why)}.</p> : null}
      <p className="acts doing">
        {unsaved ? (
          <button type="button" className="btn solid" disabled={busy} onClick={() => void save()}>
            Save the readings into {into}
          </button>
        ) : null}
        {taking && taking.kind !== "nothing" ? (
          <button type="button" className="btn solid" disabled={busy} onClick={() => void take()}>
            {taking.kind === "design" ? "Take into the design" : "Take into belief"}
          </button>
        ) : null}
        {canFreeze ? (
          <button type="button" className="btn" disabled={busy} onClick={() => acts.freeze(name, date, fresh)}>
            Freeze the prediction
          </button>
        ) : null}
        {frozen && holds && !score ? (
          <button type="button" className="btn" disabled={busy} onClick={() => acts.score(name, date)}>
            Score the prediction
          </button>
        ) : null}
        {holds && standing?.state === "used" && apart === undefined ? (
          <button type="button" className="btn quiet" disabled={busy} onClick={() => setApart("")}>
            Keep apart
          </button>
        ) : null}
        {card && !typed ? (
          <button type="button" className="btn quiet" onClick={() => choose({ question, card: true })}>
            Open the card, {sayMinutes(card.method.minutes)}
          </button>
        ) : null}
        {card && typed ? (
          <button type="button" className="btn quiet" onClick={() => print()}>
            Print the card
          </button>
        ) : null}
        {typed?.clear ? (
          <button type="button" className="btn quiet" onClick={typed.clear}>
            Clear the fields
          </button>
        ) : null}
        {typed?.restore ? (
          <button type="button" className="btn quiet" onClick={typed.restore}>
            Put back what was typed
          </button>
        ) : null}
      </p>
      {apart === undefined ? null : (
        <form
          className="apart"
          onSubmit={(event) => {
            event.preventDefault();
            void keepApart();
          }}
        >
          <label>
            Why {name} is kept apart {/* biome-ignore lint/a11y/noAutofocus: it has just been asked for */}
            <input autoFocus value={apart} onChange={(event) => setApart(event.target.value)} />
          </label>
          <button type="submit" className="btn" disabled={busy}>
            Keep it apart
          </button>
          <button type="button" className="btn quiet" onClick={drop}>
            Drop
          </button>
        </form>
      )}
      <p className="day small">
        <label>
          Day{" "}
          <input
            type="date"
            value={date}
            onChange={(event) => setDate(event.target.value)}
            aria-label="Day that is written"
          />
        </label>{" "}
        {frozen
          ? `${frozen.id} was frozen on ${frozen.date}.`
          : holds
            ? "Nobody froze a prediction before it: it makes no record."
            : "Freeze before you read: what is foretold afterwards makes no record."}
      </p>
      <p className="small" role="status">
        {acts.doing ?? ""}
      </p>
      {acts.said === "" ? null : (
        <p className="warning" role="alert">
          {acts.said}
        </p>
      )}
    </>
  );
}
