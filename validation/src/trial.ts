import {
  expectedDays,
  fewestDays,
  goOrNot,
  perfectInformation,
  rankTrials,
  readingsInformation,
  seriesWorth,
  type Trial,
  trialWorth,
  unitLoss,
} from "@tapeworthy/core";
import { countsProgram, type How, type Near, type Row, reviewNotes, row, sureNotes } from "./row.ts";

/** The working notes' table of trials, invented. */
export const trialTable: Readonly<Record<"tooth" | "nip" | "film" | "sag" | "whole", Trial>> = {
  tooth: { fails: 0.1, catches: 0.95, passesGood: 0.95, late: 15, falseAlarm: 3, cost: 0.5 },
  nip: { fails: 0.2, catches: 0.8, passesGood: 0.9, late: 12, falseAlarm: 3, cost: 1 },
  film: { fails: 0.35, catches: 0.9, passesGood: 0.95, late: 20, falseAlarm: 4, cost: 1.5 },
  sag: { fails: 0.25, catches: 0.9, passesGood: 0.9, late: 18, falseAlarm: 6, cost: 4 },
  whole: { fails: 0.6, catches: 0.5, passesGood: 0.9, late: 8, falseAlarm: 8, cost: 12 },
};
const permutations = <T>(list: readonly T[]): T[][] =>
  list.length < 2
    ? [[...list]]
    : list.flatMap((one, i) => permutations(list.filter((_, j) => j !== i)).map((rest) => [one, ...rest]));

