import {
  type Check,
  chosen,
  type Given,
  type Model,
  type Quantity,
  quantitiesIn,
  type Reads,
  type Scene,
} from "@tapeworthy/core";

/** A named scene, as the tests have them. */
export type NamedScene = readonly [name: string, scene: Scene];

/** A model as one scene reads it. */
export interface Use {
  readonly scene: Scene;
  readonly sceneName: string;
  readonly reads: Reads;
}
/** What the checks reach over the scenes: every model with how it is read, and what rests on what. */
export interface Reach {
  readonly uses: ReadonlyMap<Model<unknown>, readonly Use[]>;
  /** Ids of the checks whose value or bounds rest on a model, in the order of the checks. */
  readonly decides: ReadonlyMap<Model<unknown>, readonly string[]>;
  /** Ids of the checks that only show it, or say it. */
  readonly shows: ReadonlyMap<Model<unknown>, readonly string[]>;
  /** Models that read it. */
  readonly readers: ReadonlyMap<Model<unknown> | Given, ReadonlySet<Model<unknown>>>;
  /** For every check the scenes in which it applies. */
  readonly applies: ReadonlyMap<Check, readonly NamedScene[]>;
  /** Why a check does not apply, the different reasons over the scenes. */
  readonly absent: ReadonlyMap<Check, readonly string[]>;
}

export function reachOf(checks: readonly Check[], scenes: readonly NamedScene[]): Reach {
  const uses = new Map<Model<unknown>, Use[]>();
  const decides = new Map<Model<unknown>, string[]>();
  const shows = new Map<Model<unknown>, string[]>();
  const readers = new Map<Model<unknown> | Given, Set<Model<unknown>>>();
  const applies = new Map<Check, NamedScene[]>();
  const absent = new Map<Check, string[]>();
  const add = <K>(map: Map<K, string[]>, key: K, word: string): void => {
    const list = map.get(key) ?? [];
    if (!list.includes(word)) list.push(word);
    map.set(key, list);
  };
  for (const check of checks) {
    applies.set(check, []);
    absent.set(check, []);
    for (const [sceneName, scene] of scenes) {
      const why = check.absent(scene);
      if (why !== undefined) {
        add(absent, check, why);
        continue;
      }
      applies.get(check)!.push([sceneName, scene]);
      const walk = (from: readonly (Quantity | undefined)[], into: Map<Model<unknown>, string[]>): void => {
        const seen = new Set<Given | Model<unknown>>();
        const visit = (q: Given | Model<unknown>): void => {
          if (seen.has(q)) return;
          seen.add(q);
          const reads = q.reads(scene);
          if (!reads) return;
          if (q.kind === "model") {
            add(into, q, check.id);
            const known = uses.get(q) ?? [];
            if (!known.some((u) => u.scene === scene)) known.push({ scene, sceneName, reads });
            uses.set(q, known);
          }
          for (const inner of quantitiesIn(reads)) {
            if (q.kind === "model") readers.set(inner, (readers.get(inner) ?? new Set()).add(q));
            visit(inner);
          }
        };
        for (const q of from) if (q) visit(q);
      };
      const said: Quantity[] = [];
      check.because((q) => {
        said.push(q);
        return "";
      }, scene);
      walk(
        [
          chosen<Quantity>(check.value, scene),
          chosen<Quantity>(check.atLeast, scene),
          chosen<Quantity>(check.atMost, scene),
        ],
        decides,
      );
      walk([...(check.beside?.(scene) ?? []), ...said], shows);
    }
  }
  return { uses, decides, shows, readers, applies, absent };
}
