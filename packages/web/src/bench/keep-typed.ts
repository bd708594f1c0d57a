import type { Cells } from "./typed.ts";

/** Readings typed into a card, and settings of its bench that are others than drawn. */
export interface TypedSheet {
  readonly cells: Cells;
  readonly settings: Readonly<Record<string, string>>;
}

/** Whether anything is typed. */
export const isTyped = ({ cells, settings }: TypedSheet): boolean =>
  cells.flat(2).some((text) => text !== "") || Object.values(settings).some((text) => text !== "");

/** One project's readings of one question, on their way into one trial. */
export const typedKey = (project: string, question: string, trial: string): string =>
  `tapeworthy readings ${JSON.stringify([project, question, trial])}`;

/**
 * What is typed and not saved is kept by the browser as long as its tab is open: a reload loses none of it, a second tab has none of it, and what is
 * empty is not kept. A browser that keeps nothing is no reason not to work.
 */
export function keepTyped(key: string, sheet: TypedSheet | undefined): void {
  try {
    if (sheet && isTyped(sheet)) sessionStorage.setItem(key, JSON.stringify(sheet));
    else sessionStorage.removeItem(key);
  } catch {
    // It holds as long as the page is open.
  }
}
/** What was kept, if it fits the card as it is now, which `blank` has the fields of. */
export function keptTyped(key: string, blank: Cells): TypedSheet | undefined {
  try {
    return typedFrom(sessionStorage.getItem(key), blank);
  } catch {
    return undefined;
  }
}
export function typedFrom(text: string | null, blank: Cells): TypedSheet | undefined {
  let kept: unknown;
  try {
    kept = JSON.parse(text ?? "null");
  } catch {
    return undefined;
  }
  if (typeof kept !== "object" || kept === null) return undefined;
  const { cells, settings } = kept as Partial<TypedSheet>;
  if (!fits(cells, blank) || typeof settings !== "object" || settings === null || Array.isArray(settings))
    return undefined;
  return {
    cells: cells as Cells,
    settings: Object.fromEntries(Object.entries(settings).filter(([, value]) => typeof value === "string")),
  };
}
/** The same lists of the same lengths, with texts at the same places. */
const fits = (kept: unknown, blank: unknown): boolean =>
  Array.isArray(blank)
    ? Array.isArray(kept) && kept.length === blank.length && blank.every((b, i) => fits(kept[i], b))
    : typeof kept === "string";
