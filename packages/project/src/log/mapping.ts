import {
  didYouMean,
  dimensionInUnits,
  fromSI,
  type MeasureUnit,
  type Steps,
  sameDimension,
  toSI,
  unitOf,
} from "@tapeworthy/core";
import { ProjectError } from "../error.ts";
import type { Log, LogColumn, NumberColumn, Remark, TextColumn } from "./log.ts";
import { unitText } from "./unit-text.ts";

/** What a column of a log can be; the unit is the one taken where the log gives none, and its kind is what must agree. */
export const roles = {
  time: { unit: "s", means: "time since the start" },
  travel: { unit: "mm", means: "how far tape or film has moved" },
  force: { unit: "N", means: "pull or push" },
  current: { unit: "A", means: "current of the motor" },
  volts: { unit: "V", means: "voltage" },
  torque: { unit: "N*mm", means: "torque" },
  speed: { unit: "mm/s", means: "speed of tape or film" },
  edge: { unit: "mm", means: "where the film's edge lies across the tape" },
  angle: { unit: "deg", means: "angle" },
  temperature: { unit: "degC", means: "temperature of the air" },
  humidity: { unit: "%", means: "relative humidity" },
  count: { unit: "counts", means: "counts of an encoder or sensor" },
  index: { unit: "counts", means: "number of the index that a row belongs to" },
  command: { unit: "counts", means: "0 and 1: an index begins where it rises" },
  indexes: { unit: "counts", means: "indexes run, of a counting log" },
  misfeeds: { unit: "counts", means: "misfeeds among them" },
  value: { unit: "any", means: "one typed reading a row" },
  mode: { unit: "text", means: "in which way it misfed" },
  reel: { unit: "text", means: "which reel" },
  unit: { unit: "text", means: "which built unit" },
  by: { unit: "text", means: "who read it" },
  note: { unit: "text", means: "anything else: kept in the raw log, not computed with" },
} as const;
export type Role = keyof typeof roles;
export const roleNames = Object.keys(roles) as readonly Role[];

/** What one column is. Its value in SI is (what is written - zero) x sign x the unit's factor. */
export interface ColumnMapping {
  readonly column: string;
  readonly role: Role;
  /** As the log or the user writes it. */
  readonly unit: string;
  readonly reversed: boolean;
  /** In the column's own unit. */
  readonly zero: number;
  /** Why it was taken for that; empty where the user said so. */
  readonly because: string;
}
export interface Mapping {
  /** Names and units of the header: a log with the same header is read the same way. */
  readonly header: string;
  readonly columns: readonly ColumnMapping[];
}

export const headerOf = (log: Log): string =>
  log.columns.map(({ name, unit }) => (unit === "" ? name : `${name} [${unit}]`)).join(" | ");

/** In English and German, as loggers name their columns. */
const named: readonly (readonly [Role, RegExp])[] = [
  ["misfeeds", /misfeed|miss?es|fehl|failures?|failed/i],
  ["indexes", /^indexes|indices|cycles|zyklen|takte$/i],
  ["index", /index|step ?(no|nr|number)?$|takt|schritt/i],
  ["command", /command|trigger|cmd|start|befehl/i],
  ["time", /^t$|time|zeit|uhr|date|datum|stamp|^sec|^ms$/i],
  ["edge", /edge|kante|wander|lateral|rand/i],
  ["force", /force|pull|load|kraft|zug|peel|^last$|^f$/i],
  // A small n counts rows.
  ["force", /^N$/],
  ["current", /current|strom|ampere|^i$|^i_/i],
  ["volts", /volt|spannung|^u$/i],
  ["torque", /torque|moment/i],
  ["speed", /speed|velocity|geschw/i],
  ["angle", /angle|winkel/i],
  ["temperature", /temp/i],
  ["humidity", /humid|feuchte|^rh$/i],
  ["count", /count|encoder|ticks|zähler|pulse/i],
  ["travel", /travel|pos|dist|weg|displ|extension|length|^x$|^s$/i],
  ["reel", /reel|rolle|spule/i],
  ["mode", /mode|cause|kind|art$|fehlerart/i],
  ["unit", /unit|feeder|gerät|specimen/i],
  ["value", /value|reading|wert|messwert/i],
  ["by", /^by$|operator|name|prüfer|person/i],
];
/** What no log means otherwise: a column of this name in another unit is a mistake of one or the other. */
const plain: readonly Role[] = ["time", "force", "travel"];
const byUnit: readonly Role[] = ["time", "force", "travel", "current", "volts", "torque", "speed", "temperature"];

