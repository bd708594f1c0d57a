import { Desk } from "./desk.ts";
import type { DeskPort } from "./desk-port.ts";
import type { DeskClock } from "./pair-desk.ts";
import type { FromDesk } from "./protocol.ts";

/** A desk on this thread, between whose slices others have their turn: for tests, and where there are no workers. */
export function localDesk(clock: DeskClock = plainClock): DeskPort {
  let hear: (message: FromDesk) => void = () => {};
  let isOver = false;
  const tell = (message: FromDesk): void => {
    // As between threads: nothing that is sent is shared.
    const copy = structuredClone(message);
    clock.later(() => isOver || hear(copy));
  };
  const desk = new Desk(tell, {
    now: () => clock.now(),
    later: (f, ms) => clock.later(() => isOver || f(), ms),
  });
  return {
    post: (message) => {
      const copy = structuredClone(message);
      clock.later(() => isOver || desk.receive(copy));
    },
    hear: (heard) => {
      hear = heard;
    },
    close: () => {
      isOver = true;
    },
  };
}
const plainClock: DeskClock = {
  now: () => performance.now(),
  later(f, ms = 0) {
    const timer = setTimeout(f, ms);
    return () => clearTimeout(timer);
  },
};
