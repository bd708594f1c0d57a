import { bridgeOf } from "../drive/current.ts";
import {
  constantOf,
  type DriveName,
  driveOf,
  frictionTorqueOf,
  inductanceOf,
  inertiaOf,
  motors,
  noMotor,
  resistanceOf,
} from "../drive/motor.ts";
import { pulls } from "../drive/pull.ts";
import { reelDrag } from "../entry/pull.ts";
import { gravity, tapeWeight } from "../entry/weight.ts";
import { frictionOnBars } from "../film/friction.ts";
import { filmEh } from "../film/laminate.ts";
import { path } from "../film/path.ts";
import { peelForce } from "../film/peel-force.ts";
import { noFilmPull, tapeHold } from "../film/seat.ts";
import { grip } from "../nip/grip.ts";
import { type Model, model } from "../quantity/model.ts";
import { outerTurn, reelInertia } from "../reel/jerks.ts";
import { arcsOf } from "../route/pose.ts";
import type { Scene } from "../scene.ts";
import { interval, noTeeth, wheel } from "../sprocket/wheel.ts";
import { farVolts } from "../supply/volts.ts";
import type { Commands, DriveDesign, FilmDesign, IndexDesign } from "./design.ts";
import { constantPlay, type ToothPlay } from "./tooth-play.ts";

/**
 * A unit on a tape as numbers for the index simulation, in two states of its supply: as the rail gives it with the motors cold, and at the
 * least volts (supply/volts.ts: all that start together, at the far end of the rail) with the motors hot.
 *
 *     R = R_m + R_b;  hot R_m (1 + a (T_h - 20 degC)), k (1 - b (T_h - 20 degC))
 *     eta_b = eta_w,b e/e_w where a worm runs back, eta_w,b where it locks; e of gears without a worm, either way
 *     shaft friction = 2 mu_b r_b F,  F = F_t + F_d at the wheel, N at the nip
 *     m = w l/g from the reel's side of the route to the wheel;  J_r = m_eq R_o²
 *     P(v) = P_ref (v/v_ref)^n at the route's own angle;  bars exp(mu w);  film stiffness Eh b/L
 *
 * All symbols are those of the models that are read. What no file gives stands in assume: stiffness of gearing and hole, inertia of wheel and
 * roller, friction before sliding. Constants of judgement, common practice without a source: gears damped at 0.15, tooth and hole at 0.1, web at 0.3 of
 * critical; friction falls to sliding over 5 mm/s, 0.5 N s/m besides; 1 N/um before it slides; peel law linear below 1 mm/s. The reel's tape
 * is taken as taut from the beginning (slow side); a film whose nip has no known motor is left out, and with it its help and its drag.
 */
const damping = { gears: 0.15, hole: 0.1, web: 0.3 } as const;
const viscous = 0.5;
const fallSpeed = 5e-3;
const preSliding = 1e6;
const slowPeel = 1e-3;
/** Samples of the tooth play over one tooth pitch. */
const samples = 64;

export type SupplyState = "cold" | "hot";

/** Why an index cannot be simulated; undefined where it can. */
export function noIndex(scene: Scene): string | undefined {
  if (!scene.unit.sprocket) return "the unit has no sprocket";
  const motor = noMotor(scene, "feed");
  if (motor) return motor;
  if (!scene.requirement.supply) return "project.yaml gives no supply";
  return noTeeth(scene);
}
/** Why the film is left out of the index; undefined where it runs with it. */
export const noFilmInIndex = (scene: Scene): string | undefined =>
  noFilmPull(scene) ?? (scene.unit.nip?.rollers ? noMotor(scene, "peel") : "the nip's rollers are not given");

