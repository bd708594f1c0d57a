import { none } from "./dimension.ts";
import { tabled } from "./given.ts";

/** Bounds that are plain numbers of the definition, not judgements: no gap below nothing, a ratio of one. */
const byDefinition = { cite: "by definition of the check", how: "derived" } as const;
export const noLength = tabled("bound/nothing", "0", "0 mm", [1, 0, 0, 0, 0], byDefinition);
export const one = tabled("bound/one", "1", "1", none, byDefinition);
