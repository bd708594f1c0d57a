import type { FromDesk, ToDesk } from "./protocol.ts";

/** The way to a desk, wherever it stands. */
export interface DeskPort {
  post(message: ToDesk): void;
  hear(heard: (message: FromDesk) => void): void;
  close(): void;
}
/** What a thread is told first: which desk it is, and the ways to those beside it. */
export type BeginDesk =
  | { readonly kind: "main"; readonly sides: readonly MessagePort[] }
  | { readonly kind: "side"; readonly main: MessagePort };

/**
 * Desks beside the one on which the project lies open, for so many processors: all but one, which is left to that desk. At most 6: each holds
 * texts and library of its own (a second one took 130 MB more), and of a few dozen pairs that take about as long each a seventh thread saves little.
 */
export const sidesFor = (processors: number): number => Math.min(6, Math.max(1, Math.floor(processors) - 1));

/** A desk on a thread of its own, with others beside it. */
export function workerDesk(sides = sidesFor(navigator.hardwareConcurrency || 1)): DeskPort {
  const start = (name: string): Worker =>
    new Worker(new URL("./desk.worker.ts", import.meta.url), { type: "module", name });
  const desk = start("desk");
  const beside = Array.from({ length: sides }, (_, i) => {
    const worker = start(`desk ${i + 1}`);
    const { port1, port2 } = new MessageChannel();
    worker.postMessage({ kind: "side", main: port1 } satisfies BeginDesk, [port1]);
    return { worker, port: port2 };
  });
  const ports = beside.map(({ port }) => port);
  desk.postMessage({ kind: "main", sides: ports } satisfies BeginDesk, ports);
  return {
    post: (message) => desk.postMessage(message),
    hear(heard) {
      desk.onmessage = ({ data }: MessageEvent<FromDesk>) => heard(data);
      desk.onerror = (event) => heard({ kind: "fault", words: event.message });
      for (const [side, { worker }] of beside.entries())
        worker.onerror = (event) => {
          heard({ kind: "fault", words: event.message, goesOn: true });
          // What it had is done by the others.
          worker.terminate();
          desk.postMessage({ kind: "lost", side } satisfies ToDesk);
        };
    },
    close() {
      desk.terminate();
      for (const { worker } of beside) worker.terminate();
    },
  };
}
