import { gravity } from "../entry/weight.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";
import { noOpenPart, openIndexes } from "./open.ts";

/**
 * Does a charged film lift the part out as it peels?
 *
 *     s_c = sqrt(2 e_0 m g/(l_p w_p))                charge by area whose field carries the part's weight, A s/m2
 *
 * m mass of the part, kg; l_p, w_p its length and width, m; e_0 of free space. The film's charge must be below it.
 *
 * Field pressure s^2/(2 e_0) of a charged sheet on the part's face against the weight; air breaks down near 26.5 uC/m2 on a plane (memory), so
 * only light chips can be lifted: 15 uC/m2 for one of 0.6 x 0.3 mm, 29 for one of 2.0 x 1.25 mm. Parts of 1.0 x 0.5 mm and smaller are
 * reported to follow the film (read). Without a measured charge there is no verdict, only a list: ionised air at the peel line, a first peel that is
 * slow, dry air and storage avoided, a look at the film behind the peel line. Adhesion below about a millimetre comes on top and is not in it.
 */
const freeSpace = tabled("catalogue/free space", "e_0", "8.8541878e-12 A*s/V/m", unitOf("A*s/V/m").dimension, {
  cite: "electric constant, CODATA",
  how: "memory",
});
export const liftingCharge = model({
  id: "part.lifting-charge",
  symbol: "s_c",
  unit: "A*s/m^2",
  shownIn: "mA*ms/m^2",
  title: "charge of the film by area that carries a part's weight",
  equation: "sqrt(2*e_0*m*g/(l_p*w_p))",
  form: "closed",
  origin: { cite: "pressure of a field on a charged sheet", how: "derived" },
  reads: ({ tape }) =>
    tape.partMass &&
    tape.partLength &&
    tape.partWidth && { e_0: freeSpace, m: tape.partMass, g: gravity, l_p: tape.partLength, w_p: tape.partWidth },
  value: ({ e_0, m, g, l_p, w_p }) => Math.sqrt((2 * e_0 * m * g) / (l_p * w_p)),
});
/** The measured charge, as a model so that a check can hold it. */
const filmCharge = model({
  id: "part.film-charge",
  symbol: "s_f",
  unit: "A*s/m^2",
  shownIn: "mA*ms/m^2",
  title: "charge of the peeled film by area",
  equation: "s",
  form: "closed",
  origin: { cite: "measured on the film", how: "derived" },
  reads: ({ tape }) => tape.film.charge && { s: tape.film.charge },
  value: ({ s }) => s,
});
export const checkClings: Check = {
  id: "part.clings",
  station: 5,
  severity: "N",
  status: "judgement",
  title: "no part follows the charged film",
  value: filmCharge,
  atMost: liftingCharge,
  absent: (scene) =>
    scene.tape.film.charge
      ? noOpenPart(scene, "partMass", "partLength", "partWidth")
      : "the film's charge is not measured: ionised air at the peel line and a slow first peel help small parts that follow their film",
  because: (say) =>
    `The peeled film carries ${say(filmCharge)}; ${say(liftingCharge)} would lift the part's weight (mA*ms/m^2 is the same as uC/m2).`,
  beside: () => [openIndexes],
};
