/**
 * What a result rests on: the numbers and words of the design as they stood when the trial was built. Where one differs now, the result is of another
 * thing: it is retired, with the dimension that changed, and not used.
 *
 * An unknown's own guess is no part of the key: narrowing it is what results are for. A number of one width's own counts for the family's: the place it stands in
 * may change, what it says may not.
 */
import { plainAddress } from "../card/card.ts";

/** Stands in a key for a number that was a guess: that it is narrowed changes nothing of what was built. */
export const stillGuessed = "a guess";
/** Address and text. */
export type Key = ReadonlyMap<string, string>;
export interface KeyChange {
  readonly address: string;
  readonly was: string | undefined;
  readonly is: string | undefined;
}
/** What differs between the key of then and that of now, in the order of the addresses. */
export function changedSince(then: Key, now: Key): KeyChange[] {
  const plain = (key: Key): Map<string, string> => new Map([...key].map(([address, text]) => [plainOf(address), text]));
  const [before, after] = [plain(then), plain(now)];
  const out: KeyChange[] = [];
  for (const [address, was] of then) {
    if (was === stillGuessed) continue;
    const is = now.get(address) ?? after.get(plainOf(address));
    if (is !== was) out.push({ address, was, is });
  }
  for (const [address, is] of now) if (!before.has(plainOf(address))) out.push({ address, was: undefined, is });
  return out.sort((a, b) => (a.address < b.address ? -1 : 1));
}
/** The file stays in the address: units and tapes do not stand for each other. */
const plainOf = (address: string): string => `${/^(tapes\/)?[^/]*/.exec(address)?.[0] ?? ""} ${plainAddress(address)}`;
export const sayChange = ({ address, was, is }: KeyChange): string =>
  was === undefined
    ? `${address} is new: ${is}`
    : is === undefined
      ? `${address} is gone; it was ${was}`
      : `${address} was ${was}, is ${is}`;
/** A key as one text, to be hashed: the same for the same numbers, whatever the order they came in. */
export const keyText = (key: Key): string =>
  [...key]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([address, text]) => `${address.length}:${address}=${text.length}:${text}\n`)
    .join("");
