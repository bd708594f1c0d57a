import { expect, test } from "vitest";
import { example } from "./example.fixture.ts";
import { readProject } from "./project.ts";
import { sceneOf } from "./scene-of.ts";

const project = readProject(example).project!;

test("a scene is the unit cut for the tape's width, on that tape, for what the project asks", () => {
  const scene = sceneOf(project, "plover", "so20-24");
  expect(scene.tape.row).toBe(24);
  expect(scene.unit).toBe(project.units.get("plover")!.variants.get(24));
  expect(scene.requirement).toBe(project.requirement);
});
test("a pair that the project does not have is refused by name", () => {
  expect(() => sceneOf(project, "plover", "none")).toThrow("no variant of plover for none");
  expect(() => sceneOf(project, "none", "so20-24")).toThrow("no variant of none for so20-24");
});
