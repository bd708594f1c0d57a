import { expect, test } from "vitest";
import type { Engine, EngineState } from "../engine/engine.ts";
import { byFrame } from "./by-frame.ts";

/** An engine that can only change its state, and frames that begin when told to. */
function held() {
  let gesture: unknown;
  const listeners = new Set<() => void>();
  const waiting = new Map<number, () => void>();
  let frames = 0;
  const engine = {
    state: () => ({ gesture }) as EngineState,
    subscribe: (f: () => void) => {
      listeners.add(f);
      return () => listeners.delete(f);
    },
  } as unknown as Engine;
  let heard = 0;
  const end = byFrame(engine, {
    request: (f) => {
      waiting.set(++frames, f);
      return frames;
    },
    cancel: (frame) => waiting.delete(frame),
  })(() => heard++);
  return {
    change: (hand: unknown) => {
      gesture = hand;
      for (const f of listeners) f();
    },
    frame: () => {
      const all = [...waiting.values()];
      waiting.clear();
      for (const f of all) f();
    },
    heard: () => heard,
    end,
  };
}

test("while nothing is held every state is heard of at once", () => {
  const page = held();
  page.change(undefined);
  page.change(undefined);
  expect(page.heard()).toBe(2);
});
test("while a hand moves something, all states of one frame are heard of together", () => {
  const page = held();
  page.change({});
  page.change({});
  page.change({});
  expect(page.heard()).toBe(0);
  page.frame();
  expect(page.heard()).toBe(1);
  page.frame();
  expect(page.heard()).toBe(1);
});
test("letting go is heard of at once, and no frame is left over", () => {
  const page = held();
  page.change({});
  page.change(undefined);
  expect(page.heard()).toBe(1);
  page.frame();
  expect(page.heard()).toBe(1);
});
test("after the end nothing is heard any more", () => {
  const page = held();
  page.change({});
  page.end();
  page.frame();
  page.change(undefined);
  expect(page.heard()).toBe(0);
});
