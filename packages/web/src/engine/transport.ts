import type { ChangesJson, FileChange, RefusalCode } from "@tapeworthy/project";

/**
 * What the page says to the server that owns the texts, and hears from it: packages/cli/src/open at the other end. A call rejects where the
 * line is broken, and then nobody knows whether it arrived.
 */
export interface Transport {
  state(): Promise<ServerState>;
  edit(request: EditRequest): Promise<Answer>;
  undo(skip?: string): Promise<Answer>;
  redo(skip?: string): Promise<Answer>;
  answerOffer(id: string, take: boolean): Promise<Answer>;
  /** Puts one of the bundled examples into a folder without a project. */
  begin(from: string): Promise<Answer>;
  /** Raw rows of a trial, as Parquet; undefined where there are none of that name. */
  raw(file: string): Promise<Uint8Array | undefined>;
  /** Keeps raw rows under a name that is new; what is there is never written over. */
  keep(file: string, bytes: Uint8Array): Promise<Kept>;
  /**
   * Hears what happens, from the event named on. `opened` is called once it is heard, `lost` once when the line breaks; the answer ends it.
   */
  events(last: string, on: { hear(event: ServerEvent): void; opened(): void; lost(): void }): () => void;
}

/** How many gestures can be taken back and taken again. */
export interface Depth {
  readonly undo: number;
  readonly redo: number;
}
export interface ServerState {
  readonly seed: number;
  readonly files: readonly {
    readonly file: string;
    readonly text: string;
    readonly version: number;
    readonly hash: string;
    /** Why it can't be changed; absent where it can. */
    readonly locked?: string;
  }[];
  readonly history: Depth;
  readonly offered: readonly OfferedText[];
  readonly trouble: readonly Trouble[];
  /** Bundled examples a folder may begin with. */
  readonly examples: readonly string[];
  /** The last event that this state holds. */
  readonly event: string;
}
/** A text of an earlier session that was not written, and whose file has become another since. */
export interface OfferedText {
  readonly id: string;
  readonly file: string;
  readonly when: string;
  readonly text: string;
}
/** Something the server can't do; no file where it is about the folder. */
export interface Trouble {
  readonly file: string;
  readonly words: string;
}
export interface EditRequest {
  readonly id: string;
  readonly file: string;
  /** Hash of the text that the changes are made for; null makes a new file. */
  readonly base: string | null;
  readonly changes: ChangesJson;
  readonly gesture: string;
  readonly done: boolean;
}
export interface Taken {
  readonly changes: readonly FileChange[];
  readonly history: Depth;
}
/** Why something was not done; nothing has changed. */
export interface Refused {
  readonly refused: RefusalCode | "locked" | "session" | "journal" | "other";
  readonly words: string;
  readonly file?: string;
  readonly gesture?: string;
  /** The text that was wished for. */
  readonly yours?: string;
  /** The file as it is; absent where it is not there. */
  readonly theirs?: { readonly text: string; readonly version: number; readonly hash: string };
}
export type Answer = Taken | Refused;
/** Raw rows lie under their name, or why they do not. */
export type Kept =
  | {
      readonly file: string;
      readonly bytes: number;
      /** They lay there already. */
      readonly same?: true;
    }
  | { readonly refused: "exists" | "too long" | "session" | "disk" | "other"; readonly words: string };
/** Bytes of raw rows that one file may hold. */
export const mostKept = 512_000_000;

export type ServerEvent = { readonly id: string } & (
  | { readonly event: "change"; readonly data: FileChange & { readonly history: Depth } }
  | { readonly event: "history"; readonly data: Depth }
  | { readonly event: "offered"; readonly data: { readonly offered: readonly OfferedText[] } }
  | { readonly event: "trouble"; readonly data: { readonly trouble: readonly Trouble[] } }
  /** What happened since is not known any more: everything is to be loaded again. */
  | { readonly event: "reload" }
  | { readonly event: "written"; readonly data: { readonly file: string; readonly hash: string } }
);
