import { ledgerPath } from "./ledger-read.ts";
import type { Project, Texts } from "./project.ts";

/** A project, its texts, and the SHA-256 of its design (`canonicalTexts`), hexadecimal: the hash is the caller's, for here nothing is asynchronous. */
export interface Bench {
  readonly project: Project;
  readonly texts: Texts;
  readonly sha: string;
}
/** Something that cannot be done, in a sentence that can be shown as it stands. */
export interface Refused {
  readonly why: string;
}
export const isRefused = (of: object): of is Refused => "why" in of && typeof of.why === "string";

/** Told before every piece of work. */
export type Tell = (what: string, done: number, of: number) => void;

/** Text of the ledger; undefined where there is none yet. */
export const ledgerText = ({ texts }: Pick<Bench, "texts">): string | undefined => texts.get(ledgerPath);

/** Why a trial can't have a name; undefined where it can. */
export const whyNoTrialName = (name: string): string | undefined =>
  /^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,60}$/u.test(name)
    ? undefined
    : `"${name}" is no name for a trial: letters, digits, dots and dashes, such as T-01.`;
