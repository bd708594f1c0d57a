import { ledgerRows, recordTally, shortName } from "@tapeworthy/drawing";
import { useMemo } from "react";
import type { BenchAnswer } from "../ask/bench-answers.ts";
import { Written } from "../sheet/written.tsx";

/** Predictions frozen before their trials, and what came of them; then the record of each check. */
export function LedgerTable({ bench, chosen }: { readonly bench: BenchAnswer; readonly chosen: string | undefined }) {
  const rows = useMemo(
    () =>
      ledgerRows({
        // What a prediction rests on has been counted: the table does not list it.
        frozen: bench.frozen.map((f) => ({ ...f, key: new Map() })),
        scores: bench.scores,
        taken: new Map(bench.taken),
        apart: new Map(bench.apart),
        shownIn: (question) => bench.shownIn[question],
      }),
    [bench],
  );
  return (
    <section className="tw-panel ledger" aria-label="Ledger">
      <h3 className="part">
        Ledger <span>frozen before the trial, scored after</span>
      </h3>
      {rows.length === 0 ? (
        <p className="small">
          Nothing frozen yet. A prediction made before the trial is what makes a verdict's record.
        </p>
      ) : (
        <table>
          <caption className="unseen">Predictions and what came of them</caption>
          <tbody>
            {rows.map((row) => (
              <tr key={row.id} data-ledger={row.id} className={row.trial === chosen ? "on" : ""}>
                <th scope="row">{row.trial}</th>
                <td>
                  {row.asks}: {row.said}
                  <small>
                    {row.id}, frozen {row.frozen}
                    {row.came === undefined ? "" : `; came out ${row.came}`}
                    {row.late === undefined ? "" : `; ${row.late}`}
                  </small>
                </td>
                <td className={`end ${row.standing === "missed" ? "is-fail" : ""}`}>
                  <b>{row.words}</b>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {bench.records.length > 0 ? (
        <table>
          <caption className="unseen">Record of the checks</caption>
          <tbody>
            {bench.records.map((r) => {
              const { svg, words } = recordTally(r);
              return (
                <tr key={r.check}>
                  <th scope="row">{shortName(r.check)}</th>
                  <td>its record over all units</td>
                  <td className="end tally">
                    <Written html={svg} /> {words}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      ) : null}
    </section>
  );
}
