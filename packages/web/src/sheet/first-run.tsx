import { useState } from "react";
import type { Engine, EngineState } from "../engine/engine.ts";

/** A folder with no project in it: how to begin. */
export function FirstRun({ state, engine }: { readonly state: EngineState; readonly engine: Engine }) {
  const files = [...state.texts.keys()];
  const [refused, setRefused] = useState<string>();
  const begin = (example: string) => {
    setRefused(undefined);
    engine.begin(example).then(setRefused, () => setRefused("The program cannot be reached; is it still running?"));
  };
  return (
    <main className="first-run">
      <div className="first">
        <h1>Start from a unit that looks like yours</h1>
        <p>
          A project is a folder of text files; it stays on this machine. This folder has no <code>project.yaml</code>
          {files.length === 0 ? "" : `, only ${files.slice(0, 4).join(", ")}`} yet.
        </p>
        <dl>
          <dt>Begin with the worked example</dt>
          <dd>
            <small>two units with their tapes: one leads the film sideways, one overhead</small>
            {state.examples.map((example) => (
              <button type="button" className="btn" key={example} onClick={() => begin(example)}>
                Put {example} into this folder
              </button>
            ))}
            {refused && <p role="alert">{refused}</p>}
            <small>
              or into a folder of its own:{" "}
              <code>tapeworthy start my-feeder --from {state.examples[0] ?? "EXAMPLE"}</code>
            </small>
          </dd>
          <dt>Open another folder</dt>
          <dd>
            <code>tapeworthy open my-feeder</code>
            <small>the page is at the address it prints</small>
          </dd>
          <dt>Or write the file here</dt>
          <dd>
            <small>
              As soon as there is a <code>project.yaml</code> in this folder the sheet appears by itself.
            </small>
          </dd>
        </dl>
      </div>
    </main>
  );
}
