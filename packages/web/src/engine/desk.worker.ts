import { Desk } from "./desk.ts";
import type { FromDesk, ToDesk } from "./protocol.ts";

const scope = self as unknown as {
  postMessage(message: FromDesk): void;
  onmessage: ((event: MessageEvent<ToDesk>) => void) | null;
};
// A message to oneself comes after those that wait already, and sooner than any timer.
const { port1, port2 } = new MessageChannel();
const waiting: (() => void)[] = [];
port1.onmessage = () => waiting.shift()?.();

const desk = new Desk((message) => scope.postMessage(message), {
  now: () => performance.now(),
  later(f, ms) {
    let isOff = false;
    const call = (): void => {
      if (!isOff) f();
    };
    if (ms === undefined) {
      waiting.push(call);
      port2.postMessage(0);
    } else setTimeout(call, ms);
    return () => {
      isOff = true;
    };
  },
});
scope.onmessage = ({ data }) => desk.receive(data);
