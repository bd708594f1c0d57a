import { type FunctionName, fold, type Node, parseExpression, symbolInPrint } from "@tapeworthy/core";
import { escaped } from "./scene.ts";

/**
 * Equations in MathML, written from the tree of the small grammar that design files and models share. The grammar has numbers with units,
 * names, sums, products, quotients, powers and a dozen functions; that needs no typesetting library.
 */
interface Piece {
  readonly ml: string;
  /** How tightly it binds: 1 sum, 2 product, 3 sign, 4 power, 5 whole. */
  readonly rank: number;
  /** What it would be without brackets, where it is a quotient whose sides are bracketed by the bar itself. */
  readonly signed: boolean;
}
const mo = (sign: string): string => `<mo>${sign}</mo>`;
const fence = (inner: string, left = "(", right = ")"): string =>
  `<mrow><mo stretchy="true">${left}</mo>${inner}<mo stretchy="true">${right}</mo></mrow>`;

/** A name as print shows it: "P_ref" with its index below, "theta" as its letter, several letters upright. */
export function symbolMl(name: string): string {
  const [head, ...rest] = symbolInPrint(name).split("_");
  const index = rest.join(",");
  const one = (word: string): string =>
    [...word].length === 1 || /^[A-Z]\d$/.test(word) ? mi(word) : `<mi mathvariant="normal">${escaped(word)}</mi>`;
  const mi = (word: string): string =>
    /^[A-Z]\d$/.test(word) ? `<mi mathvariant="normal">${escaped(word)}</mi>` : `<mi>${escaped(word)}</mi>`;
  return index === ""
    ? one(head!)
    : `<msub>${one(head!)}${/^\d+$/.test(index) ? `<mn>${index}</mn>` : `<mi mathvariant="normal">${escaped(index)}</mi>`}</msub>`;
}

function treeMl(tree: Node): string {
  const wrap = (p: Piece, least: number): string => (p.rank < least ? fence(p.ml) : p.ml);
  return fold<Piece>(tree, {
    num: ({ v, unit }) => ({
      ml:
        unit === ""
          ? `<mn>${v}</mn>`
          : `<mrow><mn>${v}</mn><mspace width="0.17em"/><mi mathvariant="normal">${escaped(unit)}</mi></mrow>`,
      rank: unit === "" ? 5 : 2,
      signed: false,
    }),
    sym: ({ name }) => ({ ml: symbolMl(name), rank: 5, signed: false }),
    neg: (a) => ({ ml: `<mrow>${mo("−")}${wrap(a, 3)}</mrow>`, rank: 3, signed: true }),
    call: (f, args) => ({
      ml: callMl(
        f,
        args.map((a) => a.ml),
      ),
      rank: 5,
      signed: false,
    }),
    bin: (op, a, b) => {
      if (op === "/") return { ml: `<mfrac>${row(a.ml)}${row(b.ml)}</mfrac>`, rank: 3, signed: false };
      if (op === "^") return { ml: `<msup>${wrap(a, 5)}${row(b.ml)}</msup>`, rank: 4, signed: false };
      if (op === "*")
        return {
          ml: `<mrow>${wrap(a, 2)}${mo("·")}${b.signed ? fence(b.ml) : wrap(b, 2)}</mrow>`,
          rank: 2,
          signed: a.signed,
        };
      const right = b.signed ? fence(b.ml) : wrap(b, op === "-" ? 2 : 1);
      return { ml: `<mrow>${wrap(a, 1)}${mo(op === "-" ? "−" : "+")}${right}</mrow>`, rank: 1, signed: a.signed };
    },
  }).ml;
}
const row = (ml: string): string =>
  ml.startsWith("<mrow>") || /^<m[in]\b[^>]*>[^<]*<\/m[in]>$/.test(ml) ? ml : `<mrow>${ml}</mrow>`;
function callMl(f: FunctionName, args: readonly string[]): string {
  if (f === "sqrt") return `<msqrt>${args[0]}</msqrt>`;
  if (f === "abs") return fence(args[0]!, "|", "|");
  if (f === "exp") return `<msup><mi mathvariant="normal">e</mi>${row(args[0]!)}</msup>`;
  const inner = args.join(mo(","));
  return `<mrow><mi mathvariant="normal">${f}</mi>${mo("&#8289;")}${fence(inner)}</mrow>`;
}

