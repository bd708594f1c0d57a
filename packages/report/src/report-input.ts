import type { CheckRecord, Ladder, Scene, TapeResult } from "@tapeworthy/core";
import type { KnownInput } from "@tapeworthy/drawing";
import type { Project } from "@tapeworthy/project";

/** A unit on its wanted tapes, judged. */
export interface JudgedUnit {
  /** Name of its file, without the ending. */
  readonly unit: string;
  readonly name: string;
  readonly revision: string;
  readonly tapes: readonly TapeResult[];
}
/** What `check` found, and what is known of units that run or fail. */
export interface Judged {
  readonly seed: number;
  readonly units: readonly JudgedUnit[];
  readonly known: KnownInput & { readonly contradictedChecks: readonly string[] };
  /** How trials of the checks came out against what was frozen before them. */
  readonly records?: readonly CheckRecord[];
}
/** All that a report is made from. */
export interface ReportInput {
  readonly project: Project;
  readonly judged: Judged;
  readonly version: string;
  /** The scene of a unit on a tape; RangeError where there is no such pair. */
  readonly sceneOf: (unit: string, tape: string) => Scene;
  /** Address of a font file of the drawing package: a data URI, so that the page needs nothing else. */
  readonly font: (file: string) => string;
  /** Units over continuous width; one that is missing has not been climbed. */
  readonly ladders?: readonly Ladder[];
}
