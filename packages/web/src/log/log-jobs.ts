import { LogDesk } from "./log-desk.ts";
import type { FromLog, LogJob, ToLog } from "./log-protocol.ts";

/** Nobody waits for a piece of work any more. */
class Stopped extends Error {}

/** Time, as the thread has it. */
export interface Turns {
  now(): number;
  /** Lets messages that wait come in. */
  turn(): Promise<void>;
}
/** Milliseconds between two looks for messages. */
const stretch = 15;

interface Waiting {
  readonly job: LogJob & { readonly id: number };
  isStopped: boolean;
}

/**
 * The desk's work in order, one piece after another. A newer one takes the place of what it makes needless: another log, of everything before; another
 * mapping or run, of the one before. Of flags that move, the place under way is worked out and of those that wait the last alone, so that figures
 * follow the hand however long they take.
 */
export class LogJobs {
  private readonly desk = new LogDesk();
  private readonly post: (message: FromLog) => void;
  private readonly turns: Turns;
  private readonly waiting: Waiting[] = [];
  private current: Waiting | undefined;

  constructor(post: (message: FromLog) => void, turns: Turns) {
    this.post = post;
    this.turns = turns;
  }
  hear(message: ToLog): void {
    if ("stop" in message) {
      for (const one of this.all) one.isStopped = true;
      return;
    }
    for (const one of this.all)
      if (isOvertaken(one.job, message) && !(one === this.current && message.do === "plateau")) one.isStopped = true;
    this.waiting.push({ job: message, isStopped: false });
    if (!this.current) void this.run();
  }
  private get all(): readonly Waiting[] {
    return this.current ? [this.current, ...this.waiting] : this.waiting;
  }
  private async run(): Promise<void> {
    for (let next = this.waiting.shift(); next; next = this.waiting.shift()) {
      this.current = next;
      await this.one(next);
      this.current = undefined;
    }
  }
  private async one(one: Waiting): Promise<void> {
    const { id } = one.job;
    if (one.isStopped) return this.post({ id, outcome: { stopped: true } });
    let since = this.turns.now();
    const rest = (): Promise<void> | undefined =>
      this.turns.now() - since < stretch
        ? undefined
        : this.turns.turn().then(() => {
            if (one.isStopped) throw new Stopped();
            since = this.turns.now();
          });
    try {
      const outcome = await this.desk.work(one.job, rest, (progress) => this.post({ id, progress }));
      // A message may have come in with the last piece.
      this.post({ id, outcome: one.isStopped ? { stopped: true } : outcome });
    } catch (e) {
      if (e instanceof Stopped) this.post({ id, outcome: { stopped: true } });
      else this.post({ id, bug: e instanceof Error ? e.message : String(e) });
    }
  }
}
function isOvertaken(before: LogJob, now: LogJob): boolean {
  switch (now.do) {
    case "read":
      return before.do === "read" || before.do === "map" || before.do === "plateau";
    case "map":
      return before.do === "map" || before.do === "plateau";
    case "open":
      return before.do === "open" || before.do === "plateau";
    case "plateau":
    case "lanes":
      return before.do === now.do;
    case "plan":
    case "settle":
      return false;
  }
}
