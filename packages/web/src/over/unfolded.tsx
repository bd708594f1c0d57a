import {
  ladder,
  ladderInput,
  ladderWords,
  sayAddress,
  sideView,
  sweepDrawing,
  sweepWords,
  toSvg,
} from "@tapeworthy/drawing";
import { useMemo } from "react";
import type { Asker } from "../ask/asker.ts";
import type { Answering } from "../ask/use-answer.ts";
import type { Engine, EngineState, ExplainedCheck } from "../engine/engine.ts";
import { chosenFinding } from "../panel/chosen.ts";
import { findingOf, linkTo } from "../panel/panel.tsx";
import type { Choice } from "../sheet/choice.ts";
import type { Choose } from "../sheet/sheet.tsx";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import { IndexView } from "./index-view.tsx";
import { MisfeedView } from "./misfeed-view.tsx";
import { PickView } from "./pick-view.tsx";
import type { Playhead } from "./playhead.ts";
import { SizeView } from "./size-view.tsx";

/** What is unfolded over drawing and map. */
export function Unfolded({
  state,
  choice,
  choose,
  answering,
  explained,
  ways,
  zone,
  playhead,
  engine,
  asker,
}: {
  readonly state: EngineState;
  readonly engine: Engine;
  readonly asker: Asker;
  readonly choice: Choice;
  readonly choose: Choose;
  /** The moment of an index that is shown. */
  readonly playhead: Playhead;
  readonly answering: Answering | undefined;
  readonly explained: ExplainedCheck | undefined;
  readonly ways: Answering | undefined;
  readonly zone: string | undefined;
}) {
  const title = {
    finding: "The finding",
    ladder: "Width ladder",
    compare: "Units compared",
    sweep: "Sweep",
    index: "One index in time",
    pick: "Error at the pick",
    misfeed: "Misfeeds",
    size: "Widen all windows",
  }[choice.over!];
  return (
    <section className={`over ${choice.over}`} aria-label={title}>
      <header>
        <h2>{title}</h2>
        <button type="button" className="btn quiet" onClick={() => choose({ over: undefined })}>
          Fold <kbd>Esc</kbd>
        </button>
      </header>
      {choice.over === "finding" ? (
        <Whole state={state} choice={choice} explained={explained} ways={ways} zone={zone} />
      ) : answering?.answer?.kind === "ladder" ? (
        <LadderView answering={answering} wanted={wantedWidths(state, choice.unit)} />
      ) : answering?.answer?.kind === "compare" ? (
        <CompareView answering={answering} />
      ) : answering?.answer?.kind === "index" ? (
        <IndexView picture={answering.answer.picture} shape={state.shape} playhead={playhead} />
      ) : answering?.answer?.kind === "size" ? (
        <SizeView
          answer={answering.answer.sizing}
          answering={answering}
          state={state}
          engine={engine}
          asker={asker}
          choose={choose}
        />
      ) : answering?.answer?.kind === "pick" ? (
        <PickView
          accuracy={answering.answer.accuracy}
          answering={answering}
          choose={choose}
          link={linkTo(state, choice)}
        />
      ) : answering?.answer?.kind === "misfeed" ? (
        <MisfeedView
          misfeeds={answering.answer.misfeeds}
          answering={answering}
          choice={choice}
          choose={choose}
          link={linkTo(state, choice)}
        />
      ) : choice.over === "sweep" && choice.check === undefined ? (
        <p className="says">Open a finding first: a cell of the map, or f for what stops this tape.</p>
      ) : answering?.answer?.kind === "sweep" ? (
        <SweepView answering={answering} choice={choice} choose={choose} />
      ) : (
        <Waiting answering={answering} errors={state.errors.length} />
      )}
    </section>
  );
}
const wantedWidths = ({ project }: EngineState, unit: string | undefined): number[] => {
  const wanted = project?.units.find((u) => u.stem === unit)?.wanted ?? [];
  return [...new Set(project?.tapes.flatMap((t) => (wanted.includes(t.stem) ? [t.row] : [])) ?? [])];
};

function Waiting({ answering, errors }: { readonly answering: Answering | undefined; readonly errors: number }) {
  if (errors > 0) return <p className="says">It is worked out as soon as the files read again.</p>;
  const { progress, answer, bug, stopped } = answering ?? {};
  if (bug !== undefined) return <p className="says">This went wrong: {bug}.</p>;
  if (answer?.kind === "none") return <p className="says">{answer.why}</p>;
  if (stopped) return <p className="says">Stopped before anything was known. Fold and unfold it to begin again.</p>;
  return (
    <div className="says" role="status">
      <p>Working it out{progress ? `: ${progress.what}, ${progress.done} of ${progress.of}` : "…"}</p>
      <progress {...(progress ? { value: progress.done, max: progress.of } : {})} aria-label="Working it out" />
      {progress && answering ? (
        <button type="button" className="btn quiet" onClick={answering.stop}>
          Stop
        </button>
      ) : null}
    </div>
  );
}

