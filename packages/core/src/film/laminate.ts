import { model } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";

/**
 * Cover film as a laminate of a stretched outer layer and a sealing layer: bending and stretching per metre of width.
 *
 *     Eh  = E_1 h_1 + E_2 h_2                                      N/m   60e3 .. 240e3
 *     z_n = (E_1 h_1 h_1/2 + E_2 h_2 (h_1 + h_2/2)) / Eh           m     neutral line from the outer face
 *     D   = sum E_i (h_i^3/12 + h_i (z_i - z_n)^2) / (1 - nu^2)    N m
 *     c   = max(z_n, h_1 - z_n)                                    m     neutral line to the far face of layer 1
 *
 * E_1 modulus of the stretched layer, Pa     1e9 .. 6e9       h_1 its thickness, m    8e-6 .. 60e-6
 * E_2 modulus of the sealing layer, Pa       0 .. 1e9         h_2 its thickness, m    0 .. 80e-6
 * nu  Poisson's ratio                        0.3 .. 0.45
 *
 * Classical composite beam, plane strain across the width. A solid film of the same thickness is 3 times stiffer in stretch and 8
 * times in bending, so modulus times total thickness must not be used. Elastic only.
 */
const origin = { cite: "classical composite beam, plane strain", how: "derived" } as const;
const valid = { E_1: [1e9, 6e9], h_1: [8e-6, 60e-6], h_2: [0, 80e-6] } as const;

export const filmEh = model({
  id: "film.Eh",
  symbol: "Eh",
  unit: "N/m",
  title: "stretching stiffness of the film per width",
  equation: "E_1*h_1 + E_2*h_2",
  form: "closed",
  origin,
  valid,
  reads: ({ tape: { film } }) => ({ E_1: film.E1, h_1: film.h1, E_2: film.E2, h_2: film.h2 }),
  value: ({ E_1, h_1, E_2, h_2 }) => E_1 * h_1 + E_2 * h_2,
});

export const filmNeutral = model({
  id: "film.neutral",
  symbol: "z_n",
  unit: "m",
  title: "neutral line of the film from its outer face",
  equation: "(E_1*h_1*h_1/2 + E_2*h_2*(h_1 + h_2/2))/Eh",
  form: "closed",
  origin,
  reads: ({ tape: { film } }) => ({ E_1: film.E1, h_1: film.h1, E_2: film.E2, h_2: film.h2, Eh: filmEh }),
  value: ({ E_1, h_1, E_2, h_2, Eh }) => ((E_1 * h_1 * h_1) / 2 + E_2 * h_2 * (h_1 + h_2 / 2)) / Eh,
});

export const filmD = model({
  id: "film.D",
  symbol: "D",
  unit: "N*m",
  title: "bending stiffness of the film per width",
  equation: "(E_1*(h_1^3/12 + h_1*(h_1/2 - z_n)^2) + E_2*(h_2^3/12 + h_2*(h_1 + h_2/2 - z_n)^2))/(1 - nu^2)",
  form: "closed",
  origin,
  valid: { ...valid, nu: [0.3, 0.45] },
  reads: ({ tape: { film } }) => ({
    E_1: film.E1,
    h_1: film.h1,
    E_2: film.E2,
    h_2: film.h2,
    z_n: filmNeutral,
    nu: film.nu,
  }),
  value: ({ E_1, h_1, E_2, h_2, z_n, nu }) =>
    (E_1 * (power(h_1, 3) / 12 + h_1 * (h_1 / 2 - z_n) ** 2) +
      E_2 * (power(h_2, 3) / 12 + h_2 * (h_1 + h_2 / 2 - z_n) ** 2)) /
    (1 - nu ** 2),
});

export const filmOuter = model({
  id: "film.c",
  symbol: "c",
  unit: "m",
  title: "neutral line to the far face of the stretched layer",
  equation: "max(z_n, h_1 - z_n)",
  form: "closed",
  origin,
  reads: ({ tape: { film } }) => ({ z_n: filmNeutral, h_1: film.h1 }),
  value: ({ z_n, h_1 }) => Math.max(z_n, h_1 - z_n),
});
