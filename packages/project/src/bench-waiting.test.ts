import { describe, expect, test } from "vitest";
import { clean, oneCell, thickness } from "./bench.fixture.ts";
import { waitingFor } from "./bench-waiting.ts";

const files = { "bench/T-01.yaml": thickness, "bench/T-02.yaml": clean };
const ledger = (line: string) => ({ ...files, "ledger.yaml": `format: 1\nledger:\n  - ${line}\n` });
const waits = (of: Readonly<Record<string, string>>) =>
  waitingFor(oneCell(of)).map((w) => `${w.trial} into ${w.into}: ${w.says}`);

describe("a trial waits", () => {
  test("until its readings stand in the design, or its check is taken into belief", () => {
    expect(waits(files)).toEqual([
      "T-01 into design: 6 readings not taken into the design",
      "T-02 into belief: 6 pieces not taken into belief",
    ]);
    expect(waits(ledger("taken: T-02"))).toEqual(["T-01 into design: 6 readings not taken into the design"]);
  });
  test("no longer where it is kept apart, and not before it has been run", () => {
    expect(waits(ledger("{apart: T-01, reason: the gauge was cold}"))).toEqual([
      "T-02 into belief: 6 pieces not taken into belief",
    ]);
    expect(waits({ "bench/T-01.yaml": thickness.replace(/readings:[\s\S]*/, "") })).toEqual([]);
  });
  test("with its readings counted, those set aside left out", () => {
    expect(
      waits({
        "bench/T-01.yaml": thickness.replaceAll(" mm}", " mm, set aside: wet}").replace(", set aside: wet", ""),
      }),
    ).toEqual(["T-01 into design: 1 reading not taken into the design"]);
  });
});
