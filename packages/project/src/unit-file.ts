import {
  asWritten,
  isPlace,
  type Quantity,
  type QuantityField,
  quantity,
  Realiser,
  reservedWords,
  rowLetter,
  rowLetters,
  type Scene,
  type TapeKind,
  tabled,
  type Unit,
  type UnitData,
  unitFields,
  unitNamed,
} from "@tapeworthy/core";
import { isActual } from "./actual.ts";
import { noPocket, type PocketInput, type PocketsOf, readBuiltFor, tapesBuiltFor } from "./built-for.ts";
import { didYouMean, eachOnce, type ProjectError } from "./error.ts";
import { type Freed, type FreedBounds, freedIn, readFree, readFreeAt } from "./free.ts";
import { GivenStore } from "./given-store.ts";
import { checkLeafWindow } from "./leaf-window.ts";
import { isName, isPocketLetter, isRowLetter, type Letters } from "./letters.ts";
import { checkLimits, type Limit, longestOfUnit } from "./limits.ts";
import { marksAsWritten, readMarks } from "./marks.ts";
import { checkPairs } from "./pairs.ts";
import { FieldReader, join, nothingShared, plainSetting, type Setting, type Shared, short } from "./read.ts";
import { type MapSource, parseSource, type Source, type SourceFile } from "./source.ts";
import { builtForByWidth, overridesByWidth, servedWidths } from "./widths.ts";

/** A unit file read: a family, cut into one variant a width. */
export interface UnitFile {
  readonly name: string;
  readonly stem: string;
  readonly kinds: readonly TapeKind[];
  readonly widths: readonly number[];
  readonly variants: ReadonlyMap<number, Unit>;
  readonly source: SourceFile;
  /** Dimensions that the file frees for sizing. */
  readonly free: readonly Freed[];
  /** By width the numbers that follow the tape on the reel, whose values are known only with a tape. */
  readonly following: ReadonlyMap<number, readonly Limit[]>;
  /** What the file says of a width, as written, by the paths it replaces; none where it says nothing. */
  overridesAt(width: number): ReadonlyMap<string, string>;
  /**
   * A variant for a width between those it is made in, with the letters it is to mean and the overrides of one of its widths. The errors,
   * where the file cannot be cut to that width.
   */
  cutFor(
    width: number,
    letters: Letters,
    overridesOf: number,
  ): { readonly unit?: Unit; readonly errors: ProjectError[] };
}
const pi = tabled("bound/pi", "pi", "3.141592653589793", [0, 0, 0, 0, 0], { cite: "by definition", how: "derived" });
const free: QuantityField = quantity("any", "a name of your own");
/**
 * Reads a unit file: every width it serves becomes a variant. All errors of the file come back together; a file with errors has no
 * variants. `pockets` finds the tape files that `built for` may name.
 */
export function readUnitFile(
  source: SourceFile,
  stem: string,
  pockets: PocketsOf,
  tapeNames: readonly string[],
  store: GivenStore,
): { unit?: UnitFile; errors: ProjectError[] } {
  const { tree, errors } = parseSource(source);
  const whole = errors.length === 0;
  if (!tree) return { errors };
  if (tree.kind === "broken") return { errors };
  if (tree.kind !== "map")
    return { errors: [...errors, source.error(tree.place, "no members", "a unit: name, tape, film and the rest")] };
  const entry = (name: string): Source | undefined => tree.entries.get(name)?.value;
  const rest = without(tree, ["built for", "let", "per width", "free"]);

  const served = servedWidths(source, tree, errors);
  const overrides = overridesByWidth(source, entry("per width"), served, errors);
  const built = builtForByWidth(
    source,
    entry("built for"),
    tree.entries.get("built for")?.keyPlace ?? tree.entries.get("serves")?.keyPlace ?? source.place(0, 1),
    served,
    errors,
  );
  const shared = nothingShared();
  const marks = readFree(source, entry("free"), errors);
  const variants = new Map<number, Unit>();
  const following = new Map<number, readonly Limit[]>();
  const free = { marks, at: entry("free") };
  const family = { source, stem, whole, rest, free, lets: entry("let"), pockets, tapeNames, store, shared };
  for (const width of served.widths) {
    const instead = { overridesOf: width, instead: overrides.get(width) };
    const input = { ...family, ...instead, width, built: built.at(width), between: undefined };
    const mine: ProjectError[] = [];
    const { unit, limits } = readVariant(input, mine);
    errors.push(...mine);
    if (!unit) continue;
    variants.set(width, unit);
    following.set(width, followsTheTape(limits) ? limits : []);
  }
  // A variant built for a tape whose own file is wrong is missing without an error here.
  const freed = variants.size < served.widths.length ? [] : freedIn(source, marks, variants.values(), errors);
  if (errors.length > 0 || variants.size < served.widths.length) return { errors: eachOnce(errors) };
  const one = [...variants.values()][0]!;
  const overridesAt = (width: number): ReadonlyMap<string, string> =>
    new Map(
      [...(overrides.get(width)?.entries.values() ?? [])].map(({ key, value }) => [
        key,
        value.kind === "scalar" ? value.text : "other members",
      ]),
    );
  const cutFor: UnitFile["cutFor"] = (width, letters, overridesOf) => {
    const instead = { overridesOf, instead: overrides.get(overridesOf) };
    const mine: ProjectError[] = [];
    // A store of its own: letters between two widths are new ones at each.
    const input = {
      ...family,
      free: undefined,
      ...instead,
      store: new GivenStore(),
      width,
      built: undefined,
      between: letters,
    };
    const { unit } = readVariant(input, mine);
    return unit ? { unit, errors: mine } : { errors: eachOnce(mine) };
  };
  const unit = {
    name: one.name,
    stem,
    kinds: one.serves.kind,
    widths: served.widths,
    variants,
    source,
    free: freed,
    following,
  };
  return { unit: { ...unit, overridesAt, cutFor }, errors };
}

