import { type Check, chosen } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { isFact, isQuantity, type Model, type Quantity, type Read, type Reads } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * What the draws of a check rest on in a scene, as one list: the numbers somebody gave, by their identity; facts by their value; models by what
 * they are, since they hold nothing but what they read. Two scenes with the same list give the same draws, whatever else differs in them.
 */
export function footing(check: Check, scene: Scene): readonly unknown[] {
  const out: unknown[] = [scene.requirement.allowPairs];
  const seen = new Map<Given | Model<unknown>, number>();
  const walk = (read: Read | Reads): void => {
    if (isFact(read as Read)) {
      out.push(read);
      return;
    }
    if (!isQuantity(read as Read)) {
      for (const [name, inner] of Object.entries(read as Reads)) {
        out.push(name);
        walk(inner);
      }
      return;
    }
    const q = read as Given | Model<unknown>;
    const before = seen.get(q);
    if (before !== undefined) {
      out.push(before);
      return;
    }
    seen.set(q, seen.size);
    if (q.kind === "given") out.push(q);
    else out.push(q.id, q.title, q.equation);
    walk(q.reads(scene) ?? {});
  };
  for (const side of [check.value, check.atLeast, check.atMost]) {
    const q = chosen<Quantity>(side, scene);
    if (q) walk(q);
    else out.push(undefined);
  }
  return out;
}
export const sameFooting = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((one, i) => Object.is(one, b[i]));
