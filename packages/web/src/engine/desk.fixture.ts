import { Desk } from "./desk.ts";
import type { DeskClock } from "./pair-desk.ts";
import type { FromDesk, FromSide, ToDesk } from "./protocol.ts";
import { SideDesk } from "./side-desk.ts";

/** Time of a desk that passes when a test says so, and one unit of it for every piece of work. */
export class DeskTime implements DeskClock {
  private time = 0;
  private readonly soon: (() => void)[] = [];
  private readonly late: { readonly at: number; readonly f: () => void }[] = [];
  /** How often the clock was read since the last slice began: once a piece of work, and a little more. */
  looks = 0;
  mostLooks = 0;
  /** ms a piece of work takes. */
  piece = 0.5;
  now(): number {
    this.looks++;
    this.mostLooks = Math.max(this.mostLooks, this.looks);
    this.time += this.piece;
    return this.time;
  }
  later(f: () => void, ms?: number): () => void {
    let isOff = false;
    const call = (): void => {
      if (!isOff) f();
    };
    if (ms === undefined) this.soon.push(call);
    else this.late.push({ at: this.time + ms, f: call });
    return () => {
      isOff = true;
    };
  }
  /** One slice; false where nothing waits. */
  slice(): boolean {
    this.looks = 0;
    const next = this.soon.shift();
    next?.();
    return next !== undefined;
  }
  pass(ms: number): void {
    this.time += ms;
    const due = this.late.filter(({ at }) => at <= this.time);
    for (const one of due) {
      this.late.splice(this.late.indexOf(one), 1);
      one.f();
    }
  }
}

/** A desk, what it said, and its time in the test's hands. */
export class TestDesk {
  readonly time = new DeskTime();
  readonly said: FromDesk[] = [];
  private readonly desk: Desk;
  /** What each desk beside it said. */
  readonly beside: FromSide[][];
  /** Desks beside it that say nothing any more. */
  readonly dead = new Set<number>();
  seq = 0;
  constructor(sides = 0) {
    this.beside = Array.from({ length: sides }, () => []);
    const ports = this.beside.map((said, i) => {
      let hear: (message: FromSide) => void = () => {};
      const side = new SideDesk((message) => {
        const copy = structuredClone(message);
        this.time.later(() => {
          if (this.dead.has(i)) return;
          said.push(copy);
          hear(copy);
        });
      }, this.time);
      return {
        post: (message: Parameters<SideDesk["receive"]>[0]) => {
          const copy = structuredClone(message);
          this.time.later(() => this.dead.has(i) || side.receive(copy));
        },
        hear: (heard: typeof hear) => {
          hear = heard;
        },
      };
    });
    this.desk = new Desk((message) => this.said.push(structuredClone(message)), this.time, ports);
  }
  say(message: ToDesk): void {
    this.desk.receive(structuredClone(message));
  }
  open(texts: ReadonlyMap<string, string>, seed = 1): void {
    this.say({ kind: "open", seq: ++this.seq, texts: [...texts], seed });
  }
  write(file: string, text: string | undefined): void {
    this.say({ kind: "edits", seq: ++this.seq, edits: [{ file, text }] });
  }
  /** Works until nothing waits. */
  rest(): void {
    while (this.time.slice());
  }
  of<K extends FromDesk["kind"]>(kind: K): Extract<FromDesk, { kind: K }>[] {
    return this.said.filter((m): m is Extract<FromDesk, { kind: K }> => m.kind === kind);
  }
  /** The last drawn result of every pair. */
  drawn() {
    return new Map(this.of("drawn").map((m) => [`${m.result.unit} ${m.result.tape}`, m]));
  }
}
