/** What is chosen: which sheet, a unit on a tape, the finding that is open, what is unfolded, what lies on the bench, the line of text that is shown. */
export interface Choice {
  readonly sheet: SheetName;
  readonly unit: string | undefined;
  readonly tape: string | undefined;
  readonly check: string | undefined;
  readonly panel: Panel;
  readonly over: Over | undefined;
  /** The text beside the drawing: a file, and the line or the number in it that is meant. */
  readonly text: TextChoice | undefined;
  /** The numbers of a sweep, by address; what is left out is the first that the check rests on. */
  readonly sweep: SweepChoice | undefined;
  /** On the bench: a question by its address or check, a trial by its name, a run of it by its number. */
  readonly question: string | undefined;
  readonly trial: string | undefined;
  readonly run: number | undefined;
  /** The measuring card of the question lies open. */
  readonly card: boolean;
}
export const sheetNames = ["unit", "bench"] as const;
export type SheetName = (typeof sheetNames)[number];
export interface SweepChoice {
  readonly along?: string;
  readonly second?: string;
}
export const panels = ["known", "finding", "moved", "questions"] as const;
export type Panel = (typeof panels)[number];
export const overs = ["finding", "ladder", "compare", "sweep", "index", "pick", "misfeed", "size"] as const;
export type Over = (typeof overs)[number];
export interface TextChoice {
  readonly file: string;
  readonly address?: string;
  readonly line?: number;
}

export const nothingChosen: Choice = {
  sheet: "unit",
  unit: undefined,
  tape: undefined,
  check: undefined,
  panel: "known",
  over: undefined,
  text: undefined,
  sweep: undefined,
  question: undefined,
  trial: undefined,
  run: undefined,
  card: false,
};

/** The choice as the part of the page's address behind its "#": it can be kept, sent and gone back to. */
export function hashOf({ unit, tape, check, panel, over, text, sweep, ...bench }: Choice): string {
  const path = [unit, tape, check].filter((one) => one !== undefined).map(encodeURIComponent);
  const more = new URLSearchParams();
  if (bench.sheet !== "unit") more.set("sheet", bench.sheet);
  if (bench.question !== undefined) more.set("question", bench.question);
  if (bench.trial !== undefined) more.set("trial", bench.trial);
  if (bench.run !== undefined) more.set("run", `${bench.run}`);
  if (bench.card) more.set("card", "open");
  if (panel !== (check === undefined ? "known" : "finding")) more.set("panel", panel);
  if (over) more.set("over", over);
  if (text) more.set("text", text.file);
  if (text?.address !== undefined) more.set("at", text.address);
  if (text?.line !== undefined) more.set("line", `${text.line}`);
  if (sweep?.along) more.set("along", sweep.along);
  if (sweep?.second) more.set("second", sweep.second);
  const query = more.toString();
  return `#${path.join("/")}${query === "" ? "" : `?${query}`}`;
}

/** What an address means; what it does not name is left to the page. Words that are none of ours are passed over. */
export function choiceFrom(hash: string): Choice {
  const [path = "", query = ""] = hash.replace(/^#/, "").split("?", 2);
  const [unit, tape, check] = path.split("/").map((one) => {
    try {
      return one === "" ? undefined : decodeURIComponent(one);
    } catch {
      return undefined;
    }
  });
  const more = new URLSearchParams(query);
  const panel = panels.find((one) => one === more.get("panel"));
  const over = overs.find((one) => one === more.get("over"));
  const file = more.get("text");
  const address = more.get("at");
  const line = Number(more.get("line"));
  const [along, second] = [more.get("along"), more.get("second")];
  const run = Number(more.get("run"));
  return {
    sheet: sheetNames.find((one) => one === more.get("sheet")) ?? "unit",
    unit,
    tape,
    check,
    panel: panel ?? (check === undefined ? "known" : "finding"),
    over,
    text:
      file === null
        ? undefined
        : { file, ...(address === null ? {} : { address }), ...(Number.isInteger(line) && line > 0 ? { line } : {}) },
    sweep: along || second ? { ...(along ? { along } : {}), ...(second ? { second } : {}) } : undefined,
    question: more.get("question") ?? undefined,
    trial: more.get("trial") ?? undefined,
    run: Number.isInteger(run) && run > 0 ? run : undefined,
    card: more.get("card") === "open",
  };
}
