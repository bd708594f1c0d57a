import { morph } from "./morph.ts";

/**
 * What an element holds, by the text it was written from. The next text is held against that text token by token: where the same tags follow
 * each other, only the attributes and words that became others are touched, and nothing is parsed. A drawing of a hundred thousand characters
 * in which a tenth moves costs a tenth so. Where the tags are others the whole is morphed.
 */
export class Retold {
  private readonly host: Element;
  private tokens: readonly string[] = [];
  /** The node of every opening tag and every run of words, in order; undefined where the text and its nodes do not go together. */
  private nodes: readonly Node[] | undefined;

  constructor(host: Element) {
    this.host = host;
  }

  show(text: string): void {
    const tokens = tokensOf(text);
    if (!this.nodes || !this.touch(tokens, this.nodes)) {
      morph(this.host, text);
      this.nodes = nodesOf(this.host, tokens);
    }
    this.tokens = tokens;
  }

  /** False, with nothing done, where the tags are others than before. */
  private touch(tokens: readonly string[], nodes: readonly Node[]): boolean {
    const before = this.tokens;
    if (tokens.length !== before.length) return false;
    const changed: number[] = [];
    for (let i = 0; i < tokens.length; i++) {
      if (tokens[i] === before[i]) continue;
      if (kindOf(tokens[i]!) !== kindOf(before[i]!)) return false;
      changed.push(i);
    }
    if (changed.length === 0) return true;
    let at = 0;
    let node = -1;
    for (const i of changed) {
      for (; at <= i; at++) if (isNode(tokens[at]!)) node++;
      rewrite(nodes[node]!, before[i]!, tokens[i]!);
    }
    return true;
  }
}

/** Tags, and the words between them. */
const tokensOf = (text: string): readonly string[] => text.match(/<[^>]*>|[^<]+/g) ?? [];
const isNode = (token: string): boolean => !token.startsWith("</");
/** The name of a tag, with "/" for one that closes; words are all of one kind. */
const kindOf = (token: string): string => (token.startsWith("<") ? /^<\/?[^\s/>]*/.exec(token)![0] : "");

/** The nodes that a host holds, if they are those of the tokens, one for one and in order. */
function nodesOf(host: Element, tokens: readonly string[]): readonly Node[] | undefined {
  const walker = host.ownerDocument.createTreeWalker(host, 1 | 4);
  const nodes: Node[] = [];
  for (const token of tokens) {
    if (!isNode(token)) continue;
    const node = walker.nextNode();
    const fits = token.startsWith("<")
      ? node?.nodeType === 1 && node.nodeName.toLowerCase() === kindOf(token).slice(1).toLowerCase()
      : node?.nodeType === 3;
    if (!fits) return undefined;
    nodes.push(node!);
  }
  return walker.nextNode() ? undefined : nodes;
}

function rewrite(node: Node, before: string, now: string): void {
  if (!now.startsWith("<")) {
    node.nodeValue = decoded(now);
    return;
  }
  const element = node as Element;
  const [old, wanted] = [attributesOf(before), attributesOf(now)];
  for (const [name, value] of wanted) if (old.get(name) !== value) element.setAttribute(name, decoded(value));
  for (const name of old.keys()) if (!wanted.has(name) && name !== "open") element.removeAttribute(name);
}
const attributesOf = (tag: string): ReadonlyMap<string, string> =>
  new Map([...tag.matchAll(/\s([^\s=/>]+)(?:="([^"]*)"|='([^']*)')?/g)].map((m) => [m[1]!, m[2] ?? m[3] ?? ""]));
const named: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'", nbsp: "\u00a0" };
const decoded = (text: string): string =>
  text.replace(/&(?:#x([0-9a-f]+)|#(\d+)|(\w+));/gi, (all, hex?: string, decimal?: string, name?: string) =>
    hex || decimal ? String.fromCodePoint(hex ? Number.parseInt(hex, 16) : Number(decimal)) : (named[name!] ?? all),
  );