export const driveReads = (scene: Scene, name: DriveName, state: SupplyState) => {
  const d = driveOf(scene, name)!;
  const { assume } = scene.requirement;
  const hot = state === "hot";
  return {
    V: hot ? farVolts : scene.requirement.supply!.volts,
    R: hot ? pulls[name].hotResistance : resistanceOf(scene, name)!,
    R_b: bridgeOf(scene),
    L: inductanceOf(scene, name),
    k: hot ? pulls[name].hotConstant : constantOf(scene, name)!,
    J: inertiaOf(scene, name),
    T_0: frictionTorqueOf(scene, name)!,
    N: motors[name].ratio,
    e: motors[name].efficiency,
    worm: d.worm ? { e_w: motors[name].wormForward, e_b: motors[name].wormBackward } : false,
    K_g: assume["gear stiffness"],
    J_w: assume["shaft inertia"],
    j_d: d.backlash ?? assume["drive backlash"],
    r_b: d.bush?.radius ?? assume["bush radius"],
    mu_b: d.bush?.friction ?? assume["bush friction"],
  } as const;
};
interface DriveNumbers {
  readonly V: number;
  readonly R: number;
  readonly R_b: number;
  readonly L: number;
  readonly k: number;
  readonly J: number;
  readonly T_0: number;
  readonly N: number;
  readonly e: number;
  readonly worm: false | { readonly e_w: number; readonly e_b: number };
  readonly K_g: number;
  readonly J_w: number;
  readonly j_d: number;
  readonly r_b: number;
  readonly mu_b: number;
}
/** `radius` at which backlash is stated, `load` on the bushes. */
function driveDesign(x: DriveNumbers, radius: number, load: number): DriveDesign {
  const backward = x.worm ? (x.worm.e_b > 0 ? (x.worm.e_b * x.e) / x.worm.e_w : x.worm.e_b) : x.e;
  return {
    volts: x.V,
    R: x.R + x.R_b,
    L: x.L,
    k: x.k,
    J: x.J,
    T0: x.T_0,
    ratio: x.N,
    forward: x.e,
    backward,
    backlash: x.j_d / radius,
    stiffness: x.K_g,
    damping: damping.gears,
    shaftInertia: x.J_w,
    shaftFriction: 2 * x.mu_b * x.r_b * load,
  };
}

const filmReads = (scene: Scene, state: SupplyState) =>
  noFilmInIndex(scene)
    ? false
    : ({
        drive: driveReads(scene, "peel", state),
        path,
        Eh: filmEh,
        b: scene.tape.film.width,
        mu: frictionOnBars(scene),
        P_ref: scene.tape.film.seal,
        theta_ref: scene.tape.film.testAngle,
        v_ref: scene.tape.film.testSpeed,
        n: scene.tape.film.rate,
        a: scene.tape.film.ageing,
        S: grip(scene),
        N_r: scene.unit.nip!.preload!,
        r_1: scene.unit.nip!.rollers!.radius[0]!,
      } as const);

const designReads = (scene: Scene, state: SupplyState) => {
  if (noIndex(scene)) return undefined;
  const { unit, tape, requirement } = scene;
  const { assume } = requirement;
  const { route, place } = unit.tape;
  const upstream = route.slice(
    0,
    Math.max(
      0,
      route.findIndex((p) => p.mark === place.mark),
    ),
  );
  const index = unit.index;
  return {
    drive: driveReads(scene, "feed", state),
    film: filmReads(scene, state),
    X: interval,
    teeth: wheel,
    k_h: assume["hole stiffness"],
    w_t: tapeWeight,
    g: gravity,
    lines: upstream.flatMap((p) => p.line ?? []),
    arcs: arcsOf(upstream),
    s_w: unit.sprocket!.at,
    s_0: place.x,
    F_t: assume["tape friction"],
    q_s: assume["stick rise"],
    F_h: tapeHold,
    F_d: reelDrag(scene),
    m_eq: reelInertia,
    R_o: outerTurn,
    k_l: assume["loop stiffness"],
    P_1: tape.letters.P1,
    stop: index?.stop ?? "open loop",
    slow: index?.stop === "two speeds" || index?.stop === "count at the wheel",
    slowShare: index?.["slow share"] ?? usualSlow.share,
    slowOver: index?.["slow over"] ?? usualSlow.over,
    peelLead: index?.["peel lead"] ?? false,
    hold: index?.hold ?? false,
  } as const;
};
/** What a slow approach is where the unit file does not say: common practice, no source. Shorter than speed times J R/k² it hardly slows. */
export const usualSlow = { share: 0.4, over: 2e-3 } as const;
/** Where no file says: the peel motor goes first and holds on a little. Common practice, no source. */
export const usualPeelLead = 10e-3;
const usualHold = 20e-3;

