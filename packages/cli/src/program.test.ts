import { expect, test } from "vitest";
import { type Called, fewOf, inNewFolder, tapeworthy, tapeworthyAlone } from "./cli.fixture.ts";

/** What is said of a call but how far it is, which is told by the clock. */
const said = ({ code, out, err }: Called) => ({ code, out, err: code === 2 ? err : "" });

// What else the tests hold of the command they hold of calls that follow one another in one process.
test("calls that follow one another say what each says alone: verdicts, help, errors, and verdicts after a change", () => {
  inNewFolder((folder) => {
    fewOf(folder, "{plover: [coil-12]}");
    const check = ["check", folder, "--workers", "1"];
    const calls = [
      ["check", "--help"],
      ["chek"],
      check,
      [...check, "--json", "--vary", "plover/nip.preload=9 ±0.5 N"],
      ["why", "nip.slips", "--tape", "coil12", folder],
    ];
    const here = [check, ...calls].map((words) => said(tapeworthy(words))).slice(1);
    expect(here).toEqual(calls.map((words) => said(tapeworthyAlone(words))));
    expect(here.map(({ code }) => code)).toEqual([0, 2, 3, 1, 2]);
  });
}, 900_000);
