import type { Check } from "../quantity/check.ts";
import type { Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { check, closed, number, plainScene } from "../study/plain.fixture.ts";
import type { WidthFamily, WidthPiece, WidthStep } from "./family.ts";

/** Families over width without a feeder in them: scenes with a width and a pitch, mm as plain numbers, and checks that read them. */
export const sceneAt = (W: number, P1 = 4): Scene => {
  const letters = { W: number("tape/W", `${W}`), P1: number("tape/P1", `${P1}`) };
  return { ...plainScene(), tape: { row: W, letters } } as unknown as Scene;
};
/** A piece from one width to the next, its pitch that of the wider tape. */
export const piece = (
  from: number,
  to: number,
  more: Partial<WidthPiece> & { readonly P1?: number } = {},
): WidthPiece => ({
  from,
  to,
  joined: false,
  steps: [],
  scene: (W) => sceneAt(W, more.P1),
  ...more,
});
export const step = (text: string): WidthStep => ({
  text,
  gives: ({ tape }) => [tape.letters.P1.kind === "given" ? tape.letters.P1 : undefined],
});
export const family = (pieces: readonly WidthPiece[]): WidthFamily => {
  const [from, to] = [pieces[0]!.from, pieces.at(-1)!.to];
  const rows = [...new Set(pieces.flatMap((p) => [p.from, p.to]))];
  return { unit: "one", name: "One", from, to, rows, tapes: [], leftOut: [], pieces };
};

/** Holds while a formula of W and P1, and of what else is named, is at most the bound. */
export function atMost(
  id: string,
  equation: string,
  bound: Quantity,
  names: Readonly<Record<string, Quantity>> = {},
  more: Partial<Check> = {},
): Check {
  const value = {
    ...closed(equation, {}),
    reads: (scene: Scene) => ({ W: scene.tape.letters.W, P1: scene.tape.letters.P1, ...names }),
  };
  return check(id, { value, atMost: bound, ...more });
}
