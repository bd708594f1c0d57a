import { readdirSync, readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import * as curlew from "./curlew.fixture.ts";
import { example } from "./example.fixture.ts";
import { type JsonSchema, jsonSchema, type SchemaKind, schemaKindOf, schemaKinds } from "./json-schema.ts";
import { openers, withMembers } from "./openers.fixture.ts";
import { isProjectPath, readProject } from "./project.ts";

const ajv = new Ajv2020({ strict: true, strictTypes: false, allErrors: true });
const validators = new Map(schemaKinds.map((kind) => [kind, ajv.compile(jsonSchema(kind))]));
/** What an editor would say of a file, as "path: message". */
function faults(kind: SchemaKind, text: string): string[] {
  const validate = validators.get(kind)!;
  return validate(parse(text)) ? [] : (validate.errors ?? []).map((e) => `${e.instancePath || "/"}: ${e.message}`);
}
/** Trials and ledger of the example, as its folder holds them. */
const folder = new URL("../../../examples/saltgrass/", import.meta.url);
const bench = ["ledger.yaml", ...readdirSync(new URL("bench/", folder)).map((name) => `bench/${name}`)].filter(
  isProjectPath,
);

describe("the JSON Schema takes", () => {
  test.each([...example.keys()])("the example's %s", (path) => {
    expect(faults(schemaKindOf(path), example.get(path)!)).toEqual([]);
  });
  test.each(bench)("the example's %s", (path) => {
    expect(schemaKindOf(path)).toBe(path === "ledger.yaml" ? "ledger" : "trial");
    expect(faults(schemaKindOf(path), readFileSync(new URL(path, folder), "utf8"))).toEqual([]);
  });
  test.each([...curlew.texts.keys()])("the small project's %s", (path) => {
    expect(faults(schemaKindOf(path), curlew.texts.get(path)!)).toEqual([]);
  });
  test.each(Object.entries(openers))("%s", (_, members) => {
    expect(faults("unit", withMembers(curlew.unit, members))).toEqual([]);
  });
  test("none for a member that may be missing", () => {
    expect(faults("unit", withMembers(curlew.unit, "nip: none\nbodies: none\nclearances: none\n"))).toEqual([]);
  });
});

describe("the JSON Schema refuses, as the reader does,", () => {
  const cases: readonly (readonly [what: string, path: string, from: string, to: string, fault: string])[] = [
    [
      "a misspelt member",
      "units/curlew.yaml",
      "preload: 6.0",
      "prelaod: 6.0",
      "/nip: must NOT have additional properties",
    ],
    [
      "a missing member",
      "units/curlew.yaml",
      "  rests on: underside\n",
      "",
      "/tape: must have required property 'rests on'",
    ],
    [
      "a strange word",
      "units/curlew.yaml",
      "opens: whole width",
      "opens: hole",
      "/film/opens: must be equal to one of the allowed values",
    ],
    [
      "another version",
      "units/curlew.yaml",
      "format: 1",
      "format: 2",
      "/format: must be equal to one of the allowed values",
    ],
    [
      "a list where a quantity stands",
      "units/curlew.yaml",
      "line: 90 mm",
      "line: [90 mm]",
      "/tape/route/0/line: must be string",
    ],
    ["a length without a unit", "units/curlew.yaml", "line: 90 mm", "line: 90", "/tape/route/0/line: must be string"],
    [
      "an angle without a unit",
      "units/curlew.yaml",
      "turn: -20 deg",
      "turn: -20",
      "/tape/route/4/arc/turn: must be string",
    ],
    [
      "a point of two numbers",
      "units/curlew.yaml",
      "E1 + F, 3 mm]",
      "E1 + F]",
      "/film/guides/0/through: must NOT have fewer than 3 items",
    ],
    [
      "a point of four numbers",
      "units/curlew.yaml",
      "E1 + F, 3 mm]",
      "E1 + F, 3 mm, 4 mm]",
      "/film/guides/0/through: must NOT have more than 3 items",
    ],
    [
      "a piece that is two",
      "units/curlew.yaml",
      "- line: 90 mm",
      "- {line: 90 mm, mark: entry}",
      "/tape/route/0: must NOT have more than 1 properties",
    ],
    [
      "a piece that is nothing",
      "units/curlew.yaml",
      "- line: 90 mm",
      "- {}",
      "/tape/route/0: must NOT have fewer than 1 properties",
    ],
    [
      "a strange letter of the pocket",
      "units/curlew.yaml",
      "K0: 1.3 mm",
      "KO: 1.3 mm",
      "/built for/8: must NOT have additional properties",
    ],
    [
      "a pocket for no width",
      "units/curlew.yaml",
      "  12: coil\n",
      "  wide: coil\n",
      "/built for: must NOT have additional properties",
    ],
    ["a tape without its pitch", "tapes/coil.yaml", "P1: 8 mm\n", "", "/: must have required property 'P1'"],
    [
      "a misspelt letter of a tape",
      "tapes/coil.yaml",
      "P1: 8 mm",
      "Pl: 8 mm",
      "/: must NOT have additional properties",
    ],
    [
      "a seal nobody makes",
      "tapes/coil.yaml",
      "heat activated",
      "glued",
      "/film/kind: must be equal to one of the allowed values",
    ],
    [
      "a misspelt assumption",
      "project.yaml",
      "mismatch limit",
      "mismach limit",
      "/assume: must NOT have additional properties",
    ],
    [
      "one wanted tape that is no list",
      "project.yaml",
      "[chip, coil]\nladder",
      "chip\nladder",
      "/wanted/curlew: must be array",
    ],
    [
      "a result that is none",
      "known.yaml",
      "result: runs",
      "result: run",
      "/known/0/result: must be equal to one of the allowed values",
    ],
    [
      "a record without its unit",
      "known.yaml",
      "{unit: curlew, tape: chip",
      "{tape: chip",
      "/known/0: must have required property 'unit'",
    ],
  ];
  test.each(cases)("%s", (_, path, from, to, fault) => {
    const files = curlew.changed(path, [from, to]);
    expect(faults(schemaKindOf(path), files.get(path)!)).toContain(fault);
    expect(readProject(files).errors).not.toEqual([]);
  });
});

describe("every schema", () => {
  test.each(schemaKinds)("of a %s file is draft 2020-12, has a title, and describes every field in words", (kind) => {
    const schema = jsonSchema(kind);
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(schema.title).toBe(`Tapeworthy ${kind} file`);
    let fields = 0;
    const walk = (at: JsonSchema, path: string): void => {
      const inside = [
        ...Object.entries((at.properties ?? {}) as Record<string, JsonSchema>),
        ...Object.entries((at.patternProperties ?? {}) as Record<string, JsonSchema>),
        ...(typeof at.additionalProperties === "object" ? [["*", at.additionalProperties as JsonSchema] as const] : []),
        ...((at.prefixItems ?? []) as JsonSchema[]).map((s, i) => [`${i}`, s] as const),
        ...(typeof at.items === "object" ? [["[]", at.items as JsonSchema] as const] : []),
      ];
      for (const [name, inner] of inside) {
        expect(inner.description, `${path}/${name}`).toMatch(/\S/);
        fields++;
        walk(inner, `${path}/${name}`);
      }
      for (const choice of (at.anyOf ?? []) as JsonSchema[]) walk(choice, path);
    };
    expect(schema.description).toMatch(/\S/);
    walk(schema, "");
    expect(fields).toBeGreaterThan(4);
  });
  test.each(schemaKinds)("of a %s file has an example for every quantity, which it takes itself", (kind) => {
    const walk = (at: unknown): void => {
      if (typeof at !== "object" || at === null) return;
      const { examples, type } = at as { examples?: unknown[]; type?: unknown };
      if (examples) for (const e of examples) expect([type].flat(), String(e)).toContain(typeof e);
      for (const inner of Object.values(at)) walk(inner);
    };
    walk(jsonSchema(kind));
  });
  test("goes into JSON and comes back the same", () => {
    for (const kind of schemaKinds) expect(JSON.parse(JSON.stringify(jsonSchema(kind)))).toEqual(jsonSchema(kind));
  });
});
