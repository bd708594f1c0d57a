import type { Engine, EngineState, FileError } from "../engine/engine.ts";
import type { Choose } from "../sheet/sheet.tsx";

/** What has to be put right or answered before anything else: faults in the files, a broken line, two hands on one line, edits left over. */
export function Notices({
  state,
  choose,
  engine,
}: {
  readonly state: EngineState;
  readonly choose: Choose;
  readonly engine: Engine;
}) {
  return (
    <>
      {state.connection === "lost" ? <Lost unsaved={state.unsaved} /> : null}
      {state.troubles.map(({ file, words }) => (
        <section key={`${file} ${words}`} className="notice lost" aria-label="The program can't do this">
          <h2>{file === "" ? "The folder" : file}</h2>
          <p>{words}</p>
        </section>
      ))}
      {state.conflicts.map((conflict) => (
        <section key={conflict.id} className="notice" aria-label="Changed here and outside">
          <h2>Changed here and outside at once</h2>
          <p>
            {conflict.file}, line {conflict.line}. Both texts are kept until you choose.
          </p>
          <dl>
            <dt>Before</dt>
            <dd>
              <pre>{conflict.before}</pre>
            </dd>
            <dt>Yours</dt>
            <dd>
              <pre>{conflict.mine}</pre>
            </dd>
            <dt>From outside</dt>
            <dd>
              <pre>{conflict.theirs}</pre>
            </dd>
          </dl>
          <p className="acts">
            <button type="button" className="btn" onClick={() => engine.resolve(conflict.id, "mine")}>
              Keep yours
            </button>{" "}
            <button type="button" className="btn" onClick={() => engine.resolve(conflict.id, "theirs")}>
              Take theirs
            </button>{" "}
            <button
              type="button"
              className="btn quiet"
              onClick={() => choose({ text: { file: conflict.file, line: conflict.line } })}
            >
              Open there
            </button>
          </p>
        </section>
      ))}
      {state.offered.map((one) => (
        <section key={one.id} className="notice" aria-label="Edits of an earlier session">
          <h2>Edits of an earlier session</h2>
          <p>They were made in {one.file}, whose text is another now. Nothing has been written of them.</p>
          <table>
            <caption className="unseen">What they would change</caption>
            <thead>
              <tr>
                <th scope="col">line</th>
                <th scope="col">before</th>
                <th scope="col">after</th>
              </tr>
            </thead>
            <tbody>
              {one.lines.map(({ line, before, after }) => (
                <tr key={`${line} ${after}`}>
                  <th scope="row">{line}</th>
                  <td>
                    <pre>{before}</pre>
                  </td>
                  <td>
                    <pre>{after}</pre>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="acts">
            <button type="button" className="btn" onClick={() => void engine.answerOffered(one.id, true)}>
              Write them
            </button>{" "}
            <button type="button" className="btn quiet" onClick={() => void engine.answerOffered(one.id, false)}>
              Leave them out
            </button>
          </p>
        </section>
      ))}
      {state.errors.length > 0 ? (
        <Faults errors={state.errors} hasReading={state.project !== undefined} choose={choose} />
      ) : null}
    </>
  );
}

function Lost({ unsaved }: { readonly unsaved: number }) {
  return (
    <section className="notice lost" aria-label="Connection lost">
      <h2>No connection to the program</h2>
      <p>
        It was closed, or this machine slept. What you change is still worked out here
        {unsaved > 0 ? `; ${unsaved} ${unsaved === 1 ? "change is" : "changes are"} not written yet` : ""}. The page
        tries again by itself; start <code>tapeworthy open</code> in the project's folder if it does not come back.
      </p>
    </section>
  );
}

/** How many faults are shown at once. */
const most = 12;

function Faults({
  errors,
  hasReading,
  choose,
}: {
  readonly errors: readonly FileError[];
  readonly hasReading: boolean;
  readonly choose: Choose;
}) {
  const files = new Set(errors.map((e) => e.place.file));
  return (
    <section className="notice faults" aria-label="To put right">
      <p className="kick">
        <span>{[...files].join(", ")}</span>
        <span className="right">
          {errors.length} {errors.length === 1 ? "thing" : "things"} to put right
        </span>
      </p>
      <h2>{hasReading ? "The sheet shows the last good reading" : "The files can't be read yet"}</h2>
      {hasReading ? <p>Nothing on it is lost. Drawing and map follow the text again as soon as it reads.</p> : null}
      <ul>
        {errors.slice(0, most).map((e) => (
          <li key={`${e.place.file}:${e.place.line}:${e.place.column} ${e.expected}`}>
            <p className="where">
              <b>
                {e.place.file}, line {e.place.line}, column {e.place.column}
              </b>
              <button
                type="button"
                className="btn"
                onClick={() => choose({ text: { file: e.place.file, line: e.place.line } })}
              >
                Open there
              </button>
            </p>
            <LineOf shown={e.shown} length={e.place.length} />
            <p>
              Found {e.found}, expected {e.expected}.{e.hint === undefined ? "" : ` ${e.hint}`}
            </p>
          </li>
        ))}
      </ul>
      {errors.length > most ? <p>And {errors.length - most} more.</p> : null}
    </section>
  );
}

/** The line of an error as the parser shows it, what is meant underlined. */
function LineOf({ shown }: { readonly shown: string; readonly length: number }) {
  const [, line = "", under = ""] = shown.split("\n");
  const from = under.indexOf("^");
  const to = under.lastIndexOf("^") + 1;
  if (from < 0) return null;
  const [, number = "", rest = ""] = /^(\d+) \| (.*)$/s.exec(line) ?? [];
  const margin = line.length - rest.length;
  return (
    <pre className="code">
      <s>{number}</s> {rest.slice(0, from - margin)}
      <i>{rest.slice(from - margin, to - margin)}</i>
      {rest.slice(to - margin)}
    </pre>
  );
}
