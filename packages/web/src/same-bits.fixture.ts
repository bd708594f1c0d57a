import { accuracyInSteps, Deviates, evenWeights, finished, misfeeds } from "@tapeworthy/core";
import { readProject, sceneOf } from "@tapeworthy/project";

/** Error at the pick and misfeeds of one pair of a project, as text: for the same text in Node and in a browser. */
export function sure(texts: readonly (readonly [string, string])[]): string {
  const { project } = readProject(new Map(texts));
  const deviates = new Deviates(1);
  const pair = { unit: "plover", tape: "so8-12" };
  const scene = sceneOf(project!, pair.unit, pair.tape);
  const accuracy = finished(accuracyInSteps(scene, pair, deviates, evenWeights, { draws: 20_000 }));
  return JSON.stringify({ accuracy, misfeeds: misfeeds(scene, { deviates, draws: 40 }) });
}
