import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { inNewFolder, tapeworthy } from "./cli.fixture.ts";
import { exampleTexts } from "./start-project.ts";

/** The example cut down to one pair without a record, so that a call takes a second or two. */
function oneCell(folder: string): void {
  for (const [path, text] of exampleTexts("saltgrass")) {
    if (!/^(project|units\/|tapes\/)/.test(path)) continue;
    const cut =
      path === "project.yaml"
        ? text
            .replace(/wanted:\n( {2}.*\n)+/, "wanted:\n  dunlin: [dpak-16]\n")
            .replace(/pick tool: .*/, "pick tool: 1 mm")
            .replace(/^ladder:.*\n/m, "")
            .replace(/^ {2}misfeed allowance:.*\n/m, "")
            .replace("  allow pairs: 2 %\n", "  allow pairs: 2 %\n  misfeed allowance: 0.0001\n")
        : text;
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), cut);
  }
}
const at = (folder: string, path: string): string => readFileSync(join(folder, path), "utf8");
const json = (args: readonly string[]): Record<string, never> => {
  const { out, err, code } = tapeworthy([...args, "--json"]);
  if (code !== 0) throw new Error(`${code}: ${err}`);
  return JSON.parse(out);
};
const freeze = (folder: string) => [
  "freeze",
  folder,
  "T-01",
  "--date",
  "2026-03-01",
  "--unit",
  "dunlin",
  "--tape",
  "dpak-16",
  "--question",
  "tapes/dpak-16/T",
];
const add = (folder: string, text: string): void => {
  const path = join(folder, "bench/T-01.yaml");
  writeFileSync(path, `${readFileSync(path, "utf8")}${text}`);
};
const readings = `date: 2026-03-04\nreadings:\n${["A", "B", "C", "D", "E", "F"].map((r, i) => `  - {reel: ${r}, value: 0.2${48 + i} mm}\n`).join("")}`;

