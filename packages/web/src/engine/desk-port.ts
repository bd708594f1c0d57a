import type { FromDesk, ToDesk } from "./protocol.ts";

/** The way to a desk, wherever it stands. */
export interface DeskPort {
  post(message: ToDesk): void;
  hear(heard: (message: FromDesk) => void): void;
  close(): void;
}

/** A desk on a thread of its own. */
export function workerDesk(): DeskPort {
  const worker = new Worker(new URL("./desk.worker.ts", import.meta.url), { type: "module" });
  return {
    post: (message) => worker.postMessage(message),
    hear(heard) {
      worker.onmessage = ({ data }: MessageEvent<FromDesk>) => heard(data);
      worker.onerror = (event) => heard({ kind: "fault", words: event.message });
    },
    close: () => worker.terminate(),
  };
}
