import { type Comparison, cardFor, type Finding, isPlace, type Origin, questionsOf } from "@tapeworthy/core";
import {
  capital,
  comparisonHtml,
  escaped,
  type FindingInput,
  findingHtml,
  type IndexPicture,
  knownHtml,
  list,
  movedHtml,
  sayAddress,
  sayShare,
  standsOnHtml,
} from "@tapeworthy/drawing";
import { waysOf } from "@tapeworthy/report";
import { type CSSProperties, type MouseEvent, useMemo, useState } from "react";
import type { Answering } from "../ask/use-answer.ts";
import { sayMinutes } from "../bench/say-minutes.ts";
import type { Changed, Engine, EngineState, ExplainedCheck } from "../engine/engine.ts";
import { IndexStory } from "../over/index-story.tsx";
import type { Playhead } from "../over/playhead.ts";
import { type Choice, hashOf, nothingChosen } from "../sheet/choice.ts";
import type { Choose } from "../sheet/sheet.tsx";
import { useSize } from "../sheet/size.ts";
import { writeTexts } from "../sheet/write.ts";
import { Written } from "../sheet/written.tsx";
import { chosenFinding, chosenRow, rowsOf, shownInOf, titleOf } from "./chosen.ts";
import { Notices } from "./notices.tsx";

/** What is told in words: the finding that is open, what is known, what a change moved; before it what has to be put right. */
export function Panel({
  state,
  choice,
  choose,
  engine,
  explained,
  ways,
  zone,
  comparison,
  index,
  playhead,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly engine: Engine;
  /** Units compared, while that is what is unfolded. */
  readonly comparison: Comparison | undefined;
  /** One index in time, while that is what is unfolded, and the moment of it that is shown. */
  readonly index: IndexPicture | undefined;
  readonly playhead: Playhead;
  readonly explained: ExplainedCheck | undefined;
  readonly ways: Answering | undefined;
  readonly zone: string | undefined;
}) {
  const [hidden, setHidden] = useState<Changed>();
  const { changed } = state;
  const [aside, size] = useSize<HTMLElement>();
  const width = size ? Math.max(260, Math.min(520, size.width - 33)) : 340;
  const showsMoved = changed !== undefined && changed !== hidden && changed.what.length > 0;
  const moved = useMemo(() => (showsMoved ? movedOf(state, choice) : ""), [state, choice, showsMoved]);
  const finding = chosenFinding(state, choice);
  const onClick = (event: MouseEvent) => {
    const act = (event.target as Element).closest<HTMLElement>("[data-act]")?.dataset.act;
    if (act === undefined) return;
    if (act === "measure" || act === "trial") {
      // What it hangs on is measured; what hangs on nothing is tried.
      const question = finding?.decisive?.address ?? finding?.check;
      choose({ sheet: "bench", question, trial: undefined, run: undefined, card: act === "measure" });
    } else if (act === "hide") setHidden(changed);
    else if (act === "undo") void engine.undo();
    else if (act === "only-width") void writeForThisWidth(engine, state);
    else if (ways?.answer?.kind === "cures") {
      const cure = ways.answer.cures.cures.find((c) => c.address === act);
      if (cure) writeTexts(engine, cure.members);
    }
  };
  const compared = useMemo(
    () =>
      comparison &&
      comparisonHtml(comparison, {
        level: 2,
        link: (unit, tape, check) =>
          hashOf({ ...nothingChosen, unit, tape, check: check ?? undefined, panel: check ? "finding" : "known" }),
      }),
    [comparison],
  );
  const html = useMemo(
    () => (finding ? findingOf(state, choice, { explained, ways, zone, moved, width }) : ""),
    [state, choice, finding, explained, ways, zone, moved, width],
  );
  return (
    <aside
      className="panel"
      aria-label="Finding"
      tabIndex={-1}
      ref={aside}
      style={{ "--zoom": size?.zoom ?? 1 } as CSSProperties}
    >
      <Tools state={state} choice={choice} choose={choose} />
      <Notices state={state} choose={choose} engine={engine} />
      {/* biome-ignore lint/a11y/noStaticElementInteractions lint/a11y/useKeyWithClickEvents: its buttons and links hear keys themselves */}
      <div onClick={onClick}>
        {index ? (
          <IndexStory picture={index} playhead={playhead} />
        ) : compared ? (
          <Written html={compared} />
        ) : finding ? (
          <Written html={html} />
        ) : state.project ? (
          <>
            {moved === "" ? null : <Written html={moved} />}
            <Known state={state} choice={choice} choose={choose} width={width} />
          </>
        ) : null}
      </div>
    </aside>
  );
}

