import { sayAddress } from "@tapeworthy/drawing";
import { type ColumnMapping, type Role, roleNames, roles } from "@tapeworthy/project";
import { useState } from "react";
import { keepLog } from "../log/keep-log.ts";
import type { LogLook, LogPort, LogResult, ReadProgress, RemarkView, TrialAbout } from "../log/log-port.ts";
import type { BenchView } from "./bench-sheet.tsx";
import { nextTrial } from "./trial-names.ts";

/** Reads a log: a file, what its columns are, what comes of it; and then into the trial. Nothing is written before that is asked for. */
export function ReadLog({
  view,
  port,
  onClose,
}: {
  readonly view: BenchView;
  readonly port: LogPort;
  readonly onClose: () => void;
}) {
  const { state, engine, bench, trial, question, questions, choice, choose, date } = view;
  const fresh = nextTrial(state.texts);
  const [into, setInto] = useState(trial?.name ?? fresh);
  const [look, setLook] = useState<LogLook>();
  const [columns, setColumns] = useState<readonly ColumnMapping[]>([]);
  const [result, setResult] = useState<LogResult>();
  const [said, say] = useState("");
  const [progress, setProgress] = useState<ReadProgress>();
  const [how, setHow] = useState({ reel: "", piece: "", setAside: "" });
  const [busy, setBusy] = useState(false);
  const isNew = !state.texts.has(`bench/${into}.yaml`);
  const asked =
    questions && [...questions.ranked, ...questions.open, ...questions.dropped].find((q) => q.address === question);
  const pair =
    asked?.hangs[0] ??
    (choice.unit !== undefined && choice.tape !== undefined ? { unit: choice.unit, tape: choice.tape } : undefined);
  const about: TrialAbout = {
    texts: [...state.texts],
    trial: into,
    ...(isNew && pair && question !== undefined ? { fresh: { unit: pair.unit, tape: pair.tape, question } } : {}),
  };
  const canBegin = !isNew || about.fresh !== undefined;
  const wordsOf = (outcome: object): string =>
    "errors" in outcome
      ? (outcome.errors as LogLook["faults"]).map((e) => e.shown).join("\n\n")
      : "why" in outcome
        ? String(outcome.why)
        : "";
  const mapped = async (wishes: readonly ColumnMapping[]): Promise<void> => {
    const outcome = await port.map(wishes, {}, 600);
    if ("stopped" in outcome) return;
    say(wordsOf(outcome));
    setResult("done" in outcome ? outcome.done : undefined);
  };
  const read = async (file: File): Promise<void> => {
    say("");
    setLook(undefined);
    setResult(undefined);
    setBusy(true);
    try {
      const outcome = await port.read(file, about, {}, setProgress);
      if ("stopped" in outcome) return;
      say(wordsOf(outcome));
      if (!("done" in outcome)) return;
      setLook(outcome.done);
      setColumns(outcome.done.mapping);
      await mapped(outcome.done.mapping);
    } catch (e) {
      say((e as Error).message);
    } finally {
      setProgress(undefined);
      setBusy(false);
    }
  };
  const keep = async (): Promise<void> => {
    say("");
    setBusy(true);
    try {
      const plain = Object.fromEntries(Object.entries(how).filter(([, text]) => text.trim() !== ""));
      const outcome = await keepLog(engine, port, { date, ...plain }, about);
      if ("stopped" in outcome) return;
      if (!("done" in outcome)) return say(wordsOf(outcome));
      const errors = await engine.put([outcome.done.edit]);
      if (errors.length > 0) return say(errors.map((e) => e.shown).join("\n\n"));
      choose({ trial: into, question: undefined, run: outcome.done.run });
      onClose();
    } catch (e) {
      say((e as Error).message);
    } finally {
      setBusy(false);
    }
  };
  return (
    <div className="read-log scrolls">
      <p className="picks">
        <label>
          Into trial{" "}
          <select value={into} onChange={(event) => setInto(event.target.value)}>
            {[...new Set([...(bench?.trials.map((t) => t.name) ?? []), fresh])].map((name) => (
              <option key={name} value={name}>
                {name}
                {name === fresh ? ", new" : ""}
              </option>
            ))}
          </select>
        </label>
        <label>
          Log{" "}
          <input
            type="file"
            accept=".csv,.tsv,.txt,.log,text/*"
            disabled={!canBegin || busy}
            onChange={(event) => {
              const [file] = event.target.files ?? [];
              if (file) void read(file);
            }}
          />
        </label>
        <button type="button" className="btn quiet" onClick={onClose}>
          Close <kbd>Esc</kbd>
        </button>
      </p>
      <p className="small">
        {isNew
          ? about.fresh
            ? `${into} is begun with it: ${sayAddress(about.fresh.question)}, ${about.fresh.unit} on ${about.fresh.tape}.`
            : `Choose a question first: a new trial has to ask something.`
          : ""}
      </p>
      {progress ? (
        <p className="sharpening small" role="status">
          <progress value={progress.bytes} max={progress.of} aria-label="Reading the log" /> reading{" "}
          <button type="button" className="btn quiet" onClick={() => port.stop()}>
            Stop
          </button>
        </p>
      ) : null}
      {said === "" ? null : (
        <pre className="warning" role="alert">
          {said}
        </pre>
      )}
      {look ? (
        <>
          <p className="small">
            {look.file}: {look.rows} rows.{" "}
            {look.remembered === undefined
              ? "Its columns are guessed from their names: look at them once, they are remembered."
              : `Read as ${look.remembered}: logs with this header have been read before.`}
            {look.twin === undefined ? "" : ` Run ${look.twin} holds the same bytes.`}
          </p>
          <Columns
            look={look}
            columns={columns}
            onChange={(next) => {
              setColumns(next);
              void mapped(next);
            }}
          />
          <Remarks remarks={result?.remarks ?? look.remarks} />
          {result ? <p>{saidOf(result)}</p> : null}
          <p className="picks">
            <label>
              Reel <input value={how.reel} onChange={(e) => setHow({ ...how, reel: e.target.value })} />
            </label>
            <label>
              Built unit or piece{" "}
              <input value={how.piece} onChange={(e) => setHow({ ...how, piece: e.target.value })} />
            </label>
            <label>
              Set aside, because{" "}
              <input value={how.setAside} onChange={(e) => setHow({ ...how, setAside: e.target.value })} />
            </label>
            <button type="button" className="btn solid" disabled={!result || busy} onClick={() => void keep()}>
              Read it into {into}
            </button>
          </p>
        </>
      ) : null}
    </div>
  );
}
function saidOf({ what }: LogResult): string {
  switch (what.kind) {
    case "trace":
      return `A trace of ${what.of} along ${what.along}: ${what.summary.rows} rows between the flags, ${what.summary.indexes} indexes, ${what.summary.outliers.length} outliers kept.`;
    case "counts": {
      const indexes = what.rows.reduce((sum, r) => sum + r.indexes, 0);
      const misfeeds = what.rows.reduce((sum, r) => sum + r.misfeeds, 0);
      return `Counts: ${indexes} indexes with ${misfeeds} misfeeds, in ${what.rows.length} rows.`;
    }
    case "readings":
      return `${what.rows.length} readings.`;
  }
}
/** What each column is: proposed, and changed where it is something else. */
function Columns({
  look,
  columns,
  onChange,
}: {
  readonly look: LogLook;
  readonly columns: readonly ColumnMapping[];
  readonly onChange: (columns: readonly ColumnMapping[]) => void;
}) {
  const put = (at: number, part: Partial<ColumnMapping>): void =>
    onChange(columns.map((c, i) => (i === at ? { ...c, ...part } : c)));
  return (
    <table className="q columns">
      <caption className="unseen">What the columns of the log are</caption>
      <thead>
        <tr>
          <th scope="col">Column</th>
          <th scope="col">Is</th>
          <th scope="col">Unit</th>
          <th scope="col">Turned round</th>
          <th scope="col">First cells</th>
        </tr>
      </thead>
      <tbody>
        {columns.map((c, i) => {
          const shown = look.columns.find((one) => one.name === c.column);
          return (
            <tr key={c.column}>
              <th scope="row">{c.column}</th>
              <td>
                <select
                  aria-label={`${c.column} is`}
                  value={c.role}
                  onChange={(event) => put(i, { role: event.target.value as Role })}
                >
                  {roleNames.map((role) => (
                    <option key={role} value={role} title={roles[role].means}>
                      {role}
                    </option>
                  ))}
                </select>
              </td>
              <td>
                <input
                  aria-label={`Unit of ${c.column}`}
                  defaultValue={c.unit}
                  onBlur={(event) => {
                    if (event.target.value !== c.unit) put(i, { unit: event.target.value.trim() });
                  }}
                />
              </td>
              <td>
                <input
                  type="checkbox"
                  aria-label={`${c.column} has its sign the other way round`}
                  checked={c.reversed}
                  onChange={(event) => put(i, { reversed: event.target.checked })}
                />
              </td>
              <td className="small">
                {shown?.first.slice(0, 4).join("; ")}
                {shown && shown.gaps > 0 ? `; ${shown.gaps} ${shown.gaps === 1 ? "gap" : "gaps"}` : ""}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
function Remarks({ remarks }: { readonly remarks: readonly RemarkView[] }) {
  if (remarks.length === 0) return null;
  return (
    <details className="parts">
      <summary>
        {remarks.length} {remarks.length === 1 ? "thing is" : "things are"} odd: kept and marked
      </summary>
      {remarks.map((r) => (
        <pre key={`${r.about} ${r.error.shown}`} className="small">
          {r.error.shown}
        </pre>
      ))}
    </details>
  );
}
