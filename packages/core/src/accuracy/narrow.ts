import { type Lever, leversOf } from "../coverage/levers.ts";
import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { rootsOf } from "../quantity/model.ts";
import { shownUnit } from "../quantity/show.ts";
import { pickOf } from "../route/pick.ts";
import type { Scene } from "../scene.ts";
import { Cell, oneSd } from "../study/cell.ts";
import { Inputs } from "../study/inputs.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import type { Steps } from "../study/steps.ts";
import { leavesIn, type Part, partsAlong } from "./chain.ts";
import { radiusByTails, type Spread } from "./holding.ts";
import { calibrationOf, groupsAlong, spreadOf } from "./radius.ts";

/**
 * What would narrow the pick error: levers of the unit file by what a step does to the radius of any cycle of any unit.
 *
 *     R(+step), R(-step):   offset and spread as written, unit and reel scatter added by their variance (first differences)
 *     step = the least of a tenth of the lever's range, a quarter of what it is, and the way to its bound; the pick's distance from the wheel by one
 *            pitch of the holes; halved up to four times while some check that holds would fall
 *
 * Belief at its medians. The law of the parts of each axis as in holding.ts (quick): unit and reel scatter count as normal. A step is a trial, not a
 * cure: the cures of a check find how far to go.
 */
export interface Narrowing {
  readonly address: string;
  readonly symbol: string;
  readonly unit: string;
  readonly shownIn: string;
  readonly from: number;
  readonly to: number;
  readonly before: number;
  readonly after: number;
  /** Checks that hold as written and no longer would. */
  readonly falls: readonly string[];
}

/** Radius of any cycle of any unit in closed form, belief at its medians. */
export class AnyRadius {
  private readonly inputs: Inputs;
  private readonly parts: { readonly x: readonly Part[]; readonly y: readonly Part[] };
  private readonly scene: Scene;
  private readonly z: Float64Array[];
  readonly points: number;
  constructor(scene: Scene) {
    this.scene = scene;
    const calibration = calibrationOf(scene);
    const along = (axis: "x" | "y") => partsAlong(scene, axis).filter((p) => leavesIn(p, calibration));
    this.parts = { x: along("x"), y: along("y") };
    this.inputs = new Inputs(
      scene,
      [...this.parts.x, ...this.parts.y].map((p) => p.by),
    );
    const { axes } = this.inputs;
    this.points = 1 + 2 * axes.length;
    // Point 0 as the laws have their middle, then each axis one sd up and down.
    this.z = axes.map(({ given, which }, i) => {
      const c = new Float64Array(this.points);
      const even = this.inputs.even[i]!;
      const step = even ? oneSd(given, which) : 1;
      c[1 + 2 * i] = step;
      c[2 + 2 * i] = -step;
      return c;
    });
  }
  spreads(moved?: (given: Given) => number | undefined): readonly [x: Spread, y: Spread] {
    const read = this.inputs.runOwn(this.points, this.z, undefined, moved);
    const value = (p: Part, k: number): number => {
      const c = read(p.by);
      return typeof c === "number" ? c : c[k]!;
    };
    const of = (axis: "x" | "y"): Spread => {
      const groups = groupsAlong(this.scene, axis);
      const own = spreadOf(groups.map((g) => ({ swing: g[0]!.swing ?? "none", by: g.map((p) => value(p, 0)) })));
      const fixed = this.parts[axis].filter((p) => p.level !== "index");
      let variance = own.s * own.s;
      for (let i = 0; i < this.inputs.axes.length; i++) {
        let [up, down] = [0, 0];
        for (const p of fixed) {
          up += value(p, 1 + 2 * i);
          down += value(p, 2 + 2 * i);
        }
        variance += ((up - down) / 2) ** 2;
      }
      return { ...own, s: Math.sqrt(variance) };
    };
    return [of("x"), of("y")];
  }
  radius(share: number, moved?: (given: Given) => number | undefined): number {
    const [x, y] = this.spreads(moved);
    return Number.isFinite(x.v + y.v + x.s + y.s + x.a + y.a) ? radiusByTails(share, x, y) : Number.NaN;
  }
}

