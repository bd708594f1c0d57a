import { createRoot } from "react-dom/client";
import type { Asked, Told } from "./ask/ask.worker.ts";
import type { Answer } from "./ask/question.ts";
import type { Engine, EngineState } from "./engine/engine.ts";
import type { FileError } from "./engine/state.ts";
import { adoptTheme } from "./lettering.ts";
import type { ToLog } from "./log/log-protocol.ts";
import { Sheet } from "./sheet/sheet.tsx";
import "./style.css";

/** The page over an engine that stands still: it shows the state that a test hands it, and notes down what it is asked to do. */
const page = window as unknown as {
  heldState: string;
  asked: unknown[];
  show(state: string): void;
  /** Why nothing is written, while it isn't. */
  refuses?: string;
  /** Answers as text, by the kind of question. */
  ready?: Readonly<Record<string, string>>;
};
/** Lists that were arrays of numbers come as lists: drawings read them alike. */
const answerFrom = (text: string): Answer => JSON.parse(text) as Answer;

function stateFrom(text: string): EngineState {
  const { texts, pairs, ...rest } = JSON.parse(text);
  return {
    ...rest,
    texts: new Map(texts),
    pairs: pairs.map((p: { quick: string[] }) => ({ ...p, quick: new Set(p.quick) })),
  } as EngineState;
}
let state = stateFrom(page.heldState);
const listeners = new Set<() => void>();
page.asked = [];
page.show = (text) => {
  state = stateFrom(text);
  for (const f of listeners) f();
};
const note =
  <T,>(name: string, answer: T) =>
  (...args: unknown[]): T => {
    page.asked.push([name, ...args.filter((a) => typeof a !== "function")]);
    return answer;
  };
const refusal = (shown: string): FileError => ({
  place: { file: "bench/T-01.yaml", line: 1, column: 1, length: 1 },
  found: shown,
  expected: "",
  hint: undefined,
  shown,
});
const engine: Engine = {
  state: () => state,
  subscribe: (f) => {
    listeners.add(f);
    return () => listeners.delete(f);
  },
  look: note("look", undefined),
  edit: note("edit", undefined),
  aim: () => undefined,
  beginGesture: note("beginGesture", "g1"),
  move: (gesture, by) => {
    page.asked.push(["move", gesture, by]);
    return by;
  },
  endGesture: note("endGesture", undefined),
  type: note("type", Promise.resolve([])),
  writeForWidth: note("writeForWidth", Promise.resolve([])),
  writeWhole: note("writeWhole", Promise.resolve([])),
  put: (...args) => {
    page.asked.push(["put", ...args]);
    return Promise.resolve(page.refuses === undefined ? [] : [refusal(page.refuses)]);
  },
  undo: note("undo", Promise.resolve()),
  redo: note("redo", Promise.resolve()),
  resolve: note("resolve", undefined),
  begin: note("begin", Promise.resolve("There is a file units/plover.yaml already; nothing was written.")),
  answerOffered: note("answerOffered", Promise.resolve()),
  raw: note("raw", Promise.resolve(new Uint8Array(1))),
  keep: note("keep", Promise.resolve({ refused: "other", words: "Nothing is kept here." })),
  explain: () => Promise.resolve(undefined),
  judged: () => Promise.resolve(undefined),
  close: () => undefined,
};
// Nobody works out ladders and ways out here; an answer that a test lays ready is given to the question of its kind.
window.Worker = class {
  onmessage: ((event: MessageEvent<Told>) => void) | undefined;
  postMessage(asked: Asked | ToLog): void {
    if ("stop" in asked) return;
    if ("do" in asked) {
      // What comes of a job with a log, laid ready by the name of the job.
      const outcome = page.ready?.[`log ${asked.do}`];
      if (outcome)
        setTimeout(() => this.onmessage?.({ data: { id: asked.id, outcome: JSON.parse(outcome) } } as never), 0);
      return;
    }
    const { id, question } = asked;
    const ready = page.ready?.[question.kind];
    if (ready) setTimeout(() => this.onmessage?.({ data: { id, answer: answerFrom(ready) } } as MessageEvent<Told>), 0);
  }
  terminate(): void {}
} as unknown as typeof Worker;
adoptTheme(document);
createRoot(document.getElementById("page")!).render(<Sheet engine={engine} />);
