import type { RunSummary } from "@tapeworthy/core";
import { alongAt, logFrame, logTrace, plateauFlags, plateauSliders, sayAddress, toSvg } from "@tapeworthy/drawing";
import { setAside, toJson, trialPath } from "@tapeworthy/project";
import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from "react";
import type { RunLine, TrialView } from "../ask/bench-answers.ts";
import { LogPort, type Outlier, type RunView } from "../log/log-port.ts";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import type { BenchView } from "./bench-sheet.tsx";
import { logInput } from "./log-lanes.ts";
import { ReadLog } from "./read-log.tsx";

/** A thread for logs, ended with the bench. */
export function useLogPort(): LogPort {
  const [port] = useState(() => new LogPort());
  useEffect(() => () => port.close(), [port]);
  return port;
}
/** The log of the chosen trial with its flags, and its runs; or how to begin. */
export function Log({
  view,
  isReading,
  setReading,
}: {
  readonly view: BenchView;
  readonly isReading: boolean;
  readonly setReading: (is: boolean) => void;
}) {
  const { trial, choice, choose } = view;
  const port = useLogPort();
  const traces = trial?.runs.filter((r) => r.isTrace) ?? [];
  const run = traces.find((r) => r.number === choice.run) ?? traces.find((r) => r.setAside === undefined) ?? traces[0];
  const aside = trial?.runs.filter((r) => r.setAside !== undefined) ?? [];
  return (
    <section className="log" aria-label="Log">
      <h2 className="ttl">
        {trial ? `Log ${trial.name}${run ? ` run ${run.number}` : ""}` : "Log"}
        <span className="grow">
          {trial
            ? [
                run?.reel === undefined ? "" : `reel ${run.reel}`,
                trial.tape,
                run?.log ?? "",
                trial.runs.length > 0 ? `${trial.runs.length - aside.length} of ${trial.runs.length} runs count` : "",
              ]
                .filter((s) => s !== "")
                .join(", ")
            : ""}
        </span>
        <button type="button" className="btn" onClick={() => setReading(true)}>
          Read a log <kbd>i</kbd>
        </button>
      </h2>
      {isReading ? (
        <ReadLog view={view} port={port} onClose={() => setReading(false)} />
      ) : (
        <div className={`with-runs${trial && trial.runs.length > 0 ? "" : " alone"}`}>
          {trial && run ? (
            <Trace key={`${trial.name} ${run.number}`} view={view} trial={trial} run={run} port={port} />
          ) : trial && (trial.countRows.length > 0 || trial.readingRows.length > 0) ? (
            <Rows trial={trial} />
          ) : (
            <Nothing view={view} />
          )}
          {trial && trial.runs.length > 0 ? (
            <Runs
              view={view}
              trial={trial}
              shown={run?.number}
              onChoose={(number) => choose({ trial: trial.name, run: number })}
            />
          ) : null}
        </div>
      )}
    </section>
  );
}

/** How to begin, where nothing has been read. */
function Nothing({ view }: { readonly view: BenchView }) {
  const { trial, question } = view;
  return (
    <div className="says">
      <p>
        {trial
          ? `${trial.name} waits for what it says about ${sayAddress(trial.question)}. Type its readings into the card, or read a log that your instrument wrote.`
          : question === undefined
            ? "No trial is chosen. Choose a question, freeze what the design foretells, then measure."
            : `Nobody has tried ${sayAddress(question)} yet. Freeze what the design foretells, measure with the card, or read a log.`}
      </p>
      <p className="small">
        Any table of numbers will do: what its columns are is asked once and remembered. Rows are kept whole, what is
        odd is marked and kept.
      </p>
    </div>
  );
}