const most = 3;
export function* narrowingInSteps(scene: Scene, share: number, checks: readonly Check[]): Steps<Narrowing[]> {
  const one = new AnyRadius(scene);
  const before = one.radius(share);
  const rests = new Set<string>();
  for (const axis of ["x", "y"] as const)
    for (const { by } of partsAlong(scene, axis)) for (const g of rootsOf(by, scene)) rests.add(g.address);
  yield;
  const found: (Narrowing & { readonly members: ReadonlySet<string>; readonly by: number })[] = [];
  const nearer = nearerLever(scene);
  for (const lever of [...leversOf(scene), ...(nearer ? [nearer] : [])]) {
    if (!lever.members.some((m) => rests.has(m))) continue;
    const members = new Set(lever.members);
    let best: { by: number; after: number } | undefined;
    for (const by of lever === nearer ? [lever.least, lever.most].filter((v) => v !== 0) : stepsOf(lever)) {
      const after = one.radius(share, (g) => (members.has(g.address) ? by : undefined));
      if (Number.isFinite(after) && (!best || after < best.after)) best = { by, after };
      yield;
    }
    if (!best || !(best.after < 0.995 * before)) continue;
    const { address, symbol, unit, shownIn, from } = lever;
    found.push({
      address,
      symbol,
      unit,
      shownIn,
      from,
      to: from + best.by,
      before,
      after: best.after,
      falls: [],
      members,
      by: best.by,
    });
  }
  found.sort((a, b) => a.after - b.after);
  const top = found.slice(0, most);
  if (top.length === 0) return [];
  const cell = new Cell(
    scene,
    checks.filter((c) => c.severity === "S"),
  );
  const held = cell.gaps({ n: 1 }).map((g) => g[0]!);
  yield;
  const out: Narrowing[] = [];
  for (const { members, by, from, ...rest } of top) {
    const whole = nearer?.members.some((m) => members.has(m)) === true;
    let step = by;
    let falls: string[] = [];
    for (let halved = 0; halved <= 4; halved++) {
      const now = cell.gaps({ n: 1, moved: (g) => (members.has(g.address) ? step : undefined) }).map((g) => g[0]!);
      falls = cell.checks.filter((_, c) => held[c]! >= 0 && !(now[c]! >= 0)).map((c) => c.id);
      yield;
      if (falls.length === 0 || whole || halved === 4) break;
      step /= 2;
    }
    const after = step === by ? rest.after : one.radius(share, (g) => (members.has(g.address) ? step : undefined));
    out.push({ ...rest, from, to: from + step, after, falls });
  }
  return out.sort((a, b) => a.after - b.after);
}
function stepsOf({ from, least, most: greatest }: Lever): number[] {
  const step = Math.min((greatest - least) / 10, from === 0 ? Number.POSITIVE_INFINITY : Math.abs(from) / 4);
  return [Math.min(greatest, step), Math.max(least, -step)].filter((by) => by !== 0);
}
/** The wheel one hole pitch nearer to the pick; nothing where it stands within a pitch already. */
function nearerLever(scene: Scene): Lever | undefined {
  const at = scene.unit.sprocket?.at;
  const s_p = pickOf(scene);
  if (!at || !s_p || at.unknown) return undefined;
  const run = new Realiser(scene, [at, s_p, scene.tape.letters.P0]).run(asWritten);
  const [away, pitch, from] = [run.number(at) - run.number(s_p), run.number(scene.tape.letters.P0), run.number(at)];
  if (!(Math.abs(away) > pitch)) return undefined;
  const by = -Math.sign(away) * pitch;
  return {
    address: at.address,
    symbol: at.symbol,
    members: [at.address],
    from,
    least: Math.min(0, by),
    most: Math.max(0, by),
    unit: at.unit,
    shownIn: shownUnit(at),
  };
}