function Whole({
  state,
  choice,
  explained,
  ways,
  zone,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly explained: ExplainedCheck | undefined;
  readonly ways: Answering | undefined;
  readonly zone: string | undefined;
}) {
  const finding = chosenFinding(state, choice);
  if (!finding) return <p className="says">No finding is open.</p>;
  return (
    <div className="scrolls" tabIndex={-1}>
      <Written html={findingOf(state, choice, { explained, ways, zone, width: 420, prefix: "whole", open: 1 })} />
    </div>
  );
}

function LadderView({ answering, wanted }: { readonly answering: Answering; readonly wanted: readonly number[] }) {
  const [ref, size] = useSize<HTMLDivElement>();
  const found = answering.answer?.kind === "ladder" ? answering.answer.ladder : undefined;
  const svg = useMemo(
    () => (found && size ? toSvg(ladder(ladderInput(found, wanted), size), { prefix: "ladder" }) : ""),
    [found, size, wanted],
  );
  return (
    <>
      <div className="fill" ref={ref}>
        <Written html={svg} zoom={size?.zoom} />
      </div>
      <p className="unseen" role="status">
        {found ? ladderWords(ladderInput(found, wanted)) : ""}
      </p>
    </>
  );
}

function CompareView({ answering }: { readonly answering: Answering }) {
  const [ref, size] = useSize<HTMLDivElement>();
  const answer = answering.answer?.kind === "compare" ? answering.answer : undefined;
  const columns = answer?.drawn.length ?? 1;
  const wide = size ? Math.floor(size.width / columns) : 0;
  const tall = size ? Math.floor(size.height * 0.46) : 0;
  return (
    <div className="columns" ref={ref}>
      {size && answer
        ? answer.drawn.map(({ unit, tape, shape, trouble }, i) => {
            const { ladder: climbed, name, says } = answer.comparison.units[i]!;
            const low = Math.max(220, size.height - tall);
            return (
              <div key={unit} className="column">
                {shape ? (
                  <Written
                    html={toSvg(sideView(shape, { width: wide, height: tall }), { prefix: `side-${i}` })}
                    zoom={size.zoom}
                  />
                ) : (
                  <p className="says">
                    {name} on {tape ?? "no tape"} can't be drawn: {trouble}.
                  </p>
                )}
                {climbed ? (
                  <Written
                    html={toSvg(ladder(ladderInput(climbed), { width: wide, height: low }), {
                      prefix: `ladder-${i}`,
                    })}
                    zoom={size.zoom}
                  />
                ) : (
                  <p className="says">{says}</p>
                )}
              </div>
            );
          })
        : null}
    </div>
  );
}

/** A check over a number, and over a second one as a family of curves. */
function SweepView({
  answering,
  choice,
  choose,
}: {
  readonly answering: Answering;
  readonly choice: Choice;
  readonly choose: Choose;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const answer = answering.answer?.kind === "sweep" ? answering.answer : undefined;
  const svg = useMemo(
    () => (answer && size ? toSvg(sweepDrawing(answer.sweep, size), { prefix: "sweep" }) : ""),
    [answer, size],
  );
  if (!answer) return null;
  const { inputs, sweep } = answer;
  const options = inputs.map(({ address, kind }) => (
    <option key={address} value={address}>
      {sayAddress(address)}
      {kind === "unknown" ? ", not known" : ""}
    </option>
  ));
  const set = (part: Partial<NonNullable<Choice["sweep"]>>) =>
    choose({ sweep: { ...choice.sweep, ...part } }, "replace");
  return (
    <>
      <p className="picks">
        <label>
          Over{" "}
          <select value={sweep.along.address} onChange={(event) => set({ along: event.target.value })}>
            {options}
          </select>
        </label>{" "}
        <label>
          at several values of{" "}
          <select value={sweep.family?.along.address ?? ""} onChange={(event) => set({ second: event.target.value })}>
            <option value="">nothing else</option>
            {options}
          </select>
        </label>
      </p>
      <div className="fill" ref={ref}>
        <Written html={svg} zoom={size?.zoom} />
      </div>
      <p className="unseen" role="status">
        {sweepWords(sweep)}
      </p>
    </>
  );
}
