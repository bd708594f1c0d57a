import type { IncomingMessage } from "node:http";

export const mostBytes = 1_000_000;
export interface BadBody {
  readonly status: 400 | 413;
  readonly code: "malformed" | "too long";
  readonly words: string;
}
const tooLong: BadBody = { status: 413, code: "too long", words: `At most ${mostBytes} bytes are taken.` };

/** What a request's head says of a body that is too long; nothing of it need be read. */
export function tooLongByItsHead(request: IncomingMessage): BadBody | undefined {
  return Number(request.headers["content-length"] ?? 0) > mostBytes ? tooLong : undefined;
}
/** Reads a JSON object. Stops reading at once where the body is longer than it may be. */
export function readObject(request: IncomingMessage): Promise<{ readonly body: Record<string, unknown> } | BadBody> {
  return new Promise((resolve, reject) => {
    const pieces: Buffer[] = [];
    let length = 0;
    request.on("data", (piece: Buffer) => {
      length += piece.length;
      if (length > mostBytes) {
        request.pause();
        request.removeAllListeners("data");
        resolve(tooLong);
      } else pieces.push(piece);
    });
    request.on("error", reject);
    request.on("end", () => resolve(objectOf(Buffer.concat(pieces))));
  });
}
function objectOf(bytes: Buffer): { readonly body: Record<string, unknown> } | BadBody {
  const bad = (words: string): BadBody => ({ status: 400, code: "malformed", words });
  let json: unknown;
  try {
    json = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return bad("The body is not JSON.");
  }
  if (typeof json !== "object" || json === null || Array.isArray(json)) return bad("The body is no JSON object.");
  return { body: json as Record<string, unknown> };
}
