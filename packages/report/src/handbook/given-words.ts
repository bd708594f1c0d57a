import {
  assumptions,
  builtForLetters,
  fieldAt,
  type Given,
  isPlace,
  type Origin,
  type Scene,
  shownUnit,
  tapeFields,
} from "@tapeworthy/core";
import { projectFields } from "@tapeworthy/project";

/** What a number that somebody gives is called on a page, and where it stands. */
export interface GivenWords {
  readonly title: string;
  readonly where: string;
  /** Text as given, where it is the same in every scene: an assumption, a figure of our tables. */
  readonly text?: string;
  readonly source?: string;
}

interface AnyField {
  readonly kind: string;
  readonly of?: unknown;
  readonly members?: Readonly<Record<string, unknown>>;
  readonly means?: string;
}
const opened = (field: unknown): AnyField | undefined => {
  let one = field as AnyField | undefined;
  while (one?.kind === "optional") one = one.of as AnyField;
  return one;
};
/** What the description of a file says of a number, by the names of the groups it stands in. */
function meansAt(field: unknown, path: readonly string[]): string | undefined {
  const one = opened(field);
  const [name, ...rest] = path;
  return name === undefined ? one?.means : one?.members && meansAt(one.members[name], rest);
}
const spaced = (name: string): string => name.replace(/[A-Z]/g, (ch) => ` ${ch.toLowerCase()}`);

/** Where an object stands in a tree of the scene, as a path of names; list items by their number. */
function pathIn(tree: unknown, wanted: Given, depth = 6): string | undefined {
  if (typeof tree !== "object" || tree === null || depth === 0) return undefined;
  if ("kind" in tree && (tree.kind === "given" || tree.kind === "model")) return undefined;
  for (const [name, inner] of Object.entries(tree)) {
    const step = Array.isArray(tree) ? String(Number(name) + 1) : name;
    if (inner === wanted) return step;
    const rest = pathIn(inner, wanted, depth - 1);
    if (rest !== undefined) return `${step}.${rest}`;
  }
  return undefined;
}

/** A number of a scene in words: what it is, from the description of the field it stands in, or from the table it comes from. */
export function givenWords(g: Given, { unit, tape, requirement }: Scene): GivenWords {
  const [file = "", ...rest] = g.address.split("/");
  const name = rest.join("/");
  if (file === "assume" && Object.hasOwn(assumptions, name)) {
    const entry = assumptions[name as keyof typeof assumptions];
    return { title: entry.means, where: `assumed: \`${name}\``, text: g.text, source: sourceOf(entry.origin) };
  }
  if (file === "assume") return { title: name, where: "assumed", text: g.text };
  const { letters, ...ofUnit } = unit;
  const inUnit = pathIn(ofUnit, g);
  if (inUnit !== undefined) {
    const known = fieldAt(inUnit)?.means;
    return { title: known ?? inUnit.replaceAll(".", " "), where: `unit file: \`${plainPath(inUnit)}\`` };
  }
  const builtFor = Object.entries(letters).find(([, q]) => q === g)?.[0];
  if (builtFor !== undefined && Object.hasOwn(builtForLetters, builtFor) && file !== "catalogue")
    return {
      title: builtForLetters[builtFor as keyof typeof builtForLetters].means,
      where: `unit file: \`built for.${builtFor}\``,
    };
  const letter = Object.entries(tape.letters).find(([, q]) => q === g)?.[0] ?? builtFor;
  if (letter !== undefined) {
    const of = builtFor === undefined ? "tape" : "row of the catalogue the unit is made for";
    return {
      title: meansAt(tapeFields, [letter]) ?? letterMeans[letter] ?? `letter ${letter}`,
      where: `${of}: \`${letter}\``,
    };
  }
  const ofFilm = Object.entries(tape.film).find(([, q]) => q === g)?.[0];
  if (ofFilm !== undefined) {
    const [title, word] = filmWords[ofFilm] ?? [undefined, spaced(ofFilm)];
    return {
      title: title ?? meansAt(tapeFields, ["film", word]) ?? word,
      where: `tape: \`film.${word}\``,
      ...(file === "catalogue" ? tabledWords(g) : {}),
    };
  }
  const ofTape = Object.entries(tape).find(([, q]) => q === g)?.[0];
  if (ofTape !== undefined)
    return { title: meansAt(tapeFields, [spaced(ofTape)]) ?? spaced(ofTape), where: `tape: \`${spaced(ofTape)}\`` };
  const asked = pathIn({ ...requirement, assume: {} }, g);
  if (asked !== undefined) {
    const words = asked === "breakSafety" ? ["safety", "film break"] : asked.split(".").map(spaced);
    const of = [words, ["requirement", ...words]].find((path) => meansAt(projectFields, path) !== undefined) ?? words;
    return { title: meansAt(projectFields, of) ?? of.join(" "), where: `project.yaml: \`${of.join(".")}\`` };
  }
  if (file === "bound") return { title: name, where: "fixed", ...tabledWords(g) };
  if (file === "catalogue")
    return {
      title: name
        .replace(/^(embossed|punched) \d+\//, "letter ")
        .replace(/\b(?:pom|nbr|petg|pla|abs|tpu|pa)\b/g, (plastic) => plastic.toUpperCase()),
      where: "table of the program",
      ...tabledWords(g),
    };
  return { title: name.replaceAll(".", " "), where: "unit or tape file" };
}
const letterMeans: Readonly<Record<string, string>> = {
  R: "least bend radius",
  S0: "width of the slot",
  D1: "diameter of the hole in the pocket's floor",
  E2: "edge to the second row of holes",
  b: "width of the cover film",
};
/** Numbers of the film that a tape file groups or calls otherwise. */
const filmWords: Readonly<Record<string, readonly [title: string, where: string]>> = {
  E1: ["Young's modulus of the stretched layer", "stretched.modulus"],
  h1: ["thickness of the stretched layer", "stretched.thickness"],
  E2: ["Young's modulus of the sealing layer", "sealing.modulus"],
  h2: ["thickness of the sealing layer", "sealing.thickness"],
  nu: ["Poisson's ratio of the film", "Poisson's ratio"],
};
const plainPath = (path: string): string => path.replace(/\.\d+(?=\.|$)/g, "");
const tabledWords = (g: Given): { text: string; source?: string } => ({
  text: g.text,
  ...(isPlace(g.origin) ? {} : { source: sourceOf(g.origin) }),
});
/** Where a number comes from, and how that is known; once, where the words say it themselves. */
export const sourceOf = (origin: Origin): string => {
  if (isPlace(origin)) return "a design file";
  const { cite, how } = origin;
  return new RegExp(`\\b${how}\\)?$|^${how}\\b`).test(cite) ? cite : `${cite} (${how})`;
};

/** Unit as a table's cell says it. */
export const unitWord = (unit: string): string =>
  unit === "" || unit === "1"
    ? "–"
    : unit.replaceAll("*", "·").replace(/\^2/g, "²").replace(/\^3/g, "³").replace(/\^4/g, "⁴");
export const givenUnit = (g: Given): string => unitWord(shownUnit(g));