/** Tooth play as samples; where teeth jam (tooth.enters says so) the play is nothing. */
function playOf(table: { readonly lo: Float64Array; readonly hi: Float64Array }, pitch: number): ToothPlay {
  const { lo, hi } = table;
  if (!lo.every(Number.isFinite) || !hi.every(Number.isFinite)) return constantPlay(0.1e-3);
  return { pitch, lo, hi: hi.map((v, i) => Math.max(v, lo[i]!)) };
}

const made = (state: SupplyState): Model<IndexDesign> =>
  model({
    id: `cycle.design-${state}`,
    symbol: `d_${state}`,
    unit: "",
    title: state === "cold" ? "the unit as numbers, motors cold" : "the unit as numbers, least volts, motors hot",
    equation: "numbers of unit, tape and supply",
    form: "solved",
    origin: { cite: "unit file, tape and what is assumed", how: "derived" },
    reads: (scene) => designReads(scene, state),
    value: (x): IndexDesign => {
      const radius = (x.teeth.teeth * x.teeth.pitch) / (2 * Math.PI);
      const length =
        x.lines.reduce((sum, line) => sum + line, 0) +
        x.arcs.reduce((sum, a) => sum + a.radius * Math.abs(a.turn), 0) +
        x.s_w -
        x.s_0;
      const film: FilmDesign | undefined = x.film
        ? {
            stiffness: (x.film.Eh * x.film.b) / x.film.path.length,
            angle: Math.min(Math.PI, x.film.path.peelAngle),
            bars: Math.exp(x.film.mu * x.film.path.rubbed),
            peelForce: peelForce({ ...x.film, theta: x.film.path.peelAngle, v: x.film.v_ref }),
            speed: x.film.v_ref,
            exponent: Math.max(0.01, x.film.n),
            slow: slowPeel,
            traction: x.film.S,
            roller: x.film.r_1,
          }
        : undefined;
      const peelLead = x.peelLead === false ? usualPeelLead : x.peelLead;
      const commands: Commands = {
        peelStart: 0,
        feedStart: film ? peelLead : 0,
        peelHold: x.hold === false ? usualHold : x.hold,
        travel: x.P_1,
        lead: 0,
        counts: x.stop === "count at the wheel" ? "wheel" : "rotor",
        ...(x.slow ? { slow: { share: x.slowShare, over: x.slowOver } } : {}),
        ramp: Number.POSITIVE_INFINITY,
        end: 1,
      };
      return {
        feed: driveDesign(x.drive, radius, x.F_h),
        ...(x.film ? { peel: driveDesign(x.film.drive, x.film.r_1, x.film.N_r) } : {}),
        wheel: {
          radius,
          play: playOf(x.X.table(samples), x.X.step),
          stiffness: x.k_h,
          damping: damping.hole,
        },
        tape: {
          mass: (x.w_t * Math.max(length, 10e-3)) / x.g,
          sliding: x.F_t,
          sticking: x.F_t * x.q_s,
          fallSpeed,
          viscous,
          preSliding,
        },
        reel: {
          inertia: x.m_eq * x.R_o ** 2,
          radius: x.R_o,
          friction: x.F_d * x.R_o,
          stiffness: x.k_l,
          damping: damping.web,
          slack: 0,
        },
        ...(film ? { film } : {}),
        commands,
      };
    },
  });
export const coldDesign = made("cold");
export const hotDesign = made("hot");
