import {
  endOf,
  type IndexPicture,
  indexCursor,
  indexLanes,
  indexSide,
  laneFrame,
  momentOf,
  nextEvent,
  type StretchName,
  sayMoment,
  stretchNames,
  stretchOf,
  timeAt,
  toSvg,
  type UnitShape,
} from "@tapeworthy/drawing";
import {
  type KeyboardEvent,
  type PointerEvent,
  useEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from "react";
import { useSize } from "../sheet/size.ts";
import { Written } from "../sheet/written.tsx";
import { IndexStory } from "./index-story.tsx";
import type { Playhead } from "./playhead.ts";

const stretchWords = { whole: "Whole index", start: "Taking up load", stop: "Coming to rest" } as const;

/** One index in time: the unit at a moment, lanes under it, and a slider over the lanes that moves both. */
export function IndexView({
  picture,
  shape,
  playhead,
}: {
  readonly picture: IndexPicture;
  readonly shape: UnitShape | undefined;
  readonly playhead: Playhead;
}) {
  const [stretch, setStretch] = useState<StretchName>("whole");
  const t = Math.min(useSyncExternalStore(playhead.subscribe, playhead.time), endOf(picture));
  // A moment outside what is shown would be out of sight: it comes to the nearest end.
  const show = (name: StretchName) => {
    const { from, to } = stretchOf(picture, name);
    setStretch(name);
    playhead.set(Math.min(endOf(picture), Math.max(from, Math.min(to, t))));
  };
  // What is gone to elsewhere must be in sight.
  const { from, to } = stretchOf(picture, stretch);
  useEffect(() => {
    if (t < from - 1e-9 || t > to + 1e-9) setStretch("whole");
  }, [t, from, to]);
  return (
    <div className="index-view">
      <fieldset className="picks">
        <legend className="unseen">Part of the index</legend>
        {stretchNames.map((name) => (
          <label key={name}>
            <input type="radio" name="stretch" checked={stretch === name} onChange={() => show(name)} />{" "}
            {stretchWords[name]}
          </label>
        ))}
        <span className="hint">
          Drag over the lanes, or arrow keys: 0.1 ms, with Shift 1 ms, Page to the next event
        </span>
      </fieldset>
      <Moving picture={picture} shape={shape} t={t} />
      <Lanes picture={picture} stretch={stretch} t={t} playhead={playhead} />
      <div className="below">
        <IndexStory picture={picture} playhead={playhead} />
      </div>
    </div>
  );
}

/** The unit as it stands at the moment. */
function Moving({
  picture,
  shape,
  t,
}: {
  readonly picture: IndexPicture;
  readonly shape: UnitShape | undefined;
  readonly t: number;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const svg = useMemo(
    () =>
      shape && size && size.height > 60
        ? toSvg(indexSide(shape, momentOf(picture, t), size), { prefix: "moving" })
        : "",
    [picture, shape, size, t],
  );
  return (
    <div className="moving" ref={ref}>
      <Written html={svg} zoom={size?.zoom} />
    </div>
  );
}

const ms = 1e-3;
const waysOf: Readonly<Record<string, 1 | -1 | undefined>> = {
  ArrowRight: 1,
  ArrowUp: 1,
  ArrowLeft: -1,
  ArrowDown: -1,
};

function Lanes({
  picture,
  stretch,
  t,
  playhead,
}: {
  readonly picture: IndexPicture;
  readonly stretch: StretchName;
  readonly t: number;
  readonly playhead: Playhead;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const slider = useRef<HTMLDivElement>(null);
  const frame = useRef(0);
  const wanted = useRef<number>(undefined);
  const [isHeld, setHeld] = useState(false);
  const room = useMemo(() => (size && size.height > 120 ? { ...size, stretch } : undefined), [size, stretch]);
  const lanes = useMemo(() => (room ? toSvg(indexLanes(picture, room), { prefix: "lanes" }) : ""), [picture, room]);
  const cursor = room ? toSvg(indexCursor(picture, t, room), { prefix: "moment" }) : "";
  const laid = room && laneFrame(picture, room);
  useEffect(() => () => cancelAnimationFrame(frame.current), []);
  const isThere = laid !== undefined;
  useEffect(() => {
    // Opened by its key the slider is where the hand goes next.
    const on = document.activeElement;
    if (isThere && (on === null || on === document.body || on.closest(".map, .tools"))) slider.current?.focus();
  }, [isThere]);

  const goTo = (event: PointerEvent<HTMLDivElement>): void => {
    if (!laid || !size) return;
    const x = (event.clientX - event.currentTarget.getBoundingClientRect().left) / size.zoom;
    wanted.current = timeAt(picture, laid, x);
    cancelAnimationFrame(frame.current);
    frame.current = requestAnimationFrame(() => playhead.set(wanted.current ?? t));
  };
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    event.preventDefault();
    slider.current?.focus();
    setHeld(true);
    goTo(event);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const way = waysOf[event.key];
    const { from, to } = stretchOf(picture, stretch);
    const end = Math.min(to, endOf(picture));
    const step = (event.shiftKey ? 1 : 0.1) * ms;
    const next =
      way !== undefined
        ? Math.min(endOf(picture), Math.max(0, t + way * step))
        : event.key === "PageUp"
          ? nextEvent(picture, t, 1)
          : event.key === "PageDown"
            ? nextEvent(picture, t, -1)
            : event.key === "Home"
              ? from
              : event.key === "End"
                ? end
                : undefined;
    if (next === undefined) return;
    event.preventDefault();
    playhead.set(next);
  };
  const shownAt = laid
    ? laid.x0 + ((t - laid.stretch.from) / (laid.stretch.to - laid.stretch.from)) * (laid.x1 - laid.x0)
    : 0;
  return (
    <div
      className={`lanes${isHeld ? " held" : ""}`}
      ref={ref}
      onPointerDown={onPointerDown}
      onPointerMove={(event) => (isHeld ? goTo(event) : undefined)}
      onPointerUp={() => setHeld(false)}
      onPointerCancel={() => setHeld(false)}
    >
      <Written html={lanes} zoom={size?.zoom} />
      <div className="cursor" aria-hidden="true">
        <Written html={cursor} zoom={size?.zoom} />
      </div>
      {laid ? (
        <div
          className="scrub"
          ref={slider}
          role="slider"
          tabIndex={0}
          aria-label="Moment of the index"
          aria-orientation="horizontal"
          aria-valuemin={0}
          aria-valuemax={Number((endOf(picture) / ms).toFixed(1))}
          aria-valuenow={Number((t / ms).toFixed(1))}
          aria-valuetext={sayMoment(picture, t)}
          style={{
            left: shownAt * (size?.zoom ?? 1),
            top: (laid.y0 - 4) * (size?.zoom ?? 1),
            height: (laid.y1 - laid.y0 + 4) * (size?.zoom ?? 1),
          }}
          onKeyDown={onKeyDown}
        />
      ) : null}
    </div>
  );
}
