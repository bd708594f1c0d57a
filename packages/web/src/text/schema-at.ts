import type { JsonSchema } from "@tapeworthy/project";
import type { Step } from "./yaml-place.ts";

/** What a schema says of one place of a file: every alternative that is open there. */
export function schemasAt(schema: JsonSchema, path: readonly Step[]): JsonSchema[] {
  let now = alternatives(schema);
  for (const step of path) now = now.flatMap((one) => inner(one, step)).flatMap(alternatives);
  return now;
}
const isSchema = (value: unknown): value is JsonSchema =>
  typeof value === "object" && value !== null && !Array.isArray(value);
function alternatives(schema: JsonSchema): JsonSchema[] {
  const { anyOf } = schema;
  // What stands beside the alternatives holds for each of them: its words are theirs where they have none.
  return Array.isArray(anyOf)
    ? anyOf.filter(isSchema).flatMap((one) => alternatives({ description: schema.description, ...one }))
    : [schema];
}
function inner(schema: JsonSchema, step: Step): JsonSchema[] {
  if (typeof step === "number") {
    const { prefixItems, items } = schema;
    if (Array.isArray(prefixItems) && isSchema(prefixItems[step])) return [prefixItems[step]];
    return isSchema(items) ? [items] : [];
  }
  const { properties, patternProperties, additionalProperties } = schema;
  if (isSchema(properties) && isSchema(properties[step])) return [properties[step]];
  if (isSchema(patternProperties))
    for (const [pattern, found] of Object.entries(patternProperties))
      if (new RegExp(pattern).test(step) && isSchema(found)) return [found];
  return isSchema(additionalProperties) ? [additionalProperties] : [];
}

/** Something that may be written at a place. */
export interface Option {
  readonly label: string;
  readonly insert: string;
  readonly means: string;
  readonly example: string;
  readonly required: boolean;
}
/** Keys that a mapping may hold there, the needed ones first. */
export function keysAt(schema: JsonSchema, path: readonly Step[]): Option[] {
  const out = new Map<string, Option>();
  for (const one of schemasAt(schema, path)) {
    if (!isSchema(one.properties)) continue;
    const required = Array.isArray(one.required) ? one.required : [];
    for (const [name, found] of Object.entries(one.properties)) {
      if (out.has(name) || !isSchema(found)) continue;
      out.set(name, { label: name, insert: `${name}: `, ...saidOf(found), required: required.includes(name) });
    }
  }
  return [...out.values()].sort((a, b) => Number(b.required) - Number(a.required));
}
/** Values that may stand there: the words of a list, else an example. */
export function valuesAt(schema: JsonSchema, path: readonly Step[]): Option[] {
  const out = new Map<string, Option>();
  for (const one of schemasAt(schema, path)) {
    const { means } = saidOf(one);
    const words = Array.isArray(one.enum) ? one.enum : "const" in one ? [one.const] : one.examples;
    if (!Array.isArray(words)) continue;
    for (const word of words.map(String))
      if (!out.has(word)) out.set(word, { label: word, insert: word, means, example: "", required: false });
  }
  return [...out.values()];
}
/** What a place means, with an example, in one line; undefined where the schema says nothing. */
export function meaningAt(schema: JsonSchema, path: readonly Step[]): { means: string; example: string } | undefined {
  const found = schemasAt(schema, path)
    .map(saidOf)
    .find(({ means }) => means !== "");
  return found;
}
function saidOf(schema: JsonSchema): { means: string; example: string } {
  const [first, ...more] = alternatives(schema);
  const one = [first!, ...more].find((s) => typeof s.description === "string") ?? first!;
  const means = typeof schema.description === "string" ? schema.description : `${one.description ?? ""}`;
  const examples = [schema, first!, ...more].flatMap((s) => (Array.isArray(s.examples) ? s.examples : []));
  const words = Array.isArray(schema.enum) ? schema.enum.filter((w) => typeof w === "string").join(", ") : "";
  return { means, example: examples.length > 0 ? String(examples[0]) : words };
}
