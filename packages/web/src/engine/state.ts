import type { CheckRecord, EvidenceStanding, Flip, Letter, Place, TapeResult } from "@tapeworthy/core";
import type { UnitShape } from "@tapeworthy/drawing";
import type { KnownLine, RetiredTrial } from "@tapeworthy/project";

/** What the page shows of a project's folder: texts, numbers, what the last change moved. Plain data, replaced and never written to. */
export interface EngineState {
  /** Texts of the project's files, own edits included whether acknowledged or not. */
  readonly texts: ReadonlyMap<string, string>;
  /** The last reading without errors; undefined until there is one. */
  readonly project: ProjectView | undefined;
  /** What is wrong in the present texts. While there is something, project, pairs and shape are of the last good reading. */
  readonly errors: readonly FileError[];
  /** Every wanted pair, in the order of the units and of their wanted tapes. */
  readonly pairs: readonly PairState[];
  readonly known: KnownView;
  /** The pair on screen. */
  readonly look: Look | undefined;
  /** The drawing of the pair on screen as it stands now; undefined where it can't be drawn, which `trouble` says. */
  readonly shape: UnitShape | undefined;
  readonly trouble: string | undefined;
  /** Numbers of the variant on screen that can be dragged or typed over. */
  readonly numbers: readonly NumberView[];
  /** The gesture under way. */
  readonly gesture: GestureView | undefined;
  /** What the last change moved; undefined before the first one. Filled in pair by pair as the numbers sharpen. */
  readonly changed: Changed | undefined;
  /** Pairs that are still being sharpened. */
  readonly busy: { readonly done: number; readonly of: number } | undefined;
  readonly connection: "opening" | "live" | "lost";
  /** Own edits that the server has not acknowledged. */
  readonly unsaved: number;
  readonly conflicts: readonly Conflict[];
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Edits of an earlier session that fit no file any more. */
  readonly offered: readonly Offered[];
  /** What the server can't do, by file; none where it is about the folder. Locked files are among them. */
  readonly troubles: readonly { readonly file: string; readonly words: string }[];
  /** Bundled examples that a folder without a project may begin with. */
  readonly examples: readonly string[];
  readonly seed: number;
}

/** A unit on a tape, by file names, and the check whose finding is open. */
export interface Look {
  readonly unit: string;
  readonly tape: string;
  readonly check?: string | undefined;
}

/** An error of a file as the parser tells it; `shown` is its whole text with the line and the underline. */
export interface FileError {
  readonly place: Place;
  readonly found: string;
  readonly expected: string;
  readonly hint: string | undefined;
  readonly shown: string;
}

export interface ProjectView {
  readonly name: string;
  readonly allowPairs: number;
  readonly units: readonly UnitView[];
  readonly tapes: readonly TapeView[];
  /** How trials of the checks came out against what was frozen before them; nothing where nobody keeps a ledger. */
  readonly records?: readonly CheckRecord[];
}
export interface UnitView {
  /** Name of its file without the ending. */
  readonly stem: string;
  readonly file: string;
  readonly name: string;
  readonly revision: string;
  /** Nominal widths it is made in, mm. */
  readonly widths: readonly number[];
  readonly wanted: readonly string[];
}
export interface TapeView {
  readonly stem: string;
  readonly file: string;
  readonly name: string;
  readonly part: string;
  readonly kind: string;
  /** Nominal width of its row, mm. */
  readonly row: number;
  /** What a little picture of it is drawn from, m. */
  readonly icon: {
    readonly W: number;
    readonly A0: number;
    readonly B0: number;
    readonly P1: number;
    readonly E1: number;
    readonly F: number;
  };
}

/** How good a pair's numbers are: none yet, those of an older text, quick ones while something moves, drawn in full. */
export type Sharpness = "waiting" | "older" | "quick" | "drawn";
export interface PairState {
  readonly unit: string;
  readonly tape: string;
  readonly sharpness: Sharpness;
  /** Present numbers, quick ones in place of drawn ones where there are such; undefined while waiting. */
  readonly result: TapeResult | undefined;
  /** Checks whose numbers in `result` are quick; empty when all are drawn. */
  readonly quick: ReadonlySet<string>;
  /** The same pair before the last change, for the carets; undefined where it has not been moved. */
  readonly before: TapeResult | undefined;
}

export interface KnownView {
  readonly of: number;
  readonly reproduced: number;
  readonly open: number;
  readonly contradicted: readonly string[];
  readonly contradictedChecks: readonly string[];
  readonly lines: readonly KnownLine[];
  readonly weighed: boolean;
  readonly effective: number;
  /** Trials of checks that the ledger takes into belief. */
  readonly taken?: readonly EvidenceStanding[];
  /** Those of them that a changed design has retired. */
  readonly retired?: readonly RetiredTrial[];
  /** False while the record is being weighed anew. */
  readonly sharp: boolean;
}
/** A number of a unit's file as it stands for one variant. SI unless said. */
export interface NumberView {
  readonly address: string;
  /** Its path in the file, as `per width` names it: "nip.preload". */
  readonly path: string;
  readonly symbol: string;
  readonly means: string;
  readonly text: string;
  readonly place: Place;
  readonly value: number;
  /** Coherent unit, and the one it is read and typed in. */
  readonly unit: string;
  readonly shownIn: string;
  readonly letter: Letter;
  /** Bounds between which it may be dragged; absent where none are given. */
  readonly least: number | undefined;
  readonly most: number | undefined;
  /** Grid of a drag: fine as it is, coarse with Shift; 0 where it has no centre to move (a guess). */
  readonly step: number;
  readonly coarse: number;
  readonly draggable: boolean;
  /** Ends of a guess. */
  readonly guess: { readonly low: number; readonly high: number } | undefined;
  /** The one width it is written for under `per width`; undefined for a number of the whole family. */
  readonly onlyWidth: number | undefined;
  /** Widths of the family whose variants take this very text, mm. */
  readonly widths: readonly number[];
  /** Names in its text, with the address of each that is a number of a file. */
  readonly names: readonly { readonly name: string; readonly address: string | undefined }[];
}

export interface GestureView {
  readonly id: string;
  readonly address: string | undefined;
  /** How far the number stands from where the gesture began, SI. */
  readonly by: number;
}

/** What one change moved: verdicts of checks and pairs that are others now, worst first. */
export interface Changed {
  /** What was changed, in words a person reads: "film.guides.shoulder.through.2". */
  readonly what: readonly TextChange[];
  readonly flips: readonly Flip[];
  readonly worse: number;
  readonly better: number;
  /** Every pair has been drawn since the change. */
  readonly settled: boolean;
}
export interface TextChange {
  readonly address: string | undefined;
  readonly file: string;
  readonly line: number;
  readonly before: string;
  readonly after: string;
}
/** A stretch that was changed here and outside at once: both texts, nothing lost. */
export interface Conflict {
  readonly id: string;
  readonly file: string;
  /** First line of the stretch in the present text, from 1. */
  readonly line: number;
  readonly before: string;
  readonly mine: string;
  readonly theirs: string;
}
export interface Offered {
  readonly id: string;
  readonly file: string;
  readonly lines: readonly { readonly line: number; readonly before: string; readonly after: string }[];
}
