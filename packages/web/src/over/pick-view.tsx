import {
  type Accuracy,
  type AccuracyBand,
  type Contribution,
  type FamilyYield,
  figures,
  showIn,
} from "@tapeworthy/core";
import {
  pickPlan,
  pickPlanInput,
  pickPlanWords,
  pickShares,
  pickSharesInput,
  pickSharesWords,
  sayPart,
  toSvg,
  unitsInPrint,
} from "@tapeworthy/drawing";
import { useMemo } from "react";
import type { Answering } from "../ask/use-answer.ts";
import type { Choose } from "../sheet/sheet.tsx";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import { Sharpening } from "./sharpening.tsx";
import { type Link, ToNumber } from "./to-number.tsx";

/** Where parts come to lie at the pick, who makes the spread, what fits which package, what would narrow it. */
export function PickView({
  accuracy: a,
  answering,
  choose,
  link,
}: {
  readonly accuracy: Accuracy;
  readonly answering: Answering;
  readonly choose: Choose;
  readonly link: Link;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const [barsRef, barsSize] = useSize<HTMLDivElement>();
  const plan = useMemo(() => pickPlanInput(a), [a]);
  const bars = useMemo(() => pickSharesInput(a), [a]);
  const planSvg = useMemo(
    () => size && toSvg(pickPlan(plan, { width: size.width }), { prefix: "pick-plan" }),
    [plan, size],
  );
  const barsSvg = useMemo(
    () => barsSize && toSvg(pickShares(bars, { width: barsSize.width }), { prefix: "pick-shares" }),
    [bars, barsSize],
  );
  return (
    <div className="scrolls sure" tabIndex={-1}>
      <Sharpening answering={answering} />
      <div className="two">
        <div ref={ref}>
          <Written html={planSvg ?? ""} zoom={size?.zoom} />
        </div>
        <section className="tw-panel" aria-label="The pick in words">
          <Words a={a} />
          <div ref={barsRef}>
            <Written html={barsSvg ?? ""} zoom={barsSize?.zoom} />
          </div>
          <Yields yields={a.yields} />
          <Narrowing a={a} link={link} />
          <Inputs a={a} link={link} />
          <Terms a={a} choose={choose} />
        </section>
      </div>
      <p className="unseen" role="status">
        {pickPlanWords(plan)} {pickSharesWords(bars)}
      </p>
    </div>
  );
}
const mm = (v: number): string => showIn("mm", v);
/** Below half a micrometre a mean is dust of the draws. */
const um = (v: number): string => unitsInPrint(showIn("um", v));
const dustless = (v: number): string => (Math.abs(v) < 0.5e-6 ? "0 µm" : um(v));
const believed = ({ low, high }: AccuracyBand): string => `believed ${mm(low)} to ${mm(high)}`;
const percentOf = (share: number): string => `${+(share * 100).toPrecision(6)} %`;
/** As many nines as there are, and one figure more. */
export function nines(v: number): string {
  if (v >= 1) return "all drawn";
  const digits = v > 0.5 ? Math.min(6, Math.max(0, Math.ceil(-Math.log10(1 - v)) - 1)) : 0;
  return `${(v * 100).toFixed(digits)} %`;
}
const taught = {
  none: "the place is not taught",
  "one point": "the place is taught once, with another reel",
  "two points": "the place is taught cold and warm",
} as const;

function Words({ a }: { readonly a: Accuracy }) {
  const { any, known, unitMean } = a.radii;
  const deciding = any ?? known;
  const over = a.takes !== null && deciding.middle > a.takes;
  return (
    <>
      <h2 className="headline">
        {percentOf(a.share)} of parts lie within {mm(deciding.middle)} of the mark
        {a.takes === null ? "" : `; the tool takes ${mm(a.takes)}${over ? ", which is too little" : ""}`}
      </h2>
      <table className="inputs">
        <tbody>
          {any ? (
            <tr>
              <td>any cycle of any unit</td>
              <td className="num">{mm(any.middle)}</td>
              <td>{believed(any)}</td>
            </tr>
          ) : null}
          <tr>
            <td>a known unit and reel</td>
            <td className="num">{mm(known.middle)}</td>
            <td>{believed(known)}</td>
          </tr>
          {unitMean ? (
            <tr>
              <td>a unit's mean, before its place is taught</td>
              <td className="num">{mm(unitMean.middle)}</td>
              <td>{believed(unitMean)}</td>
            </tr>
          ) : null}
        </tbody>
      </table>
      <p className="small">
        {a.how === "closed" ? "In closed form so far" : `From ${a.draws} draws`}; {taught[a.calibration]}. In the mean{" "}
        {dustless(a.offset.x)} off along the travel and {dustless(a.offset.y)} across.
        {a.turn ? ` Parts turn by ${showIn("deg", a.turn.sd)} (one standard deviation).` : ""}
        {a.height ? ` Their height varies by ${mm(3 * a.height.sd)} either way (three).` : ""}
        {a.agreement ? ` Drawn over closed form: ${figures(a.agreement.ratio, 3)}.` : ""}
      </p>
    </>
  );
}
function Yields({ yields }: { readonly yields: readonly FamilyYield[] }) {
  if (yields.length === 0) return null;
  return (
    <>
      <h3 className="part">
        Parts on the tool, by package <span>what the tool forgives: common practice, no source</span>
      </h3>
      <table className="inputs">
        <tbody>
          {yields.map((y) => (
            <tr key={y.family}>
              <td>{y.family}</td>
              <td>within {mm(y.radius)}</td>
              <td className="num">{nines(y.any.middle)}</td>
              <td>
                {y.cpk === null
                  ? ""
                  : `Cpk ${figures(y.cpk, 2)}${y.interval ? ` (${figures(y.interval[0], 2)} to ${figures(y.interval[1], 2)} from ${y.n} parts)` : ""}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
function Narrowing({ a, link }: { readonly a: Accuracy; readonly link: Link }) {
  if (a.how === "closed") return null;
  return (
    <>
      <h3 className="part">What would narrow it</h3>
      {a.narrowing.length === 0 ? <p className="small">No number of the unit's file by a step of its own.</p> : null}
      <ul className="plain">
        {a.narrowing.map((n) => (
          <li key={n.address}>
            <ToNumber address={n.address} link={link} />: {showIn(n.shownIn, n.from, 3)} to {showIn(n.shownIn, n.to, 3)}
            ; radius {showIn("mm", n.before, 3)} to {showIn("mm", n.after, 3)}
            {n.falls.length > 0 ? `; falls: ${n.falls.join(", ")}` : ""}
          </li>
        ))}
      </ul>
    </>
  );
}
const letterWords = { m: "measured", d: "drawing or standard", g: "guess or memory" } as const;
function Inputs({ a, link }: { readonly a: Accuracy; readonly link: Link }) {
  return (
    <details className="mode">
      <summary>
        <span className="name">Every input, with its letter and level</span>
        <span className="figure">{a.contributions.length}</span>
      </summary>
      <table className="inputs">
        <tbody>
          {a.contributions.map((c: Contribution) => (
            <tr key={`${c.address} ${c.level}`}>
              <td>
                <ToNumber address={c.address} link={link} />
              </td>
              <td>{c.text}</td>
              <td>
                <abbr title={letterWords[c.letter]}>{c.letter}</abbr>, each {c.level}
                {c.actsTogether ? ", acts together with others" : ""}
              </td>
              <td className="num">{sayPart(c.share)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small">
        {a.sharesBy === "linear"
          ? "Shares by first differences."
          : a.sharesBy === "additive"
            ? "The inputs add up: shares are exact."
            : "Shares by draws, each input's with all it does together with others."}
      </p>
    </details>
  );
}
function Terms({ a, choose }: { readonly a: Accuracy; readonly choose: Choose }) {
  const left = a.terms.filter((t) => t.left !== null);
  return (
    <details className="mode">
      <summary>
        <span className="name">The terms of the chain</span>
        <span className="figure">{a.terms.length - left.length}</span>
      </summary>
      <table className="inputs">
        <tbody>
          {a.terms
            .filter((t) => t.left === null)
            .flatMap((t) =>
              t.parts.map((p, i) => (
                <tr key={`${p.id} ${p.axis}`}>
                  <td>{i === 0 ? t.title : ""}</td>
                  <td>
                    {p.symbol} = {p.equation}
                  </td>
                  <td>
                    {p.axis}, each {p.level}
                    {p.trims ? ", trims out" : ""}
                  </td>
                  <td className="num">
                    {p.value === null ? "" : p.axis === "turn" ? showIn("mrad", p.value) : um(p.value)}
                  </td>
                </tr>
              )),
            )}
        </tbody>
      </table>
      {left.length > 0 ? (
        <p className="small">Not in it: {left.map((t) => `${t.title} (${t.left})`).join("; ")}.</p>
      ) : null}
      <p className="small">
        <button
          type="button"
          className="link"
          onClick={() => choose({ check: "pick.radius", panel: "finding", over: undefined })}
        >
          pick.radius
        </button>{" "}
        holds the radius of one pair against what the tool takes.
      </p>
    </details>
  );
}
