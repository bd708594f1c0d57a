import {
  askedOf,
  handleKey,
  handlesOf,
  type Placed,
  placeOf,
  stationVerdicts,
  toSvg,
  type UnitSheet,
  unitSheet,
} from "@tapeworthy/drawing";
import { type MouseEvent, useEffect, useMemo, useRef, useState } from "react";
import type { Engine, EngineState, NumberView } from "../engine/engine.ts";
import { chosenFinding, chosenRow } from "../panel/chosen.ts";
import type { Choice } from "./choice.ts";
import { Handles, type Held, heldOn } from "./handles.tsx";
import type { Choose } from "./sheet.tsx";
import { useSize } from "./size.ts";
import { TypeIn } from "./type-in.tsx";
import { Written } from "./written.tsx";

/** The unit to scale with its tape, what the open finding points at marked on it, diamonds on what can be dragged. */
export function DrawingView({
  state,
  choice,
  choose,
  engine,
  onZone,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly engine: Engine;
  /** In which zone of the frame the open finding acts. */
  readonly onZone: (zone: string | undefined) => void;
}) {
  const [ref, size] = useSize<HTMLDivElement>();
  const row = chosenRow(state, choice);
  const finding = chosenFinding(state, choice);
  const { shape, trouble } = state;
  const [isHeld, setHeld] = useState(false);
  const [typed, setTyped] = useState<string>();
  const placed = useRef<Placed>(undefined);
  const sheet = useMemo((): UnitSheet | undefined => {
    if (!shape || !size || size.width < 200 || size.height < 150) return undefined;
    const asked = finding?.verdict === "depends" ? askedOf(finding) : undefined;
    const drawn = unitSheet(shape, {
      width: size.width,
      height: size.height,
      stations: row ? stationVerdicts(row) : {},
      ...(finding ? { highlight: placeOf(shape, finding), chosen: finding.station } : {}),
      ...(asked ? { asked } : {}),
      // While a hand moves something the rest keeps its place.
      ...(isHeld && placed.current ? { keep: placed.current } : {}),
    });
    placed.current = drawn.placed;
    return drawn;
  }, [shape, size, row, finding, isHeld]);
  // Until another pair's drawing is there the last one stays in sight.
  const last = useRef("");
  const svg = useMemo(() => (sheet ? toSvg(sheet, { prefix: "unit" }) : ""), [sheet]);
  if (svg !== "" || trouble !== undefined) last.current = svg;
  const zone = sheet?.zone;
  useEffect(() => onZone(zone), [onZone, zone]);
  /** Handles there were before a hand took hold of one. */
  const before = useRef<ReadonlyMap<string, number>>(undefined);
  const held = useMemo(() => {
    // The numbers stand for the shape: both come with it.
    const all = sheet && shape ? handlesOf(sheet, shape, isHeld ? before.current : undefined) : [];
    if (!isHeld) before.current = new Map(all.map((h) => [handleKey(h), h.spot ?? 0]));
    return heldOn(all, state);
  }, [sheet, shape, state, isHeld]);
  const open = held.find((one) => one.number.address === typed);
  const onChoose = (number: NumberView) => {
    if (choice.text) choose({ text: { file: number.place.file, address: number.address } }, "replace");
  };
  const close = () => {
    const back = ref.current?.querySelector<HTMLElement>(`.handle[data-address="${CSS.escape(typed ?? "")}"]`);
    setTyped(undefined);
    back?.focus();
  };
  const onClick = (event: MouseEvent) => {
    const address = (event.target as Element).closest<SVGElement>(".dim-text[data-address]")?.dataset.address;
    const one = held.find(({ handle }) => address !== undefined && handle.members.includes(address));
    if (!one) return;
    onChoose(one.number);
    setTyped(one.number.address);
  };
  return (
    <div className={`paper${isHeld ? " held" : ""}`} ref={ref}>
      <Written html={last.current} zoom={size?.zoom} onClick={onClick} />
      <Handles
        zoom={size?.zoom ?? 1}
        held={held}
        engine={engine}
        chosen={choice.text?.address}
        onChoose={onChoose}
        onType={(one: Held) => setTyped(one.number.address)}
        onHold={setHeld}
      />
      {open && size ? (
        <TypeIn
          key={open.number.address}
          held={open}
          engine={engine}
          width={shape?.row ?? 0}
          room={size}
          onDone={close}
          onOpenText={() => {
            choose({ text: { file: open.number.place.file, address: open.number.address } });
            setTyped(undefined);
          }}
        />
      ) : null}
      {trouble === undefined ? null : (
        <p className="trouble" role="status">
          It can't be drawn: {trouble}.
        </p>
      )}
    </div>
  );
}
