import { chanceBar, type QuestionRow, type QuestionRows, sayAddress, toSvg } from "@tapeworthy/drawing";
import { type KeyboardEvent, useMemo } from "react";
import type { TrialView } from "../ask/bench-answers.ts";
import type { Answering } from "../ask/use-answer.ts";
import { Sharpening } from "../over/sharpening.tsx";
import { Written } from "../sheet/written.tsx";
import type { BenchView } from "./bench-sheet.tsx";

/** Open questions in their order, then the trials that there are. One stop of the Tab key each; arrows go from row to row, Enter opens the card. */
export function Questions({
  view,
  rows,
  ranking,
}: {
  readonly view: BenchView;
  readonly rows: QuestionRows | undefined;
  readonly ranking: Answering | undefined;
}) {
  const { state, choose, question } = view;
  const all = rows ? [...rows.ranked, ...rows.open, ...rows.dropped] : [];
  const stop = all.some((q) => q.address === question) ? question : all[0]?.address;
  const choosing = (address: string, how: "step" | "replace" = "step"): void =>
    choose({ question: address, trial: undefined, run: undefined }, how);
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    const row = (event.target as Element).closest<HTMLElement>("tr[data-address]");
    if (!row || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Enter") {
      event.preventDefault();
      choose({ question: row.dataset.address, trial: undefined, run: undefined, card: true });
      return;
    }
    const to = rowFrom(event.currentTarget, row, event.key);
    if (!to) return;
    event.preventDefault();
    to.focus();
    choosing(to.dataset.address!, "replace");
  };
  return (
    <section className="questions scrolls" aria-label="Open questions" onKeyDown={onKeyDown}>
      <h2 className="ttl">
        Open questions <span>{rows?.order ?? ""}</span>
      </h2>
      {ranking && (ranking.progress || ranking.stopped) ? <Sharpening answering={ranking} /> : null}
      {ranking?.bug ? <p className="warning">This went wrong: {ranking.bug}.</p> : null}
      {all.length > 0 ? (
        <table className="q">
          <caption className="unseen">Open questions, the first to be asked first</caption>
          <thead>
            <tr>
              <th scope="col">
                <span className="unseen">Rank</span>
              </th>
              <th scope="col">Question</th>
              <th scope="col">Chance it fails</th>
              <th scope="col" className="num">
                Days saved
              </th>
              <th scope="col">Cheapest way</th>
            </tr>
          </thead>
          <tbody>
            {(rows?.ranked ?? []).map((q) => (
              <Row key={q.address} row={q} on={q.address === question} stop={q.address === stop} choose={choosing} />
            ))}
          </tbody>
          <Group
            title="Open: its worth changes sign"
            why={rows?.groups.open}
            list={rows?.open}
            {...{ question, stop, choosing }}
          />
          <Group
            title="Not worth asking now"
            why={rows?.groups.dropped}
            list={rows?.dropped}
            {...{ question, stop, choosing }}
          />
        </table>
      ) : (
        <p className="says">
          {state.errors.length > 0
            ? "Questions are ranked as soon as the files read again."
            : rows
              ? rows.lead
              : state.pairs.length === 0 && state.project
                ? "No tape is wanted yet, so there is nothing to ask: name tapes under wanted in project.yaml."
                : "The wanted pairs are being worked out: questions come with them."}
        </p>
      )}
      {rows && rows.settled !== "" ? (
        <p className="src">
          <b>Settled</b> {rows.settled}
        </p>
      ) : null}
      <Trials view={view} />
    </section>
  );
}
function Group({
  title,
  why,
  list,
  question,
  stop,
  choosing,
}: {
  readonly title: string;
  readonly why: string | undefined;
  readonly list: readonly QuestionRow[] | undefined;
  readonly question: string | undefined;
  readonly stop: string | undefined;
  readonly choosing: (address: string) => void;
}) {
  if (!list || list.length === 0) return null;
  return (
    <tbody>
      <tr className="group">
        <th colSpan={5} scope="rowgroup">
          {title} <small>{why}</small>
        </th>
      </tr>
      {list.map((q) => (
        <Row key={q.address} row={q} on={q.address === question} stop={q.address === stop} choose={choosing} />
      ))}
    </tbody>
  );
}
function Row({
  row,
  on,
  stop,
  choose,
}: {
  readonly row: QuestionRow;
  readonly on: boolean;
  readonly stop: boolean;
  readonly choose: (address: string) => void;
}) {
  const bar = useMemo(
    () => toSvg(chanceBar(row.chance), { prefix: `chance-${row.address.replace(/\W+/g, "-")}` }),
    [row],
  );
  return (
    <tr
      className={on ? "on" : ""}
      data-address={row.address}
      tabIndex={stop ? 0 : -1}
      aria-current={on ? "true" : undefined}
      onClick={() => choose(row.address)}
    >
      <td className="num">{row.number ?? ""}</td>
      <th scope="row">
        {row.asks}
        <small>
          decides {row.decides}
          {row.after.length > 0 ? `; first ${row.after.map(({ words }) => words).join(", ")}` : ""}
        </small>
      </th>
      <td className="chance">
        <Written html={bar} /> {row.chanceWords}
      </td>
      <td className="num">
        {row.saved}
        <small>{row.range}</small>
      </td>
      <td>
        {row.by.words}
        <small>{row.by.takes}</small>
      </td>
    </tr>
  );
}
const stateWords: Readonly<Record<TrialView["state"], string>> = {
  used: "waits",
  taken: "taken into belief",
  retired: "retired",
  apart: "kept apart",
  "in the design": "in the design",
  "nothing yet": "nothing read yet",
};
function Trials({ view }: { readonly view: BenchView }) {
  const { bench, choose, trial, choice } = view;
  if (!bench || bench.trials.length === 0) return null;
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    const row = (event.target as Element).closest<HTMLElement>("tr[data-trial]");
    const to = row && rowFrom(event.currentTarget, row, event.key);
    if (!to) return;
    event.preventDefault();
    to.focus();
    choose({ trial: to.dataset.trial, question: undefined, run: undefined }, "replace");
  };
  const stop = trial?.name ?? bench.trials[0]!.name;
  return (
    <>
      <h2 className="ttl">
        Trials <span>what was tried, and where it stands</span>
      </h2>
      <table className="q trials" onKeyDown={onKeyDown}>
        <caption className="unseen">Trials</caption>
        <tbody>
          {bench.trials.map((t) => (
            <tr
              key={t.name}
              data-trial={t.name}
              className={t.name === trial?.name && choice.trial === t.name ? "on" : ""}
              aria-current={t.name === trial?.name ? "true" : undefined}
              tabIndex={t.name === stop ? 0 : -1}
              onClick={() => choose({ trial: t.name, question: undefined, run: undefined })}
            >
              <th scope="row" className="name">
                {t.name}
              </th>
              <td>
                {sayAddress(t.question)}
                <small>
                  {t.unit} on {t.tape}
                  {t.date ? `, ${t.date}` : ""}
                </small>
              </td>
              <td className={`standing ${t.state === "retired" ? "is-fail" : t.state === "used" ? "is-hand" : ""}`}>
                {t.waits === undefined ? stateWords[t.state] : `waits: ${t.waits}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
/** The row that an arrow key leads to, among those of its kind. */
export function rowFrom(host: Element, row: HTMLElement, key: string): HTMLElement | undefined {
  const kind = row.dataset.trial === undefined ? "tr[data-address]" : "tr[data-trial]";
  const all = [...host.querySelectorAll<HTMLElement>(kind)];
  const at = all.indexOf(row);
  switch (key) {
    case "ArrowDown":
      return all[at + 1];
    case "ArrowUp":
      return all[at - 1];
    case "Home":
      return all[0];
    case "End":
      return all.at(-1);
    default:
      return undefined;
  }
}
