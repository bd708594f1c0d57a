import { afterEach, expect, test, vi } from "vitest";
import { Progress } from "./progress.ts";

afterEach(() => void vi.useRealTimers());
const stream = (isTTY: boolean) => {
  const written: string[] = [];
  return { written, as: { isTTY, write: (t: string) => written.push(t) } as unknown as NodeJS.WriteStream };
};
test("work under a second says nothing", () => {
  const { written, as } = stream(true);
  new Progress(as).say("pairs", 1, 2);
  expect(written).toEqual([]);
});
test("longer work rewrites one line on a terminal and clears it at the end", () => {
  vi.useFakeTimers();
  const { written, as } = stream(true);
  const progress = new Progress(as);
  vi.advanceTimersByTime(1500);
  progress.say("pairs", 3, 20);
  progress.end();
  expect(written).toEqual(["\r\u001b[Kpairs: 3 of 20", "\r\u001b[K"]);
});
test("without a terminal there is a line now and then, not one a step", () => {
  vi.useFakeTimers();
  const { written, as } = stream(false);
  const progress = new Progress(as);
  vi.advanceTimersByTime(1500);
  for (let i = 0; i < 10; i++) progress.say("pairs", i, 20);
  expect(written).toEqual(["pairs: 0 of 20\n"]);
});