interface Now {
  readonly plateau: readonly [number, number];
  readonly summary: RunSummary;
  readonly outliers: readonly Outlier[];
}
/** One kept run: its lanes, with flags that a hand, the arrow keys or a typed number move. */
function Trace({
  view,
  trial,
  run,
  port,
}: {
  readonly view: BenchView;
  readonly trial: TrialView;
  readonly run: RunLine;
  readonly port: LogPort;
}) {
  const { state, engine, bench } = view;
  const foretold = useMemo(() => {
    const frozen = bench?.frozen.findLast((f) => f.trial === trial.name);
    return frozen && { predicted: frozen.predicted, shownIn: bench?.shownIn[frozen.question] ?? "" };
  }, [bench, trial.name]);
  const [ref, size] = useSize<HTMLDivElement>();
  const [opened, setOpened] = useState<RunView>();
  const [now, setNow] = useState<Now>();
  const [trouble, setTrouble] = useState<string>();
  const texts = useRef(state.texts);
  texts.current = state.texts;
  const width = size?.width;
  const aboutNow = () => ({ texts: [...texts.current], trial: trial.name });
  // Opened anew where its flags have become others elsewhere: by undo, or in the text.
  const given = run.plateau?.join(" ");
  /** Flags that were set here, and the text they stand in: what they are in another text is looked up anew. */
  const mine = useRef<{ readonly text: string; readonly plateau: string }>(undefined);
  const [opening, reopen] = useState(0);
  const fileText = state.texts.get(trialPath(trial.name));
  useEffect(() => {
    if (!mine.current || mine.current.text === fileText) return;
    mine.current = undefined;
    reopen((n) => n + 1);
  }, [fileText]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the texts are those of the moment it is opened
  useEffect(() => {
    if (width === undefined || (mine.current !== undefined && mine.current.plateau === given)) return;
    let is = true;
    setTrouble(undefined);
    (async () => {
      const bytes = await engine.raw(run.raw);
      if (!bytes) return is && setTrouble(`There is no ${run.raw}: the rows of this log are not in the folder.`);
      const outcome = await port.open(run.raw, bytes, aboutNow(), run.number, Math.max(50, width));
      if (!is || "stopped" in outcome) return;
      if ("why" in outcome) setTrouble(outcome.why);
      else if ("errors" in outcome) setTrouble(outcome.errors.map((e) => e.shown).join("\n"));
      else {
        const { done } = outcome;
        setOpened(done);
        setNow({ plateau: done.summary.plateau, summary: done.summary, outliers: done.lanes[0]?.outliers ?? [] });
      }
    })().catch((e: Error) => is && setTrouble(e.message));
    return () => {
      is = false;
    };
  }, [engine, port, run.raw, run.number, given, width, opening]);

  const input = useMemo(
    () =>
      opened && now
        ? logInput(opened, `Log of ${trial.name}, run ${run.number}`, now.plateau, now.summary, now.outliers, foretold)
        : undefined,
    [opened, now, trial.name, run.number, foretold],
  );
  const room = size && { width: size.width, height: Math.max(150, size.height) };
  const svg = useMemo(() => (input && room ? toSvg(logTrace(input, room), { prefix: "log" }) : ""), [input, room]);
  const flags = useMemo(
    () => (input && room ? toSvg(plateauFlags(input, room), { prefix: "flags" }) : ""),
    [input, room],
  );
  const sliders = input && room ? plateauSliders(input, room) : [];

  const move = (which: "from" | "to", to: number): void => {
    if (!opened || !now) return;
    const slider = sliders.find((s) => s.which === which)!;
    const at = Math.max(slider.low, Math.min(slider.high, to));
    const plateau: readonly [number, number] = which === "from" ? [at, now.plateau[1]] : [now.plateau[0], at];
    setNow({ ...now, plateau });
    port.plateau(...plateau).then(
      (outcome) => {
        if ("done" in outcome) {
          const { summary, outliers } = outcome.done;
          setNow((last) => (last ? { ...last, summary, outliers } : last));
          setTrouble(undefined);
        } else if ("errors" in outcome) setTrouble(outcome.errors.map((e) => e.shown).join("\n"));
      },
      (e: Error) => setTrouble(e.message),
    );
  };
  const settle = async (): Promise<void> => {
    if (!latest.current) return;
    const outcome = await port.settle(...latest.current.plateau, aboutNow());
    if ("stopped" in outcome) return;
    if ("why" in outcome) return setTrouble(outcome.why);
    if ("errors" in outcome) return setTrouble(outcome.errors.map((e) => e.shown).join("\n"));
    const plateau = latest.current.plateau.join(" ");
    const errors = await engine.put([outcome.done]);
    if (errors.length > 0) setTrouble(errors.map((e) => e.shown).join("\n"));
    else mine.current = { text: outcome.done.text, plateau };
  };
  const latest = useRef(now);
  latest.current = now;
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);
  const hold = useRef<{ which: "from" | "to" }>(undefined);
  const zoom = size?.zoom ?? 1;
  const keyed = (event: KeyboardEvent, which: "from" | "to"): void => {
    const slider = sliders.find((s) => s.which === which)!;
    const by = ways[event.key];
    const to =
      by !== undefined
        ? slider.value + by * (event.shiftKey ? slider.large : slider.step)
        : event.key === "Home"
          ? slider.low
          : event.key === "End"
            ? slider.high
            : undefined;
    if (to === undefined) return;
    event.preventDefault();
    move(which, to);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => void settle(), 700);
  };
  return (
    <div className="trace-of">
      <div className="trace" ref={ref}>
        <Written html={svg} zoom={size?.zoom} />
        <div className="flags" aria-hidden="true">
          <Written html={flags} zoom={size?.zoom} />
        </div>
        <div style={zoom === 1 ? undefined : { zoom }}>
          {sliders.map((s) => (
            <div
              key={s.which}
              role="slider"
              className="flag"
              tabIndex={0}
              aria-label={s.name}
              aria-valuemin={s.low}
              aria-valuemax={s.high}
              aria-valuenow={s.value}
              aria-valuetext={s.words}
              style={{ left: s.target.x, top: s.target.y, width: s.target.width, height: s.target.height }}
              onKeyDown={(event) => keyed(event, s.which)}
              onPointerDown={(event: PointerEvent<HTMLDivElement>) => {
                event.currentTarget.setPointerCapture(event.pointerId);
                hold.current = { which: s.which };
              }}
              onPointerMove={(event) => {
                if (hold.current?.which !== s.which || !input || !room) return;
                const left = ref.current!.getBoundingClientRect().left;
                const to = alongAt(logFrame(input, room), (event.clientX - left) / zoom);
                // A hand sets it to half the step of an arrow key: figures that somebody may read.
                move(s.which, Number((Math.round((2 * to) / s.step) * (s.step / 2)).toPrecision(9)));
              }}
              onPointerUp={() => {
                if (hold.current) void settle();
                hold.current = undefined;
              }}
              onPointerCancel={() => {
                hold.current = undefined;
              }}
            />
          ))}
        </div>
      </div>
      {trouble === undefined ? null : (
        <p className="warning" role="alert">
          {trouble}
        </p>
      )}
      {opened && now ? (
        <TypedFlags
          plateau={now.plateau}
          along={opened.along}
          onPut={(which, to) => {
            move(which, to);
            clearTimeout(timer.current);
            timer.current = setTimeout(() => void settle(), 300);
          }}
          findings={now.summary.findings}
        />
      ) : trouble === undefined ? (
        <p className="small" role="status">
          The log is being opened.
        </p>
      ) : null}
    </div>
  );
}
const ways: Readonly<Record<string, 1 | -1 | undefined>> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };

/** The flags as numbers to type, for a hand that drags nothing. */
function TypedFlags({
  plateau,
  along,
  onPut,
  findings,
}: {
  readonly plateau: readonly [number, number];
  readonly along: RunView["along"];
  readonly onPut: (which: "from" | "to", to: number) => void;
  readonly findings: readonly string[];
}) {
  const [factor, unit] = along === "travel" ? [1e-3, "mm"] : along === "time" ? [1, "s"] : [1, "rows"];
  const [typed, type] = useState<{ which: "from" | "to"; text: string }>();
  const field = (which: "from" | "to", v: number) => (
    <label>
      {which === "from" ? "Plateau from" : "to"}{" "}
      <input
        inputMode="decimal"
        aria-label={`Plateau ${which}, ${unit}`}
        value={typed?.which === which ? typed.text : `${Number((v / factor).toPrecision(5))}`}
        onChange={(event) => type({ which, text: event.target.value })}
        onBlur={() => commit(which)}
        onKeyDown={(event) => {
          if (event.key === "Enter") commit(which);
        }}
      />
    </label>
  );
  const commit = (which: "from" | "to"): void => {
    if (typed?.which !== which) return;
    const v = Number(typed.text.replace(",", "."));
    type(undefined);
    if (typed.text.trim() !== "" && Number.isFinite(v)) onPut(which, v * factor);
  };
  return (
    <p className="typed-flags small">
      {field("from", plateau[0])} {field("to", plateau[1])} {unit}
      {findings.length > 0 ? <span className="warning">{findings.join("; ")}</span> : null}
    </p>
  );
}

