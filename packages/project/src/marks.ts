import { markNames, markPosition, type Names, type Quantity, type UnitData, unitFields } from "@tapeworthy/core";
import { didYouMean } from "./error.ts";
import { isName } from "./letters.ts";
import { FieldReader, type Setting, short } from "./read.ts";
import type { MapSource, ScalarSource, Source } from "./source.ts";

/** What the names of a file stand for once its route is known: a mark's x in the side view, or its place along the tape. */
export interface Marks {
  readonly x: Names;
  readonly route: Names;
  /** Marks that have no place because something else is wrong with the route. */
  readonly lost: ReadonlySet<string>;
  /** False where the route is so broken that it may have marks nobody can see. */
  readonly whole: boolean;
}

/** The marks of a unit file. They lie along the route, which may use letters and `let` names but no marks. */
export function readMarks(setting: Setting, tape: Source | undefined, names: Names, variant: string): Marks {
  const { names: written, whole } = marksAsWritten(tape);
  if (tape?.kind !== "map") return { x: names, route: names, lost: new Set(written), whole };
  checkMarks(setting, tape, names, whole);
  const route = readRoute({ ...setting, names: () => names, failed: new Set(setting.failed), errors: [] }, tape);
  const found = route ? markNames(route.route).filter((mark) => !Object.hasOwn(names, mark)) : [];
  const placed = (what: "x" | "route"): Names => ({
    ...names,
    ...Object.fromEntries(found.flatMap((mark) => markOf(setting, variant, route!, mark, what))),
  });
  const x = placed("x");
  return { x, route: placed("route"), lost: new Set(written.filter((mark) => !Object.hasOwn(x, mark))), whole };
}

type Route = Pick<UnitData["tape"], "route" | "place">;
/** Read in silence: the same values are read again with the whole file, where their errors are reported. */
function readRoute(setting: Setting, tape: MapSource): Route | undefined {
  const fields = unitFields.members.tape.members;
  const quiet = new FieldReader(setting);
  const route = tape.entries.get("route")?.value;
  const place = tape.entries.get("place")?.value;
  if (!route || !place) return undefined;
  const before = setting.failed.size;
  const data = {
    route: quiet.read(fields.route, route, "tape.route"),
    place: quiet.read(fields.place, place, "tape.place"),
  };
  return setting.errors.length === 0 && setting.failed.size === before ? (data as Route) : undefined;
}

/** Names of the marks, whatever else is wrong with the route; whether it can have no others. */
export function marksAsWritten(tape: Source | undefined): {
  readonly names: readonly string[];
  readonly whole: boolean;
} {
  const route = tape?.kind === "map" ? tape.entries.get("route")?.value : undefined;
  if (route?.kind !== "list") return { names: ["peel", "pick"], whole: false };
  const pieces = Object.keys(unitFields.members.tape.members.route.of.members);
  return {
    names: route.items.flatMap((item) => markIn(item)?.text ?? []),
    whole: route.items.every((item) => item.kind === "map" && pieces.some((piece) => item.entries.has(piece))),
  };
}
function markIn(at: Source | undefined): ScalarSource | undefined {
  const mark = at?.kind === "map" ? at.entries.get("mark")?.value : undefined;
  return mark?.kind === "scalar" ? mark : undefined;
}

function checkMarks({ source, errors }: Setting, tape: MapSource, names: Names, whole: boolean): void {
  const route = tape.entries.get("route")?.value;
  const seen = new Set<string>();
  for (const item of route?.kind === "list" ? route.items : []) {
    const mark = markIn(item);
    if (!mark) continue;
    if (seen.has(mark.text))
      errors.push(source.error(mark.place, `the mark "${mark.text}" a second time`, "each mark once"));
    else if (!isName(mark.text) || Object.hasOwn(names, mark.text))
      errors.push(
        source.error(
          mark.place,
          `the mark "${short(mark.text)}"`,
          "a name that is not taken, of letters, digits and _",
        ),
      );
    seen.add(mark.text);
  }
  const mark = markIn(tape.entries.get("place")?.value);
  if (mark && whole && !seen.has(mark.text))
    errors.push(
      source.error(
        mark.place,
        `the mark "${short(mark.text)}"`,
        "a mark of the route",
        didYouMean(mark.text, seen) ?? `Marks here: ${[...seen].join(", ") || "none"}.`,
      ),
    );
}

/** A mark's position, which keeps its identity while its route does. */
function markOf(
  { store }: Setting,
  variant: string,
  { route, place }: Route,
  mark: string,
  what: "x" | "route",
): (readonly [string, Quantity])[] {
  const position = markPosition({ route, place }, mark, what);
  if (!position) return [];
  const pieces = route.flatMap((p) => [p.line, p.arc?.radius, p.arc?.turn].filter((q) => q !== undefined));
  const pattern = route.map((p) => p.mark ?? (p.line ? "-" : "c")).join(" ");
  const parts = [pattern, place.mark, ...pieces, place.x, place.z, place.heading];
  return [[mark, store.kept(`${variant} ${mark} ${what}`, parts, () => position)]];
}