/** What the columns most likely are, from names and units. Each role is given once; what is left over is a note. */
export function guessedMapping(log: Log): Mapping {
  const taken = new Set<Role>();
  const columns = log.columns.map((c): ColumnMapping => {
    const [role, because] = guess(c, taken);
    if (role !== "note") taken.add(role);
    return { column: c.name, role, unit: unitFor(c, role), reversed: false, zero: 0, because };
  });
  return { header: headerOf(log), columns };
}
function guess(c: LogColumn, taken: ReadonlySet<Role>): readonly [Role, string] {
  const free = (role: Role): boolean => !taken.has(role) && (isText(role) || c.kind === "number");
  const unit = unitText(c.unit);
  const fits = (role: Role): boolean => free(role) && (c.unit === "" || isText(role) || agree(role, c.unit));
  if (c.kind === "number" && c.clock && free("time")) return ["time", "its cells are times of day"];
  const name = c.name.replaceAll("_", " ");
  const byName = named.find(([role, pattern]) => pattern.test(name) && fits(role));
  if (byName) {
    const [role] = byName;
    return [role, c.unit === "" || isText(role) ? "by its name" : "by its name and unit"];
  }
  // A name that says one thing and a unit that says another: it is left to the user, not to the louder of the two.
  const said = named.find(([role, pattern]) => plain.includes(role) && pattern.test(name) && free(role));
  if (said && unit && c.kind === "number") return [said[0], "by its name, though its unit says otherwise"];
  if (unit && c.kind === "number") {
    const role = byUnit.find((r) => free(r) && agree(r, c.unit));
    if (role) return [role, `by its unit ${c.unit}`];
  }
  return ["note", "nothing in its name or unit says what it is"];
}
const isText = (role: Role): boolean => roles[role].unit === "text";
const unitFor = (c: LogColumn, role: Role): string =>
  isText(role) || role === "value" || role === "note"
    ? c.unit
    : c.kind === "number" && c.clock
      ? "s"
      : c.unit || roles[role].unit;
/** Whether a unit measures what a role is. Grams pass for a force: a luggage scale shows them. */
function agree(role: Role, unit: string): boolean {
  const wanted = roles[role].unit;
  if (wanted === "any" || wanted === "text") return true;
  const found = unitText(unit);
  if (!found) return false;
  return sameDimension(found.dimension, unitOf(wanted).dimension) || (role === "force" && isMass(unit));
}
const isMass = (unit: string): boolean => {
  const found = unitText(unit);
  return found !== undefined && sameDimension(found.dimension, unitOf("g").dimension);
};

/** What stands wrong in a mapping, at the header's line: units that do not fit, columns that are not there, roles given twice. */
export function faultsOf(mapping: Mapping, log: Log): ProjectError[] {
  const errors: ProjectError[] = [];
  const at = (name: string, found: string, expected: string, hint: string): void => {
    const line = Math.max(1, log.dialect.header);
    const text = headerOf(log);
    const from = Math.max(0, text.indexOf(name));
    const place = { file: log.file, line, column: from + 1, length: Math.max(1, name.length) };
    errors.push(new ProjectError(place, text, found, expected, hint));
  };
  const names = log.columns.map((c) => c.name);
  const seen = new Map<Role, string>();
  for (const { column, role, unit } of mapping.columns) {
    const c = log.columns.find((one) => one.name === column);
    if (!c) {
      at(
        column,
        `the column "${column}"`,
        "a column of this log",
        didYouMean(column, names) ?? `There are: ${names.join(", ")}.`,
      );
      continue;
    }
    const before = seen.get(role);
    if (before !== undefined && role !== "note")
      at(
        column,
        `"${column}" as ${role}, as "${before}" is`,
        "each role once",
        `Say which it is: --map "${column}=note".`,
      );
    seen.set(role, column);
    if (role === "note" || isText(role)) continue;
    if (c.kind === "text") {
      at(
        column,
        `texts in "${column}", such as "${c.words[0] ?? ""}"`,
        `numbers: ${roles[role].means}`,
        "Map another column.",
      );
      continue;
    }
    if (role === "value") {
      if (unit !== "" && !unitText(unit))
        at(column, `the unit "${unit}"`, "a unit", `Say which: --map "${column}=value N".`);
      continue;
    }
    if (agree(role, unit)) continue;
    const known = unitText(unit);
    const other = known && byUnit.find((r) => agree(r, unit));
    at(
      column,
      known ? `${unit} for ${role}, a unit of ${dimensionInUnits(known.dimension)}` : `the unit "${unit}"`,
      `a unit such as ${roles[role].unit}: ${roles[role].means}`,
      `Give the unit the instrument shows: --map "${column}=${role} ${roles[role].unit}"${other ? `; or what it is: --map "${column}=${other} ${unit}"` : ""}.`,
    );
  }
  return errors;
}

