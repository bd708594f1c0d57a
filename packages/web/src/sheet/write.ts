import { ChangeSet } from "@codemirror/state";
import { replaced } from "@tapeworthy/project";
import type { Engine } from "../engine/engine.ts";

/** Gives numbers of the unit on screen other texts, as one step of undo. Numbers that are not there are left out. */
export function writeTexts(
  engine: Engine,
  members: readonly { readonly address: string; readonly written: string }[],
): void {
  const { numbers, texts } = engine.state();
  const found = members.flatMap(({ address, written }) => {
    const number = numbers.find((n) => n.address === address);
    return number ? [{ place: number.place, written }] : [];
  });
  const file = found[0]?.place.file;
  const text = file === undefined ? undefined : texts.get(file);
  if (file === undefined || text === undefined) return;
  const changes = found
    .filter(({ place }) => place.file === file)
    .map(({ place, written }) => replaced(text, place, written).changes)
    .reduce((all, one) => all.compose(one.map(all)), ChangeSet.empty(text.length));
  engine.edit(file, changes);
}