/**
 * The expression that a printed equation was typeset from: "μ·N·(1 + n)²" is "mu*N*(1 + n)^2". Undefined where the text is no
 * expression of the grammar, as the governing equation of a solver.
 */
export function expressionOf(printed: string): Node | undefined {
  const plain = printed
    .replace(/[αβδεηθκλμνφψπ]/g, (ch) => latin[ch]!)
    .replace(/√\(/g, "sqrt(")
    .replace(/\|([^|]*)\|/g, "abs($1)")
    .replace(/[²³⁴]/g, (ch) => `^${{ "²": 2, "³": 3, "⁴": 4 }[ch]}`)
    .replaceAll("·", "*")
    .replaceAll("−", "-");
  try {
    return parseExpression(plain);
  } catch {
    return undefined;
  }
}
const latin: Readonly<Record<string, string>> = {
  α: "alpha",
  β: "beta",
  δ: "delta",
  ε: "eps",
  η: "eta",
  θ: "theta",
  κ: "kappa",
  λ: "lambda",
  μ: "mu",
  ν: "nu",
  φ: "phi",
  ψ: "psi",
  π: "pi",
};

/** Signs that stand in one line of a panel of 340 px; browsers break no equation by themselves. */
const lineOfSigns = 34;
const signsOf = (ml: string): number => [...ml.replace(/<[^>]*>/g, "").replace(/&#?\w+;/g, "")].length;
/** A sum in lines of whole terms, none broken within; one line where it is short or no sum. */
function sumLines(symbol: string, tree: Node): string[] {
  const terms: { readonly sign: "" | "+" | "−"; readonly node: Node }[] = [];
  const take = (node: Node): void => {
    if (node.op === "+" || node.op === "-") {
      take(node.a);
      terms.push({ sign: node.op === "+" ? "+" : "−", node: node.b });
    } else terms.push({ sign: "", node });
  };
  take(tree);
  const lines: string[] = [];
  let length = 0;
  for (const [i, { sign, node }] of terms.entries()) {
    // As in a row: what is taken away is bracketed where it is a sum, and so is what begins with a sign.
    const bracketed = node.op === "neg" || (sign === "−" && (node.op === "+" || node.op === "-"));
    const ml = sign === "" ? treeMl(node) : `${mo(sign)}${bracketed ? fence(treeMl(node)) : treeMl(node)}`;
    const long = signsOf(ml);
    if (i === 0) lines.push(`${symbolMl(symbol)}${mo("=")}${ml}`);
    else if (length + long <= lineOfSigns) lines[lines.length - 1] += ml;
    else {
      lines.push(ml);
      length = 0;
    }
    length += long;
  }
  return lines;
}

/**
 * `symbol = equation` as one MathML element, its text beside it for what does not read MathML; a long sum in lines of whole terms. Undefined
 * where the equation is no expression.
 */
export function equationMl(symbol: string, equation: string): string | undefined {
  const tree = expressionOf(equation);
  if (!tree) return undefined;
  const head = `<math displaystyle="true" alttext="${escaped(`${symbol} = ${equation}`)}"`;
  const lines = sumLines(symbol, tree);
  if (lines.length === 1) return `${head}><mrow>${symbolMl(symbol)}${mo("=")}${treeMl(tree)}</mrow></math>`;
  const rows = lines.map(
    (ml, i) => `<mtr><mtd>${i === 0 ? "" : '<mspace width="1.2em"/>'}<mrow>${ml}</mrow></mtd></mtr>`,
  );
  const widest = Math.max(...lines.map(signsOf));
  return `${head} class="${widest > 1.3 * lineOfSigns ? "longer" : "long"}"><mtable>${rows.join("")}</mtable></math>`;
}
/** An expression alone. */
export const expressionMl = (expression: string | Node): string => {
  const tree = typeof expression === "string" ? parseExpression(expression) : expression;
  return `<math>${treeMl(tree)}</math>`;
};
