import { type AsideCell, type SizedCell, type SizingResult, showShare } from "@tapeworthy/core";
import {
  leastGapMeans,
  type SizeSlider,
  sayAddress,
  sayGap,
  shortName,
  sizeFront,
  sizeFrontInput,
  sizeFrontWords,
  sizeRows,
  sizeRowsInput,
  sizeSliders,
  sizeStep,
  sizeWords,
  toSvg,
} from "@tapeworthy/drawing";
import { type KeyboardEvent, type PointerEvent, useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { Asker } from "../ask/asker.ts";
import type { SizeAnswer } from "../ask/sizing.ts";
import type { Answering } from "../ask/use-answer.ts";
import type { Engine, EngineState } from "../engine/engine.ts";
import type { Choose } from "../sheet/sheet.tsx";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import { Sharpening } from "./sharpening.tsx";

/**
 * Widen all windows: each free dimension with its bounds and its window, the trade, and the lines that would be written. A hand may put a dimension
 * anywhere within its bounds: the windows of all follow.
 */
export function SizeView({
  answer,
  answering,
  state,
  engine,
  asker,
  choose,
}: {
  readonly answer: SizeAnswer;
  readonly answering: Answering;
  readonly state: EngineState;
  readonly engine: Engine;
  readonly asker: Asker;
  readonly choose: Choose;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const [frontRef, frontSize] = useSize<HTMLDivElement>();
  const [shown, put, rest] = useHand(answer, answering, state, asker);
  const { unit, dimensions, result } = answer;
  const input = useMemo(() => sizeRowsInput(unit, dimensions, shown.at, shown.windows), [unit, dimensions, shown]);
  const drawn = useMemo(() => size && toSvg(sizeRows(input, { width: size.width }), { prefix: "size" }), [input, size]);
  const front = useMemo(() => result && sizeFrontInput(result), [result]);
  const frontSvg = useMemo(
    () => front && frontSize && toSvg(sizeFront(front, { width: frontSize.width }), { prefix: "size-front" }),
    [front, frontSize],
  );
  const sliders = useMemo(() => (size ? sizeSliders(input, { width: size.width }) : []), [input, size]);
  const zoom = size?.zoom ?? 1;
  if (dimensions.length === 0) return <NothingFree answer={answer} choose={choose} />;
  return (
    <div className="scrolls sure" tabIndex={-1}>
      <Sharpening answering={answering} />
      <div className="two">
        <div ref={ref} className="sized">
          <Written html={drawn ?? ""} zoom={size?.zoom} />
          <div className="handles" style={zoom === 1 ? undefined : { zoom }}>
            {sliders.map(({ address, handle, aria }, i) => (
              <Slider
                key={address}
                aria={aria}
                left={handle.at[0]}
                top={handle.at[1]}
                along={handle.along[0]}
                zoom={zoom}
                at={shown.at[i]!}
                least={dimensions[i]!.least}
                most={dimensions[i]!.most}
                step={sizeStep(dimensions[i]!, dimensions[i]!.grain)}
                onMove={(to) => put(i, to)}
                onRest={rest}
              />
            ))}
          </div>
        </div>
        <section className="tw-panel" aria-label="The trade">
          {result ? <Trade result={result} /> : <h2 className="headline">Windows as drawn</h2>}
          <div ref={frontRef}>
            <Written html={frontSvg ?? ""} zoom={frontSize?.zoom} />
          </div>
          {result ? <Cells result={result} choose={choose} /> : null}
          <Aside cells={answer.aside} choose={choose} />
          {result ? <WouldWrite answer={answer} state={state} engine={engine} choose={choose} /> : null}
        </section>
      </div>
      <p className="unseen" role="status">
        {sizeWords(input)} {front ? sizeFrontWords(front) : ""}
      </p>
    </div>
  );
}

interface Shown {
  readonly at: readonly number[];
  readonly windows: SizeAnswer["windows"];
}
/** Where a hand has put the dimensions; the windows follow as fast as they are worked out. */
function useHand(
  answer: SizeAnswer,
  { progress }: Answering,
  { texts, seed }: EngineState,
  asker: Asker,
): readonly [Shown, (i: number, to: number) => void, () => void] {
  const [hand, setHand] = useState<Shown & { readonly of: SizeAnswer }>();
  const wanted = useRef<readonly number[]>(undefined);
  const asking = useRef(false);
  const shown: Shown = hand?.of === answer ? hand : answer;
  const now = useRef(shown);
  now.current = shown;
  // While the search goes on its thread is busy: a hand may move, the windows come after.
  const busy = progress !== undefined;
  const ask = useCallback(
    (rests: boolean) => {
      if (asking.current || busy) return;
      const at = wanted.current;
      if (!at) return;
      wanted.current = undefined;
      asking.current = true;
      asker
        .ask({ texts: [...texts], seed }, { kind: "windows", unit: answer.unit, at, rests }, () => {})
        .then(
          (found) => {
            if (found.kind === "size")
              setHand((before) => ({
                of: answer,
                at: before?.of === answer ? before.at : at,
                windows: found.sizing.windows,
              }));
          },
          () => undefined,
        )
        .finally(() => {
          asking.current = false;
          if (wanted.current) ask(rests);
        });
    },
    [asker, answer, texts, seed, busy],
  );
  const put = useCallback(
    (i: number, to: number) => {
      const at = now.current.at.map((v, j) => (j === i ? to : v));
      wanted.current = at;
      now.current = { ...now.current, at };
      setHand({ of: answer, at, windows: now.current.windows });
      ask(false);
    },
    [answer, ask],
  );
  const rest = useCallback(() => {
    wanted.current = now.current.at;
    ask(true);
  }, [ask]);
  return [shown, put, rest];
}

function Slider({
  aria,
  left,
  top,
  along,
  zoom,
  at,
  least,
  most,
  step,
  onMove,
  onRest,
}: {
  readonly aria: SizeSlider["aria"];
  readonly left: number;
  readonly top: number;
  /** Pixels of the drawing for one of its unit, SI. */
  readonly along: number;
  readonly zoom: number;
  readonly at: number;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly onMove: (to: number) => void;
  readonly onRest: () => void;
}) {
  const hold = useRef<{ readonly x: number; readonly from: number }>(undefined);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);
  const go = (to: number): void => onMove(Math.max(least, Math.min(most, Math.round(to / step) * step)));
  const keyed = (event: KeyboardEvent): void => {
    const by = ways[event.key];
    const to =
      by !== undefined
        ? at + by * step * (event.shiftKey ? 10 : 1)
        : event.key === "Home"
          ? least
          : event.key === "End"
            ? most
            : undefined;
    if (to === undefined) return;
    event.preventDefault();
    go(to);
    clearTimeout(timer.current);
    timer.current = setTimeout(onRest, 400);
  };
  return (
    <div
      role="slider"
      aria-label={aria["aria-label"]}
      aria-orientation="horizontal"
      aria-valuemin={aria["aria-valuemin"]}
      aria-valuemax={aria["aria-valuemax"]}
      aria-valuenow={aria["aria-valuenow"]}
      aria-valuetext={aria["aria-valuetext"]}
      className="handle size-slider"
      tabIndex={0}
      style={{ left, top }}
      onKeyDown={keyed}
      onPointerDown={(event: PointerEvent<HTMLDivElement>) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        hold.current = { x: event.clientX, from: at };
      }}
      onPointerMove={(event) => {
        const { current } = hold;
        if (current && along > 0) go(current.from + (event.clientX - current.x) / zoom / along);
      }}
      onPointerUp={() => {
        if (hold.current) onRest();
        hold.current = undefined;
      }}
      onPointerCancel={() => {
        hold.current = undefined;
      }}
    />
  );
}
const ways: Readonly<Record<string, 1 | -1 | undefined>> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };

const counted = (n: number, word: string): string => `${n} ${word}${n === 1 ? "" : "s"}`;
function Trade({ result: r }: { readonly result: SizingResult }) {
  const moved = r.dimensions.filter(({ by }) => by !== 0).length;
  const cells = [...r.pays, ...r.gains];
  const through = cells.filter(({ before, after }) => before.verdict !== "feeds" && after.verdict === "feeds").length;
  const lost = cells.filter(({ before, after }) => before.verdict === "feeds" && after.verdict !== "feeds").length;
  return (
    <>
      <h2 className="headline">
        {moved === 0
          ? "No move buys anything"
          : `${counted(moved, "dimension")} ${moved === 1 ? "moves" : "move"}; ${counted(through, "cell")} ${through === 1 ? "comes" : "come"} through and ${lost === 0 ? "none breaks" : `${lost} ${lost === 1 ? "breaks" : "break"}`}`}
      </h2>
      <p>
        Least gap {sayGap(r.before.least)} to <b>{sayGap(r.after.least)}</b> standard deviations
        {r.after.tape === undefined ? "" : `, now set by ${r.after.tape}, ${shortName(r.after.check ?? "")}`}.{" "}
        {leastGapMeans} {counted(r.pays.length, "cell")} {r.pays.length === 1 ? "gives" : "give"} up some room for{" "}
        {r.gains.length} that {r.gains.length === 1 ? "gains" : "gain"}.{r.stopped ? " Stopped: the best so far." : ""}
      </p>
    </>
  );
}
function Cells({ result: { pays, gains }, choose }: { readonly result: SizingResult; readonly choose: Choose }) {
  return (
    <>
      <CellTable title="What pays" note="worst first" cells={pays} choose={choose} />
      <CellTable title="What gains" note="largest first" cells={gains} choose={choose} />
    </>
  );
}
const told = ({ verdict, share, margin }: SizedCell["before"]): string =>
  `${verdict === "depends" ? `depends ${showShare(share)}` : verdict} ${margin.toFixed(1).replace("-", "−")}`;