/** Counts and typed readings, as they came. */
function Rows({ trial }: { readonly trial: TrialView }) {
  const { countRows, readingRows } = trial;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls is scrolled by keys
    <section className="scrolls rows" aria-label="What was read" tabIndex={0}>
      <Came
        caption="Indexes counted"
        heads={["Built unit", "Reel", ["Indexes"], ["Misfeeds"], "Mode"]}
        rows={countRows.map((c) => ({
          cells: [c.unit ?? "", c.reel ?? "", c.indexes, c.misfeeds, c.mode ?? ""],
          setAside: c.setAside,
        }))}
      />
      <Came
        caption="Readings"
        heads={["Piece", ["Reading"], "From"]}
        rows={readingRows.map((r) => ({ cells: [r.piece, r.text, r.from], setAside: r.setAside }))}
      />
    </section>
  );
}
/** Rows in the order of their file; of one that is set aside the reason stands in its last cell. A head in brackets stands over numbers. */
function Came({
  caption,
  heads,
  rows,
}: {
  readonly caption: string;
  readonly heads: readonly (string | readonly [string])[];
  readonly rows: readonly { readonly cells: readonly (string | number)[]; readonly setAside: string | undefined }[];
}) {
  if (rows.length === 0) return null;
  const cls = heads.map((head) => (typeof head === "string" ? undefined : "num"));
  return (
    <table className="q">
      <caption className="unseen">{caption}</caption>
      <thead>
        <tr>
          {heads.map((head, k) => (
            <th key={`${head}`} scope="col" className={cls[k]}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ cells, setAside }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rows stay in the order of the file
          <tr key={i} className={setAside === undefined ? "" : "aside"}>
            {cells.map((cell, k) => (
              <td key={`${heads[k]}`} className={cls[k]}>
                {setAside !== undefined && k === cells.length - 1 ? `set aside: ${setAside}` : cell}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** The runs of a trial: one is looked at, one that does not count is set aside with its reason and stays. */
function Runs({
  view,
  trial,
  shown,
  onChoose,
}: {
  readonly view: BenchView;
  readonly trial: TrialView;
  readonly shown: number | undefined;
  readonly onChoose: (run: number) => void;
}) {
  const { state, engine } = view;
  const [aside, setAsideOf] = useState<{ run: number; reason: string }>();
  const [said, say] = useState("");
  const put = async (): Promise<void> => {
    if (!aside) return;
    if (aside.reason.trim() === "") return say("Say why: the reason is kept with the run.");
    const file = trialPath(trial.name);
    const base = state.texts.get(file);
    if (base === undefined) return;
    const edit = setAside(base, file, "runs", aside.run, aside.reason.trim());
    const errors = await engine.put([{ file, base, changes: toJson(edit.changes) }]);
    say(errors.map((e) => e.shown).join("\n"));
    if (errors.length === 0) setAsideOf(undefined);
  };
  return (
    <div className="runs scrolls">
      <h3 className="part">Runs</h3>
      <ol>
        {trial.runs.map((r) => (
          <li key={r.number} className={r.setAside === undefined ? "" : "aside"}>
            <button
              type="button"
              className="link"
              aria-pressed={r.number === shown}
              disabled={!r.isTrace}
              onClick={() => onChoose(r.number)}
            >
              {r.number} {r.reel === undefined ? "" : `reel ${r.reel}`} {r.unit ?? ""}
            </button>
            {r.setAside === undefined ? (
              <button
                type="button"
                className="link small"
                aria-label={`Set run ${r.number} aside`}
                onClick={() => setAsideOf({ run: r.number, reason: "" })}
              >
                set aside
              </button>
            ) : (
              <small>set aside: {r.setAside}</small>
            )}
            {aside?.run === r.number ? (
              <form
                onSubmit={(event) => {
                  event.preventDefault();
                  void put();
                }}
              >
                <label>
                  Why run {r.number} does not count{" "}
                  <input
                    // biome-ignore lint/a11y/noAutofocus: it has just been asked for
                    autoFocus
                    value={aside.reason}
                    onChange={(event) => setAsideOf({ run: r.number, reason: event.target.value })}
                  />
                </label>
                <button type="submit" className="btn">
                  Set aside
                </button>{" "}
                <button type="button" className="btn quiet" onClick={() => setAsideOf(undefined)}>
                  Drop
                </button>
              </form>
            ) : null}
          </li>
        ))}
      </ol>
      {said === "" ? null : <p className="warning">{said}</p>}
    </div>
  );
}
