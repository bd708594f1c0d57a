import { unitOf } from "@tapeworthy/core";
import { grownBy, type Handle, handleKey, sayAddress } from "@tapeworthy/drawing";
import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import type { Engine, EngineState, NumberView } from "../engine/engine.ts";
import { moversOf } from "./together.ts";

/** A handle with the number it shows: the first of those that move together. */
export interface Held {
  readonly handle: Handle;
  readonly number: NumberView;
  readonly name: string;
}
export function heldOn(handles: readonly Handle[], { numbers }: EngineState): Held[] {
  return handles.flatMap((handle) => {
    const number = handle.members
      .map((address) => numbers.find((n) => n.address === address))
      .find((n) => n?.draggable);
    return number ? [{ handle, number, name: handle.name === "" ? sayAddress(number.address) : handle.name }] : [];
  });
}

/** Diamonds on what can be dragged: sliders for the keyboard and for who listens, targets of 24 px for a finger. */
export function Handles({
  held,
  zoom,
  engine,
  chosen,
  onChoose,
  onType,
  onHold,
}: {
  readonly held: readonly Held[];
  /** So many times as large as drawn is all of it shown. */
  readonly zoom: number;
  readonly engine: Engine;
  readonly chosen: string | undefined;
  readonly onChoose: (number: NumberView) => void;
  readonly onType: (held: Held) => void;
  /** A hand takes hold (true) or lets go (false). */
  readonly onHold: (is: boolean) => void;
}) {
  return (
    <div className="handles" style={zoom === 1 ? undefined : { zoom }}>
      {held.map((one) => (
        <Diamond
          key={handleKey(one.handle)}
          held={one}
          zoom={zoom}
          engine={engine}
          isChosen={one.handle.members.includes(chosen ?? "")}
          onChoose={onChoose}
          onType={onType}
          onHold={onHold}
        />
      ))}
    </div>
  );
}

/** After so long without a key a row of key presses is one step of undo, ms. */
const rest = 700;

function Diamond({
  held,
  zoom,
  engine,
  isChosen,
  onChoose,
  onType,
  onHold,
}: {
  readonly held: Held;
  readonly zoom: number;
  readonly engine: Engine;
  readonly isChosen: boolean;
  readonly onChoose: (number: NumberView) => void;
  readonly onType: (held: Held) => void;
  readonly onHold: (is: boolean) => void;
}) {
  const { handle, number, name } = held;
  const [isHeld, setHeld] = useState(false);
  /** The gesture under way: where the hand took hold, and how the handle went then. */
  const hold = useRef<{ readonly gesture: string; readonly handle: Handle; by: number } | undefined>(undefined);
  const origin = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined);
  const wanted = useRef<number | undefined>(undefined);
  const frame = useRef(0);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const movers = () => moversOf(handle.members, engine.state().numbers).map((n) => n.address);

  const begin = () => {
    if (hold.current) return hold.current;
    hold.current = { gesture: engine.beginGesture(movers()), handle, by: 0 };
    setHeld(true);
    onHold(true);
    return hold.current;
  };
  const moveTo = (by: number, grid: "fine" | "free"): void => {
    if (hold.current) hold.current.by = engine.move(hold.current.gesture, by, grid);
  };
  const end = (keep = true): void => {
    clearTimeout(timer.current);
    cancelAnimationFrame(frame.current);
    if (!hold.current) return;
    if (keep && wanted.current !== undefined) moveTo(wanted.current, "fine");
    wanted.current = undefined;
    engine.endGesture(hold.current.gesture, keep);
    hold.current = undefined;
    setHeld(false);
    onHold(false);
  };
  // What is held when the diamond goes is let go as it stands.
  const endAtLast = useRef(end);
  endAtLast.current = end;
  useEffect(() => () => endAtLast.current(), []);

  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    end();
    event.currentTarget.setPointerCapture(event.pointerId);
    event.currentTarget.focus();
    event.preventDefault();
    origin.current = { x: event.clientX, y: event.clientY };
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>) => {
    const start = origin.current;
    if (!start) return;
    const [dx, dy] = [event.clientX - start.x, event.clientY - start.y];
    // A click is no drag: it has to go a little way first.
    if (!hold.current && Math.hypot(dx, dy) < 3) return;
    wanted.current = grownBy(begin().handle, [dx / zoom, dy / zoom]);
    cancelAnimationFrame(frame.current);
    frame.current = requestAnimationFrame(() => {
      const by = wanted.current;
      wanted.current = undefined;
      if (by !== undefined) moveTo(by, "fine");
    });
  };
  const onPointerUp = () => {
    if (!origin.current) return;
    origin.current = undefined;
    if (hold.current) end();
    else onType(held);
  };
  const onPointerCancel = () => {
    origin.current = undefined;
    end(false);
  };
  const { factor } = unitOf(number.shownIn);
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Escape" && hold.current) {
      event.preventDefault();
      origin.current = undefined;
      end(false);
      return;
    }
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      end();
      onType(held);
      return;
    }
    const way = wayOf[event.key];
    if (!way) return;
    event.preventDefault();
    const by = way * factor * (event.shiftKey || event.key.startsWith("Page") ? 1 : 0.1);
    moveTo(begin().by + by, "free");
    clearTimeout(timer.current);
    timer.current = setTimeout(() => end(), rest);
  };

  const shown = number.value / factor;
  const words = `${sayFigure(shown)}${number.shownIn === "" ? "" : ` ${number.shownIn}`}`;
  const level = Math.abs(handle.along[0]) >= Math.abs(handle.along[1]);
  const by = isHeld ? (hold.current?.by ?? 0) / factor : 0;
  return (
    <div
      className={`handle${level ? "" : " upright"}${isChosen ? " on" : ""}${isHeld ? " held" : ""}${handle.quiet ? " quiet" : ""}`}
      style={{ left: handle.at[0], top: handle.at[1] }}
      role="slider"
      tabIndex={0}
      aria-label={name}
      aria-valuenow={Number(shown.toFixed(3))}
      aria-valuemin={Number(((number.least ?? number.value - 0.06) / factor).toFixed(3))}
      aria-valuemax={Number(((number.most ?? number.value + 0.06) / factor).toFixed(3))}
      aria-valuetext={words.replace("−", "minus ")}
      aria-orientation={level ? "horizontal" : "vertical"}
      data-address={number.address}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={onPointerCancel}
      onKeyDown={onKeyDown}
      onPointerEnter={() => engine.aim(movers())}
      onFocus={() => {
        engine.aim(movers());
        onChoose(number);
      }}
      onBlur={() => {
        if (!origin.current) end();
      }}
    >
      <svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
        <path d="M7 1 13 7 7 13 1 7Z" />
      </svg>
      <span className="tag" aria-hidden="true">
        {handle.name === "" ? "" : `${name} `}
        <b>{words}</b>
        {by === 0 ? "" : ` ${by > 0 ? "+" : "−"}${sayFigure(Math.abs(by))}`}
      </span>
    </div>
  );
}
const wayOf: Readonly<Record<string, 1 | -1 | undefined>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  PageUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
  PageDown: -1,
};
/** A number as a drawing shows it while it moves: two decimals at most, a minus in print. */
const sayFigure = (v: number): string => `${Number(v.toFixed(2))}`.replace("-", "−");
