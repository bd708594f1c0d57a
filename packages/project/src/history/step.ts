import type { ChangeSet } from "@codemirror/state";
import { changed, takingBack } from "./changes.ts";
import { lineTouchedTwice } from "./lines.ts";

/**
 * One step of undo or of redo on one file. `changes` applies to the text as it stood when the step was the last thing that happened to its
 * file. What came from outside since then is in `back`, which leads from the text of now (or of the next step above on this file) to that
 * text; absent where nothing came.
 */
export interface Step {
  readonly file: string;
  readonly gesture: string;
  /** Steps of one gesture are undone together. */
  readonly group: number;
  readonly changes: ChangeSet;
  readonly back?: ChangeSet;
  /** Whether the file is there after the step; absent where the step leaves that as it is. */
  readonly there?: boolean;
}
/** A file as a step finds it. */
export interface Standing {
  readonly text: string;
  readonly there: boolean;
}
export interface Unwound {
  readonly gesture: string;
  readonly group: number;
  /** What happens to the files, in order. */
  readonly changes: readonly { readonly file: string; readonly changes: ChangeSet; readonly there: boolean }[];
  /** The files afterwards. */
  readonly after: ReadonlyMap<string, Standing>;
  /** The steps that stay. */
  readonly rest: readonly Step[];
  /** The steps the other way, for the other stack. */
  readonly opposite: readonly Step[];
}
/** Why a gesture cannot be taken back: what it would make of the file, beside what the file is. */
export interface Clash {
  readonly clash: "line" | "gone" | "exists";
  readonly gesture: string;
  readonly file: string;
  readonly line?: number;
  readonly yours: string;
}

/** Takes the topmost gesture off a stack of steps. Undefined where the stack is empty; nothing is changed in place. */
export function unwound(
  stack: readonly Step[],
  standing: (file: string) => Standing | undefined,
): Unwound | Clash | undefined {
  const top = stack.at(-1);
  if (!top) return undefined;
  const { gesture, group } = top;
  const rest = [...stack];
  const after = new Map<string, Standing>();
  const changes: { file: string; changes: ChangeSet; there: boolean }[] = [];
  const opposite: Step[] = [];
  while (rest.at(-1)?.group === group) {
    const step = rest.pop()!;
    const { file } = step;
    const now = after.get(file) ?? standing(file) ?? { text: "", there: false };
    const inner = step.back ? changed(now.text, step.back) : now.text;
    const clash = (kind: Clash["clash"], line?: number): Clash => ({
      clash: kind,
      gesture,
      file,
      yours: changed(inner, step.changes),
      ...(line === undefined ? {} : { line }),
    });
    if (step.there === true ? now.there : !now.there) return clash(now.there ? "exists" : "gone");
    let here = step.changes;
    if (step.back) {
      const outside = takingBack(step.back, now.text);
      const line = lineTouchedTwice(here, outside, inner);
      // A file that others have written into since is not removed.
      if (line !== undefined || step.there === false) return clash("line", line);
      here = here.map(outside);
      const below = changed(inner, step.changes);
      attach(rest, file, takingBack(outside.map(step.changes, true), below));
    }
    const there = step.there ?? now.there;
    after.set(file, { text: changed(now.text, here), there });
    changes.push({ file, changes: here, there });
    opposite.push({
      file,
      gesture,
      group,
      changes: takingBack(here, now.text),
      ...(step.there === undefined ? {} : { there: !step.there }),
    });
  }
  return { gesture, group, changes, after, rest, opposite };
}

/** Leaves the topmost gesture out: what it did stays in the texts, and the steps below see it as something from outside. */
export function withoutTop(stack: readonly Step[]): readonly Step[] {
  const rest = [...stack];
  const group = rest.at(-1)?.group;
  while (rest.length > 0 && rest.at(-1)!.group === group) {
    const { file, changes, back } = rest.pop()!;
    attach(rest, file, back ? back.compose(changes) : changes);
  }
  return rest;
}

/** Tells a stack of a change from outside; `back` takes that change back. The stack is changed in place. */
export function attach(stack: Step[], file: string, back: ChangeSet): void {
  if (back.empty) return;
  const at = stack.findLastIndex((step) => step.file === file);
  const step = stack[at];
  if (step) stack[at] = { ...step, back: step.back ? back.compose(step.back) : back };
}
