import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { type Called, fewOf, inNewFolder, tapeworthy, tapeworthyAlone } from "./cli.fixture.ts";

/** What is said of a call but how far it is, which is told by the clock. */
const said = ({ code, out, err }: Called) => ({ code, out, err: code === 2 ? err : "" });

// What else the tests hold of the command they hold of calls that follow one another in one process.
test("calls that follow one another say what each says alone: verdicts, help, errors, and verdicts again after a change", () => {
  inNewFolder((folder) => {
    fewOf(folder, "{plover: [coil-12]}");
    const calls = [
      ["check", folder, "--workers", "1"],
      ["check", "--help"],
      ["chek"],
      ["why", "nip.slips", "--tape", "coil-12", folder, "--workers", "1"],
      ["check", folder, "--workers", "1", "--json"],
    ];
    const here = calls.map((words) => said(tapeworthy(words)));
    expect(here).toEqual(calls.map((words) => said(tapeworthyAlone(words))));
    expect(here.map(({ code }) => code)).toEqual([3, 0, 2, 0, 3]);

    const changed = ["check", folder, "--workers", "1", "--vary", "plover/nip.preload=9 ±0.5 N"];
    const answer = said(tapeworthy(changed));
    expect(answer).toEqual(said(tapeworthyAlone(changed)));
    expect(answer.out).not.toBe(here[0]!.out);

    writeFileSync(join(folder, "known.yaml"), "format: 1\nknown: no\n");
    const broken = said(tapeworthy(["check", folder]));
    expect(broken).toEqual(said(tapeworthyAlone(["check", folder])));
    expect(broken.code).toBe(2);
  });
}, 900_000);
