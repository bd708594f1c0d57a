import { type FunctionName, fold, type Node, parseExpression } from "./expression.ts";

/** The Greek letters an equation writes out: "mu" stands for μ. */
const greek: Readonly<Record<string, string>> = {
  alpha: "α",
  beta: "β",
  delta: "δ",
  eps: "ε",
  eta: "η",
  theta: "θ",
  kappa: "κ",
  lambda: "λ",
  mu: "μ",
  nu: "ν",
  phi: "φ",
  psi: "ψ",
  pi: "π",
};

/** A symbol as print shows it: "theta_ref" becomes "θ_ref". */
export const symbolInPrint = (name: string): string =>
  name.replace(/^[A-Za-z]+|(?<=_)[A-Za-z]+/g, (word) => (Object.hasOwn(greek, word) ? greek[word]! : word));

const superscript: Readonly<Record<string, string>> = { "2": "²", "3": "³", "4": "⁴" };
const binds = { "+": 1, "-": 1, "*": 2, "/": 2, "^": 4 } as const;

/**
 * An equation as one line of text a person reads: "mu * N * (1 + n)^2" becomes "μ·N·(1 + n)²". `shown` replaces symbols, which
 * fills the numbers in: "0.45·4 N·(1 + 0.2)²".
 */
export function typesetText(equation: Node | string, shown: (name: string) => string = symbolInPrint): string {
  const tree = typeof equation === "string" ? parseExpression(equation) : equation;
  type Piece = { text: string; rank: number };
  const wrap = (p: Piece, least: number) => (p.rank < least ? `(${p.text})` : p.text);
  return fold<Piece>(tree, {
    num: ({ v, unit }) => ({
      text: unit === "" ? `${v}` : unit === "%" ? `${v} %` : `${v} ${unit}`,
      rank: unit === "" ? 5 : 2,
    }),
    sym: ({ name }) => {
      const text = shown(name);
      return { text, rank: /\s/.test(text) ? 3 : /^[-−]/.test(text) ? 3 : 5 };
    },
    neg: (a) => ({ text: `−${wrap(a, 3)}`, rank: 3 }),
    call: (f, args) => ({
      text: callText(
        f,
        args.map((a) => a.text),
      ),
      rank: 5,
    }),
    bin: (op, a, b) => {
      if (op === "^") {
        const up = superscript[b.text];
        return { text: up ? `${wrap(a, 5)}${up}` : `${wrap(a, 5)}^${wrap(b, 5)}`, rank: 4 };
      }
      const r = binds[op];
      const sign = op === "*" ? "·" : op === "/" ? "/" : op === "-" ? " − " : " + ";
      // A minus right behind another sign is bracketed: a − (−b).
      const right = /^[-−]/.test(b.text) ? `(${b.text})` : wrap(b, op === "+" || op === "*" ? r : r + 1);
      return { text: `${wrap(a, r)}${sign}${right}`, rank: r };
    },
  }).text;
}
const callText = (f: FunctionName, args: readonly string[]): string =>
  f === "sqrt" ? `√(${args[0]})` : f === "abs" ? `|${args[0]}|` : `${f}(${args.join(", ")})`;
