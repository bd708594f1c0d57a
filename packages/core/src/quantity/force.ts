import { tabled } from "./given.ts";

/** No force: what stands in an equation where a member that would pull or press is missing. */
export const noForce = tabled("bound/no force", "0", "0 N", [1, 1, -2, 0, 0], {
  cite: "nothing pulls or presses there",
  how: "derived",
});
