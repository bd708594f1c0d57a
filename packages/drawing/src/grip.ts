import { guidesToNip, leversOf, type Quantity, type Scene, type Vector } from "@tapeworthy/core";
import type { Numbers } from "./unit-shape.ts";

/** A guide's place along one axis, with the numbers of the file that move together with it. */
export interface Grip {
  readonly name: string;
  readonly axis: "x" | "y" | "z";
  readonly members: readonly string[];
  readonly at: Vector;
}
const axes = ["x", "y", "z"] as const;

/** The guides of a film that may be moved, as the levers of the unit say: the nip's rollers and axis go with it. */
export function gripsOf(scene: Scene, number: Numbers): Grip[] {
  const guides = guidesToNip(scene.unit);
  if (!guides) return [];
  const levers = leversOf(scene);
  return guides.flatMap(({ name, through }) => {
    const at = through.map((g: Quantity) => number(g)) as unknown as Vector;
    return axes.flatMap((axis, i): Grip[] => {
      const lever = levers.find(({ members }) => members.includes(through[i]!.address));
      return lever ? [{ name, axis, members: [...new Set(lever.members)], at }] : [];
    });
  });
}
