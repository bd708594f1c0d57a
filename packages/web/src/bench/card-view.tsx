import { type Card, showIn } from "@tapeworthy/core";
import { cardArticle } from "@tapeworthy/report";
import { useMemo } from "react";
import { version } from "../version.ts";
import type { BenchView } from "./bench-sheet.tsx";
import { Paper } from "./paper.tsx";

/** The measuring card as the page it is printed on. */
export function CardView({
  view,
  card,
  revision,
  frozenOf,
}: {
  readonly view: BenchView;
  readonly card: Card;
  readonly revision: string | undefined;
  /** The trial whose prediction stands in its foot. */
  readonly frozenOf: string;
}) {
  const { state, bench, question, choose, trial } = view;
  const frozen = bench?.frozen.findLast((f) => f.trial === frozenOf || f.trial === trial?.name);
  const html = useMemo(() => {
    const said = frozen?.predicted;
    const shown =
      said && frozen.question === question
        ? `${showIn(card.shownIn, said.median)}, ${showIn(card.shownIn, said.low)} to ${showIn(card.shownIn, said.high)}`
        : undefined;
    return cardArticle(card, {
      project: state.project?.name ?? "",
      version,
      ...(revision ? { revision } : {}),
      ...(frozen && shown
        ? { frozen: { [card.address ?? card.id]: { hash: frozen.sha, date: frozen.date, predicted: shown } } }
        : {}),
      font: () => "",
    });
  }, [card, state.project?.name, revision, frozen, question]);
  return (
    <section className="card-lies scrolls" aria-label={`Measuring card: ${card.asks}`} tabIndex={-1}>
      <p className="over-card">
        <button type="button" className="btn quiet" onClick={() => choose({ card: false })}>
          Back to the questions <kbd>Esc</kbd>
        </button>
      </p>
      <Paper html={html} />
    </section>
  );
}