/** What else the sheet can show, for a hand that holds a mouse; each has its key. */
function Tools({
  state,
  choice,
  choose,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
}) {
  const unit = state.project?.units.find((u) => u.stem === choice.unit);
  const over = (one: NonNullable<Choice["over"]>) => () => choose({ over: choice.over === one ? undefined : one });
  const tools = [
    {
      words: "Known",
      key: "k",
      is: choice.panel === "known" && !choice.over,
      does: () => choose({ panel: "known", over: undefined }),
    },
    { words: "Finding", key: "Enter", is: choice.over === "finding", does: over("finding"), needs: choice.check },
    { words: "Sweep", key: "s", is: choice.over === "sweep", does: over("sweep"), needs: choice.check },
    { words: "Ladder", key: "l", is: choice.over === "ladder", does: over("ladder") },
    { words: "Pick", key: "e", is: choice.over === "pick", does: over("pick") },
    { words: "Misfeeds", key: "r", is: choice.over === "misfeed", does: over("misfeed") },
    { words: "Widen", key: "w", is: choice.over === "size", does: over("size") },
    { words: "Index", key: "i", is: choice.over === "index", does: over("index") },
    { words: "Compare", key: "c", is: choice.over === "compare", does: over("compare") },
    {
      words: "Text",
      key: "x",
      is: choice.text !== undefined,
      does: () => choose({ text: choice.text || !unit ? undefined : { file: unit.file } }),
    },
  ];
  return (
    <nav className="tools" aria-label="What the sheet shows">
      {tools.map(({ words, key, is, does, ...more }) => (
        <button
          key={words}
          type="button"
          aria-pressed={is}
          aria-keyshortcuts={key}
          title={`${words}: ${key}`}
          disabled={"needs" in more && more.needs === undefined}
          onClick={does}
        >
          {words}
        </button>
      ))}
    </nav>
  );
}

/** The open finding as the drawing package writes it, with the links and buttons that a live page has. */
export function findingOf(
  state: EngineState,
  choice: Choice,
  {
    explained,
    ways,
    zone,
    moved = "",
    width = 340,
    prefix = "window",
    open = 0,
  }: {
    readonly explained: ExplainedCheck | undefined;
    readonly ways: Answering | undefined;
    readonly zone: string | undefined;
    readonly moved?: string;
    readonly width?: number;
    readonly prefix?: string;
    /** Levels of its equations that are opened. */
    readonly open?: number;
  },
): string {
  const finding = chosenFinding(state, choice)!;
  const row = chosenRow(state, choice)!;
  const { answer } = ways ?? {};
  const cured = answer?.kind === "cures" ? { ...row, cures: [answer.cures] } : row;
  const seeking =
    ways && !answer && ways.bug === undefined ? "Looking for ways out, and what they would cost…" : undefined;
  return findingHtml({
    finding,
    result: row,
    title: titleOf(finding.check),
    shownIn: shownInOf(finding),
    width,
    prefix,
    level: 2,
    open,
    trials: recordFor(state, finding.check),
    ways: waysOf(cured, finding.check).map((way) => ({ ...way, what: capital(way.what), act: "Try it" })),
    ...(seeking === undefined ? {} : { seeking }),
    ...(zone === undefined ? {} : { zone }),
    ...(explained ? { explained } : {}),
    link: linkTo(state, choice),
    more: { afterReason: moved + toBench(finding) },
  });
}
/** The record of a check; that nobody keeps one is not told with every finding. */
const recordFor = ({ project }: EngineState, check: string): FindingInput["trials"] =>
  project?.records ? project.records.find((r) => r.check === check) : "none kept";
