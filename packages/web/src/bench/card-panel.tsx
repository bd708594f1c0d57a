import { type Card, figures, sayHowSure } from "@tapeworthy/core";
import { capital, cardAxis, toSvg, unitsInPrint } from "@tapeworthy/drawing";
import { Fragment, type KeyboardEvent, useMemo } from "react";
import { Written } from "../sheet/written.tsx";
import type { Typed } from "./typed.ts";

/** Fields for the readings of a card, and what they say while they are typed. Enter goes to the next field. */
export function Readings({ card, typed }: { readonly card: Card; readonly typed: Typed }) {
  const { method } = card;
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    if (event.key !== "Enter" || !(event.target instanceof HTMLInputElement)) return;
    event.preventDefault();
    const fields = [...event.currentTarget.querySelectorAll("input")];
    fields[fields.indexOf(event.target) + (event.shiftKey ? -1 : 1)]?.focus();
  };
  const units = [...new Set(method.entries.map((e) => e.unit))];
  return (
    <>
      <h3 className="part">
        Readings{" "}
        <span>
          {units.length === 1 && units[0] !== "" ? `${unitsInPrint(units[0]!)}; ` : ""}
          {typed.filled} of {typed.fields} typed; Enter goes on
        </span>
      </h3>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: its fields hear the key, which goes from one to the next */}
      <div className="readings" onKeyDown={onKeyDown}>
        {typed.cells.map((rows, piece) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a piece is its place on the card
          <fieldset key={`${piece + 1}`}>
            <legend>
              {capital(method.per)} {piece + 1}
            </legend>
            {groups(rows.length).map(([from, to]) => (
              <div
                key={from}
                className="group"
                style={{ gridTemplateRows: `repeat(${method.entries.length + 1}, auto)` }}
              >
                <span />
                {method.entries.map(({ symbol, name, unit }) => (
                  <span key={symbol} aria-hidden="true">
                    {name}
                    {unit === "" ? "" : `, ${unitsInPrint(unit)}`}
                  </span>
                ))}
                {rows.slice(from, to).map((row, k) => {
                  const reading = from + k;
                  return (
                    <Fragment key={`${reading + 1}`}>
                      <span className="no" aria-hidden="true">
                        {reading + 1}
                      </span>
                      {row.map((text, entry) => {
                        const { name, unit, symbol } = method.entries[entry]!;
                        return (
                          <input
                            key={symbol}
                            inputMode="decimal"
                            autoComplete="off"
                            aria-label={`${method.per} ${piece + 1}, reading ${reading + 1}, ${name}${unit === "" ? "" : `, ${unit}`}`}
                            value={text}
                            onChange={(event) => typed.put(piece, reading, entry, event.target.value)}
                          />
                        );
                      })}
                    </Fragment>
                  );
                })}
              </div>
            ))}
          </fieldset>
        ))}
        {method.settings.length > 0 ? (
          <details className="settings">
            <summary>The set-up, where it is another than drawn</summary>
            {method.settings.map((s) => (
              <label key={s.symbol}>
                {s.name}
                {s.unit === "" ? "" : `, ${s.unit}`}{" "}
                <input
                  inputMode="decimal"
                  autoComplete="off"
                  placeholder={figures(s.usual, 4)}
                  value={typed.settings[s.symbol] ?? ""}
                  onChange={(event) => typed.set(s.symbol, event.target.value)}
                />
              </label>
            ))}
          </details>
        ) : null}
      </div>
      {typed.why === undefined ? null : (
        <p className="warning" role="alert">
          {typed.why}
        </p>
      )}
    </>
  );
}
/** Readings stand side by side, so many as the panel has room for. */
const groups = (n: number): (readonly [from: number, to: number])[] =>
  Array.from({ length: Math.ceil(n / across) }, (_, i) => [i * across, Math.min(n, (i + 1) * across)] as const);
const across = 5;

/** What the readings say: value, what its uncertainty is made of, and where it stands on the axis of what it decides. */
export function Says({ card, typed, width }: { readonly card: Card; readonly typed: Typed; readonly width: number }) {
  const { answer, stand } = typed;
  const { decides } = card;
  const axis = useMemo(
    () =>
      decides && !decides.decisive.words
        ? toSvg(cardAxis(decides, { width, shownIn: card.shownIn, ...(answer ? { answer } : {}) }), { prefix: "axis" })
        : "",
    [decides, card.shownIn, answer, width],
  );
  return (
    <>
      {axis === "" ? null : (
        <>
          <h3 className="part">
            Against what it decides <span>{`${decides!.check} of ${decides!.unit} on ${decides!.tape}`}</span>
          </h3>
          <Written html={axis} />
        </>
      )}
      {stand ? <p className="small">{unitsInPrint(stand.says)}</p> : null}
      {answer ? (
        <details className="parts">
          <summary>How sure: {unitsInPrint(sayHowSure(answer))}</summary>
          <table>
            <caption className="unseen">What the uncertainty is made of</caption>
            <tbody>
              {[...answer.parts]
                .filter((p) => p.u > 0)
                .sort((a, b) => b.u - a.u)
                .map((p) => (
                  <tr key={p.name}>
                    <th scope="row">{p.name}</th>
                    <td>{unitsInPrint(p.words)}</td>
                  </tr>
                ))}
            </tbody>
          </table>
        </details>
      ) : null}
      {answer?.warnings.map((w) => (
        <p key={w} className="warning small">
          {w}
        </p>
      ))}
    </>
  );
}
