import type { ReactNode } from "react";
import type { EngineState } from "../engine/engine.ts";

/**
 * A part of the page that comes when it is asked for, or what to do where it doesn't: its file has a name of its own in every build, so a page that was
 * opened before the program was built anew asks for one that is gone. Loading the page again brings both together; edits are in the folder or kept by
 * the engine, the choice is in the address, readings that were typed are kept by the browser.
 */
export async function partOf<Part>(fetched: () => Promise<Part>, otherwise: Part): Promise<{ default: Part }> {
  try {
    return { default: await fetched() };
  } catch {
    return { default: otherwise };
  }
}
type Of = { readonly state: Pick<EngineState, "unsaved"> };
function Changed({ state: { unsaved } }: Of) {
  return (
    <div className="says" role="alert">
      <h2 className="headline">The program has changed: reload</h2>
      <p>
        This part of the page belongs to another build than the one that runs now.{" "}
        {unsaved > 0 ? "Wait until what you changed is written; then nothing is lost by it." : "Nothing is lost by it."}
      </p>
      <p>
        <button type="button" className="btn solid" onClick={() => location.reload()}>
          Reload
        </button>
      </p>
    </div>
  );
}
export const ChangedBench = ({ state, children }: Of & { readonly children: ReactNode }) => (
  <>
    <main className="bench alone" aria-label="Bench">
      <Changed state={state} />
    </main>
    {children}
  </>
);
export const ChangedText = ({ state }: Of) => (
  <section className="text" aria-label="Text of the project">
    <Changed state={state} />
  </section>
);
