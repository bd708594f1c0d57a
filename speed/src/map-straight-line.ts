import type { Column, Given, Pick, Quantity, Realiser } from "@tapeworthy/core";

/**
 * The nine closed checks of one cell as a person would write them for speed alone: every input read once into a local column, then
 * one loop with no calls but exp and pow. Inputs, drawn columns and the solved film path are shared with the version it is held against.
 * Returns a function that computes the sum of all gaps.
 */
export function straightLine(realiser: Realiser, pick: Pick): () => number {
  const scene = realiser.scene;
  const { unit, tape, requirement } = scene;
  const { film } = tape;
  const n = pick.n;
  // What a given has as centre, and how it moves, in plain numbers.
  const run = realiser.run({ n: 1, unknown: () => 0, scatter: () => undefined });
  const centre = (q: Quantity): number => run.number(q);
  const path = realiser.models.find((m) => m.id === "film.peel-angle")! as Quantity;
  const wrap = realiser.models.find((m) => m.id === "film.wrap")! as Quantity;

  type Input = () => Float64Array;
  const input = (q: Quantity): Input => {
    if (q.kind === "model") throw new Error(`${q.id} is no input`);
    return givenInput(q, pick, n, centre);
  };
  const c = input(unit.tape.section.width);
  const W = input(tape.letters.W);
  const k = input(tape.camber);
  const L = input(unit.tape.section["guided length"]!);
  const m = input(unit.tape.section.groove.margin);
  const B0 = input(tape.letters.B0);
  const T = input(tape.letters.T);
  const Bu = centre(unit.letters.B1!);
  const E1 = input(tape.letters.E1);
  const F = input(tape.letters.F);
  const mid = centre(unit.letters.E1!) + centre(unit.letters.F!);
  const lip = input(unit.tape.section.lips.gap);
  const T1 = input(tape.letters.T1);
  const splice = input(requirement.assume["splice thickness"]);
  const clear = centre(requirement.assume["running clearance"]);
  const tip = input(unit.sprocket!.tooth["height above tape"]);
  const overlap = centre(requirement.assume["tooth overlap"]);
  const b = input(film.width);
  const seal = input(film.seal);
  const thetaRef = input(film.testAngle);
  const vRef = input(film.testSpeed);
  const v = centre(requirement.filmSpeed);
  const kind = input(sealKind(realiser));
  const nP = input(classOf(realiser, "catalogue/rate exponent of pressure-sensitive seals"));
  const nH = input(classOf(realiser, "catalogue/rate exponent of heat-activated seals"));
  const GP = input(classOf(realiser, "catalogue/tack of pressure-sensitive seals"));
  const GH = input(classOf(realiser, "catalogue/tack of heat-activated seals"));
  const theta = centre(path);
  const w = centre(wrap);
  const mu = input(unit.film.friction!);
  const Fb = input(film.break);
  const safety = centre(requirement.breakSafety);
  const N = input(unit.nip!.preload!);
  const mu1 = input(unit.nip!.friction![0]!);
  const mu2 = input(unit.nip!.friction![1]!);
  const o = centre(unit.nip!.overspeed!);
  const P1 = centre(tape.letters.P1);
  const C10 = centre(tape.tenPitch);
  const P0 = input(tape.letters.P0);
  const wt = input(film.track);
  const inset = input(film.inset);
  const wander = input(requirement.assume["film wander"]);
  const Em1 = centre(film.E1);
  const h1 = input(film.h1);
  const Em2 = input(film.E2);
  const h2 = input(film.h2);
  const nu = centre(film.nu);
  const r1 = input(unit.nip!.rollers!.radius[0]!);
  const r2 = input(unit.nip!.rollers!.radius[1] ?? unit.nip!.rollers!.radius[0]!);
  const k0 = input(film.curl);

  return () => {
    const [cs, Ws, ks, Ls, ms, B0s, Ts, E1s, Fs] = [c(), W(), k(), L(), m(), B0(), T(), E1(), F()];
    const [lips, T1s, sp, tips, bs, Ps, tr, vr] = [lip(), T1(), splice(), tip(), b(), seal(), thetaRef(), vRef()];
    const [q, np, nh, gp, gh, mus, fb, Ns, m1, m2, p0] = [
      kind(),
      nP(),
      nH(),
      GP(),
      GH(),
      mu(),
      Fb(),
      N(),
      mu1(),
      mu2(),
      P0(),
    ];
    const [wts, ins, wan, hh1, e2, hh2, ra, rb, kk] = [wt(), inset(), wander(), h1(), Em2(), h2(), r1(), r2(), k0()];
    const base = 0.25;
    const cosTheta = Math.cos(theta);
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const play = cs[i]! - Ws[i]!;
      const ll = Ls[i]! / base;
      sum += play - ks[i]! * ll * ll;
      sum += ms[i]! - (B0s[i]! + 2 * Ts[i]! - Bu) / 2 - Math.abs(E1s[i]! + Fs[i]! - mid) - play / 2;
      const room = lips[i]! - Ts[i]!;
      sum += room - (T1s[i]! + sp[i]! + clear);
      sum += tips[i]! - overlap - room;
      const bb = bs[i]!;
      sum += bb / 3 - bb;
      const rate = q[i]! * np[i]! + (1 - q[i]!) * nh[i]!;
      const peel = ((Ps[i]! * (1 - Math.cos(tr[i]!))) / (1 - cosTheta)) * (v / vr[i]!) ** rate;
      const pull = peel * Math.exp(mus[i]! * w);
      const most = fb[i]! / safety;
      const S = Ns[i]! * (m1[i]! + m2[i]!);
      sum += most - pull + (S - pull) + (most - S);
      sum += o * P1 - P1 * (1 + C10 / (10 * p0[i]!));
      const o2 = 2 * Math.max(0, Math.min(wts[i]!, bb / 2 + wan[i]! - (bb / 2 - ins[i]! - wts[i]!)));
      const a = hh1[i]!;
      const d = hh2[i]!;
      const Eh = Em1 * a + e2[i]! * d;
      const z = ((Em1 * a * a) / 2 + e2[i]! * d * (a + d / 2)) / Eh;
      const D =
        (Em1 * (a ** 3 / 12 + a * (a / 2 - z) ** 2) + e2[i]! * (d ** 3 / 12 + d * (a + d / 2 - z) ** 2)) /
        (1 - nu * nu);
      const curve = 1 / Math.max(ra[i]!, rb[i]!) - kk[i]!;
      sum += (D * bb * curve * curve) / 2 - (q[i]! * gp[i]! + (1 - q[i]!) * gh[i]!) * o2;
    }
    return sum;
  };
}

