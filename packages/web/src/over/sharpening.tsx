import type { Answering } from "../ask/use-answer.ts";

/** What is shown may still sharpen: how far it is, and a way to stop it there. */
export function Sharpening({ answering }: { readonly answering: Answering }) {
  const { progress, stopped, stop } = answering;
  if (stopped) return <p className="sharpening small">Stopped: these are the numbers so far.</p>;
  if (!progress) return null;
  return (
    <p className="sharpening small" role="status">
      <progress value={progress.done} max={progress.of} aria-label="Getting sharper" /> {progress.what}{" "}
      <button type="button" className="btn quiet" onClick={stop}>
        Stop here
      </button>
    </p>
  );
}
