import { describe, expect, test } from "vitest";
import { DrawingBug } from "./scene.ts";
import { fontFaces, fontFiles, theme, themeOfDrawing } from "./theme.ts";
import { markInline } from "./verdict-mark.ts";

/** Tokens that hold in a theme, read from the CSS text itself: later rules win. */
function tokensOf(css: string, blocks: readonly RegExp[]): Record<string, string> {
  const out: Record<string, string> = {};
  for (const block of blocks) {
    const found = block.exec(css);
    if (!found) throw new DrawingBug(`no block ${block}`);
    for (const [, name, value] of found[1]!.matchAll(/--([\w-]+):([^;}]+)/g)) out[name!] = value!;
  }
  return out;
}
const css = theme();
const light = /:root,\[data-theme=light\]\{([^}]*)\}/;
const themes = {
  light: tokensOf(css, [light]),
  dark: tokensOf(css, [light, /\n\[data-theme=dark\]\{([^}]*)\}/]),
  print: tokensOf(css, [light, /@media print\{[^{]*\{([^}]*)\}/]),
};

// WCAG 2.2, relative luminance and contrast ratio. [memory of the definition]
const luminance = (hex: string): number => {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (a: string, b: string): number => {
  const [x, y] = [luminance(a), luminance(b)];
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
};
// Black on white has 21, mid grey #777777 on white 4.48. [memory: the figure that fails by a hair]
test("the ratio is that of the guideline: 21 for black on white, 4.48 for #777777", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 9);
  expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2);
});

describe.each(Object.entries(themes))("in %s", (_, t) => {
  test.each([
    ...["ink", "ink2", "ink3", "fail", "ask", "hand", "tight", "film", "seal", "board"].map(
      (name) => [name, "paper"] as const,
    ),
    ["ink", "handbg"],
    ["ink2", "handbg"],
    ["ask", "handbg"],
    ["fail", "handbg"],
    ["ask", "askbg"],
    ["ink", "failbg"],
    ["fail", "failbg"],
    ["ink", "body"],
    ["ink2", "body"],
    ["onhand", "hand"],
    ["paper", "ink"],
  ] as const)("text in %s reads on %s", (text, ground) => {
    expect(contrast(t[text]!, t[ground]!)).toBeGreaterThanOrEqual(4.5);
  });
  test.each([
    ...["pass", "fail", "ask", "hand", "steel", "film", "seal", "board", "tape", "part", "rule"].map(
      (name) => [name, "paper"] as const,
    ),
    ["pass", "handbg"],
    ["ask", "handbg"],
    ["ink3", "body"],
    ["tape", "cavity"],
    ["part", "cavity"],
    ["ink", "body"],
  ] as const)("a mark in %s is seen on %s", (mark, ground) => {
    expect(contrast(t[mark]!, t[ground]!)).toBeGreaterThanOrEqual(3);
  });
});

test("a page that asks for dark gets the same tokens as one whose system is dark", () => {
  const bySystem = /prefers-color-scheme:dark\)\{:root:not\(\[data-theme=light\]\)\{([^}]*)\}/.exec(css)![1];
  const byPage = /\n\[data-theme=dark\]\{([^}]*)\}/.exec(css)![1];
  expect(bySystem).toBe(byPage);
});
test("print is white paper, whatever the page asks for", () => {
  expect(themes.print.paper).toBe("#ffffff");
  expect(/@media print\{([^{]*)\{/.exec(css)![1]).toContain("[data-theme=dark]");
});
test("with forced colours every token is a colour of the system", () => {
  const block = /forced-colors:active\)\{[^{]*\{([^}]*)\}/.exec(css)![1]!;
  const values = new Set([...block.matchAll(/--[\w-]+:(\w+)/g)].map(([, v]) => v));
  expect([...values].sort()).toEqual(["Canvas", "CanvasText", "GrayText", "Highlight", "HighlightText"]);
});
test("every token that a rule uses is declared", () => {
  const used = new Set([...css.matchAll(/var\(--([\w-]+)/g)].map(([, name]) => name!));
  expect([...used].filter((name) => !(name in themes.light))).toEqual([]);
});
test("verdicts differ in form, not in colour alone", () => {
  const forms = (["feeds", "depends", "stops", "n/a"] as const).map((v) =>
    markInline(v).replace(/ class="[^"]*"/g, ""),
  );
  expect(new Set(forms).size).toBe(4);
});
test("braces of the rules match", () => {
  expect(css.match(/\{/g)!.length).toBe(css.match(/\}/g)!.length);
});
test("the lettering is embedded only where a place for its files is given", () => {
  expect(theme()).not.toContain("@font-face");
  expect(theme({ fonts: "fonts/" })).toContain('src:url("fonts/sofia-sc-latin-400.woff2")');
  expect(fontFaces("")).toContain("U+0370-03FF");
});
test("where each file is may be said file by file, and two faces may stand for four", () => {
  const asked: string[] = [];
  fontFaces((file) => `data:${asked.push(file)}`);
  expect(asked).toEqual(fontFiles);
  const two = fontFaces("", "two");
  expect(two.match(/@font-face/g)).toHaveLength(4);
  expect(two).toContain("font-weight:600 700");
});
test("a drawing that stands alone has the tokens of one theme and asks for no other", () => {
  expect(themeOfDrawing("dark")).toContain("--paper:#121a1b");
  expect(themeOfDrawing("dark")).not.toContain("prefers-color-scheme");
  expect(themeOfDrawing("light")).toContain("--paper:#f7f8f4");
});
