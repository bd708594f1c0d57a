import type {
  Accuracy,
  CheckSweep,
  Comparison,
  CuresWithEffects,
  Ladder,
  Misfeeds,
  SweepInput,
} from "@tapeworthy/core";
import type { IndexPicture, UnitShape } from "@tapeworthy/drawing";
import type { JudgedPairs } from "../engine/protocol.ts";
import type { BenchAnswer, FreezeAnswer, NextAnswer, ProofAnswer, ScoreAnswer, TrialAnswer } from "./bench-answers.ts";
import type { SizeAnswer } from "./sizing.ts";

/** What takes long to work out and is asked for only when somebody wants to see it. Plain data, so it may cross to another thread. */
export type Question =
  | { readonly kind: "ladder"; readonly unit: string }
  | { readonly kind: "compare"; readonly units: readonly string[]; readonly W: number }
  | { readonly kind: "cures"; readonly unit: string; readonly tape: string; readonly check: string }
  | { readonly kind: "index"; readonly unit: string; readonly tape: string }
  | { readonly kind: "misfeed"; readonly unit: string; readonly tape: string }
  | { readonly kind: "pick"; readonly unit: string; readonly tape: string }
  | { readonly kind: "size"; readonly unit: string }
  /** Windows of the unit sized last, with its dimensions so far from what is drawn; `rests`: a hand let go there. */
  | { readonly kind: "windows"; readonly unit: string; readonly at: readonly number[]; readonly rests: boolean }
  /** Trials and ledger as they stand: no draw is made. */
  | { readonly kind: "bench" }
  /** What to find out next, of all wanted pairs. */
  | { readonly kind: "next" }
  /** What one trial says, and the cells that move if it is taken. */
  | { readonly kind: "trial"; readonly trial: string; readonly date: string }
  | {
      readonly kind: "freeze";
      readonly trial: string;
      readonly date: string;
      /** Of a trial that is new. */
      readonly fresh?: { readonly unit: string; readonly tape: string; readonly question: string };
    }
  | { readonly kind: "score"; readonly trial: string; readonly date: string }
  | { readonly kind: "proof"; readonly unit: string }
  /** Over the number named, else the one that decides or moves it most; at other values of a second one too. */
  | {
      readonly kind: "sweep";
      readonly unit: string;
      readonly tape: string;
      readonly check: string;
      readonly along?: string;
      readonly second?: string;
    };

/** A unit drawn with a tape of a width, or why it can't be. */
export interface Drawn {
  readonly unit: string;
  readonly tape: string | undefined;
  readonly shape: UnitShape | undefined;
  readonly trouble: string | undefined;
}
export type Answer =
  | { readonly kind: "ladder"; readonly ladder: Ladder }
  | { readonly kind: "compare"; readonly comparison: Comparison; readonly drawn: readonly Drawn[] }
  | { readonly kind: "cures"; readonly cures: CuresWithEffects }
  | { readonly kind: "sweep"; readonly sweep: CheckSweep; readonly inputs: readonly SweepInput[] }
  | { readonly kind: "index"; readonly picture: IndexPicture }
  | { readonly kind: "misfeed"; readonly misfeeds: Misfeeds }
  | { readonly kind: "pick"; readonly accuracy: Accuracy }
  | { readonly kind: "size"; readonly sizing: SizeAnswer }
  | { readonly kind: "bench"; readonly bench: BenchAnswer }
  | { readonly kind: "next"; readonly next: NextAnswer }
  | { readonly kind: "trial"; readonly trial: TrialAnswer }
  | { readonly kind: "freeze"; readonly freeze: FreezeAnswer }
  | { readonly kind: "score"; readonly score: ScoreAnswer }
  | { readonly kind: "proof"; readonly proof: ProofAnswer }
  /** Why there is no answer, in a sentence. */
  | { readonly kind: "none"; readonly why: string };

/** The texts of a project that a question is about. */
export interface About {
  readonly texts: readonly (readonly [file: string, text: string])[];
  readonly seed: number;
}
/** Files with their texts, as the page holds them or as a list. */
export type Texts = Iterable<readonly [file: string, text: string]>;
/** What the map found of the wanted pairs of these texts, the page's very own; with `waits`, which is told how far that is, not before it is there. */
export type JudgedFor = (texts: Texts, waits?: (done: number, of: number) => void) => Promise<JudgedPairs | undefined>;
/** How far an answer has come: what is being worked out, so many of so many. */
export interface Progress {
  readonly what: string;
  readonly done: number;
  readonly of: number;
}
