import type { Engine } from "../engine/engine.ts";

/** What a window offers to do something in its next frame. */
export interface Frames {
  request(f: () => void): number;
  cancel(frame: number): void;
}
const windowFrames: Frames = {
  request: (f) => requestAnimationFrame(f),
  cancel: (frame) => cancelAnimationFrame(frame),
};

/**
 * Hears of an engine's states once a frame while a hand moves something, and at once otherwise: in one step of a drag the text, the drawing
 * and the quick numbers come one after the other, and are drawn together.
 */
export const byFrame =
  (engine: Engine, frames: Frames = windowFrames) =>
  (changed: () => void): (() => void) => {
    let frame: number | undefined;
    const drop = (): void => {
      if (frame !== undefined) frames.cancel(frame);
      frame = undefined;
    };
    const end = engine.subscribe(() => {
      if (engine.state().gesture === undefined) {
        drop();
        changed();
        return;
      }
      frame ??= frames.request(() => {
        frame = undefined;
        changed();
      });
    });
    return () => {
      drop();
      end();
    };
  };
