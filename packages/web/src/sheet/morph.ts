/**
 * Turns what an element holds into what a text of HTML or SVG says, keeping every node that can stay and updating its attributes. So a drawing
 * that is written anew sixty times a second stays the same drawing to the browser, to the focus and to a screen reader.
 *
 * Children that are as many as before are matched in order. Where some came or went, the longest run of like ones in order stays: like are
 * two of the same name, first class and `data-key`. What a reader has unfolded stays so.
 */
export function morph(host: Element, text: string): void {
  const template = host.ownerDocument.createElement("template");
  template.innerHTML = text;
  children(host, template.content);
}

/** What belongs to the page and not to the text: whether a reader has unfolded something. */
const kept = "open";

function children(from: Node, to: Node): void {
  const now = [...from.childNodes];
  const wanted = [...to.childNodes];
  const pairs = now.length === wanted.length ? wanted.map((_, i) => i) : matched(now, wanted);
  let at = 0;
  wanted.forEach((one, j) => {
    const i = pairs[j];
    const found = i === undefined ? undefined : now[i];
    // What was passed over is not wanted any more.
    while (i !== undefined && at < i) now[at++]!.remove();
    if (found && sameKind(found, one)) {
      if (!found.isEqualNode(one)) update(found, one);
      at = i! + 1;
    } else if (found) {
      found.replaceWith(one);
      at = i! + 1;
    } else from.insertBefore(one, now[at] ?? null);
  });
  while (at < now.length) now[at++]!.remove();
}
const isElement = (node: Node): node is Element => node.nodeType === 1;
const sameKind = (a: Node, b: Node): boolean => a.nodeType === b.nodeType && a.nodeName === b.nodeName;
const signOf = (node: Node): string =>
  isElement(node)
    ? `${node.nodeName} ${node.getAttribute("data-key") ?? ""} ${node.getAttribute("class")?.split(" ")[0] ?? ""}`
    : node.nodeName;

/** For each wanted child the present one that becomes it, in order: like ends first, between them the longest common run. */
function matched(now: readonly Node[], wanted: readonly Node[]): (number | undefined)[] {
  const [a, b] = [now.map(signOf), wanted.map(signOf)];
  const out = new Array<number | undefined>(b.length).fill(undefined);
  let head = 0;
  while (head < a.length && head < b.length && a[head] === b[head]) {
    out[head] = head;
    head++;
  }
  let tail = 0;
  while (tail < a.length - head && tail < b.length - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) {
    out[b.length - 1 - tail] = a.length - 1 - tail;
    tail++;
  }
  const [n, m] = [a.length - head - tail, b.length - head - tail];
  // Lists so long have no node that a reader holds on to.
  if (n === 0 || m === 0 || n * m > 40_000) return out;
  const longest = Array.from({ length: n + 1 }, () => new Uint16Array(m + 1));
  for (let i = n - 1; i >= 0; i--)
    for (let j = m - 1; j >= 0; j--)
      longest[i]![j] =
        a[head + i] === b[head + j] ? longest[i + 1]![j + 1]! + 1 : Math.max(longest[i + 1]![j]!, longest[i]![j + 1]!);
  for (let i = 0, j = 0; i < n && j < m; ) {
    if (a[head + i] === b[head + j]) out[head + j++] = head + i++;
    else if (longest[i + 1]![j]! >= longest[i]![j + 1]!) i++;
    else j++;
  }
  return out;
}

function update(now: Node, wanted: Node): void {
  if (!isElement(now) || !isElement(wanted)) {
    if (now.nodeValue !== wanted.nodeValue) now.nodeValue = wanted.nodeValue;
    return;
  }
  for (const { name, value } of [...wanted.attributes])
    if (name !== kept && now.getAttribute(name) !== value) now.setAttribute(name, value);
  for (const { name } of [...now.attributes])
    if (name !== kept && !wanted.hasAttribute(name)) now.removeAttribute(name);
  children(now, wanted);
}
