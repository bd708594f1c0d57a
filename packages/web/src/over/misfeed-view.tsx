import { figures, type Importance, leastRate, type Misfeeds, type ModeRate } from "@tapeworthy/core";
import { misfeedInput, misfeedRates, misfeedWords, perMillion, sayPart, toSvg } from "@tapeworthy/drawing";
import { useMemo } from "react";
import type { Answering } from "../ask/use-answer.ts";
import type { Choice } from "../sheet/choice.ts";
import type { Choose } from "../sheet/sheet.tsx";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import { Sharpening } from "./sharpening.tsx";
import { type Link, ToNumber } from "./to-number.tsx";

/** How often an index goes wrong: rates drawn, then each mode with what makes it and what to measure. */
export function MisfeedView({
  misfeeds,
  answering,
  choice,
  choose,
  link,
}: {
  readonly misfeeds: Misfeeds;
  readonly answering: Answering;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly link: Link;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const { unit = "", tape = "" } = choice;
  const input = useMemo(() => misfeedInput(misfeeds, { unit, tape }), [misfeeds, unit, tape]);
  const drawn = useMemo(
    () => size && toSvg(misfeedRates(input, { width: size.width }), { prefix: "misfeed" }),
    [input, size],
  );
  return (
    <div className="scrolls sure" tabIndex={-1}>
      <Sharpening answering={answering} />
      <div className="two">
        <div ref={ref}>
          <Written html={drawn ?? ""} zoom={size?.zoom} />
        </div>
        <section className="tw-panel" aria-label="Misfeeds in words">
          <Words misfeeds={misfeeds} />
          <h3 className="part">
            By mode <span>the likeliest first</span>
          </h3>
          {input.modes.map(({ key }) => (
            <Mode key={key} mode={misfeeds.modes.find((m) => m.id === key)!} choose={choose} link={link} />
          ))}
          {misfeeds.notJudged.length > 0 ? (
            <p className="small">Not judged here, for want of a member: {misfeeds.notJudged.join(", ")}.</p>
          ) : null}
        </section>
      </div>
      <p className="unseen" role="status">
        {misfeedWords(input)}
      </p>
    </div>
  );
}
const said = (p: number): string => (p < leastRate ? `under ${perMillion(leastRate)}` : perMillion(p));
const chance = (p: number): string => (p > 0 && p < 1e-4 ? "under 0.01 %" : p > 1 - 1e-4 ? "over 99.99 %" : sayPart(p));

function Words({ misfeeds: m }: { readonly misfeeds: Misfeeds }) {
  return (
    <>
      <h2 className="headline">
        {said(m.rate)} in a million{m.allowance === undefined ? "" : `; ${perMillion(m.allowance)} are allowed`}
      </h2>
      <p>
        Believed between {said(m.belief.low)} and {said(m.belief.high)}, from {m.draws} draws of belief.{" "}
        {m.allowance === undefined
          ? "The project states no misfeed allowance."
          : `Over the allowance in ${chance(m.beliefOver ?? 0)} of belief; ${chance(m.unitsOver ?? 0)} of units are.`}
      </p>
      <p className="small">
        The median pair of unit and reel: {said(m.medianPair)}; nine in ten below {said(m.pair90)}. A pair drawn at
        random runs 10 000 indexes clean with chance {chance(m.clean1e4)}, 100 000 with {chance(m.clean1e5)}.{" "}
        {capital(m.words)}. A broken window counts as a misfeed, and several windows are drawn on the safe side: these
        are upper bounds.
      </p>
    </>
  );
}

function Mode({ mode, choose, link }: { readonly mode: ModeRate; readonly choose: Choose; readonly link: Link }) {
  const { title, rate, belief, blames, checks, said: how, words, importances, measure, levels, letter, atPoint } = mode;
  const none = rate < leastRate && belief.high < leastRate;
  return (
    <details className={none ? "mode quiet" : "mode"}>
      <summary>
        <span className="name">{capital(title)}</span>
        <span className="figure">
          {how === "cannot fail as drawn" && none
            ? "cannot fail as drawn"
            : none
              ? said(0)
              : `${said(rate)} (${said(belief.low)} to ${said(belief.high)})`}
        </span>
      </summary>
      <p className="small">
        {capital(blames)}; windows of{" "}
        {checks.map((check, i) => (
          <span key={check}>
            {i > 0 ? ", " : ""}
            <button type="button" className="link" onClick={() => choose({ check, panel: "finding", over: undefined })}>
              {check}
            </button>
          </span>
        ))}
        . {capital(words)}.
        {atPoint ? ` The model itself at the failing point is ${figures(atPoint.sds)} standard deviations off.` : ""}
        {letter ? ` Worst letter: ${letter}.` : ""}
      </p>
      {importances.length > 0 ? (
        <>
          <p className="small">
            Whose scatter:{" "}
            {(["index", "reel", "unit"] as const).map((l) => `each ${l} ${sayPart(levels[l])}`).join(", ")}.
          </p>
          <table className="inputs">
            <tbody>
              {importances.slice(0, 8).map((one: Importance) => (
                <tr key={`${one.address} ${one.level}`}>
                  <td>
                    <ToNumber address={one.address} link={link} />
                  </td>
                  <td>{one.text}</td>
                  <td>
                    <abbr title={letterWords[one.letter]}>{one.letter}</abbr>, each {one.level}
                  </td>
                  <td className="num">{sayPart(one.share)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      ) : null}
      {measure && !none ? (
        <p>
          Measure <ToNumber address={measure.address} link={link} /> ({measure.text}): it carries{" "}
          {sayPart(measure.carries)} of what is not known of this rate.
        </p>
      ) : null}
    </details>
  );
}
const letterWords = { m: "measured", d: "drawing or standard", g: "guess or memory" } as const;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
