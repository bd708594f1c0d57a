/** Something that can be found by name, and where it leads. */
export interface Found<To> {
  readonly kind: string;
  readonly name: string;
  readonly note: string;
  readonly to: To;
}

/**
 * What matches all words of a question, best first: a name that begins with it, a name that holds it, a note that does. Of equals the order
 * given stays. An empty question finds everything.
 */
export function find<To>(all: readonly Found<To>[], question: string, most = 40): Found<To>[] {
  const words = question
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== "");
  const scored = all.flatMap((one, i) => {
    const rank = rankOf(one, words);
    return rank === undefined ? [] : [{ one, rank, i }];
  });
  return scored
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .slice(0, most)
    .map(({ one }) => one);
}
function rankOf({ kind, name, note }: Found<unknown>, words: readonly string[]): number | undefined {
  const low = name.toLowerCase();
  const all = `${low} ${note} ${kind}`.toLowerCase();
  if (!words.every((word) => all.includes(word))) return undefined;
  if (words.length === 0 || low.startsWith(words[0]!)) return 0;
  const atWord = new RegExp(`(^|[^a-z0-9])${words[0]!.replace(/[^a-z0-9]/g, "\\$&")}`);
  return atWord.test(low) ? 1 : low.includes(words[0]!) ? 2 : 3;
}
