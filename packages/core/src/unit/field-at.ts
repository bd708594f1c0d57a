import { type Field, type OptionalField, type QuantityField, quantity } from "./field.ts";
import { builtForLetters, unitFields } from "./unit-fields.ts";

const free = quantity("any", "a name of your own");

/**
 * What a number of a unit file is, by its path: "nip.preload", "film.guides.shoulder.through.2". List items stand under their name or their number,
 * and a name may hold points; the first way to read the path that ends at a quantity counts. Undefined for a path that leads nowhere.
 */
export function fieldAt(path: string): QuantityField | undefined {
  if (path.startsWith("let.")) return free;
  const letter = /^built for\.\d+\.(\w+)$/.exec(path)?.[1];
  if (letter !== undefined)
    return Object.hasOwn(builtForLetters, letter) ? builtForLetters[letter as keyof typeof builtForLetters] : undefined;
  return within(unitFields, path.split("."));
}

function within(field: Field | OptionalField<Field>, path: readonly string[]): QuantityField | undefined {
  if (field.kind === "optional") return within(field.of, path);
  if (field.kind === "quantity") return path.length === 0 ? field : undefined;
  if (field.kind === "either") return first(field.of.map((one) => () => within(one, path)));
  if (path.length === 0) return undefined;
  // A name takes at least one word of the path, and as many as it needs.
  const heads = path.map((_, i) => [path.slice(0, i + 1).join("."), path.slice(i + 1)] as const);
  switch (field.kind) {
    case "group": {
      const { members } = field;
      return first(
        heads.map(
          ([name, rest]) =>
            () =>
              Object.hasOwn(members, name) ? within(members[name]!, rest) : undefined,
        ),
      );
    }
    case "tuple": {
      const [number, ...rest] = path;
      const one = field.of[Number(number) - 1];
      return one && within(one, rest);
    }
    case "list":
    case "map":
      return first(
        heads.map(
          ([, rest]) =>
            () =>
              within(field.of, rest),
        ),
      );
    default:
      return undefined;
  }
}
function first<T>(ways: readonly (() => T | undefined)[]): T | undefined {
  for (const way of ways) {
    const found = way();
    if (found !== undefined) return found;
  }
  return undefined;
}
