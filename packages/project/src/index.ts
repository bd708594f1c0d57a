export * from "./edit.ts";
export * from "./error.ts";
export { GivenStore } from "./given-store.ts";
export * from "./json-schema.ts";
export * from "./project.ts";
export * from "./project-fields.ts";
export { SourceFile } from "./source.ts";
export type { TapeFile } from "./tape-file.ts";
export type { UnitFile } from "./unit-file.ts";