/** Worth of trials, their order, and worth of knowing more. */
export function trialRows(): Row[] {
  const rows: Row[] = [];
  const add = (
    id: string,
    model: string,
    expected: number,
    got: number,
    near: Near,
    source: string,
    how: How = "derived",
    unit = "1",
  ) => rows.push(row({ id, model, expected, got, near, source, how, unit }));
  const four = [
    { days: 1, stop: 0.05 },
    { days: 3, stop: 0.3 },
    { days: 2, stop: 0.1 },
    { days: 8, stop: 0.6 },
  ];
  const orders = permutations(four).map(expectedDays);
  const ratio = "rule of ratios as Kumar, Sarma and Sekhar 2004 state it (read); days by hand";
  add("trial.cp best", "fewest days", 9.412, expectedDays(fewestDays(four)), { share: 1e-12 }, ratio, "derived", "d");
  add(
    "trial.cp best of all 24 orders",
    "expected days",
    9.412,
    Math.min(...orders),
    { share: 1e-12 },
    "by hand, all orders tried",
    "derived",
    "d",
  );
  add("trial.cp as listed", "expected days", 9.968, expectedDays(four), { share: 1e-12 }, ratio, "derived", "d");
  add("trial.cp worst", "expected days", 10.766, Math.max(...orders), { share: 1e-12 }, ratio, "derived", "d");

  const film = trialWorth(trialTable.film);
  const hand = "by hand: 0.35 . 0.9 . 20 - 0.65 . 0.05 . 4 - 1.5";
  add("trial.value.film stop", "trial worth", 0.3475, film.stop, { share: 1e-12 }, hand);
  add("trial.value.film saved", "trial worth", 4.67, film.saved, { share: 1e-12 }, hand, "derived", "d");
  add(
    "trial.value.film cost per stop",
    "trial worth",
    4.316547,
    trialTable.film.cost / film.stop,
    { share: 1e-6 },
    hand,
    "derived",
    "d",
  );
  for (const [name, stop, saved] of [
    ["tooth", 0.14, 0.79],
    ["nip", 0.24, 0.68],
    ["sag", 0.3, -0.4],
    ["whole", 0.34, -9.92],
  ] as const) {
    const got = trialWorth(trialTable[name]);
    add(`trial.value.${name} stop`, "trial worth", stop, got.stop, { within: 1e-9 }, `${sureNotes}, 5`, "derived");
    add(
      `trial.value.${name} saved`,
      "trial worth",
      saved,
      got.saved,
      { within: 1e-9 },
      `${sureNotes}, 5`,
      "derived",
      "d",
    );
  }
  const { tooth, nip } = trialTable;
  add(
    "trial order of the notes",
    "series worth",
    4.43,
    seriesWorth([tooth, nip, trialTable.film]),
    { printedTo: 0.01 },
    `${reviewNotes}, A4: by cost over P(stop)`,
    "derived",
    "d",
  );
  add(
    "trial order of the review",
    "series worth",
    5.57,
    seriesWorth([trialTable.film, tooth, nip]),
    { printedTo: 0.01 },
    `${reviewNotes}, A4: by saved over P(stop)`,
    "derived",
    "d",
  );
  // All that the table knows, whatever its range: the order itself is what is compared.
  const byStop = [tooth, nip, trialTable.film].sort((a, b) => trialWorth(b).perStop - trialWorth(a).perStop);
  add(
    "trial order by saved over P(stop)",
    "series worth",
    Math.max(...permutations([tooth, nip, trialTable.film]).map(seriesWorth)),
    seriesWorth(byStop),
    { share: 1e-12 },
    "the best of all six orders",
    "derived",
    "d",
  );
  for (const [name, perStop, perDay] of [
    ["film", 13.4, 3.1],
    ["tooth", 5.6, 1.6],
    ["nip", 2.8, 0.7],
  ] as const) {
    const got = trialWorth(trialTable[name]);
    add(
      `trial.value.${name} saved per stop`,
      "trial worth",
      perStop,
      got.perStop,
      { printedTo: 0.1 },
      `${reviewNotes}, A4`,
      "derived",
      "d",
    );
    add(
      `trial.value.${name} saved per day`,
      "trial worth",
      perDay,
      got.perDay,
      { printedTo: 0.1 },
      `${reviewNotes}, A4`,
    );
  }
  add(
    "trial dropped of the table",
    "rank trials",
    1,
    rankTrials(Object.values(trialTable), "first stop ends it").dropped.length,
    { within: 0 },
    "by hand: only the whole prototype stays below 0 up to twice its P",
    "derived",
  );

  const tables = "Raiffa and Schlaifer, Applied Statistical Decision Theory, tables of the unit loss";
  for (const [u, printed, step, exact] of [
    [0, 0.3989, 1e-4, 0.3989422804014327],
    [0.5, 0.1978, 1e-4, 0.19779655740130603],
    [1, 0.08332, 1e-5, 0.08331547058768629],
    [2, 0.008491, 1e-6, 0.00849070261682966],
    [3, 0.0003822, 1e-7, 0.00038215431704772835],
  ] as const) {
    add(`voi.unitloss ${u}`, "unit loss", printed, unitLoss(u), { printedTo: step }, tables, "memory");
    add(`voi.unitloss ${u}, exact`, "unit loss", exact, unitLoss(u), { share: 1e-11 }, countsProgram);
  }
  const venture = goOrNot({ works: 0.4, gain: 60, loss: 50 }, { passesGood: 0.9, passesBad: 0.2 });
  const byHand = "by hand: max(0, 24 - 30); 0.4 . 60; 0.36 . 60 - 0.12 . 50";
  add("voi.gonogo prior", "go or not", 0, venture.prior, { within: 1e-12 }, byHand, "derived", "d");
  add("voi.gonogo perfect", "go or not", 24, venture.perfect, { share: 1e-12 }, byHand, "derived", "d");
  add("voi.gonogo trial", "go or not", 15.6, venture.trial, { share: 1e-12 }, byHand, "derived", "d");
  const belief = { mean: 1, sd: 2 };
  add(
    "voi.normal perfect",
    "perfect information",
    0.39559311480261206,
    perfectInformation(belief),
    { share: 1e-10 },
    `s L1(|m|/s), ${countsProgram}`,
  );
  add(
    "voi.normal reading",
    "readings information",
    0.19964122837424575,
    readingsInformation(belief, 2),
    { share: 1e-10 },
    `s' = s^2/sqrt(s^2 + e^2), ${countsProgram}`,
  );
  return rows;
}
