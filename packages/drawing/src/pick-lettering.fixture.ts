import { expect } from "vitest";
import { type Drawing, toSvg } from "./scene.ts";
import { textWidth } from "./text-width.ts";

/** A line of text of a drawing and the room it takes on paper. */
export interface Lettering {
  readonly words: string;
  readonly cls: string;
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}
const sizes = { t1: 12, t2: 13.5, t3: 15.5 } as const;
/** Reads the lettering back from the SVG; none of it may be turned or shifted. */
export function letteringOf(svg: string): Lettering[] {
  expect(svg).not.toMatch(/translate\(|rotate\((?!45\)|-45\))/);
  return [...svg.matchAll(/<text([^>]*)>(.*?)<\/text>/g)].map(([, attributes, inner]): Lettering => {
    const of = (name: string): string => new RegExp(` ${name}="([^"]*)"`).exec(attributes!)?.[1] ?? "";
    const words = inner!
      .replace(/<[^>]*>/g, "")
      .replaceAll("&lt;", "<")
      .replaceAll("&gt;", ">")
      .replaceAll("&amp;", "&");
    const cls = of("class");
    const size = Object.entries(sizes).find(([name]) => cls.split(" ").includes(name))?.[1] ?? 10.5;
    const wide = textWidth(words, size, /strong|is-/.test(cls));
    const [x, y] = [Number(of("x")), Number(of("y"))];
    const x0 = of("text-anchor") === "end" ? x - wide : of("text-anchor") === "middle" ? x - wide / 2 : x;
    // From the top of capitals to a little below the foot: descenders may reach towards the line below.
    return { words, cls, x0, x1: x0 + wide, y0: y - 0.72 * size, y1: y + 0.16 * size };
  });
}
/** No two lines of text lie over each other, and none leaves the sheet. */
export function expectClear(drawing: Drawing): void {
  const all = letteringOf(toSvg(drawing, { prefix: "c" }));
  const out = all.filter((a) => a.x0 < -0.5 || a.x1 > drawing.width + 0.5 || a.y0 < 0 || a.y1 > drawing.height);
  const hits = all.flatMap((a, i) =>
    all
      .slice(i + 1)
      .filter(
        (b) => Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0) > 0.5 && Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0) > 0.5,
      )
      .map((b) => `${a.words} | ${b.words}`),
  );
  expect({ width: drawing.width, out: out.map((a) => a.words), hits }).toEqual({
    width: drawing.width,
    out: [],
    hits: [],
  });
}
/** Words it says aloud, and no number that is none anywhere in it. */
export function expectSound(drawing: Drawing): string {
  const svg = toSvg(drawing, { prefix: "c" });
  expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  expect(drawing.title.length).toBeGreaterThan(5);
  expect(drawing.desc).toMatch(/\.$/);
  expect(svg).toContain('role="img" aria-labelledby="c-title c-desc"');
  return svg;
}