/** The column of a role in SI; undefined where the log has none. */
export function* mapped(log: Log, mapping: Mapping, role: Role): Steps<Float64Array | undefined> {
  const m = mapping.columns.find((c) => c.role === role);
  const c = m && log.columns.find((one): one is NumberColumn => one.name === m.column && one.kind === "number");
  if (!m || !c) return undefined;
  const unit = unitOfColumn(m);
  const sign = m.reversed ? -1 : 1;
  const out = new Float64Array(c.values.length);
  for (let i = 0; i < out.length; i++) {
    out[i] = sign * toSI(c.values[i]! - m.zero, unit);
    if (i % 131_072 === 131_071) yield undefined;
  }
  return out;
}
/** The unit that a column's numbers stand in. Standard gravity where a scale shows grams for a force. */
export function unitOfColumn({ role, unit }: Pick<ColumnMapping, "role" | "unit">): MeasureUnit {
  const found = unitText(unit) ?? unitOf("");
  return role === "force" && isMass(unit)
    ? { factor: found.factor * 9.80665, dimension: unitOf("N").dimension }
    : found;
}
/** The texts of a role, row by row: also where the column was read as numbers. */
export function textsOf(log: Log, mapping: Mapping, role: Role): ((row: number) => string) | undefined {
  const m = mapping.columns.find((c) => c.role === role);
  const c = m && log.columns.find((one) => one.name === m.column);
  if (!c) return undefined;
  if (c.kind === "number") return (row) => (Number.isNaN(c.values[row]!) ? "" : `${c.values[row]}`);
  const text: TextColumn = c;
  return (row) => text.words[text.codes[row]!] ?? "";
}

/** Amounts that no feeder unit shows. Common practice, no source. */
const most: Partial<Record<Role, readonly [number, string]>> = {
  force: [200, "200 N"],
  travel: [200, "200 m"],
  current: [30, "30 A"],
  volts: [100, "100 V"],
  edge: [0.3, "300 mm"],
};
/** Grams taken for a force, and amounts that make one doubt the unit. */
export function remarksOf(log: Log, mapping: Mapping, role: Role, values: Float64Array): Remark[] {
  const m = mapping.columns.find((c) => c.role === role);
  if (!m) return [];
  const out: Remark[] = [];
  const text = headerOf(log);
  const say = (about: "unit" | "amount", row: number, found: string, expected: string, hint: string): void => {
    const line = row < 0 ? Math.max(1, log.dialect.header) : log.lineOf(row);
    const place = { file: log.file, line, column: 1, length: 1 };
    out.push({
      about,
      count: 1,
      rows: row < 0 ? [] : [row],
      first: new ProjectError(place, row < 0 ? text : "", found, expected, hint),
    });
  };
  if (role === "force" && isMass(m.unit))
    say(
      "unit",
      -1,
      `${m.unit} in "${m.column}"`,
      "a unit of force",
      `Read as the force of that mass, 9.80665 N a kilogram, as a scale shows it.`,
    );
  const [bound, shown] = most[role] ?? [Number.POSITIVE_INFINITY, ""];
  let worst = -1;
  for (let i = 0; i < values.length; i++)
    if (Math.abs(values[i]!) > bound && (worst < 0 || Math.abs(values[i]!) > Math.abs(values[worst]!))) worst = i;
  if (worst >= 0)
    say(
      "amount",
      worst,
      `${role} of ${fromSI(values[worst]!, unitOfColumn(m)).toPrecision(4)} ${m.unit}`,
      `less than ${shown}`,
      `Is the unit right? Say which: --map "${m.column}=${role} UNIT".`,
    );
  return out;
}

/** "pull=force N, reversed, zero 0.02" as the user types it. A text that can't be taken comes back as a sentence. */
export function mappingWish(text: string, log: Log): ColumnMapping | string {
  const at = text.lastIndexOf("=");
  const example = 'For example: --map "pull=force N, reversed, zero 0.02".';
  if (at < 1) return `"${text}" is no COLUMN=ROLE. ${example}`;
  const column = text.slice(0, at).trim();
  const c = log.columns.find((one) => one.name === column);
  const names = log.columns.map((one) => one.name);
  if (!c) return `There is no column "${column}". ${didYouMean(column, names) ?? `There are: ${names.join(", ")}.`}`;
  const [first = "", ...more] = text.slice(at + 1).split(",");
  const [word = "", ...rest] = first.trim().split(/\s+/);
  if (!Object.hasOwn(roles, word))
    return `"${word}" is no role of a column. ${didYouMean(word, roleNames) ?? `Roles: ${roleNames.join(", ")}.`}`;
  const role = word as Role;
  let reversed = false;
  let zero = 0;
  for (const part of more.map((p) => p.trim())) {
    if (part === "reversed") reversed = true;
    else if (/^zero\s+\S+$/.test(part) && Number.isFinite(Number(part.split(/\s+/)[1])))
      zero = Number(part.split(/\s+/)[1]);
    else return `"${part}" can't be taken. After the unit may stand "reversed" and "zero NUMBER". ${example}`;
  }
  return { column, role, unit: rest.join(" ") || unitFor(c, role), reversed, zero, because: "" };
}
/** A mapping with some columns as the user wants them; whoever had that role before is a note now. */
export function withWishes(mapping: Mapping, wishes: readonly ColumnMapping[]): Mapping {
  let { columns } = mapping;
  for (const wish of wishes)
    columns = columns.map((c) =>
      c.column === wish.column
        ? wish
        : c.role === wish.role && wish.role !== "note" && c.because !== ""
          ? { ...c, role: "note", because: `"${wish.column}" is the ${wish.role}` }
          : c,
    );
  return { ...mapping, columns };
}
