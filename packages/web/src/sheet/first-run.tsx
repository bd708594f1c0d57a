import type { EngineState } from "../engine/engine.ts";

/** A folder with no project in it: how to begin. */
export function FirstRun({ state }: { readonly state: EngineState }) {
  const files = [...state.texts.keys()];
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
            <code>tapeworthy start my-feeder --from saltgrass</code>
            <small>two units with their tapes: one leads the film sideways, one overhead</small>
          </dd>
          <dt>Open the folder you have</dt>
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
