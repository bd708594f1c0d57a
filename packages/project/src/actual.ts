import type { Quantity, Scene } from "@tapeworthy/core";

/** Letters of the tape on the reel that a unit file may follow: `actual W`. */
export const actualLetters = ["W", "A0", "B0", "K0", "P1", "T", "T1", "T2", "B1", "E1", "F", "D0", "P0", "P2"] as const;
const before = "actual ";
const letterOf = (name: string): string => name.slice(before.length);

export const isActual = (name: string): boolean => name.startsWith(before);
/** "actual W", not "actual gap". */
export const isActualLetter = (name: string): boolean =>
  isActual(name) && (actualLetters as readonly string[]).includes(letterOf(name));

/** What `actual W` reads in a scene. */
export const actualReads = (names: readonly string[], scene: Scene): Record<string, Quantity> =>
  Object.fromEntries(names.map((name) => [name, scene.tape.letters[letterOf(name) as (typeof actualLetters)[number]]]));
