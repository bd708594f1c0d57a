import { Desk } from "./desk.ts";
import type { BeginDesk } from "./desk-port.ts";
import type { DeskClock } from "./pair-desk.ts";
import type { FromDesk, FromSide, ToDesk, ToSide } from "./protocol.ts";
import { SideDesk } from "./side-desk.ts";

const scope = self as unknown as {
  postMessage(message: FromDesk): void;
  onmessage: ((event: MessageEvent<BeginDesk | ToDesk>) => void) | null;
};
// A message to oneself comes after those that wait already, and sooner than any timer.
const { port1, port2 } = new MessageChannel();
const waiting: (() => void)[] = [];
port1.onmessage = () => waiting.shift()?.();
const clock: DeskClock = {
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
};

let desk: Desk | undefined;
scope.onmessage = ({ data }) => {
  if (data.kind === "side") {
    const { main } = data;
    const side = new SideDesk((message) => main.postMessage(message), clock);
    main.onmessage = ({ data: told }: MessageEvent<ToSide>) => side.receive(told);
  } else if (data.kind === "main") {
    const sides = data.sides.map((port) => ({
      post: (message: ToSide) => port.postMessage(message),
      hear(heard: (message: FromSide) => void) {
        port.onmessage = ({ data: told }: MessageEvent<FromSide>) => heard(told);
      },
    }));
    desk = new Desk((message) => scope.postMessage(message), clock, sides);
  } else desk!.receive(data);
};
