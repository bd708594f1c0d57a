import type { Steps } from "@tapeworthy/core";
import { type DeskClock, keyOf, PairDesk } from "./pair-desk.ts";
import type { FromSide, QuickPair, ToSide } from "./protocol.ts";

/**
 * A desk beside the one on which the project lies open. It studies and judges the pairs it is given, keeps their studies for the next time, and
 * gives their quick numbers. It does the last thing it was asked; what it was doing when the texts change is left.
 */
export class SideDesk extends PairDesk {
  private readonly post: (message: FromSide) => void;
  constructor(post: (message: FromSide) => void, clock: DeskClock) {
    super(clock);
    this.post = post;
  }
  receive(message: ToSide): void {
    if (message.kind === "do") this.drawing = this.done(message);
    else this.hear(message);
    this.wake();
  }
  protected override texted(): void {
    this.drawing = undefined;
  }
  protected override toDraw(): Steps<void> | undefined {
    return this.drawing;
  }
  protected override tellFault(words: string): void {
    this.post({ kind: "fault", words });
  }
  protected override tellQuick(by: number, pairs: readonly QuickPair[]): void {
    if (pairs.length > 0) this.post({ kind: "quick", seq: this.seq, by, pairs });
  }

  private *done({ id, unit, tape, by }: Extract<ToSide, { kind: "do" }>): Steps<void> {
    if (this.isUnread) this.read();
    yield;
    const pair = this.pairs.get(keyOf(unit, tape));
    if (!pair || this.isFaulty) throw new Error(`${unit} on ${tape} was to be drawn, and does not read`);
    yield* this.study(pair);
    if (by) {
      yield* this.judge(pair, by);
      this.post({ kind: "done", id, judged: pair.drawn!.judged });
      return;
    }
    const isKnown = this.project!.known.some((k) => k.unit === unit && k.tape === tape);
    this.post({ kind: "done", id, ...(isKnown ? { chances: yield* this.chancesOf(pair) } : {}) });
  }
}
