import { sidePlay } from "../channel/play.ts";
import { noLength } from "../quantity/bound.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";

/**
 * What a tooth meets of a round hole, and how far off the hole line it stands.
 *
 *     D_e = 2 (r_c + sqrt((D_0/2 - r_c)^2 - (y_r + t_c/2 - r_c)^2))     opening along the tape, m
 *     y_r = max(0, |E_1 - y_t| - j/2)                                   offset that is left deep in the hole, m
 *     y_s = 2 (sqrt((D_0/2 - r)^2 - (w - r)^2) - t_c/2 + r)             side play of the tape on a tooth that is in its hole, m
 *     y_w = min(|E_1 - y_t| + j/2, max(y_s/2, |E_1 - y_t| - j/2, 0))    offset at which the next tip may come in, m
 *
 * D_0 hole, 1.0 .. 1.6 mm; t_c tooth across the tape, 0.1 .. 1.4 mm; r_c corner radius of its section seen from above, at most t_c/2 (a
 * round-ended tooth); E_1 hole line to the tape's edge; y_t middle of the tooth from where that edge stands when the tape runs in the middle
 * of its channel; j side play in the channel (0 where the tape binds); w half of the tooth along the tape at its pitch line, r = min(r_c, w,
 * t_c/2).
 *
 * A rounded rectangle in a circle: its corner touches first. The tooth tapers, so it pushes the tape sideways as it comes in, as far as the
 * channel lets it: play in the channel lets the tape centre itself and is no offset deep in the hole. At the next tip the tape stands as
 * far off as the channel lets it, but no farther than the tooth that is in its hole does: this holds while a tooth is in (`tooth.engaged`), not
 * when a tape is threaded, where a hand must find the first hole. A hole that is no longer round is left out.
 */
export function effectiveOpening(D: number, b: number, offset: number, corner: number): number {
  if (!(D > 0)) throw new RangeError(`a hole of ${mm(D)} is none`);
  if (!(b > 0)) throw new RangeError(`a tooth ${mm(b)} thick across the tape is none`);
  if (b >= D) throw new RangeError(`the tooth is wider than the hole: ${mm(b)} across the tape in a hole of ${mm(D)}`);
  const rc = Math.min(corner, b / 2);
  const R = D / 2 - rc;
  const s = Math.max(0, Math.abs(offset) + b / 2 - rc);
  // So far off that the tooth stands beside the hole: no opening, by as much as it stands over.
  return s < R ? 2 * (rc + Math.sqrt(R * R - s * s)) : -2 * (s - R);
}
const mm = (x: number): string => `${+(x * 1e3).toFixed(3)} mm`;

/** Where the middle of the teeth stands across the tape. */
export const toothMiddle = ({ unit }: Scene): Quantity | undefined => unit.sprocket?.y ?? unit.letters.E1;
/** The corner radius of a tooth's section as its file gives it; a round-ended tooth has half its thickness. */
export const cornerOf = ({ unit }: Scene): Quantity | undefined => {
  const tooth = unit.sprocket?.tooth;
  // The models take no more than half the thickness, so the thickness itself says "round-ended".
  return tooth && (tooth.front === "round" ? tooth.across : (tooth.corner ?? noLength));
};

const origin = { cite: "rounded rectangle in a circle, geometry", how: "derived" } as const;
export const offsetDeep = model({
  id: "sprocket.offset-deep",
  symbol: "y_r",
  unit: "m",
  title: "offset of a tooth from the hole line that the channel's play does not take up",
  equation: "max(0, abs(E_1 - y_t) - max(0, j)/2)",
  form: "closed",
  origin,
  reads: (scene) => {
    const y_t = toothMiddle(scene);
    return scene.unit.sprocket && y_t && { E_1: scene.tape.letters.E1, y_t, j: sidePlay };
  },
  value: ({ E_1, y_t, j }) => Math.max(0, Math.abs(E_1 - y_t) - Math.max(0, j) / 2),
});
export const sidePlayOnTooth = model({
  id: "sprocket.side-play",
  symbol: "y_s",
  unit: "m",
  title: "side play of the tape on a tooth in its hole",
  equation:
    "2*(sqrt(max(0, (D_0/2 - min(r_c, t_a/2, t_c/2))^2 - (t_a/2 - min(r_c, t_a/2, t_c/2))^2)) - t_c/2 + min(r_c, t_a/2, t_c/2))",
  form: "closed",
  origin,
  reads: (scene) => {
    const r_c = cornerOf(scene);
    const { sprocket } = scene.unit;
    return (
      sprocket && r_c && { D_0: scene.tape.letters.D0, t_a: sprocket.tooth.along, t_c: sprocket.tooth.across, r_c }
    );
  },
  value: ({ D_0, t_a, t_c, r_c }) => {
    const r = Math.min(r_c, t_a / 2, t_c / 2);
    return 2 * (Math.sqrt(Math.max(0, (D_0 / 2 - r) ** 2 - (t_a / 2 - r) ** 2)) - t_c / 2 + r);
  },
});
export const offsetAtTip = model({
  id: "sprocket.offset-at-tip",
  symbol: "y_w",
  unit: "m",
  title: "greatest offset of the next tip from its hole as it comes in",
  equation: "min(abs(E_1 - y_t) + max(0, j)/2, max(y_s/2, abs(E_1 - y_t) - max(0, j)/2, 0))",
  form: "closed",
  origin,
  reads: (scene) => {
    const y_t = toothMiddle(scene);
    return scene.unit.sprocket && y_t && { E_1: scene.tape.letters.E1, y_t, j: sidePlay, y_s: sidePlayOnTooth };
  },
  value: ({ E_1, y_t, j, y_s }) => {
    const [off, half] = [Math.abs(E_1 - y_t), Math.max(0, j) / 2];
    return Math.min(off + half, Math.max(y_s / 2, off - half, 0));
  },
});
export const opening = model({
  id: "sprocket.opening",
  symbol: "D_e",
  unit: "m",
  title: "what a tooth meets of a hole along the tape",
  equation: "2*(r_c + sqrt((D_0/2 - r_c)^2 - (y_r + t_c/2 - r_c)^2))",
  form: "solved",
  origin,
  valid: { D_0: [0.5e-3, 2e-3] },
  reads: (scene) => {
    const r_c = cornerOf(scene);
    const { sprocket } = scene.unit;
    return (
      sprocket &&
      r_c &&
      toothMiddle(scene) && { D_0: scene.tape.letters.D0, t_c: sprocket.tooth.across, y_r: offsetDeep, r_c }
    );
  },
  value: ({ D_0, t_c, y_r, r_c }) => effectiveOpening(D_0, t_c, y_r, r_c),
});
