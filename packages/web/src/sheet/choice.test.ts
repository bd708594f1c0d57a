import { expect, test } from "vitest";
import { type Choice, choiceFrom, hashOf, nothingChosen } from "./choice.ts";

test.each([
  ["#", {}],
  ["#plover/so20-24", { unit: "plover", tape: "so20-24" }],
  ["#plover/so20-24/film.mismatch", { unit: "plover", tape: "so20-24", check: "film.mismatch", panel: "finding" }],
  ["#plover/so20-24?over=ladder", { unit: "plover", tape: "so20-24", over: "ladder" }],
  [
    "#plover/so20-24/nip.pulls?panel=known&text=units%2Fplover.yaml&at=plover%2Fnip.preload",
    {
      unit: "plover",
      tape: "so20-24",
      check: "nip.pulls",
      panel: "known",
      text: { file: "units/plover.yaml", address: "plover/nip.preload" },
    },
  ],
  [
    "#plover/so20-24/nip.pulls?over=sweep&along=plover%2Fnip.preload",
    {
      unit: "plover",
      tape: "so20-24",
      check: "nip.pulls",
      panel: "finding",
      over: "sweep",
      sweep: { along: "plover/nip.preload" },
    },
  ],
  [
    "#dunlin/dpak-16?sheet=bench&question=tapes%2Fdpak-16%2FT&card=open",
    { sheet: "bench", unit: "dunlin", tape: "dpak-16", question: "tapes/dpak-16/T", card: true },
  ],
  ["#dunlin?sheet=bench&trial=T-03&run=2", { sheet: "bench", unit: "dunlin", trial: "T-03", run: 2 }],
  ["#plover?text=units%2Fplover.yaml&line=41", { unit: "plover", text: { file: "units/plover.yaml", line: 41 } }],
] as const)("%s means what it says, and is written the same again", (hash, part) => {
  const choice: Choice = { ...nothingChosen, ...part };
  expect(choiceFrom(hash)).toEqual(choice);
  expect(hashOf(choice)).toBe(hash);
});
test("a name with a slash, a question mark or a hash in it comes back whole", () => {
  const choice: Choice = { ...nothingChosen, unit: "a/b?c#d", tape: "100 %", check: "x.y", panel: "finding" };
  expect(choiceFrom(hashOf(choice))).toEqual(choice);
});
test("words that are none of ours are passed over", () => {
  expect(choiceFrom("#plover?over=everything&panel=hall&line=-3&text=a.yaml&sheet=attic&run=0&card=shut")).toEqual({
    ...nothingChosen,
    unit: "plover",
    text: { file: "a.yaml" },
  });
  expect(choiceFrom("#%E0%A4%A")).toEqual(nothingChosen);
});
