import { checkNamed, firstStops, questionsOf } from "@tapeworthy/core";
import { counted, sayAddress, shortName, stationWords } from "@tapeworthy/drawing";
import type { Engine, EngineState } from "../engine/engine.ts";
import { rowsOf } from "../panel/chosen.ts";
import type { Choice } from "./choice.ts";
import type { Choose } from "./sheet.tsx";

/** A question in words, and the cheapest way to settle it. */
export interface RankedFirst {
  readonly asks: string;
  readonly way: string;
}

/** The title strip at the foot: the title block of the drawing, and the way to everything else. */
export function Strip({
  state,
  choice,
  choose,
  engine,
  ranked,
  onFind,
  onQuestion,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly engine: Engine;
  /** The first of the bench's open questions, while they lie there. */
  readonly ranked: RankedFirst | undefined;
  readonly onFind: () => void;
  readonly onQuestion: () => void;
}) {
  const { project, known, busy } = state;
  const units = project?.units ?? [];
  const unit = units.find((u) => u.stem === choice.unit);
  const rows = rowsOf(state, choice.unit);
  const [question] = questionsOf(rows);
  const [stop] = firstStops(rows);
  return (
    <footer className="strip">
      <div className="logo">
        <svg width="30" height="22" viewBox="0 0 30 22" aria-hidden="true">
          <path className="rim" d="M1 1H29V21H1Z" />
          <path className="holes" d="M5 5h3M13.5 5h3M22 5h3" />
          <path className="pocket" d="M5 10H25V17H5Z" />
        </svg>
      </div>
      <div className="project opt">
        <small>Project</small>
        <b>{project?.name ?? "Tapeworthy"}</b>
      </div>
      {units.length > 1 ? (
        <label className="unit">
          <small>Unit{unit?.revision ? `, revision ${unit.revision}` : ""}</small>
          <select
            value={choice.unit}
            onChange={(event) =>
              choose({ unit: event.target.value, tape: undefined, check: undefined, panel: "known" })
            }
          >
            {units.map(({ stem, name }) => (
              <option key={stem} value={stem}>
                {name}
              </option>
            ))}
          </select>
        </label>
      ) : (
        <div className="unit">
          <small>Unit{unit?.revision ? `, revision ${unit.revision}` : ""}</small>
          <b>{unit?.name ?? "none yet"}</b>
        </div>
      )}
      <button
        type="button"
        className="known"
        onClick={() => choose({ sheet: "unit", panel: "known", over: undefined })}
      >
        <small>Known units</small>
        <b>
          {known.of === 0 ? (
            "nothing yet"
          ) : (
            <>
              {known.reproduced} of {known.of} <span className="wide">come out right</span>
            </>
          )}
        </b>
      </button>
      <button type="button" disabled={!state.canUndo} onClick={() => void engine.undo()}>
        <small>Undo</small>
        <b>
          last change <kbd className="wide">z</kbd>
        </b>
      </button>
      <button type="button" onClick={onFind}>
        <small>Find</small>
        <b>
          anything <kbd className="wide">/</kbd>
        </b>
      </button>
      {ranked ? (
        <button type="button" className="next ask" onClick={onQuestion}>
          <small>Next question, first of all: {ranked.way}</small>
          <b>{ranked.asks}</b>
        </button>
      ) : question ? (
        <button type="button" className="next ask" onClick={onQuestion}>
          <small>
            Next question: {question.tapes.length} {question.tapes.length === 1 ? "tape hangs" : "tapes hang"} on it
          </small>
          <b>{sayAddress(question.address)}</b>
        </button>
      ) : stop && !busy ? (
        <button
          type="button"
          className="next"
          onClick={() =>
            choose({ sheet: "unit", tape: stop.tapes[0], check: stop.check, panel: "finding", over: undefined })
          }
        >
          <small>Stops {counted(stop.tapes.length, "tape")} first; none hangs on what is not known</small>
          <b>
            {shortName(stop.check)}, at the {stationWords[(checkNamed(stop.check)?.station ?? 1) - 1]}
          </b>
        </button>
      ) : (
        <div className="next">
          <small>Next question</small>
          <b>{rows.length === 0 || busy ? "not known yet" : "none: every wanted tape feeds"}</b>
        </div>
      )}
      <StateOfThings state={state} />
      {sheets.map(({ name, title }, i) => (
        <button
          key={name}
          type="button"
          className="sheets"
          aria-current={choice.sheet === name ? "page" : undefined}
          aria-keyshortcuts={`${i + 1}`}
          onClick={() => choose({ sheet: name })}
        >
          <small>Sheet {i + 1}</small>
          <b>{title}</b>
        </button>
      ))}
    </footer>
  );
}

const sheets = [
  { name: "unit", title: "Unit" },
  { name: "bench", title: "Bench" },
] as const;

/** Whether what is seen is all worked out, and all kept. */
function StateOfThings({ state: { busy, connection, unsaved, pairs, errors } }: { readonly state: EngineState }) {
  const drawn = pairs.filter((p) => p.sharpness === "drawn").length;
  const kept =
    connection === "lost"
      ? ["No connection", unsaved === 0 ? "nothing unsaved" : `${unsaved} unsaved`]
      : unsaved > 0
        ? ["Saving", `${unsaved} to go`]
        : undefined;
  const worked =
    errors.length > 0
      ? ["Numbers", "last good reading"]
      : busy
        ? ["Working out", `${busy.done} of ${busy.of}`]
        : pairs.length === 0
          ? ["Numbers", connection === "opening" ? "opening" : "none"]
          : drawn < pairs.length
            ? ["Working out", `${drawn} of ${pairs.length}`]
            : ["Numbers", "all drawn"];
  const [small, strong] = kept ?? worked;
  return (
    <div className={`things${connection === "lost" ? " lost" : ""}`}>
      <small>{small}</small>
      <b>{strong}</b>
      {busy ? <progress value={busy.done} max={busy.of} aria-label="Tapes worked out" /> : null}
    </div>
  );
}
