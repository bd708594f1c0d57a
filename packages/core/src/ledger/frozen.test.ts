import { describe, expect, test } from "vitest";
import { type Frozen, lateFor, notADay, whyNotFrozen } from "./frozen.ts";

const before = { id: "L-01", trial: "T-01", date: "2026-03-01", sha: "a" } as Frozen;
const wish = { trial: "T-01", date: "2026-03-02", sha: "b" };
const fresh = { date: "2026-03-04", results: 0 };

describe("a prediction", () => {
  test("of the day of its trial or earlier may be frozen, a later one not", () => {
    expect(whyNotFrozen(wish, fresh, [])).toBeUndefined();
    expect(whyNotFrozen({ ...wish, date: "2026-03-04" }, fresh, [])).toBeUndefined();
    expect(whyNotFrozen({ ...wish, date: "2026-03-05" }, fresh, [])).toBe(
      "T-01 was run on 2026-03-04: a prediction of 2026-03-05 comes after it.",
    );
  });
  test("of a trial that holds results foretells nothing", () => {
    expect(whyNotFrozen(wish, { date: undefined, results: 3 }, [])).toContain("holds 3 results already");
  });
  test("is frozen once for the same files, and again once they have changed", () => {
    expect(whyNotFrozen({ ...wish, sha: "a" }, fresh, [before])).toContain("frozen already, as L-01");
    expect(whyNotFrozen(wish, fresh, [before])).toBeUndefined();
  });
  test("that is no day is refused", () => {
    expect(notADay("2026-02-29")).toContain("a day that is not");
    expect(notADay("2028-02-29")).toBeUndefined();
    expect(notADay("1.3.2026")).toContain("2026-03-01");
    expect(notADay("2026-13-01")).toContain("a day that is not");
  });
  test("counts as made before only where the trial's date shows it", () => {
    expect(lateFor(before, "2026-03-01")).toBeUndefined();
    expect(lateFor(before, "2026-02-28")).toContain("after the trial");
    expect(lateFor(before, undefined)).toContain("no date");
  });
});
