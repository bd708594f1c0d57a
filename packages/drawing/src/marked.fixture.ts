import { letteringOf } from "./pick-lettering.fixture.ts";
import { type Drawing, type Shape, toSvg } from "./scene.ts";

/** Shapes that carry a mark (data-*), in order. */
export const marked = (shapes: readonly Shape[], key: string): Shape[] =>
  shapes.flatMap((s) => [
    ...(s.data && key in s.data ? [s] : []),
    ...(s.kind === "group" || s.kind === "part" ? marked(s.shapes, key) : []),
  ]);
/** Every line of text of a drawing. */
export const linesOf = (d: Drawing): string[] => letteringOf(toSvg(d, { prefix: "w" })).map((l) => l.words);
