import { roomOver } from "../channel/lips.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { isLetterOfCatalogue, middleOf } from "./middle.ts";

/**
 * Height of the part's top against where it is drawn.
 *
 *     z_K = -(K_0 - K_m)               a deeper pocket, on this reel, m
 *     z_T = -(T - T_m)                 a thicker carrier, where the frame fixes the cover side, m
 *     a_l = max(0, s_l)/2              how far the tape may ride up under its lips, about half of that, m
 *
 * K_0 pocket, T carrier, index m the middle of their limits; s_l room under the lips (channel/lips.ts). a_l is an upper value: a hold-down near the
 * pick takes most of it. The part's own tolerance, and the floor that gives under the tool (part/floor.ts), are not in it.
 */
const origin = { cite: "geometry of the section", how: "derived" } as const;
const ofReel = (scene: Scene, q: Quantity) => {
  const X_m = middleOf(q);
  return X_m && scene.unit.sprocket ? { X: q, X_m } : undefined;
};
export const deeperPocket: Model = model({
  id: "pick.deeper-pocket",
  symbol: "z_K",
  unit: "m",
  title: "how far a deeper pocket lowers the part, on this reel",
  equation: "-(X - X_m)",
  form: "closed",
  origin,
  reads: (scene) => ofReel(scene, scene.tape.letters.K0),
  value: ({ X, X_m }) => -(X - X_m),
});
export const thickerCarrier: Model = model({
  id: "pick.thicker-carrier",
  symbol: "z_T",
  unit: "m",
  title: "how far a thicker carrier lowers the part, on this reel",
  equation: "-(X - X_m)",
  form: "closed",
  origin,
  reads: (scene) =>
    scene.unit.tape["rests on"] === "cover side" && !isLetterOfCatalogue(scene.tape.letters.T)
      ? ofReel(scene, scene.tape.letters.T)
      : undefined,
  value: ({ X, X_m }) => -(X - X_m),
});
export const rideUp: Model = model({
  id: "pick.ride-up",
  symbol: "a_l",
  unit: "m",
  title: "how far the tape may ride up or down under its lips, either way",
  equation: "max(0, s_l)/2",
  form: "closed",
  origin,
  reads: () => ({ s_l: roomOver }),
  value: ({ s_l }) => Math.max(0, s_l) / 2,
});