describe("a trial from its prediction to the design", () => {
  test("is frozen, scored, taken; its cell hangs on it no more, and the reading counts once", () => {
    inNewFolder((folder) => {
      oneCell(folder);
      expect(json(freeze(folder))).toMatchObject({ id: "L-01", trial: "T-01", written: true });
      add(folder, readings);
      const again = tapeworthy(["freeze", folder, "T-01", "--date", "2026-03-01"]);
      expect(again).toMatchObject({ code: 2 });
      expect(again.err).toContain("holds 6 results already");
      const score = json(["score", folder, "--date", "2026-03-05"]) as never as {
        scores: { agreed: boolean; inside: boolean }[];
        records: unknown[];
        cells: Record<"before" | "after", { share: number; first?: string }>[];
      };
      expect(score.scores).toMatchObject([{ trial: "T-01", agreed: true, inside: true, late: null }]);
      // A measuring card tries no check.
      expect(score.records).toEqual([]);
      const [cell] = score.cells;
      // It hung on the pockets' thickness; now that is known, something else comes first.
      expect(cell!.before.first).toBe("entry.pockets");
      expect(cell!.after.first).not.toBe("entry.pockets");
      expect(cell!.after.share).toBeGreaterThan(cell!.before.share + 0.1);
      const ledger = at(folder, "ledger.yaml");
      expect(json(["score", folder, "--no-cells"])).toMatchObject({ written: false });
      expect(at(folder, "ledger.yaml")).toBe(ledger);

      const before = at(folder, "tapes/dpak-16.yaml");
      const dry = tapeworthy(["take", folder, "T-01"]);
      expect(dry.out).toContain("Would write into tapes/dpak-16.yaml");
      expect(at(folder, "tapes/dpak-16.yaml")).toBe(before);
      const taken = json(["take", folder, "T-01", "--write"]) as never as { taking: { is: string } };
      const after = at(folder, "tapes/dpak-16.yaml");
      expect(after.startsWith(before)).toBe(true);
      expect(after).toContain(`T: ${taken.taking.is}   # T-01, 2026-03-04, 6 reels`);
      const twice = tapeworthy(["take", folder, "T-01", "--write"]);
      expect(twice.code).toBe(2);
      expect(twice.err).toContain("in the design");
    });
  }, 720_000);
  test("of a check is taken into the ledger, once, and is then believed", () => {
    inNewFolder((folder) => {
      oneCell(folder);
      tapeworthy([...freeze(folder).slice(0, -1), "entry.pockets"]);
      add(
        folder,
        `date: 2026-03-04\ncounts:\n${[1, 2, 3, 4, 5, 6].map((n) => `  - {unit: D${n}, reel: R${n}, indexes: 1000, misfeeds: 0}\n`).join("")}`,
      );
      const shown = json(["take", folder, "T-01"]) as never as { taking: { why: string }; cells: { after: unknown }[] };
      expect(shown.taking.why).toBe("T-01 tries entry.pockets: it moves belief, and there is no number to write");
      const before = at(folder, "ledger.yaml");
      const { out } = tapeworthy(["take", folder, "T-01", "--write", "--date", "2026-03-05"]);
      expect(out).toContain("Written into ledger.yaml:\n  +   - taken: T-01\n  +     date: 2026-03-05");
      expect(at(folder, "ledger.yaml")).toBe(`${before}  - taken: T-01\n    date: 2026-03-05\n`);
      const twice = tapeworthy(["take", folder, "T-01", "--write"]);
      expect(twice).toMatchObject({ code: 2 });
      expect(twice.err).toContain("T-01 is taken into belief on 2026-03-05. Nothing was written.");
      // What was shown before it was taken is what the map says afterwards.
      const check = JSON.parse(tapeworthy(["check", folder, "--json"]).out) as {
        units: { tapes: { share: number }[] }[];
      };
      expect(check.units[0]!.tapes[0]!.share).toBeCloseTo((shown.cells[0]!.after as { share: number }).share, 9);
    });
  }, 720_000);
  test("kept apart moves nothing, and the reason is said", () => {
    inNewFolder((folder) => {
      oneCell(folder);
      json(freeze(folder));
      add(folder, readings);
      json(["take", folder, "T-01", "--apart", "the micrometer was not zeroed"]);
      const { out } = tapeworthy(["take", folder, "T-01"]);
      expect(out).toContain("kept apart: the micrometer was not zeroed");
      expect(out).not.toContain("Cells before and after");
    });
  });
  test("frozen after its own day is refused; a name that is nobody's gets the way out", () => {
    inNewFolder((folder) => {
      oneCell(folder);
      json(freeze(folder));
      add(folder, "date: 2026-03-04\n");
      writeFileSync(join(folder, "project.yaml"), at(folder, "project.yaml").replace("80 mm/s", "70 mm/s"));
      const late = tapeworthy(["freeze", folder, "T-01", "--date", "2026-03-05"]);
      expect(late.err).toContain(
        "T-01 was run on 2026-03-04: a prediction of 2026-03-05 comes after it. Nothing was written.",
      );
      expect(tapeworthy(["take", folder, "T-1"]).err).toContain('Did you mean "T-01"?');
    });
  });
});
test("proof says all three statements, how far it is, and what weakens it", () => {
  inNewFolder((folder) => {
    oneCell(folder);
    json(freeze(folder));
    add(
      folder,
      "counts:\n  - {unit: D1, reel: A, indexes: 3000, misfeeds: 0}\n  - {unit: D2, reel: B, indexes: 3000, misfeeds: 0}\n",
    );
    const none = tapeworthy(["proof", folder, "--unit", "plover"]);
    expect(none).toMatchObject({ code: 2 });
    expect(none.err).toContain("No cycles were counted of plover");
    const { out } = tapeworthy(["proof", folder, "--no-model"]);
    // ln(0.05)/ln(1 - 1e-4) = 29 955.8. [derived]; 3/6000 is 1 in 2003 at 95 %, said as 1 in 2000. [derived]
    expect(out).toContain("29 956");
    expect(out).toContain("fewer than 1 in 2 000");
    expect(out).toContain("2 units say little about others");
    const { proofs } = json(["proof", folder, "--no-model", "--good", "0.0001", "--bad", "0.001"]) as never as {
      proofs: { promised: { alike: { oneIn: number } }; sequential: { firstPass: number; step: string } }[];
    };
    // 1e-4 against 1e-3 at 5 %: 3270 clean cycles pass. [derived: Wald's lines]
    expect(proofs[0]!.sequential).toMatchObject({ firstPass: 3270, step: "pass" });
  });
});
