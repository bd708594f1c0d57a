import { power } from "../quantity/power.ts";
import type { DriveDesign, IndexDesign } from "./design.ts";
import { periodic } from "./tooth-play.ts";

/**
 * One step of one index, implicit in the velocities, with set-valued laws.
 *
 *     m (v+ - v) = h f(q + h v+, v+)                        six bodies; q positions, v velocities, h step
 *     i+ = (i + h/L (V - k w+))/(1 + h R/L)                 currents, eliminated
 *     M = K p + D (p+ - p)/h >= 0,  p = max(0, gap)         contact of mesh, tooth and web: damped on the rate of penetration
 *     f = clamp(k_b (z + h v+) + c_1 v+, -F .. F)           friction: elastic before it slides, then exactly F
 *     -(T_0 + c_b |M|/N) <= T_f <= T_0 + c_f |M|/N          friction of rotor and gearing, M > 0; mirrored for M < 0
 *
 * Film, y = x - l how far the tape has run past the peel line's place at the edge, c = cos(angle), B = exp(mu w) over bars, T at the nip:
 *
 *     y <= 0    T = k_f (x_f - x)                                     film lies on the edge; the tape feels + T/B
 *     y > 0     T/k_f + (1 - c) h P^-1(T/B) = x_f - c x - (1 - c) l   free peel; the tape feels c T/B
 *     l+ = x+   T = k_f (x_f - x)                                     peel line held at the edge; the tape feels T/B - (1 - c) P(l')
 *     T <= S    else the nip slips and T = S
 *
 * The sign of the film's force on a standing tape (+ T: forward) is a judgement: it is energy-consistent, and not yet measured.
 *
 * Limits that hang on load or speed (gearing, falling friction) are those of the step's beginning: first order, which the error test of
 * `run.ts` sees and its extrapolation removes. Newton on the velocities with a line search by regula falsi; the Jacobian is a tree, so
 * elimination fills nothing in. What is not smooth (play, stick, slip, peel) enters by the branch it is on.
 */
export const V = { rotor: 0, wheel: 1, tape: 2, reel: 3, peelRotor: 4, roller: 5 } as const;
/** Places in the state: velocities 0..5, positions 6..11, then these. */
export const at = {
  rotor: 6,
  wheel: 7,
  tape: 8,
  reel: 9,
  peelRotor: 10,
  roller: 11,
  current: 12,
  peelCurrent: 13,
  drawn: 14,
  peeled: 15,
  zTape: 16,
  zWheel: 17,
  zReel: 18,
  zRoller: 19,
  zRotor: 20,
  zPeelRotor: 21,
  tension: 22,
  hole: 23,
  mesh: 24,
  peelMesh: 25,
  filmForce: 26,
  web: 27,
  slips: 28,
} as const;
export const stateSize = 29;
/** Velocities, positions, currents and film: what is extrapolated. */
export const smoothPart = 16;

/** Twist of a rotor's friction before it slides: N m/rad. */
const rotorPreSliding = 1;
const most = 60;

export interface Stepper {
  /** Writes the state after h into `out`; `guess` holds velocities to begin from. False where Newton missed: `out` is its last iterate. */
  step(s: Float64Array, h: number, VA: number, VB: number, out: Float64Array, guess: Float64Array): boolean;
  readonly count: { newton: number; missed: number };
}

const standing: DriveDesign = {
  volts: 0,
  R: 1,
  L: 1e-3,
  k: 1e-3,
  J: 1e-8,
  T0: 1,
  ratio: 1,
  forward: 1,
  backward: 1,
  backlash: 0,
  stiffness: 0,
  damping: 0,
  shaftInertia: 1e-7,
  shaftFriction: 1,
};

