import type { JudgedPairs } from "../engine/protocol.ts";
import type { Asked, Told } from "./ask.worker.ts";
import type { About, Answer, JudgedFor, Progress, Question, Texts } from "./question.ts";

/** What the map found, for questions that would ask the same again: the ranking waits for it, others take it where it is there. */
const served: { readonly [kind in Question["kind"]]?: "waits" | "takes" } = {
  next: "waits",
  cures: "takes",
  compare: "takes",
};

/** Where questions go: a thread of their own, so that the page stays quick. The last question asked is the one that is answered. */
export class Asker {
  private worker: Worker | undefined;
  private readonly start: () => Worker;
  private readonly judged: JudgedFor;
  private count = 0;
  private waiting: { id: number; told: (told: Told) => void } | undefined;

  constructor(
    judged: JudgedFor,
    start: () => Worker = () =>
      new Worker(new URL("./ask.worker.ts", import.meta.url), { type: "module", name: "ask" }),
  ) {
    this.judged = judged;
    this.start = start;
  }

  /** The answer, unless another question overtakes this one or it is stopped: then it never comes. What is known of it before goes to `sofar`. */
  ask(
    { texts, seed }: { readonly texts: Texts; readonly seed: number },
    question: Question,
    progress: (progress: Progress) => void,
    sofar: (answer: Answer) => void = () => {},
  ): Promise<Answer> {
    const id = ++this.count;
    if (!this.worker) {
      this.worker = this.start();
      this.worker.onmessage = ({ data }: MessageEvent<Told>) => {
        if (data.id === this.waiting?.id) this.waiting.told(data);
      };
    }
    return new Promise((resolve, reject) => {
      this.waiting = {
        id,
        told: (told) => {
          if ("progress" in told) progress(told.progress);
          else if ("sofar" in told) sofar(told.sofar);
          else if ("answer" in told) resolve(told.answer);
          else reject(new Error(`${told.bug}; please report this with the design files`));
        },
      };
      const about: About = { texts: [...texts], seed };
      const post = (judged?: JudgedPairs): void => {
        // Another question may have overtaken it while it waited.
        if (this.waiting?.id === id)
          this.worker?.postMessage({ id, about, question, ...(judged ? { judged } : {}) } satisfies Asked);
      };
      const way = served[question.kind];
      if (!way) {
        post();
        return;
      }
      const wait = (done: number, of: number): void => {
        if (this.waiting?.id === id) progress({ what: "pairs of unit and tape", done, of });
      };
      this.judged(texts, way === "waits" ? wait : undefined).then(post, reject);
    });
  }
  /** Nobody waits for the answer any more; what is worked out ends at its next piece. */
  stop(): void {
    this.waiting = undefined;
    this.worker?.postMessage({ stop: this.count } satisfies Asked);
  }
  close(): void {
    this.worker?.terminate();
    this.worker = undefined;
  }
}
