import { type FunctionName, fold, type Node, parseExpression } from "@tapeworthy/core";

/**
 * Equations as a Markdown page sets them, between three backquotes and the word "math", from the tree of the small grammar. Undefined for what is
 * no expression of it: the governing equation of a solver stands as text.
 */
export function mathsOf(symbol: string, equation: string): string | undefined {
  const tree = treeOf(equation);
  return tree && `${symbolMaths(symbol)} = ${treeMaths(tree)}`;
}
function treeOf(equation: string): Node | undefined {
  try {
    return parseExpression(equation);
  } catch {
    return undefined;
  }
}

const greek = new Set("alpha beta gamma delta eta theta kappa lambda mu nu rho sigma tau phi psi omega pi".split(" "));
function wordMaths(word: string): string {
  if (greek.has(word)) return `\\${word}`;
  if (word === "eps") return "\\varepsilon";
  return /^[A-Za-z]$/.test(word) || /^\d+$/.test(word) ? word : `\\mathrm{${word}}`;
}
/** "P_ref" with its index below, "theta" as its letter, several letters upright. */
export function symbolMaths(name: string): string {
  const [head = "", ...rest] = name.split("_");
  // A letter and a figure are one name: A0, P1.
  const top = /^[A-Z]\d$/.test(head) ? `\\mathrm{${head}}` : wordMaths(head);
  return rest.length === 0 ? top : `${top}_{${rest.map(wordMaths).join(",")}}`;
}

interface Piece {
  readonly text: string;
  /** How tightly it binds: 1 sum, 2 product, 3 sign or quotient, 4 power, 5 whole. */
  readonly rank: number;
  readonly signed: boolean;
}
const bracketed = (inner: string): string => `\\left(${inner}\\right)`;
function treeMaths(tree: Node): string {
  const wrap = (p: Piece, least: number): string => (p.rank < least ? bracketed(p.text) : p.text);
  return fold<Piece>(tree, {
    num: ({ v, unit }) => ({
      text: unit === "" ? `${v}` : `${v}\\ \\mathrm{${unit === "%" ? "\\%" : unit}}`,
      rank: unit === "" ? 5 : 2,
      signed: false,
    }),
    sym: ({ name }) => ({ text: symbolMaths(name), rank: 5, signed: false }),
    neg: (a) => ({ text: `-${wrap(a, 3)}`, rank: 3, signed: true }),
    call: (f, args) => ({
      text: callMaths(
        f,
        args.map((a) => a.text),
      ),
      rank: f === "exp" ? 4 : 5,
      signed: false,
    }),
    bin: (op, a, b) => {
      if (op === "/") return { text: `\\frac{${a.text}}{${b.text}}`, rank: 3, signed: false };
      if (op === "^") return { text: `${wrap(a, 5)}^{${b.text}}`, rank: 4, signed: false };
      if (op === "*")
        return {
          text: `${wrap(a, 2)}\\,${b.signed ? bracketed(b.text) : wrap(b, 2)}`,
          rank: 2,
          signed: a.signed,
        };
      const right = b.signed ? bracketed(b.text) : wrap(b, op === "-" ? 2 : 1);
      return { text: `${wrap(a, 1)} ${op} ${right}`, rank: 1, signed: a.signed };
    },
  }).text;
}
const named: ReadonlySet<FunctionName> = new Set(["max", "min", "sin", "cos", "tan"]);
function callMaths(f: FunctionName, args: readonly string[]): string {
  if (f === "sqrt") return `\\sqrt{${args[0]}}`;
  if (f === "abs") return `\\left|${args[0]}\\right|`;
  if (f === "exp") return `e^{${args[0]}}`;
  if (f === "asin" || f === "acos" || f === "atan") return `\\arc${f.slice(1)}${bracketed(args[0]!)}`;
  return `${named.has(f) ? `\\${f}` : `\\mathrm{${f}}`}${bracketed(args.join(",\\ "))}`;
}