export function stepperOf(d: IndexDesign): Stepper {
  const A = d.feed;
  const B = d.peel ?? standing;
  const { tape, reel, wheel } = d;
  const film = d.peel ? d.film : undefined;
  const m0 = A.J;
  const m1 = A.shaftInertia;
  const m2 = tape.mass;
  const m3 = reel.inertia;
  const m4 = B.J;
  const m5 = B.shaftInertia;
  const NA = A.ratio;
  const NB = B.ratio;
  const hbA = A.backlash / 2;
  const hbB = B.backlash / 2;
  const KA = A.stiffness;
  const KB = B.stiffness;
  const DA = 2 * A.damping * Math.sqrt(A.stiffness * A.shaftInertia);
  const DB = 2 * B.damping * Math.sqrt(B.stiffness * B.shaftInertia);
  const cfA = 1 / A.forward - 1;
  const cbA = 1 - A.backward;
  const cfB = 1 / B.forward - 1;
  const cbB = 1 - B.backward;
  const kA = A.k;
  const kB = B.k;
  const rp = wheel.radius;
  const { lo: loS, hi: hiS, pitch } = wheel.play;
  const kh = wheel.stiffness;
  const dh = 2 * wheel.damping * Math.sqrt(kh * m2);
  const kw = reel.stiffness;
  const dw = 2 * reel.damping * Math.sqrt(kw * m2);
  const Rr = reel.radius;
  const kb = tape.preSliding;
  const c1 = 1.4 * Math.sqrt(kb * m2);
  const kzw = kb * rp * rp;
  const kzr = kb * Rr * Rr;
  const rn = film?.roller ?? 1;
  const kzn = kb * rn * rn;
  const kf = film?.stiffness ?? 0;
  const S = film?.traction ?? 0;
  const c = film ? Math.cos(film.angle) : 1;
  const bars = film?.bars ?? 1;
  const P1 = film?.peelForce ?? 1;
  const v1 = film?.speed ?? 1;
  const n = film?.exponent ?? 1;
  const v0 = film?.slow ?? 1;
  const P0 = P1 * power(v0 / v1, n);
  const Tr = reel.friction;
  const ToA = A.shaftFriction;
  const ToB = B.shaftFriction;
  const slopes = new Float64Array(1);
  const count = { newton: 0, missed: 0 };

  function step(s: Float64Array, h: number, VA: number, VB: number, out: Float64Array, guess: Float64Array): boolean {
    const s0 = s[0]!;
    const s1 = s[1]!;
    const s2 = s[2]!;
    const s3 = s[3]!;
    const s4 = s[4]!;
    const s5 = s[5]!;
    let w0 = guess[0]!;
    let w1 = guess[1]!;
    let w2 = guess[2]!;
    let w3 = guess[3]!;
    let w4 = guess[4]!;
    let w5 = guess[5]!;
    // Limits of the step's beginning.
    const q = s2 / tape.fallSpeed;
    const Fr = tape.sliding + (tape.sticking - tape.sliding) * Math.exp(-q * q);
    const Ml = s[24]!;
    const MlB = s[25]!;
    const upA = A.T0 + (Math.abs(Ml) / NA) * (Ml > 0 ? cfA : cbA);
    const downA = A.T0 + (Math.abs(Ml) / NA) * (Ml > 0 ? cbA : cfA);
    const upB = B.T0 + (Math.abs(MlB) / NB) * (MlB > 0 ? cfB : cbB);
    const downB = B.T0 + (Math.abs(MlB) / NB) * (MlB > 0 ? cbB : cfB);
    const aA = h / A.L;
    const aB = h / B.L;
    const eA = 1 / (1 + aA * A.R);
    const eB = 1 / (1 + aB * B.R);
    const iA0 = (s[12]! + aA * VA) * eA;
    const iB0 = (s[13]! + aB * VB) * eB;
    const giA = kA * aA * eA;
    const giB = kB * aB * eB;
    const gA0 = s[6]! / NA - s[7]!;
    const gB0 = s[10]! / NB - s[11]!;
    const pA0 = gA0 > hbA ? gA0 - hbA : gA0 < -hbA ? gA0 + hbA : 0;
    const pB0 = gB0 > hbB ? gB0 - hbB : gB0 < -hbB ? gB0 + hbB : 0;
    const phi0 = s[7]!;
    const x0 = s[8]!;
    const behind0 = Math.max(0, rp * phi0 + periodic(loS, pitch, phi0, slopes) - x0);
    const ahead0 = Math.max(0, x0 - rp * phi0 - periodic(hiS, pitch, phi0, slopes));
    const e0 = x0 - Rr * s[9]! - reel.slack;
    const pw0 = Math.max(0, e0);
    const l0 = s[15]!;

    let iA = 0;
    let iB = 0;
    let M = 0;
    let MB = 0;
    let Fh = 0;
    let Tw = 0;
    let T = 0;
    let Ft = 0;
    let xf = 0;
    let l = l0;
    let slips = 0;
    let zT = 0;
    let zW = 0;
    let zR = 0;
    let zN = 0;
    let zA = 0;
    let zB = 0;
    let d0 = 0;
    let d1 = 0;
    let d2 = 0;
    let d3 = 0;
    let d4 = 0;
    let d5 = 0;
    let u0 = w0;
    let u1 = w1;
    let u2 = w2;
    let u3 = w3;
    let u4 = w4;
    let u5 = w5;
    let before = 0;
    let share = 0;
    let searched = 0;
    let ok = false;
    for (let it = 0; it < most; it++) {
      let D0 = m0;
      let D1 = m1;
      let D2 = m2;
      let D3 = m3;
      let D4 = m4;
      let D5 = m5;
      let o01 = 0;
      let o12 = 0;
      let o23 = 0;
      let o45 = 0;
      let o25 = 0;
      let o52 = 0;
      let b0 = m0 * (s0 - w0);
      let b1 = m1 * (s1 - w1);
      let b2 = m2 * (s2 - w2);
      let b3 = m3 * (s3 - w3);
      let b4 = m4 * (s4 - w4);
      let b5 = m5 * (s5 - w5);
      // Motors.
      iA = iA0 - giA * w0;
      iB = iB0 - giB * w4;
      b0 += h * kA * iA;
      D0 += h * kA * giA;
      b4 += h * kB * iB;
      D4 += h * kB * giB;
      // Feed mesh.
      {
        const g = gA0 + h * (w0 / NA - w1);
        const p = g > hbA ? g - hbA : g < -hbA ? g + hbA : 0;
        M = 0;
        if (p !== 0) {
          const was = p > 0 ? Math.max(0, pA0) : Math.min(0, pA0);
          M = KA * p + (DA * (p - was)) / h;
          if (M * p < 0) M = 0;
          else {
            const a = h * (KA * h + DA);
            b0 -= (h * M) / NA;
            b1 += h * M;
            D0 += a / (NA * NA);
            o01 -= a / NA;
            D1 += a;
          }
        }
        let f = rotorPreSliding * (s[20]! + h * w0);
        if (f > upA) f = upA;
        else if (f < -downA) f = -downA;
        else D0 += h * rotorPreSliding * h;
        b0 -= h * f;
        zA = f / rotorPreSliding;
      }
      // Peel mesh.
      {
        const g = gB0 + h * (w4 / NB - w5);
        const p = g > hbB ? g - hbB : g < -hbB ? g + hbB : 0;
        MB = 0;
        if (p !== 0) {
          const was = p > 0 ? Math.max(0, pB0) : Math.min(0, pB0);
          MB = KB * p + (DB * (p - was)) / h;
          if (MB * p < 0) MB = 0;
          else {
            const a = h * (KB * h + DB);
            b4 -= (h * MB) / NB;
            b5 += h * MB;
            D4 += a / (NB * NB);
            o45 -= a / NB;
            D5 += a;
          }
        }
        let f = rotorPreSliding * (s[21]! + h * w4);
        if (f > upB) f = upB;
        else if (f < -downB) f = -downB;
        else D4 += h * rotorPreSliding * h;
        b4 -= h * f;
        zB = f / rotorPreSliding;
      }
      const phi = phi0 + h * w1;
      const x = x0 + h * w2;
      // Tooth in its hole.
      {
        Fh = 0;
        let p = rp * phi + periodic(loS, pitch, phi, slopes) - x;
        let r = rp + slopes[0]!;
        if (p > 0) Fh = Math.max(0, kh * p + (dh * (p - behind0)) / h);
        else {
          p = x - rp * phi - periodic(hiS, pitch, phi, slopes);
          r = rp + slopes[0]!;
          if (p > 0) Fh = -Math.max(0, kh * p + (dh * (p - ahead0)) / h);
        }
        if (Fh !== 0) {
          const a = h * (kh * h + dh);
          b1 -= h * r * Fh;
          b2 += h * Fh;
          D1 += a * r * r;
          o12 -= a * r;
          D2 += a;
        }
      }
      // Web to the reel.
      {
        const e = e0 + h * (w2 - Rr * w3);
        Tw = 0;
        if (e > 0) {
          Tw = kw * e + (dw * (e - pw0)) / h;
          if (Tw <= 0) Tw = 0;
          else {
            const a = h * (kw * h + dw);
            b2 -= h * Tw;
            b3 += h * Rr * Tw;
            D2 += a;
            o23 -= a * Rr;
            D3 += a * Rr * Rr;
          }
        }
      }
      // Friction of tape, wheel, reel and roller.
      {
        let f = kb * (s[16]! + h * w2) + c1 * w2;
        if (f > Fr) {
          f = Fr;
          zT = f / kb;
        } else if (f < -Fr) {
          f = -Fr;
          zT = f / kb;
        } else {
          D2 += h * (kb * h + c1);
          zT = s[16]! + h * w2;
        }
        f += tape.viscous * w2;
        D2 += h * tape.viscous;
        b2 -= h * f;
        let g = kzw * (s[17]! + h * w1);
        if (g > ToA) g = ToA;
        else if (g < -ToA) g = -ToA;
        else D1 += h * kzw * h;
        zW = g / kzw;
        b1 -= h * g;
        g = kzr * (s[18]! + h * w3);
        if (g > Tr) g = Tr;
        else if (g < -Tr) g = -Tr;
        else D3 += h * kzr * h;
        zR = g / kzr;
        b3 -= h * g;
        g = kzn * (s[19]! + h * w5);
        if (g > ToB) g = ToB;
        else if (g < -ToB) g = -ToB;
        else D5 += h * kzn * h;
        zN = g / kzn;
        b5 -= h * g;
      }
      // Film: one monotone equation for its tension.
      T = 0;
      Ft = 0;
      slips = 0;
      if (kf > 0) {
        const xfT = s[14]! + h * rn * w5;
        const y0 = x - l0;
        xf = xfT;
        l = l0;
        let dTr = 0;
        let dTv = 0;
        let dFr = 0;
        let dFv = 0;
        if (y0 <= 0) {
          const u = xfT - x;
          if (u > 0) {
            T = kf * u;
            if (T > S) {
              T = S;
              xf = x + S / kf;
              slips = 1;
            } else {
              dTr = kf * h * rn;
              dTv = -kf * h;
            }
            Ft = T / bars;
            dFr = dTr / bars;
            dFv = dTv / bars;
          }
        } else {
          const u = xfT - c * x - (1 - c) * l0;
          if (u > 0) {
            // Bracketed Newton on T/kf + (1-c) h vP(T/bars) = u.
            let low = 0;
            let high = kf * u;
            T = s[22]! > 1e-9 ? Math.min(s[22]!, high) : 0.5 * high;
            let vp = 0;
            let dvp = 0;
            for (let k = 0; k < 60; k++) {
              const Tp = T / bars;
              if (Tp < P0) {
                vp = (v0 * Tp) / P0;
                dvp = v0 / P0 / bars;
              } else {
                vp = v1 * power(Tp / P1, 1 / n);
                dvp = vp / (n * T);
              }
              const F = T / kf + (1 - c) * h * vp - u;
              if (F > 0) high = T;
              else low = T;
              let next = T - F / (1 / kf + (1 - c) * h * dvp);
              if (!(next > low && next < high)) next = 0.5 * (low + high);
              const moved = Math.abs(next - T);
              T = next;
              if (moved < 1e-11 * (1 + T)) break;
            }
            if (T > S) {
              T = S;
              slips = 1;
            }
            const Tp = T / bars;
            if (Tp < P0) {
              vp = (v0 * Tp) / P0;
              dvp = v0 / P0 / bars;
            } else {
              vp = v1 * power(Tp / P1, 1 / n);
              dvp = vp / (n * T);
            }
            l = l0 + h * vp;
            if (l > x) {
              // The peel line reaches the edge within the step.
              l = x;
              T = kf * (xfT - x);
              slips = 0;
              if (T > S) {
                T = S;
                slips = 1;
              }
              if (T < 0) T = 0;
              const vl = y0 / h;
              const P = vl < v0 ? (P0 * vl) / v0 : P1 * power(vl / v1, n);
              const dP = vl < v0 ? P0 / v0 : (n * P) / vl;
              const felt = T / bars;
              if (slips === 0 && T > 0) {
                dTr = kf * h * rn;
                dTv = -kf * h;
              }
              dFr = dTr / bars;
              if (P < felt) {
                Ft = felt - (1 - c) * P;
                dFv = dTv / bars - (1 - c) * dP;
              } else {
                Ft = c * felt;
                dFr *= c;
                dFv = (c * dTv) / bars;
              }
            } else {
              Ft = (c * T) / bars;
              if (slips === 0) {
                const a = 1 / kf + (1 - c) * h * dvp;
                dTr = (h * rn) / a;
                dTv = (-c * h) / a;
              }
              dFr = (c * dTr) / bars;
              dFv = (c * dTv) / bars;
            }
            if (slips === 1) xf = c * x + (1 - c) * l + S / kf;
          }
        }
        if (T > 0) {
          b2 += h * Ft;
          b5 -= h * rn * T;
          D2 -= h * dFv;
          o25 -= h * dFr;
          o52 += h * rn * dTv;
          D5 += h * rn * dTr;
        }
      }
      // Near enough? Residuals as velocities over each body's own scale.
      const worst = Math.max(
        Math.abs(b0) / m0 / 1e3,
        Math.abs(b1) / m1 / 5,
        Math.abs(b2) / m2 / 0.1,
        Math.abs(b3) / m3 / 5,
        Math.abs(b4) / m4 / 1e3,
        Math.abs(b5) / m5 / 5,
      );
      if (worst < 1e-7) {
        ok = true;
        break;
      }
      if (share > 0 && searched < 10) {
        const now = d0 * b0 + d1 * b1 + d2 * b2 + d3 * b3 + d4 * b4 + d5 * b5;
        if (now < -0.3 * before) {
          share *= Math.max(0.1, before / (before - now));
          w0 = u0 + share * d0;
          w1 = u1 + share * d1;
          w2 = u2 + share * d2;
          w3 = u3 + share * d3;
          w4 = u4 + share * d4;
          w5 = u5 + share * d5;
          searched++;
          continue;
        }
      }
      // Elimination from the leaves of the tree towards the tape.
      const r0 = b0;
      const r1 = b1;
      const r2 = b2;
      const r3 = b3;
      const r4 = b4;
      const r5 = b5;
      let f = o01 / D0;
      D1 -= f * o01;
      b1 -= f * b0;
      f = o45 / D4;
      D5 -= f * o45;
      b5 -= f * b4;
      f = o23 / D3;
      D2 -= f * o23;
      b2 -= f * b3;
      f = o12 / D1;
      D2 -= f * o12;
      b2 -= f * b1;
      f = o25 / D5;
      D2 -= f * o52;
      b2 -= f * b5;
      d2 = b2 / D2;
      d1 = (b1 - o12 * d2) / D1;
      d0 = (b0 - o01 * d1) / D0;
      d3 = (b3 - o23 * d2) / D3;
      d5 = (b5 - o52 * d2) / D5;
      d4 = (b4 - o45 * d5) / D4;
      before = d0 * r0 + d1 * r1 + d2 * r2 + d3 * r3 + d4 * r4 + d5 * r5;
      u0 = w0;
      u1 = w1;
      u2 = w2;
      u3 = w3;
      u4 = w4;
      u5 = w5;
      w0 += d0;
      w1 += d1;
      w2 += d2;
      w3 += d3;
      w4 += d4;
      w5 += d5;
      share = 1;
      searched = 0;
      count.newton++;
    }
    if (!ok) count.missed++;
    out[0] = w0;
    out[1] = w1;
    out[2] = w2;
    out[3] = w3;
    out[4] = w4;
    out[5] = w5;
    out[6] = s[6]! + h * w0;
    out[7] = phi0 + h * w1;
    out[8] = x0 + h * w2;
    out[9] = s[9]! + h * w3;
    out[10] = s[10]! + h * w4;
    out[11] = s[11]! + h * w5;
    out[12] = iA;
    out[13] = iB;
    out[14] = xf;
    out[15] = l;
    out[16] = zT;
    out[17] = zW;
    out[18] = zR;
    out[19] = zN;
    out[20] = zA;
    out[21] = zB;
    out[22] = T;
    out[23] = Fh;
    out[24] = M;
    out[25] = MB;
    out[26] = Ft;
    out[27] = Tw;
    out[28] = slips;
    return ok;
  }
  return { step, count };
}
