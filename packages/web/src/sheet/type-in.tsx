import { placeText } from "@tapeworthy/core";
import { type FormEvent, type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import type { Engine, FileError } from "../engine/engine.ts";
import type { Held } from "./handles.tsx";
import type { Size } from "./size.ts";

/** A number typed in drawing notation, beside its diamond. What the parser will not take is said here, and nothing is written. */
export function TypeIn({
  held,
  engine,
  width,
  room,
  onDone,
  onOpenText,
}: {
  readonly held: Held;
  readonly engine: Engine;
  /** Nominal width of the variant on screen, mm. */
  readonly width: number;
  readonly room: Size;
  readonly onDone: () => void;
  readonly onOpenText: () => void;
}) {
  const { number, name, handle } = held;
  const field = useRef<HTMLInputElement>(null);
  const [errors, setErrors] = useState<readonly FileError[]>([]);
  const [onlyHere, setOnlyHere] = useState(number.onlyWidth !== undefined);
  const [busy, setBusy] = useState(false);
  const id = useId();
  useEffect(() => field.current!.select(), []);
  const family = number.widths.length > 1 && number.onlyWidth === undefined;

  const onSubmit = async (event: FormEvent) => {
    event.preventDefault();
    const text = field.current!.value.trim();
    if (text === number.text && !(family && onlyHere)) {
      onDone();
      return;
    }
    setBusy(true);
    const found = await (family && onlyHere
      ? engine.writeForWidth(number.address, width, text)
      : engine.type(number.address, text));
    setBusy(false);
    setErrors(found);
    if (found.length === 0) onDone();
    else field.current?.focus();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    onDone();
  };
  const { zoom } = room;
  const [x, y] = [handle.at[0] * zoom, handle.at[1] * zoom];
  const left = Math.max(8, Math.min(room.width * zoom - 328, x - 40));
  const below = handle.at[1] < room.height * 0.55;
  const first = errors[0];
  return (
    <form
      className="type-in"
      style={below ? { left, top: y + 18 } : { left, bottom: room.height * zoom - y + 18 }}
      aria-label={`Type ${name}`}
      onSubmit={onSubmit}
      onKeyDown={onKeyDown}
    >
      <label htmlFor={`${id}-text`}>
        <b>{name}</b> <small>{number.path}</small>
      </label>
      <div className="line">
        <input
          id={`${id}-text`}
          ref={field}
          defaultValue={number.text}
          spellCheck={false}
          autoComplete="off"
          autoCapitalize="off"
          aria-invalid={first !== undefined}
          aria-describedby={first ? `${id}-error` : `${id}-note`}
          // biome-ignore lint/a11y/noAutofocus: the field was asked for by a key or a click on its number
          autoFocus
        />
        <button type="submit" disabled={busy}>
          Write
        </button>
      </div>
      <div id={`${id}-error`} role="alert">
        {first ? (
          <p className="found">
            Found {first.found}, expected {first.expected}.{first.hint === undefined ? "" : ` ${first.hint}`}
            {errors.length > 1 ? ` And ${errors.length - 1} more.` : ""}
          </p>
        ) : null}
      </div>
      {family ? (
        <label className="only">
          <input type="checkbox" checked={onlyHere} onChange={(event) => setOnlyHere(event.target.checked)} /> for{" "}
          {width} mm only <small>else for {number.widths.join(", ")} mm</small>
        </label>
      ) : null}
      <p id={`${id}-note`} className="note">
        {number.means === "" ? "" : `${number.means}. `}
        {number.onlyWidth === undefined ? "" : `Written for ${number.onlyWidth} mm only. `}
        <button type="button" className="link" onClick={onOpenText}>
          {placeText(number.place)}
        </button>
      </p>
    </form>
  );
}
