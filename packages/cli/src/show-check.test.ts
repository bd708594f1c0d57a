import { expect, test } from "vitest";
import { showDecisive } from "./show-check.ts";

const decisive = {
  address: "a/b",
  symbol: "mu",
  tipping: 0.34,
  guess: { low: 0.18, high: 0.35 },
  unit: "1",
  shownIn: "",
  shareIfMeasured: 0.98,
};
test("the decisive unknown names its tipping value, its guess and what measuring would give", () => {
  expect(showDecisive(decisive)).toBe(
    "hangs on a/b: tips at 0.34 (guess 0.18 to 0.35); 98 % if it were measured at its median",
  );
});
test("an unknown that tips nothing alone says so", () => {
  expect(showDecisive({ ...decisive, tipping: null })).toBe(
    "hangs on a/b most, though on no number alone (guess 0.18 to 0.35); 98 % if it were measured at its median",
  );
});
test("a belief switch names its two words", () => {
  expect(showDecisive({ ...decisive, tipping: 1, words: ["free", "clamped"] })).toBe(
    "hangs on a/b: free or clamped; 98 % if it were known to be free",
  );
});
