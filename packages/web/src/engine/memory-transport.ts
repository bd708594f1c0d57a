import { type Decision, type FileChange, FolderTexts, type Refusal } from "@tapeworthy/project";
import type { Answer, Kept, ServerEvent, Transport } from "./transport.ts";

/** A server in memory, with the same history as the real one: for trying the page without one. Its texts are lost with the page. */
export function memoryTransport(texts: ReadonlyMap<string, string>, seed = 1): Transport {
  return new MemoryServer(texts, seed);
}

/** The texts themselves tell texts apart. */
const hashOf = (text: string): string => text;
const never = "1970-01-01T00:00:00.000Z";

export class MemoryServer implements Transport {
  readonly texts = new FolderTexts(hashOf);
  private readonly seed: number;
  private readonly listeners = new Set<(event: ServerEvent) => void>();
  private readonly told: ServerEvent[] = [];
  /** Raw rows by name. */
  readonly kept = new Map<string, Uint8Array>();

  constructor(texts: ReadonlyMap<string, string>, seed: number) {
    this.seed = seed;
    for (const [file, text] of texts) this.outside(file, text);
    this.told.length = 0;
  }
  /** Another program writes a file, or removes it. */
  outside(file: string, text: string | undefined): void {
    this.note(this.texts.onDisk(file, text, never, false));
  }
  async state() {
    const { depth: history } = this.texts;
    const files = this.texts.all().filter(({ there }) => there);
    return {
      seed: this.seed,
      files,
      history,
      offered: this.texts.offers,
      trouble: [],
      examples: [],
      event: `${this.told.length}`,
    };
  }
  async edit(request: Parameters<Transport["edit"]>[0]): Promise<Answer> {
    return this.answer(this.texts.edit(request, never));
  }
  async undo(skip?: string): Promise<Answer> {
    return this.answer(skip === undefined ? this.texts.undo(never) : this.texts.skip("undo", skip));
  }
  async redo(skip?: string): Promise<Answer> {
    return this.answer(skip === undefined ? this.texts.redo(never) : this.texts.skip("redo", skip));
  }
  async answerOffer(id: string, take: boolean): Promise<Answer> {
    return this.answer(this.texts.answer(id, take, never));
  }
  async begin(): Promise<Answer> {
    return { refused: "nothing", words: "There are no examples here." };
  }
  async raw(file: string): Promise<Uint8Array | undefined> {
    return this.kept.get(file)?.slice();
  }
  async keep(file: string, bytes: Uint8Array): Promise<Kept> {
    const there = this.kept.get(file);
    if (!there) {
      this.kept.set(file, bytes.slice());
      return { file, bytes: bytes.length };
    }
    return there.length === bytes.length && there.every((b, i) => b === bytes[i])
      ? { file, bytes: bytes.length, same: true }
      : { refused: "exists", words: `There is another file ${file} already; it was left as it is.` };
  }
  events(last: string, { hear, opened }: Parameters<Transport["events"]>[1]): () => void {
    let isOver = false;
    const listen = (event: ServerEvent): void => {
      if (!isOver) hear(event);
    };
    queueMicrotask(() => {
      if (isOver) return;
      opened();
      for (const event of this.told.slice(Number(last))) listen(event);
      this.listeners.add(listen);
    });
    return () => {
      isOver = true;
      this.listeners.delete(listen);
    };
  }
  private answer(decision: Decision | Refusal): Answer {
    if ("refused" in decision) return decision;
    const changes = decision.again ? [decision.again] : this.note(decision);
    return { changes, history: this.texts.depth };
  }
  private note({ records }: Decision): FileChange[] {
    const changes = records.flatMap((record) => this.texts.take(record));
    // There is no disk behind these texts: all are as good as written.
    for (const { file } of changes) for (const record of this.texts.written(file).records) this.texts.take(record);
    for (const change of changes)
      this.tell({ id: "", event: "change", data: { ...change, history: this.texts.depth } });
    if (changes.length === 0 && records.length > 0) this.tell({ id: "", event: "history", data: this.texts.depth });
    return changes;
  }
  private tell(event: ServerEvent): void {
    const numbered = { ...event, id: `${this.told.length + 1}` };
    this.told.push(numbered);
    for (const listen of [...this.listeners]) listen(numbered);
  }
}
