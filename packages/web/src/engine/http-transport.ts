import type { Answer, ServerEvent, ServerState, Transport } from "./transport.ts";

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
