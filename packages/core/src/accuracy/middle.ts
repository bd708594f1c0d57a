import { type Given, given } from "../quantity/given.ts";
import type { Quantity } from "../quantity/model.ts";
import { parseQuantity } from "../quantity/notation.ts";

/** The figure comes from the catalogue of carrier tape, not from a file of this project; of one between two, either of them. */
export function isLetterOfCatalogue(q: Quantity): boolean {
  if (q.kind !== "given") return false;
  if (!q.blend) return q.address.startsWith("catalogue/");
  const { of, share } = q.blend;
  return (share < 1 && isLetterOfCatalogue(of[0])) || (share > 0 && isLetterOfCatalogue(of[1]));
}

const known = new WeakMap<Given, Given>();
/**
 * The middle of a number's limits: what a calibration on another reel of the same tape has taken in. 1.5 +0.1/-0 mm has its middle at 1.55 mm;
 * a normal scatter has it where it stands; an unknown, being fixed, is its own middle. Undefined where nothing scatters.
 */
export function middleOf(q: Quantity): Given | undefined {
  if (q.kind !== "given" || q.scatters.length === 0) return undefined;
  const before = known.get(q);
  if (before) return before;
  const away = q.scatters.reduce((sum, s) => sum + (s.law === "uniform" ? (s.from + s.to) / 2 : 0), 0);
  const bare: Given = { ...q, scatters: [], address: `${q.address} without its scatter` };
  const made =
    away === 0
      ? bare
      : given({
          address: `${q.address}, middle of its limits`,
          symbol: q.symbol,
          text: `x_0 + ${+(away * 1e3).toPrecision(12)} mm`,
          origin: q.origin,
          dimension: q.dimension,
          written: parseQuantity(`x_0 + ${+(away * 1e3).toPrecision(12)} mm`),
          level: "reel",
          letter: q.letter,
          reads: () => ({ x_0: bare }),
        });
  known.set(q, made);
  return made;
}
