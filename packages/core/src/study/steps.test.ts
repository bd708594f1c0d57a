import { expect, test } from "vitest";
import { finished, type Steps } from "./steps.ts";

test("work in pieces comes to the same as in one go, and nothing is done before it is asked for", () => {
  const done: number[] = [];
  const sum = function* (n: number): Steps<number> {
    let all = 0;
    for (let i = 1; i <= n; i++) {
      done.push(i);
      all += i;
      yield;
    }
    return all;
  };
  const piecemeal = sum(4);
  expect(done).toEqual([]);
  piecemeal.next();
  expect(done).toEqual([1]);
  expect([finished(piecemeal), finished(sum(4))]).toEqual([10, 10]);
  expect(done.slice(0, 4)).toEqual([1, 2, 3, 4]);
});
