import { assumptions, builtForLetters, type Field, type Members, tapeFields, unitFields } from "@tapeworthy/core";
import { knownFields, projectFields } from "./project-fields.ts";

/** A JSON Schema (draft 2020-12), as an editor of YAML reads it. */
export type JsonSchema = { readonly [key: string]: unknown };
export const schemaKinds = ["unit", "tape", "project", "known"] as const;
export type SchemaKind = (typeof schemaKinds)[number];

/** The JSON Schema of one kind of file, made from the same description that reads it. */
export function jsonSchema(kind: SchemaKind): JsonSchema {
  const head = { $schema: "https://json-schema.org/draft/2020-12/schema", title: `Tapeworthy ${kind} file` };
  switch (kind) {
    case "unit":
      return { ...head, ...unitSchema() };
    case "tape":
      return { ...head, ...schemaOf(tapeFields) };
    case "project": {
      const plain = schemaOf(projectFields) as { properties: Record<string, unknown> };
      const assume = Object.fromEntries(Object.entries(assumptions).map(([name, a]) => [name, quantityText(`${a.means}; otherwise ${a.text}`, a.text)]));
      return { ...head, ...plain, properties: { ...plain.properties, assume: { type: "object", properties: assume, additionalProperties: false } } };
    }
    case "known":
      return { ...head, ...schemaOf(knownFields) };
  }
}

const quantityText = (description: string, example: string): JsonSchema => ({ type: ["string", "number"], description, examples: [example] });

function unitSchema(): JsonSchema {
  const plain = schemaOf(unitFields) as { properties: Record<string, unknown> };
  const pocket = { type: "object", properties: Object.fromEntries(Object.entries(builtForLetters).map(([k, f]) => [k, schemaOf(f)])), additionalProperties: false };
  const width = "^[0-9]+$";
  return {
    ...plain,
    properties: {
      ...plain.properties,
      "built for": {
        type: "object",
        description: "per width the pocket the variant is cut to: letters with values, a tape, or a list of tapes",
        patternProperties: { [width]: { anyOf: [pocket, { type: "string" }, { type: "array", items: { type: "string" } }] } },
        additionalProperties: false,
      },
      let: { type: "object", description: "names of your own, from the tape's letters and those above", additionalProperties: quantityText("a quantity", "K0 + 0.1 mm") },
      "per width": {
        type: "object",
        description: "for one width, paths into this file with other values",
        patternProperties: { [width]: { type: "object" } },
        additionalProperties: false,
      },
    },
  };
}

function schemaOf(field: Field): JsonSchema {
  const described = "means" in field ? { description: field.means } : {};
  switch (field.kind) {
    case "quantity":
      return quantityText(field.unit === "" || field.unit === "any" ? field.means : `${field.means} (${field.unit})`, field.example);
    case "word":
      return field.of
        ? { ...described, anyOf: [{ enum: field.of }, ...(field.of.some((w) => /^(true|false|\d+)$/.test(w)) ? [{ enum: field.of.map((w) => JSON.parse(/^(true|false|\d+)$/.test(w) ? w : JSON.stringify(w))) }] : [])] }
        : { ...described, type: ["string", "number"] };
    case "text":
      return { ...described, type: ["string", "number"] };
    case "list": {
      const list = { ...described, type: "array", items: schemaOf(field.of) };
      return field.orOne ? { ...described, anyOf: [list, schemaOf(field.of)] } : list;
    }
    case "tuple":
      return { ...described, type: "array", prefixItems: field.of.map(schemaOf), items: false, minItems: field.of.length };
    case "map":
      return { ...described, type: "object", additionalProperties: schemaOf(field.of) };
    case "either":
      return { ...described, anyOf: field.of.map(schemaOf) };
    case "group": {
      const { properties, required } = membersOf(field.members);
      return {
        ...described,
        type: "object",
        properties,
        ...(field.oneOf ? { minProperties: 1, maxProperties: 1 } : required.length > 0 ? { required } : {}),
        additionalProperties: false,
      };
    }
  }
}
function membersOf(members: Members): { properties: Record<string, JsonSchema>; required: string[] } {
  const properties: Record<string, JsonSchema> = {};
  const required: string[] = [];
  for (const [name, member] of Object.entries(members)) {
    if (member.kind === "optional") {
      const inner = schemaOf(member.of);
      properties[name] = member.of.kind === "group" ? { anyOf: [inner, { const: "none" }] } : inner;
    } else {
      properties[name] = schemaOf(member);
      required.push(name);
    }
  }
  return { properties, required };
}