const classOf = (realiser: Realiser, address: string): Given => realiser.givens.find((g) => g.address === address)!;
const sealKind = (realiser: Realiser): Given => classOf(realiser, "catalogue/seal kind");

/** Column of a given, moved from its centre as its laws say; a fresh column each time it is asked for. */
function givenInput(g: Given, pick: Pick, n: number, centre: (q: Quantity) => number): () => Float64Array {
  const out = new Float64Array(n);
  const at = (c: Column | undefined, i: number): number => (c === undefined ? 0 : typeof c === "number" ? c : c[i]!);
  const z = g.unknown ? pick.unknown(g) : 0;
  const c0 = centre(g);
  const scatters = g.scatters
    .map((s, which) => ({ s, column: pick.scatter(g, which) }))
    .filter((one) => one.column !== undefined);
  const follows = Object.values(g.reads(undefined as never)).filter(
    (q) => q.kind === "given" && (q.scatters.length > 0 || q.unknown),
  );
  if (follows.length > 0) throw new Error(`${g.address} follows something that scatters`);
  const u = g.unknown;
  if (!u && scatters.length === 0) {
    out.fill(c0);
    return () => out;
  }
  return () => {
    if (u?.law === "lognormal") {
      const [low, high] = [Math.log(u.low), Math.log(u.high)];
      const middle = (low + high) / 2;
      const slope = (high - low) / (2 * 1.959963984540054);
      for (let i = 0; i < n; i++) out[i] = Math.exp(middle + at(z, i) * slope);
    } else if (u?.law === "normal") {
      const slope = (u.high - u.low) / (2 * 1.959963984540054);
      for (let i = 0; i < n; i++) out[i] = (u.low + u.high) / 2 + at(z, i) * slope;
    } else if (u) {
      // Phi(-z) < chance, as a threshold on z.
      for (let i = 0; i < n; i++) out[i] = at(z, i) > 0.5244005127080407 ? 1 : 0;
    } else out.fill(c0);
    for (const { s, column } of scatters) {
      if (s.law === "uniform")
        for (let i = 0; i < n; i++) out[i]! += (s.from + s.to) / 2 + (at(column, i) * (s.to - s.from)) / 2;
      else if (s.law === "normal") for (let i = 0; i < n; i++) out[i]! += s.sd * at(column, i);
      else for (let i = 0; i < n; i++) out[i]! *= Math.exp(s.sd * at(column, i));
    }
    return out;
  };
}