/** The way to the bench: the card of what the finding hangs on, or a trial of it. */
function toBench({ decisive, verdict, check, severity }: Finding): string {
  if (verdict !== "depends" && !(decisive && verdict === "stops"))
    return severity === "S" && verdict === "stops" ? tries(check) : "";
  const card = decisive && cardFor(decisive.address);
  const measure = card
    ? `<button type="button" data-act="measure">Measure it: card ${escaped(card.id)}, ${sayMinutes(card.method.minutes)}</button> `
    : "";
  return `<p class="acts to-bench">${measure}<button type="button" data-act="trial">To the bench</button></p>`;
}
const tries = (check: string): string =>
  `<p class="acts to-bench"><button type="button" data-act="trial">Try ${escaped(check)} on the bench</button></p>`;
/** Where a number stands in the text beside the drawing. */
export const linkTo =
  ({ numbers }: EngineState, choice: Choice) =>
  (address: string, origin?: Origin): string | undefined => {
    const place = origin && isPlace(origin) ? origin : numbers.find((n) => n.address === address)?.place;
    return place && hashOf({ ...choice, text: { file: place.file, address, line: place.line } });
  };

function movedOf({ changed, numbers, gesture, shape }: EngineState, { panel }: Choice): string {
  const { what, flips, worse, better, settled } = changed!;
  const [only] = what;
  const number = what.length === 1 ? numbers.find((n) => n.address === only!.address) : undefined;
  const canNarrow = number && number.onlyWidth === undefined && number.widths.length > 1 && shape && !gesture;
  return movedHtml(
    { flips, worse, better, settled, changes: what },
    {
      level: 3,
      most: panel === "moved" ? 100 : 6,
      link: (unit, tape, check) => hashOf({ ...nothingChosen, unit, tape, check, panel: check ? "finding" : "known" }),
      act: gesture
        ? []
        : [
            ...(canNarrow ? [{ name: "only-width", words: `Write it for ${shape.row} mm only` }] : []),
            { name: "undo", words: "Undo" },
            { name: "hide", words: "Hide" },
          ],
    },
  );
}
/** The last change, written for the width on screen alone. */
async function writeForThisWidth(engine: Engine, { changed, shape }: EngineState): Promise<void> {
  const [only] = changed?.what ?? [];
  if (!only || only.address === undefined || !shape) return;
  await engine.undo();
  await engine.writeForWidth(only.address, shape.row, only.after);
}

/** The first panel: what the shop knows beside what the checks say, what to measure next, what the drawing stands on. */
function Known({
  state,
  choice,
  choose,
  width,
}: {
  readonly width: number;
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
}) {
  const { known, numbers } = state;
  const rows = rowsOf(state, choice.unit);
  const questions = questionsOf(rows);
  const html = useMemo(() => knownHtml(known, { level: 2 }), [known]);
  const stands = useMemo(
    () =>
      standsOnHtml(
        numbers.map((n) => n.letter),
        { width },
      ),
    [numbers, width],
  );
  return (
    <>
      {known.sharp || known.of > 0 ? <Written html={html} /> : <h2 className="headline">Weighing what is known…</h2>}
      {known.sharp ? null : <p className="small">The record is being weighed anew.</p>}
      {questions.length > 0 ? (
        <section className="tw-panel">
          <h3 className="part">
            Measure next <span>the first saves the most days</span>
          </h3>
          <table>
            <caption className="unseen">Unknowns by the days their answer saves</caption>
            <tbody>
              {questions.map(({ address, tapes }) => {
                const row = rows.find((r) => r.tape === tapes[0])!;
                const decisive = row.findings.find((f) => f.check === row.first[0])?.decisive;
                return (
                  <tr key={address}>
                    <th scope="row">
                      <button
                        type="button"
                        className="link"
                        onClick={() => choose({ tape: row.tape, check: row.first[0], panel: "finding" })}
                      >
                        {sayAddress(address)}
                      </button>
                      <small>{list(tapes)}</small>
                    </th>
                    <td className="end">{decisive ? `${sayShare(decisive.shareIfMeasured)} would hold` : ""}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </section>
      ) : null}
      {numbers.length > 0 ? <Written html={stands} /> : null}
    </>
  );
}
