import type { Explained, Finding, Judged, KnownChances, TapeResult } from "@tapeworthy/core";
import type { UnitShape } from "@tapeworthy/drawing";
import type { ChangesJson } from "@tapeworthy/project";
import type { FileError, KnownView, Look, NumberView, ProjectView } from "./state.ts";

/** What the page says to the desk, which reads and computes on a thread of its own. Plain data; numbers with a place never cross. */
export type ToDesk =
  | {
      readonly kind: "open";
      readonly seq: number;
      readonly texts: readonly (readonly [string, string])[];
      readonly seed: number;
    }
  /** Texts became others. `drag` says that a number of the last reading stands off by so much, and how far slopes may be trusted, SI. */
  | { readonly kind: "edits"; readonly seq: number; readonly edits: readonly DeskEdit[]; readonly drag?: DragState }
  /** A hand is near a number: what a drag of it needs is made ready. */
  | { readonly kind: "aim"; readonly members: readonly string[]; readonly reach: number }
  /** The hand has let go. */
  | { readonly kind: "release" }
  | { readonly kind: "look"; readonly look: Look }
  | { readonly kind: "ask"; readonly id: number; readonly question: Question }
  /** A desk beside it, counted from 0, is no more. */
  | { readonly kind: "lost"; readonly side: number };
/** What every desk of a project hears. */
export type ToAllDesks = Extract<ToDesk, { readonly kind: "open" | "edits" | "aim" | "release" | "look" }>;
/** A file's text: a change of the one before it, the whole, or none any more. */
export type DeskEdit =
  | { readonly file: string; readonly changes: ChangesJson }
  | { readonly file: string; readonly text: string | undefined };
export interface DragState {
  readonly members: readonly string[];
  readonly by: number;
  readonly reach: number;
}
export type Question =
  | { readonly kind: "explain"; readonly unit: string; readonly tape: string; readonly check: string }
  /** What would be wrong in the texts with these files in place of theirs. */
  | { readonly kind: "errors"; readonly texts: readonly (readonly [string, string])[] }
  /** What was found of all wanted pairs: nothing before all of them are drawn. */
  | { readonly kind: "judged" };

/** What the desk says. Everything that follows from texts names the seq of those. */
export type FromDesk =
  | {
      readonly kind: "read";
      readonly seq: number;
      /** Absent where the texts have errors: then the last reading stands. */
      readonly project?: ProjectView;
      readonly errors: readonly FileError[];
      /** Wanted pairs in order; `stale` where the pair's numbers are to be drawn again. */
      readonly pairs?: readonly { readonly unit: string; readonly tape: string; readonly stale: boolean }[];
    }
  /** The drawing of the pair on screen, and its numbers where they changed. */
  | {
      readonly kind: "shape";
      readonly seq: number;
      readonly look: Look;
      readonly shape?: UnitShape;
      readonly trouble?: string;
      readonly numbers?: readonly NumberView[];
    }
  /** Quick numbers of what rests on the dragged number. */
  | { readonly kind: "quick"; readonly seq: number; readonly by: number; readonly pairs: readonly QuickPair[] }
  /** A pair drawn in full; not `final` where the record of known units is still to be weighed anew. */
  | { readonly kind: "drawn"; readonly seq: number; readonly result: TapeResult; readonly final: boolean }
  | { readonly kind: "known"; readonly seq: number; readonly known: KnownView }
  | { readonly kind: "progress"; readonly seq: number; readonly done: number; readonly of: number }
  /** Everything is drawn. */
  | { readonly kind: "rest"; readonly seq: number }
  | { readonly kind: "answer"; readonly id: number; readonly answer: AnswerOf | undefined; readonly fault?: string }
  /** A fault of ours: its words. It ends the drawing of these texts, unless it `goesOn`. */
  | { readonly kind: "fault"; readonly words: string; readonly goesOn?: boolean };
export type AnswerOf =
  | { readonly kind: "explain"; readonly value: Explained; readonly least?: Explained; readonly most?: Explained }
  | { readonly kind: "errors"; readonly errors: readonly FileError[] }
  | { readonly kind: "judged"; readonly judged: JudgedPairs };

/** The wanted pairs as they were judged, in their order, with the belief they were judged by and what the known units said for it. */
export interface JudgedPairs {
  readonly rows: readonly Judged[];
  readonly weights: Float64Array;
  readonly contradicted: readonly string[];
  readonly known: readonly { readonly unit: string; readonly tape: string; readonly chances: KnownChances }[];
}

/** What pairs are judged by. */
export interface Belief {
  /** Another for every belief of one desk. */
  readonly id: number;
  readonly weights: Float64Array;
  readonly contradicted: ReadonlySet<string>;
}
/** What a desk says to one beside it. */
export type ToSide =
  | ToAllDesks
  /** Study a pair, and judge it by a belief where there is one, instead of what was asked before. */
  | {
      readonly kind: "do";
      readonly id: number;
      readonly seq: number;
      readonly unit: string;
      readonly tape: string;
      readonly by?: Belief;
    };
export type FromSide =
  | Extract<FromDesk, { readonly kind: "quick" | "fault" }>
  | { readonly kind: "done"; readonly id: number; readonly chances?: KnownChances; readonly judged?: Judged };

/** What quick numbers say of a pair, to be laid over what was drawn. */
export interface QuickPair
  extends Pick<TapeResult, "unit" | "tape" | "verdict" | "share" | "shareAlone" | "verdictAlone" | "first"> {
  readonly findings: readonly QuickFinding[];
}
export type QuickFinding = Pick<
  Finding,
  "check" | "verdict" | "share" | "shareAlone" | "value" | "bounds" | "ratio" | "margin" | "marginBy" | "corners"
> &
  Partial<Pick<Finding, "because" | "beside">>;

export const quickPair = (result: TapeResult, checks: ReadonlySet<string>, told: string | undefined): QuickPair => ({
  unit: result.unit,
  tape: result.tape,
  verdict: result.verdict,
  share: result.share,
  shareAlone: result.shareAlone,
  verdictAlone: result.verdictAlone,
  first: result.first,
  findings: result.findings.flatMap((f): QuickFinding[] => {
    if (!checks.has(f.check)) return [];
    const { check, verdict, share, shareAlone, value, bounds, ratio, margin, marginBy, corners, because, beside } = f;
    return [
      {
        check,
        verdict,
        share,
        shareAlone,
        value,
        bounds,
        ratio,
        margin,
        marginBy,
        ...(corners ? { corners } : {}),
        ...(check === told ? { because, beside } : {}),
      },
    ];
  }),
});
/** A drawn result with quick numbers laid over it. */
export function overlaid(drawn: TapeResult, { findings, ...quick }: QuickPair): TapeResult {
  const by = new Map(findings.map((f) => [f.check, f]));
  return { ...drawn, ...quick, findings: drawn.findings.map((f) => ({ ...f, ...by.get(f.check) })) };
}
