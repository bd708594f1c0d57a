import { type Answer, type Kept, mostKept, type ServerEvent, type ServerState, type Transport } from "./transport.ts";

const kinds = ["change", "history", "offered", "trouble", "reload", "written"] as const;

/** The server that this page came from. */
export function httpTransport(): Transport {
  return {
    async state() {
      const answer = await fetch("/state", { cache: "no-store" });
      if (!answer.ok) throw new Error(`the state could not be read: ${answer.status}`);
      return (await answer.json()) as ServerState;
    },
    edit: (request) => post("/edit", request),
    undo: (skip) => post("/undo", skip === undefined ? {} : { skip }),
    redo: (skip) => post("/redo", skip === undefined ? {} : { skip }),
    answerOffer: (id, take) => post("/offer", { offer: id, answer: take ? "take" : "drop" }),
    begin: (from) => post("/begin", { from }),
    async raw(file) {
      const answer = await fetch(`/raw?file=${encodeURIComponent(file)}`, { cache: "no-store" });
      if (answer.status === 404) return undefined;
      if (!answer.ok) throw new Error(`${file} could not be read: ${answer.status}`);
      return new Uint8Array(await answer.arrayBuffer());
    },
    keep,
    events(last, { hear, opened, lost }) {
      const source = new EventSource(`/events?last=${encodeURIComponent(last)}`);
      let isOver = false;
      const end = (): void => {
        isOver = true;
        source.close();
      };
      source.onopen = opened;
      // It would begin again by itself; when to do so is decided in one place.
      source.onerror = () => {
        if (isOver) return;
        end();
        lost();
      };
      for (const event of kinds)
        source.addEventListener(event, (message: MessageEvent<string>) => {
          const data: unknown = message.data === "" ? {} : JSON.parse(message.data);
          hear({ id: message.lastEventId, event, data } as ServerEvent);
        });
      return end;
    },
  };
}

/** Refusals are answers; an answer that makes no sense is a broken line. */
async function post(path: string, body: unknown): Promise<Answer> {
  const answer = await fetch(path, {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    body: JSON.stringify(body),
  });
  const found = (await answer.json()) as Record<string, unknown>;
  if (answer.ok) return found as unknown as Answer;
  const { code, ...rest } = found;
  if (answer.status >= 500 && code !== "journal") throw new Error(`${path}: ${answer.status}`);
  return { ...rest, refused: known.has(`${code}`) ? code : "other" } as Answer;
}
async function keep(file: string, bytes: Uint8Array): Promise<Kept> {
  if (bytes.length > mostKept)
    return { refused: "too long", words: `${file} would be ${bytes.length} bytes long; at most ${mostKept} are kept.` };
  const answer = await fetch(`/keep?file=${encodeURIComponent(file)}`, {
    method: "POST",
    headers: { "Content-Type": "application/octet-stream" },
    body: bytes as Uint8Array<ArrayBuffer>,
  });
  const found = (await answer.json()) as Record<string, unknown>;
  if (answer.ok) return found as unknown as Kept;
  const { code, words } = found;
  if (answer.status >= 500 && code !== "disk") throw new Error(`/keep: ${answer.status}`);
  return { refused: notKept.has(`${code}`) ? code : "other", words } as Kept;
}
const notKept = new Set(["exists", "too long", "session", "disk"]);
const known = new Set([
  "malformed",
  "unknown base",
  "conflict",
  "gone",
  "exists",
  "nothing",
  "locked",
  "session",
  "journal",
]);
