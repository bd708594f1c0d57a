import {
  asWritten,
  fromSI,
  type Given,
  type Place,
  type Quantity,
  type QuantityField,
  quantitiesIn,
  Realiser,
  type Scene,
  toSI,
  unitOf,
} from "@tapeworthy/core";

/** A number that was read, with what its field takes. */
export interface Limit {
  readonly given: Given;
  readonly field: QuantityField;
  readonly place: Place;
}
export type Refuse = (place: Place, found: string, expected: string, hint?: string) => void;

/** Nothing of a unit is longer, m. */
export const longestOfUnit = 2;

/**
 * Every number at its nominal value: finite, and within what makes sense. What rests on a number that is refused is not refused
 * too. `where` says at which width or on which tape a number that follows letters has its value.
 */
export function checkLimits(
  limits: readonly Limit[],
  scene: Scene,
  where: string,
  refuse: Refuse,
  longest = Number.POSITIVE_INFINITY,
): void {
  // A letter that only the tape on the reel has is left for the day one is served.
  const there = new Map<Quantity, boolean>();
  const readable = limits.filter(({ given }) => restsOnlyOn(given, scene, there, () => true));
  const run = new Realiser(
    scene,
    readable.map(({ given }) => given),
  ).run(asWritten);
  const faults = new Map<Quantity, readonly [found: string, expected: string]>();
  for (const { given, field } of readable) {
    const fault = faultIn(run.number(given), given, field, longest);
    if (fault) faults.set(given, fault);
  }
  const known = new Map<Quantity, boolean>();
  for (const { given, field, place } of readable) {
    const fault = faults.get(given);
    if (!fault || !restsOnlyOn(given, scene, known, (q) => q === given || !faults.has(q))) continue;
    const reads = Object.entries(given.reads(scene));
    const names = reads.map(([name, q]) => `${name} = ${shown(run.number(q), q.unit)}`).join(", ");
    const [found, expected] = fault;
    const share = sharePerHundred(run.number(given), given, field);
    refuse(
      place,
      reads.length === 0 ? found : `${found}${where}`,
      expected,
      reads.length === 0 ? share : `It is made of ${names}.`,
    );
  }
}

/** Whether everything a quantity is made of is there and fit, down to the numbers somebody gave. */
function restsOnlyOn(q: Quantity, scene: Scene, known: Map<Quantity, boolean>, fit: (q: Quantity) => boolean): boolean {
  if (!fit(q)) return false;
  const before = known.get(q);
  if (before !== undefined) return before;
  const reads = q.reads(scene) ?? {};
  const whole =
    Object.values(reads).every((r) => r !== undefined) &&
    [...quantitiesIn(reads)].every((inner) => restsOnlyOn(inner as Quantity, scene, known, fit));
  known.set(q, whole);
  return whole;
}

function faultIn(
  value: number,
  given: Given,
  { least, most, unit, means }: QuantityField,
  longest: number,
): readonly [found: string, expected: string] | undefined {
  if (!Number.isFinite(value)) return ["a value that is not finite", "a finite number"];
  const si = (v: number) => (unit === "any" ? v : toSI(v, unitOf(unit)));
  const limit = (v: number) => shownIn(unit === "any" || unit === "" ? given.shownIn : unit, si(v));
  const [low, high] = endsOf(value, given);
  if (least !== undefined && low < si(least) * (1 - Math.sign(least) * 1e-9))
    return [shownIn(given.shownIn, low), `at least ${limit(least)}: ${means}`];
  if (most !== undefined && high > si(most) * (1 + Math.sign(most) * 1e-9))
    return [shownIn(given.shownIn, high), `at most ${limit(most)}: ${means}`];
  if (given.unit === "m" && Math.abs(value) > longest)
    return [`${+value.toPrecision(4)} m`, `at most ${longest} m: nothing of a unit is longer`];
  return undefined;
}
/** A guess must make sense at both its ends. */
const endsOf = (value: number, { unknown }: Given): readonly [low: number, high: number] =>
  unknown && unknown.law !== "switch" ? [unknown.low, unknown.high] : [value, value];
/** "2" for "2 %". */
function sharePerHundred(
  value: number,
  { text }: Given,
  { unit, least = 0, most = 1 }: QuantityField,
): string | undefined {
  const meant = unit === "" && most < 1 && value / 100 >= least && value / 100 <= most && /^[\d.]+$/.test(text);
  return meant ? `Write "${text} %".` : undefined;
}
/** As a file would write it, to six figures. */
const shownIn = (unit: string, value: number): string => {
  const number = `${+fromSI(value, unitOf(unit)).toPrecision(6)}`;
  return unit === "" ? number : `${number} ${unit.replace(/^1\//, "/")}`;
};
const shown = (v: number, unit: string): string =>
  unit === "m" ? `${+(v * 1e3).toPrecision(5)} mm` : `${+v.toPrecision(5)}`;
