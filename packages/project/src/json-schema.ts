import {
  assumptions,
  builtForLetters,
  type Field,
  isPure,
  type Members,
  type QuantityField,
  quantity,
  tapeFields,
  unitFields,
  unitOf,
} from "@tapeworthy/core";
import { ledgerFields } from "./ledger-fields.ts";
import { ledgerPath } from "./ledger-read.ts";
import { isTrialPath } from "./log/trial.ts";
import { trialFields } from "./log/trial-fields.ts";
import { knownFields, projectFields } from "./project-fields.ts";

/** A JSON Schema (draft 2020-12), as an editor of YAML reads it. */
export type JsonSchema = { readonly [key: string]: unknown };
export const schemaKinds = ["unit", "tape", "project", "known", "trial", "ledger"] as const;
export type SchemaKind = (typeof schemaKinds)[number];
/** What a file of a project holds, by its path. */
export const schemaKindOf = (path: string): SchemaKind =>
  path.startsWith("units/")
    ? "unit"
    : path.startsWith("tapes/")
      ? "tape"
      : isTrialPath(path)
        ? "trial"
        : path === ledgerPath
          ? "ledger"
          : path === "known.yaml"
            ? "known"
            : "project";

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
      const assume = Object.fromEntries(
        Object.entries(assumptions).map(([name, { unit, means, text }]) => [
          name,
          schemaOf(quantity(unit, `${means}; otherwise ${text}`, { example: text })),
        ]),
      );
      const description = "your own values for what is otherwise assumed";
      return {
        ...head,
        ...plain,
        properties: {
          ...plain.properties,
          assume: { type: "object", description, properties: assume, additionalProperties: false },
        },
      };
    }
    case "known":
      return { ...head, ...schemaOf(knownFields) };
    case "trial":
      return { ...head, ...schemaOf(trialFields) };
    case "ledger":
      return { ...head, ...schemaOf(ledgerFields) };
  }
}

/** A quantity is text; where it may be a plain number, YAML reads that as a number. */
function quantitySchema({ unit, means, example }: QuantityField): JsonSchema {
  const bare = unit === "any" || (isPure(unitOf(unit).dimension) && !["deg", "mrad"].includes(unit));
  return {
    type: bare ? ["string", "number"] : "string",
    description: unit === "" || unit === "any" ? means : `${means} (${unit})`,
    examples: [example],
  };
}

function unitSchema(): JsonSchema {
  const plain = schemaOf(unitFields) as { properties: Record<string, unknown> };
  const pocket = {
    type: "object",
    description: "letters of the pocket with their values",
    properties: Object.fromEntries(Object.entries(builtForLetters).map(([k, f]) => [k, schemaOf(f)])),
    additionalProperties: false,
  };
  const tape = { type: "string", description: "a tape of this project, by its file's name without .yaml" };
  const tapes = { type: "array", description: "tapes of this project: the greatest of each letter", items: tape };
  const width = "^[0-9]+$";
  return {
    ...plain,
    properties: {
      ...plain.properties,
      "built for": {
        type: "object",
        description: "per width the pocket the variant is cut to: letters with values, a tape, or a list of tapes",
        patternProperties: { [width]: { description: "the pocket of this width", anyOf: [pocket, tape, tapes] } },
        additionalProperties: false,
      },
      let: {
        type: "object",
        description: "names of your own, from the tape's letters and those above",
        additionalProperties: schemaOf(quantity("any", "a quantity", { example: "K0 + 0.1 mm" })),
      },
      free: {
        type: "object",
        description:
          "dimensions that sizing may move: paths into this file, each with two bounds, as nip.preload: 3..9 N",
        additionalProperties: {
          description: "lower and upper bound: numbers, or a list of two quantities that follow the letters",
          anyOf: [
            { type: "string" },
            { type: "array", minItems: 2, maxItems: 2, items: { type: ["string", "number"], description: "a bound" } },
          ],
        },
      },
      "per width": {
        type: "object",
        description: "for one width, paths into this file with other values",
        patternProperties: {
          [width]: { type: "object", description: "paths with their values, as nip.preload: 7 ±1 N" },
        },
        additionalProperties: false,
      },
    },
  };
}

function schemaOf(field: Field): JsonSchema {
  const described = "means" in field ? { description: field.means } : {};
  switch (field.kind) {
    case "quantity":
      return quantitySchema(field);
    case "word":
      return field.of
        ? { ...described, enum: field.of.flatMap(asYamlReads) }
        : { ...described, type: ["string", "number"] };
    case "text":
      return { ...described, type: ["string", "number"] };
    case "list": {
      const list = { ...described, type: "array", items: schemaOf(field.of) };
      return field.orOne ? { ...described, anyOf: [list, schemaOf(field.of)] } : list;
    }
    case "tuple":
      return {
        ...described,
        type: "array",
        prefixItems: field.of.map(schemaOf),
        items: false,
        minItems: field.of.length,
      };
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
      properties[name] = takesText(member.of)
        ? inner
        : { description: inner.description, anyOf: [inner, { const: "none" }] };
    } else {
      properties[name] = schemaOf(member);
      required.push(name);
    }
  }
  return { properties, required };
}
/** A field whose schema takes the word "none" as it takes any text. */
const takesText = (field: Field): boolean =>
  field.kind === "quantity" || field.kind === "text" || (field.kind === "word" && field.of === undefined);
/** A word as text, and as the number or the truth value that YAML makes of it. */
const asYamlReads = (word: string): unknown[] => (/^(true|false|\d+)$/.test(word) ? [word, JSON.parse(word)] : [word]);
