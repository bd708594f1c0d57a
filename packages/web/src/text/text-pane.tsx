import { useEffect, useRef } from "react";
import type { Engine, EngineState, NumberView } from "../engine/engine.ts";
import type { Choice } from "../sheet/choice.ts";
import type { Choose } from "../sheet/sheet.tsx";
import { Editor } from "./editor.ts";

/** After so long without a key what was typed is one step of undo, and is written, ms. */
const rest = 900;

/** A file of the project beside the drawing: the same text, the same history, and what is chosen here is chosen there. */
export function TextPane({
  state,
  choice,
  choose,
  engine,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly engine: Engine;
}) {
  const host = useRef<HTMLDivElement>(null);
  const editor = useRef<Editor>(undefined);
  const gesture = useRef<{ id: string; timer: ReturnType<typeof setTimeout> } | undefined>(undefined);
  const { file = "", address, line } = choice.text ?? {};
  const text = state.texts.get(file);
  const latest = useRef({ state, choice });
  latest.current = { state, choice };
  /** The number the cursor itself came to: it needs no scrolling to. */
  const byCursor = useRef<string>(undefined);

  // biome-ignore lint/correctness/useExhaustiveDependencies: an editor is made once for a file; its text follows below
  useEffect(() => {
    if (text === undefined) return;
    const end = () => {
      if (!gesture.current) return;
      clearTimeout(gesture.current.timer);
      engine.endGesture(gesture.current.id);
      gesture.current = undefined;
    };
    const made = new Editor(host.current!, file, text, {
      edited: (changes) => {
        const id = gesture.current?.id ?? engine.beginGesture();
        clearTimeout(gesture.current?.timer);
        gesture.current = { id, timer: setTimeout(end, rest) };
        engine.edit(file, changes, { gesture: id, done: false });
      },
      moved: (at, column) => {
        const number = numberAt(latest.current.state.numbers, file, at, column);
        byCursor.current = number?.address;
        const { text: now } = latest.current.choice;
        if (number && now && number.address !== now.address)
          choose({ text: { file, address: number.address, line: at } }, "replace");
      },
      undo: () => {
        end();
        void engine.undo();
      },
      redo: () => {
        end();
        void engine.redo();
      },
    });
    editor.current = made;
    return () => {
      end();
      made.destroy();
      editor.current = undefined;
    };
  }, [file, engine, text === undefined]);

  useEffect(() => {
    if (text !== undefined) editor.current?.show(text);
  }, [text]);
  const { errors, numbers } = state;
  // biome-ignore lint/correctness/useExhaustiveDependencies: where things stand moves with the text
  useEffect(() => {
    editor.current?.diagnose(errors.filter((e) => e.place.file === file));
  }, [errors, file, text]);
  const number = numbers.find((n) => n.address === address && n.place.file === file);
  const place = number?.place;
  const atLine = place?.line ?? line;
  const atColumn = place?.column;
  const shown = useRef<string>(undefined);
  // biome-ignore lint/correctness/useExhaustiveDependencies: where things stand moves with the text
  useEffect(() => {
    const key = `${file} ${address} ${line}`;
    const isNew = shown.current !== key;
    // A number of a unit that is still being read has no place yet.
    if (atLine !== undefined) shown.current = key;
    const scroll = isNew && (address === undefined || byCursor.current !== address);
    if (atLine === undefined) editor.current?.point(undefined, false);
    else if (place) editor.current?.point(place, scroll);
    else if (isNew) editor.current?.point({ line: atLine, column: 1, length: 1000 }, scroll);
  }, [file, address, line, atLine, atColumn, text]);

  const files = [...state.texts.keys()].sort((a, b) => order(a) - order(b) || (a < b ? -1 : 1));
  return (
    <section className="text" aria-label="Text of the project">
      <header>
        <label>
          <span className="unseen">File</span>
          <select value={file} onChange={(event) => choose({ text: { file: event.target.value } })}>
            {files.map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
        </label>
        <small>
          <kbd>Ctrl Space</kbd> what may stand here
        </small>
        <button type="button" className="btn quiet" onClick={() => choose({ text: undefined })}>
          Close
        </button>
      </header>
      <div className="editor" ref={host} key={file} />
      {text === undefined ? <p className="small">There is no file {file}.</p> : null}
    </section>
  );
}
const order = (file: string): number => (file.startsWith("units/") ? 0 : file.startsWith("tapes/") ? 2 : 1);

/** The number whose text a cursor stands in; else the only one of its line. */
export function numberAt(
  numbers: readonly NumberView[],
  file: string,
  line: number,
  column: number,
): NumberView | undefined {
  const mine = numbers.filter((n) => n.place.file === file && n.place.line === line);
  const inside = mine.find(({ place }) => column >= place.column && column <= place.column + place.length);
  return inside ?? (mine.length === 1 ? mine[0] : undefined);
}
