import { type Cite, type Given, tabled } from "../quantity/given.ts";
import { didYouMean } from "../quantity/nearest.ts";
import { unitOf } from "../quantity/units.ts";
import { citation } from "../tape/catalogue.ts";
import { type Figure, isRange, type Range } from "../tape/figures/figure.ts";
import { creepPC, PC } from "../tape/figures/materials.ts";
import { type SpringMaterial, springMaterials } from "./figures.ts";

/**
 * Materials by the words a unit file uses: "spring steel 1.4310 +C1700", "PETG", "POM". A word of more letters wins over a shorter one
 * ("spring steel c75s" over "spring steel"); what follows in the text is free, but for a temper.
 */
export interface Named {
  readonly material: SpringMaterial;
  readonly name: string;
  /** Strength by the temper that is written behind the material; else the material's own. */
  readonly temper?: string;
}

/** PC is a carrier as well: its figures stand with the carriers. */
const polycarbonate: SpringMaterial = {
  kind: "plastic",
  words: ["pc", "polycarbonate", "printed pc"],
  ...PC,
  E: PC.E!,
  nu: { value: 0.37, how: "memory", sources: ["memory"], confidence: "medium" },
  strength: PC.yield!,
  relaxation: {
    low: 0.019,
    high: 0.024,
    how: "derived",
    sources: ["derived"],
    note: `from ${creepPC.hour.value} MPa at 1 h and ${creepPC.thousandHours.value} MPa at 1000 h: 0.0212`,
  },
};
const all: readonly SpringMaterial[] = [...springMaterials, polycarbonate];
const words = all.flatMap((material) => material.words.map((word) => ({ word, material })));
const byLength = [...words].sort((a, b) => b.word.length - a.word.length);

/** `text` holds `word` as whole words. */
function holds(text: string, word: string): boolean {
  for (let i = text.indexOf(word); i >= 0; i = text.indexOf(word, i + 1)) {
    const before = text[i - 1] ?? " ";
    const after = text[i + word.length] ?? " ";
    if (!/[a-z0-9.]/.test(before) && !/[a-z0-9]/.test(after)) return true;
  }
  return false;
}
export function materialNamed(text: string): Named | undefined {
  const low = text.toLowerCase();
  const found = byLength.find(({ word }) => holds(low, word));
  if (!found) return undefined;
  const { material } = found;
  const temper = Object.keys(material.tempers ?? {}).find((t) => holds(low, t) || holds(low, t.slice(1)));
  return { material, name: material.words[0], ...(temper ? { temper } : {}) };
}
/** Why nothing is known of a material, with the nearest word that is. */
export function unknownMaterial(text: string): string {
  const hint = didYouMean(
    text,
    words.map(({ word }) => word),
  );
  return `no figures are known of "${text}" as a spring${hint ? `. ${hint}` : ""}`;
}

const figures = {
  E: { symbol: "E", unit: "MPa", says: "modulus" },
  nu: { symbol: "nu", unit: "", says: "Poisson's ratio" },
  strength: { symbol: "R_m", unit: "MPa", says: "strength" },
  yieldShare: { symbol: "q_y", unit: "", says: "yield over strength" },
  relaxation: { symbol: "n", unit: "", says: "relaxation exponent" },
  fatigue: { symbol: "q_f", unit: "", says: "fatigue strength over strength" },
} as const;
export type MaterialFigure = keyof typeof figures;

const kept = new Map<string, Given>();
/** A figure of a material as a quantity, the same object every time; a span is an unknown within it. Undefined where none is tabled. */
export function materialFigure({ material, name, temper }: Named, which: MaterialFigure): Given | undefined {
  const { symbol, unit, says } = figures[which];
  const ofTemper = which === "strength" && temper !== undefined;
  const figure = ofTemper ? material.tempers?.[temper] : (material[which] ?? shareOfYield(material, which));
  if (!figure) return undefined;
  const address = `catalogue/${says} of ${name}${ofTemper ? ` ${temper.toUpperCase()}` : ""}`;
  const known = kept.get(address);
  if (known) return known;
  const made = tabled(address, symbol, textOf(figure, unit), unitOf(unit).dimension, originOf(figure));
  kept.set(address, made);
  return made;
}
/** Where yield itself is tabled, its share of the strength. */
function shareOfYield(material: SpringMaterial, which: MaterialFigure): Figure | undefined {
  const { yield: yields, strength } = material;
  if (which !== "yieldShare" || !yields || !strength || isRange(yields) || isRange(strength)) return undefined;
  const value = +(yields.value / strength.value).toPrecision(4);
  return { value, how: "derived", sources: ["derived"], note: `${yields.value} over ${strength.value} MPa` };
}
const textOf = (f: Figure | Range, unit: string): string => {
  const u = unit === "" ? "" : ` ${unit}`;
  return isRange(f) ? `${f.low}..${f.high}${u} guess` : `${f.value}${u}`;
};
const originOf = (f: Figure | Range): Cite => ({
  cite: f.note ? `${citation(f.sources)} (${f.note})` : citation(f.sources),
  how: f.how,
});