const without = (tree: MapSource, names: readonly string[]): MapSource => ({
  ...tree,
  entries: new Map([...tree.entries].filter(([key]) => !names.includes(key))),
});
const followsTheTape = (limits: readonly Limit[]): boolean =>
  limits.some(({ given: g }) => g.expression && /\bactual\b/.test(g.text));

interface VariantInput extends PocketInput {
  /** Nothing in the file's text was left out as broken. */
  readonly whole: boolean;
  readonly rest: MapSource;
  readonly shared: Shared;
  readonly lets: Source | undefined;
  /** What the file frees for sizing; undefined where that is not asked. */
  readonly free: { readonly marks: readonly FreedBounds[]; readonly at: Source | undefined } | undefined;
  readonly instead: MapSource | undefined;
  /** The width whose overrides these are. */
  readonly overridesOf: number;
  /** Letters for a width between two; undefined where the width's own row and pocket give them. */
  readonly between: Letters | undefined;
}

function readVariant(input: VariantInput, errors: ProjectError[]): { unit?: Unit; limits: readonly Limit[] } {
  const { source, stem, rest, width, store, lets } = input;
  const letters: Letters = { ...input.between };
  for (const letter of input.between ? [] : rowLetters) {
    const q = rowLetter("embossed", width, letter);
    if (q) letters[letter] = q;
  }
  const instead = new Map([...(input.instead?.entries.values() ?? [])].map((e) => [e.key, e.value]));
  const plain = {
    ...plainSetting({ source, prefix: `${stem}/`, level: "unit", store, errors }),
    expects: undefined,
    instead,
    shared: input.shared,
    insteadAt: `per width.${input.overridesOf}.`,
  };

  const pocket = new FieldReader({ ...plain, names: () => ({ ...letters, pi }) });
  if (!input.between) readBuiltFor(pocket, input, letters);

  const names: Record<string, Quantity> = { ...letters, pi } as Record<string, Quantity>;
  const tape = rest.entries.get("tape")?.value;
  const setting: Setting = {
    ...plain,
    actual: true,
    once: isPocketLetter,
    hint: hintFor(width, lets, marksAsWritten(tape).names),
  };
  const unknown = (name: string): boolean => !Object.hasOwn(names, name) && !isActual(name) && !unitNamed(name);
  const letsLost = (name: string): boolean => lets !== undefined && lets.kind !== "map" && unknown(name);
  const own = new FieldReader({ ...setting, names: () => names, silent: letsLost });
  readLets(own, lets, names);
  const marks = readMarks({ ...setting, silent: letsLost }, tape, names, `${stem} ${width}`);
  const onRoute = (path: string): boolean => path.startsWith("tape.route") || path.startsWith("tape.place");
  const markLost = (name: string): boolean => marks.lost.has(name) || (!marks.whole && unknown(name));
  const body = new FieldReader({
    ...setting,
    names: (field, path) => (onRoute(path) ? names : marks[field.marks]),
    silent: (name, path) => letsLost(name) || (!onRoute(path) && markLost(name)),
  });
  const data = body.read(unitFields, rest, "") as UnitData | undefined;

  const missed = [...own.leftOut, ...body.leftOut].filter(isPocketLetter);
  if (input.built && "missing" in input.built && missed.length > 0)
    errors.push(noPocket(source, input.built.missing, width, missed));
  const known = [...body.givens.keys(), ...own.givens.keys()].map((address) => address.slice(stem.length + 1));
  const met = new Set([...pocket.met, ...own.met, ...body.met]);
  for (const { key, keyPlace } of input.instead?.entries.values() ?? []) {
    // The letters between two widths have what these say of the pocket already.
    if (met.has(key) || (input.between && key.startsWith("built for."))) continue;
    const example = 'For example "nip.preload"; list items go by their name: "film.guides.shoulder.radius".';
    errors.push(
      source.error(keyPlace, `"${short(key)}"`, "the path of a number in this file", didYouMean(key, known) ?? example),
    );
  }
  const limits = [...pocket.limits, ...own.limits, ...body.limits];
  // `actual W` stands for the catalogue's letter here; the tape on the reel comes later.
  const scene = { tape: { letters: { wall: letters.T, ...letters } } } as unknown as Scene;
  const where = ` at W = ${width} mm${tapesBuiltFor(input.built)}`;
  if (input.free) readFreeAt(input.free.marks, input.free.at, own, width, scene);
  checkLimits(limits, scene, where, (...fault) => errors.push(source.error(...fault)), longestOfUnit);
  const leftOut = pocket.leftOut.size + own.leftOut.size + body.leftOut.size > 0;
  if (!data || !input.whole || leftOut || errors.length > 0) return { limits };

  const givens = new Map([...pocket.givens, ...own.givens, ...body.givens]);
  const unit: Unit = { ...data, name: data.unit, row: width, letters, givens, origin: source.place(0, 1) };
  checkPairs(source, rest, data, errors);
  checkLength(unit, scene, where, source, errors);
  checkLeafWindow(unit, scene, where, source, errors);
  return errors.length === 0 ? { unit, limits } : { limits };
}

