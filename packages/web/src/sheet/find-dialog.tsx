import { type KeyboardEvent, useId, useMemo, useState } from "react";
import { Dialog } from "./dialog.tsx";
import { type Found, find } from "./find.ts";

/** Finds by name: arrows choose, Enter goes there. */
export function FindDialog({
  all,
  onClose,
}: {
  readonly all: readonly Found<() => void>[];
  readonly onClose: () => void;
}) {
  const [question, setQuestion] = useState("");
  const [at, setAt] = useState(0);
  const id = useId();
  const found = useMemo(() => find(all, question), [all, question]);
  const chosen = Math.min(at, found.length - 1);
  const go = (one: Found<() => void> | undefined) => {
    if (!one) return;
    onClose();
    one.to();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step !== undefined) {
      event.preventDefault();
      setAt(Math.max(0, Math.min(found.length - 1, chosen + step)));
    } else if (event.key === "Enter") {
      event.preventDefault();
      go(found[chosen]);
    }
  };
  return (
    <Dialog title="Find" className="find" onClose={onClose}>
      <input
        role="combobox"
        aria-label="Find a part, a check, a tape, a number or a key"
        aria-expanded="true"
        aria-controls={`${id}-list`}
        aria-activedescendant={found.length > 0 ? `${id}-${chosen}` : undefined}
        aria-autocomplete="list"
        placeholder="A part, a check, a tape, a number, a key"
        autoComplete="off"
        spellCheck={false}
        value={question}
        onChange={(event) => {
          setQuestion(event.target.value);
          setAt(0);
        }}
        onKeyDown={onKeyDown}
        autoFocus
      />
      <div role="listbox" id={`${id}-list`} aria-label="Found" tabIndex={-1}>
        {found.map((one, i) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents lint/a11y/useFocusableInteractive: the field above hears the keys and names the option
          <div
            key={`${one.kind} ${one.name} ${one.note}`}
            role="option"
            id={`${id}-${i}`}
            aria-selected={i === chosen}
            onClick={() => go(one)}
            ref={i === chosen ? (node) => node?.scrollIntoView({ block: "nearest" }) : undefined}
          >
            <small>{one.kind}</small> <b>{one.name}</b> <span>{one.note}</span>
          </div>
        ))}
      </div>
      <p role="status" className={found.length > 0 ? "unseen" : "none"}>
        {found.length === 0 ? "Nothing of that name." : `${found.length} found`}
      </p>
    </Dialog>
  );
}
