import type { Card } from "@tapeworthy/core";
import { cardPicture, sayAddress, toSvg, trialPieceDrawing, trialPieceRows } from "@tapeworthy/drawing";
import { useMemo } from "react";
import type { TrialAnswer } from "../ask/bench-answers.ts";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import type { BenchView } from "./bench-sheet.tsx";
import { sayMinutes } from "./say-minutes.ts";

/** What would settle the chosen question: its card in small, and the piece of the unit that a trial of it keeps. */
export function Piece({
  view,
  card,
  tried,
}: {
  readonly view: BenchView;
  readonly card: Card | undefined;
  /** The trial that is chosen, as far as it has been looked at. */
  readonly tried: TrialAnswer | undefined;
}) {
  const { questions, question, shapes, choose, trial } = view;
  const all = questions ? [...questions.ranked, ...questions.open, ...questions.dropped] : [];
  const asked = all.find((q) => q.address === question);
  const cut = tried?.trial === trial?.name ? tried?.cut : undefined;
  const worst = cut && tried ? tried : asked?.hangs[0];
  const piece = cut?.piece ?? asked?.piece ?? undefined;
  const shape = cut?.shape ?? (worst && shapes[`${worst.unit} ${worst.tape}`]);
  const [ref, size] = useSize<HTMLDivElement>();
  const height = Math.max(140, Math.min(230, Math.round((size?.width ?? 300) * 0.6)));
  const showsPiece = piece !== undefined && shape !== undefined;
  const svg = useMemo(() => {
    if (!size) return "";
    if (showsPiece) return toSvg(trialPieceDrawing(shape, piece, { width: size.width, height }), { prefix: "piece" });
    return card ? toSvg(cardPicture(card, { width: size.width }), { prefix: "set-up" }) : "";
  }, [size, shape, piece, card, height, showsPiece]);
  const rows = useMemo(() => {
    if (!piece) return [];
    const way = asked?.trials.find((t) => t.kind === "trial piece");
    const settles = asked
      ? asked.hangs
          .slice(0, 3)
          .map((h) => `${h.check} on ${h.tape}`)
          .join(", ")
      : undefined;
    return trialPieceRows(piece, {
      ...(settles ? { settles } : {}),
      ...(way
        ? {
            run: `${Number(way.cost.toPrecision(2))} ${way.cost === 1 ? "day" : "days"}; a failing design is caught in ${Math.round(100 * way.catches)} %`,
          }
        : {}),
    });
  }, [piece, asked]);
  return (
    <section className="piece scrolls" aria-label="What settles it" tabIndex={card ? undefined : 0}>
      <h2 className="ttl">
        {showsPiece ? "Trial piece" : card ? "Measuring card" : trial ? `Trial ${trial.name}` : "What settles it"}{" "}
        <span>{showsPiece && worst ? `cut out of ${worst.unit}, with ${worst.tape}` : (card?.id ?? "")}</span>
      </h2>
      <div className="cut" ref={ref}>
        <Written html={svg} zoom={size?.zoom} />
      </div>
      {trial && (cut || rows.length === 0) ? (
        <dl>
          {[
            ["Tries", sayAddress(trial.question)],
            ["On", `${trial.unit} with ${trial.tape}`],
            ["Built", trial.built ?? "not said"],
            ["Run", trial.date ?? "not yet"],
          ].map(([term, words]) => (
            <div key={term}>
              <dt>{term}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      ) : null}
      {rows.length > 0 ? (
        <dl>
          {rows.map(({ term, words }) => (
            <div key={term}>
              <dt>{term}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      ) : null}
      {card ? (
        <>
          <p className="acts">
            <button type="button" className="btn solid" onClick={() => choose({ question, card: true })}>
              Open the card <kbd>Enter</kbd>
            </button>
            <span className="small">
              {card.id}, {sayMinutes(card.method.minutes)}, {card.method.cost}
            </span>
          </p>
          <p className="src caution">
            <span className="mark" aria-hidden="true">
              !
            </span>
            <span>{card.cautions.join(" ")}</span>
          </p>
        </>
      ) : (
        <p className="src">
          {asked?.noCard
            ? `Nobody measures it: ${asked.noCard}.`
            : question === undefined
              ? "Choose a question: here stands what would settle it."
              : "No card measures it: a check is tried by a trial, and its log is read below."}
        </p>
      )}
    </section>
  );
}