/** The way out for a name that means nothing where it stands. */
const hintFor =
  (width: number, lets: Source | undefined, marks: readonly string[]) =>
  (name: string): string | undefined => {
    if (isPocketLetter(name))
      return `"${name}" means the pocket the unit is built for: give it under "built for" for every width.`;
    if (isRowLetter(name)) return `The catalogue has no "${name}" for W = ${width} mm.`;
    if (lets?.kind === "map" && lets.entries.has(name))
      return `"${name}" is given further down; a name may use those above it.`;
    return marks.includes(name)
      ? `"${name}" is a mark: the route and "let" come before the marks and cannot use them.`
      : undefined;
  };

function readLets(reader: FieldReader, lets: Source | undefined, names: Record<string, Quantity>): void {
  const { source, errors, instead, failed } = reader.setting;
  if (!lets || lets.kind === "broken") return;
  if (lets.kind !== "map") {
    errors.push(source.error(lets.place, "no names", "names with values", 'For example "gap: 0.60 ±0.15 mm".'));
    return;
  }
  for (const { key, keyPlace, value } of lets.entries.values()) {
    if (!isName(key)) {
      const way = reservedWords.has(key)
        ? `"${key}" is a word of the notation; choose another name.`
        : "It begins with a letter.";
      errors.push(source.error(keyPlace, `the name "${short(key)}"`, "a name of letters, digits and _", way));
      failed.add(key);
      continue;
    }
    if (Object.hasOwn(names, key) || isRowLetter(key) || isPocketLetter(key)) {
      errors.push(
        source.error(
          keyPlace,
          `the name "${key}"`,
          "a name that is not taken",
          "Letters of the tape keep their meaning; choose another name.",
        ),
      );
      continue;
    }
    const path = join("let", key);
    const at = instead.get(path) ?? value;
    if (at !== value) reader.met.add(path);
    const q = at.kind === "scalar" ? reader.number(at, path, free) : undefined;
    if (q) names[key] = q;
    else failed.add(key);
    if (at.kind === "list" || at.kind === "map") errors.push(source.error(at.place, "several values", "one quantity"));
  }
}

/** A route is at most as long as anything of a unit. */
function checkLength({ tape }: Unit, scene: Scene, where: string, source: SourceFile, errors: ProjectError[]): void {
  const run = new Realiser(
    scene,
    tape.route.flatMap((p) => (p.line ? [p.line] : p.arc ? [p.arc.radius, p.arc.turn] : [])),
  ).run(asWritten);
  let total = 0;
  for (const { line, arc } of tape.route) {
    total += line ? run.number(line) : arc ? run.number(arc.radius) * Math.abs(run.number(arc.turn)) : 0;
    const origin = (line ?? arc?.radius)?.origin;
    if (!(total > longestOfUnit) || !origin || !isPlace(origin)) continue;
    errors.push(
      source.error(origin, `a route of more than ${longestOfUnit} m${where}`, `a route of at most ${longestOfUnit} m`),
    );
    return;
  }
}
