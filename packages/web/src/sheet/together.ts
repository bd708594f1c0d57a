import { type Node, parseQuantity } from "@tapeworthy/core";
import type { NumberView } from "../engine/engine.ts";

/**
 * The numbers to move when several go by one distance. Where each of them holds the same name of the file just once, with a plus, that name
 * is what moves: one line for all of them, and whatever else was drawn from it follows. Else each moves by itself.
 */
export function moversOf(members: readonly string[], numbers: readonly NumberView[]): NumberView[] {
  const own = numbers.filter((n) => members.includes(n.address));
  const [first] = own;
  if (!first || own.length < 2) return own;
  const shared = first.names.find(({ name, address }) => {
    const named = numbers.find((n) => n.address === address);
    return named?.draggable === true && own.every((n) => hangsOn(n.text, name) === 1);
  });
  const named = shared && numbers.find((n) => n.address === shared.address);
  // The name may itself be nothing but another name with something added.
  return named ? [named] : own;
}
/** How a text grows with a name in it: 1 and −1 for a plain sum, 0 where it is not in it; undefined where it stands in a product or function. */
function hangsOn(text: string, name: string): number | undefined {
  const written = parseQuantity(text);
  return written.form === "expression" ? slope(written.node, name) : undefined;
}
function slope(n: Node, name: string): number | undefined {
  switch (n.op) {
    case "num":
      return 0;
    case "sym":
      return n.name === name ? 1 : 0;
    case "neg": {
      const a = slope(n.a, name);
      return a === undefined ? undefined : -a;
    }
    case "+":
    case "-": {
      const [a, b] = [slope(n.a, name), slope(n.b, name)];
      return a === undefined || b === undefined ? undefined : n.op === "+" ? a + b : a - b;
    }
    case "call":
      return n.args.every((a) => slope(a, name) === 0) ? 0 : undefined;
    default:
      return slope(n.a, name) === 0 && slope(n.b, name) === 0 ? 0 : undefined;
  }
}
