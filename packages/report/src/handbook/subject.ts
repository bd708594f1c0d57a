import { type Check, type Model, stations } from "@tapeworthy/core";
import type { DocComment, WrittenModel } from "./doc-comments.ts";
import type { NamedScene, Reach } from "./reach.ts";

/** A source file of the models: its place under packages/core/src, its text, and what it exports. */
export interface ModelFile {
  readonly path: string;
  readonly source: string;
  readonly exports: Readonly<Record<string, unknown>>;
}
/** A figure from outside that a model is held against. */
export interface HeldFigure {
  readonly id: string;
  readonly model: string;
  readonly expected: number;
  readonly tolerance: number;
  readonly unit: string;
  readonly source: string;
  readonly how: string;
}
export interface HandbookInput {
  readonly files: readonly ModelFile[];
  readonly checks: readonly Check[];
  readonly scenes: readonly NamedScene[];
  readonly figures: readonly HeldFigure[];
}

/** Models that one piece of source makes: alike but for their names (of each drive, of each body), they share one section. */
export interface ModelGroup {
  readonly models: readonly Model<unknown>[];
  readonly doc?: DocComment;
}
/** All that one page speaks of. */
export interface FileSubject {
  readonly file: ModelFile;
  /** Path of the page under docs/models. */
  readonly page: string;
  readonly title: string;
  readonly lead: DocComment | undefined;
  readonly checks: readonly Check[];
  readonly groups: readonly ModelGroup[];
  /** Comments with an equation that stand over neither a model nor a check. */
  readonly further: readonly DocComment[];
  /** Models that no scene at hand reads, as the source writes them. */
  readonly unread: readonly WrittenModel[];
}

/** What every page knows of the others. */
export interface Book {
  readonly subjects: readonly FileSubject[];
  readonly reach: Reach;
  readonly pageOfModel: ReadonlyMap<string, string>;
  readonly pageOfCheck: ReadonlyMap<string, string>;
  readonly figures: readonly HeldFigure[];
}

/** "film/peel-force.ts" is "Film: peel force". */
export function titleOf(path: string): string {
  const [name = "", ...folders] = path.replace(/\.ts$/, "").split("/").reverse();
  const folder = folders.reverse().join(" ");
  const words = name.replaceAll("-", " ");
  return folder === "" ? capital(words) : `${capital(folder)}: ${words}`;
}
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
export const stationText = (check: Check): string => `${check.station} ${stations[check.station]}`;
export const folderOf = (path: string): string => path.split("/").slice(0, -1).join("/");
