import { describe, expect, test } from "vitest";
import { firstSentence, hasEquation, markdownOf } from "./prose.ts";

const comment = `What the nip must bear. Second sentence.

    F = mu_w N,   mu_w = 2*theta
    G = 1

mu_w    friction, 1        0.1 .. 0.5
theta   angle, rad         0 .. pi

Coulomb friction at theta; see \`window.ts\` and nip.pulls. Holds for N * 2 > 1_000, list[i] and p_ref.
+ is no list.`;

describe("a comment as Markdown", () => {
  const link = (name: string) =>
    ({ "window.ts": "window.md", "nip.pulls": "../nip/window.md" })[name as "window.ts" | "nip.pulls"];
  const out = markdownOf(comment, link);
  test("keeps equations as they are set, Greek letters printed and columns filled up", () => {
    expect(out).toContain("```text\nF = μ_w N,    μ_w = 2*θ\nG = 1\n```");
  });
  test("keeps columns under each other though letters grow shorter", () => {
    expect(out).toContain("μ_w     friction, 1        0.1 .. 0.5\nθ       angle, rad         0 .. π");
  });
  test("links files and checks that have a page, in code marks or without", () => {
    expect(out).toContain("[`window.ts`](window.md)");
    expect(out).toContain("[`nip.pulls`](../nip/window.md)");
    expect(markdownOf("See nip.pulls.")).toBe("See nip.pulls.");
  });
  test("shields what Markdown would take for its own signs", () => {
    expect(out).toContain("N \\* 2 \\> 1_000, list\\[i\\] and p_ref.");
    expect(out).toContain("\n\\+ is no list.");
    expect(markdownOf("no emphasis in p_ref, but in _this")).toBe("no emphasis in p_ref, but in \\_this");
  });
  test("a Greek word inside another word stays as it is", () => {
    expect(markdownOf("pickup of mutual piles; eta.x")).toBe("pickup of mutual piles; eta.x");
  });
});
test("an equation is what is indented by four", () => {
  expect(hasEquation(comment)).toBe(true);
  expect(hasEquation("no equation\n  here")).toBe(false);
});
test("the first sentence ends at its own full stop, not at one within a number", () => {
  expect(firstSentence(comment)).toBe("What the nip must bear.");
  expect(firstSentence("About 0.5 of it. More.")).toBe("About 0.5 of it.");
  expect(firstSentence("No stop at all")).toBe("No stop at all");
});