function CellTable({
  title,
  note,
  cells,
  choose,
}: {
  readonly title: string;
  readonly note: string;
  readonly cells: readonly SizedCell[];
  readonly choose: Choose;
}) {
  if (cells.length === 0) return null;
  return (
    <>
      <h3 className="part">
        {title} <span>{`${note}, of ${cells.length}`}</span>
      </h3>
      <table className="inputs">
        <tbody>
          {cells.slice(0, 6).map((cell) => (
            <tr key={`${cell.tape} ${cell.check}`}>
              <td>
                <Go cell={cell} choose={choose} />
              </td>
              <td className="num">
                {told(cell.before)} → {told(cell.after)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
function Go({
  cell,
  choose,
}: {
  readonly cell: { readonly tape: string; readonly check: string };
  readonly choose: Choose;
}) {
  return (
    <button
      type="button"
      className="link"
      onClick={() => choose({ tape: cell.tape, check: cell.check, panel: "finding", over: undefined })}
    >
      {cell.tape}, {shortName(cell.check)}
    </button>
  );
}
const whyWords = {
  guess: "hangs on a guess",
  unmoved: "no free dimension moves it",
  bounds: "out of reach within the bounds",
} as const;
function Aside({ cells, choose }: { readonly cells: readonly AsideCell[]; readonly choose: Choose }) {
  if (cells.length === 0) return null;
  return (
    <details className="mode">
      <summary>
        <span className="name">Set aside: no dimension settles these</span>
        <span className="figure">{cells.length}</span>
      </summary>
      <table className="inputs">
        <tbody>
          {cells.map((cell) => (
            <tr key={`${cell.tape} ${cell.check}`}>
              <td>
                <Go cell={cell} choose={choose} />
              </td>
              <td>
                {whyWords[cell.why]}
                {cell.why === "guess" && cell.unknown ? `: measure ${sayAddress(cell.unknown.address)}` : ""}
              </td>
              <td className="num">{showShare(cell.share)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
/** The lines as they would be written: nothing is until a person says so. */
function WouldWrite({
  answer,
  state,
  engine,
  choose,
}: {
  readonly answer: SizeAnswer;
  readonly state: EngineState;
  readonly engine: Engine;
  readonly choose: Choose;
}) {
  const [said, setSaid] = useState("");
  const { result, written, unit } = answer;
  if (!result || !written || result.lines.length === 0) return null;
  const write = async (): Promise<void> => {
    const before = state.texts.get(written.file);
    if (before === undefined) return;
    const errors = await engine.writeWhole(written.file, before, written.text);
    setSaid(errors[0]?.shown ?? "");
    if (errors.length === 0) choose({ panel: "moved", over: undefined });
  };
  return (
    <>
      <h3 className="part">
        Would write <span>{written.file}, one step of undo</span>
      </h3>
      <table className="inputs lines">
        <tbody>
          {result.lines.map(({ path, width, text, written: to }) => (
            <tr key={`${path} ${width}`}>
              <td>
                {sayAddress(`${unit}/${path}`)}
                {width === undefined ? "" : ` at ${width} mm`}
              </td>
              <td>
                <s>{text}</s>
              </td>
              <td>
                <b>{to}</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {said === "" ? null : <p className="warning">{said}</p>}
      <p>
        <button type="button" className="btn solid" onClick={() => void write()}>
          Write {counted(result.lines.length, "line")}
        </button>{" "}
        <button type="button" className="btn" onClick={() => choose({ over: undefined })}>
          Drop
        </button>
      </p>
    </>
  );
}
function NothingFree({
  answer: { unit, proposals },
  choose,
}: {
  readonly answer: SizeAnswer;
  readonly choose: Choose;
}) {
  const file = `units/${unit}.yaml`;
  return (
    <div className="says">
      <p>
        No dimension of this unit is free. Write the ones that may move, with their bounds, under <code>free</code> in{" "}
        {file}:
      </p>
      {proposals.length === 0 ? (
        <p>Nothing of the unit stops a tape that a dimension could cure.</p>
      ) : (
        <pre>{`free:\n${proposals.map((p) => `  ${p.path}: ${p.bounds}`).join("\n")}`}</pre>
      )}
      <p>
        <button type="button" className="btn" onClick={() => choose({ text: { file } })}>
          Open the text
        </button>
      </p>
    </div>
  );
}
