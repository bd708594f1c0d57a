import { MemoryServer } from "./memory-transport.ts";
import type { Clock } from "./texts.ts";
import type { ServerEvent, Transport } from "./transport.ts";

/** Time that passes when a test says so. */
export class TestClock implements Clock {
  now = 0;
  private readonly waiting = new Set<{ readonly at: number; readonly f: () => void }>();
  later(ms: number, f: () => void): () => void {
    const one = { at: this.now + ms, f };
    this.waiting.add(one);
    return () => this.waiting.delete(one);
  }
  pass(ms: number): void {
    this.now += ms;
    for (const one of [...this.waiting].sort((a, b) => a.at - b.at))
      if (one.at <= this.now && this.waiting.delete(one)) one.f();
  }
  get isIdle(): boolean {
    return this.waiting.size === 0;
  }
}

interface Held {
  readonly kind: "request" | "answer" | "event" | "opened";
  /** Lets it arrive. */
  go(): void;
  /** The line breaks: it never arrives. */
  drop(): void;
}

/**
 * A line to a server in memory on which every message waits until the test lets it through, in an order of the test's choosing; events keep
 * their own order, as a stream does. It can break, and the server can begin anew without its memory of events.
 */
export class TestNetwork implements Transport {
  readonly server: MemoryServer;
  readonly calls: Held[] = [];
  readonly stream: Held[] = [];
  private ends: (() => void)[] = [];
  private forgotten = 0;
  isDown = false;
  constructor(texts: ReadonlyMap<string, string>) {
    this.server = new MemoryServer(texts, 1);
  }
  private call<T>(ask: () => Promise<T>): Promise<T> {
    return new Promise((resolve, reject) => {
      const broken = (): void => reject(new Error("the line is broken"));
      if (this.isDown) {
        queueMicrotask(broken);
        return;
      }
      const hold = (kind: Held["kind"], go: () => void): void => {
        const held: Held = {
          kind,
          go: () => {
            this.calls.splice(this.calls.indexOf(held), 1);
            go();
          },
          drop: broken,
        };
        this.calls.push(held);
      };
      hold("request", () => {
        void ask().then((answer) => hold("answer", () => resolve(answer)));
      });
    });
  }
  state = () => this.call(() => this.server.state());
  edit: Transport["edit"] = (request) => this.call(() => this.server.edit(request));
  undo: Transport["undo"] = (skip) => this.call(() => this.server.undo(skip));
  redo: Transport["redo"] = (skip) => this.call(() => this.server.redo(skip));
  begin: Transport["begin"] = () => this.call(() => this.server.begin());
  answerOffer: Transport["answerOffer"] = (id, take) => this.call(() => this.server.answerOffer(id, take));
  raw: Transport["raw"] = (file) => this.call(() => this.server.raw(file));
  keep: Transport["keep"] = (file, bytes) => this.call(() => this.server.keep(file, bytes));
  events: Transport["events"] = (last, { hear, opened, lost }) => {
    let isOver = false;
    const end = (): void => {
      isOver = true;
      stop?.();
      this.ends = this.ends.filter((one) => one !== breaks);
    };
    const breaks = (): void => {
      if (isOver) return;
      end();
      lost();
    };
    let stop: (() => void) | undefined;
    this.ends.push(breaks);
    if (this.isDown) {
      queueMicrotask(breaks);
      return end;
    }
    const hold = (kind: "event" | "opened", go: () => void): void => {
      this.stream.push({ kind, go: () => isOver || go(), drop: () => {} });
    };
    if (Number(last) < this.forgotten) {
      hold("event", () => hear({ id: `${this.forgotten}`, event: "reload" }));
      hold("opened", opened);
      return end;
    }
    stop = this.server.events(last, {
      hear: (event: ServerEvent) => hold("event", () => hear(event)),
      opened: () => hold("opened", opened),
      lost,
    });
    return end;
  };
  /** Everything under way is lost, requests before the server had them or answers after. */
  break(): void {
    this.stream.length = 0;
    for (const held of this.calls.splice(0)) held.drop();
    for (const breaks of [...this.ends]) breaks();
  }
  /** The server does not know any more what happened before. */
  async forget(): Promise<void> {
    this.forgotten = Number((await this.server.state()).event);
  }
  /** Lets everything through until nothing is under way. */
  async settle(clock: TestClock): Promise<void> {
    for (let round = 0; round < 4000; round++) {
      await turn();
      const next = this.stream.shift() ?? this.calls[0];
      if (next) next.go();
      else if (!clock.isIdle) clock.pass(20_000);
      else return;
    }
    throw new Error("it does not come to rest");
  }
}
/** Lets what waits for promises go on. */
export const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
