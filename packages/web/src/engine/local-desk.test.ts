import { expect, test } from "vitest";
import { DeskTime } from "./desk.fixture.ts";
import { localDesk } from "./local-desk.ts";
import type { FromDesk } from "./protocol.ts";

const texts: [string, string][] = [["project.yaml", "format: 1\nproject: small\nwanted: {}\n"]];
test("says nothing before those who wait have had their turn, and nothing once it is closed", () => {
  const time = new DeskTime();
  const desk = localDesk(time);
  const heard: FromDesk[] = [];
  desk.hear((message) => heard.push(message));
  desk.post({ kind: "open", seq: 1, texts, seed: 1 });
  expect(heard).toEqual([]);
  while (time.slice());
  expect(heard.map((m) => m.kind)).toContain("read");
  const before = heard.length;
  desk.post({ kind: "edits", seq: 2, edits: [{ file: "project.yaml", text: "format: 1\n" }] });
  desk.close();
  while (time.slice());
  expect(heard.length).toBe(before);
});
test("shares nothing with who asked: what was sent may be written to afterwards", () => {
  const time = new DeskTime();
  const desk = localDesk(time);
  const heard: FromDesk[] = [];
  desk.hear((message) => heard.push(message));
  const sent: [string, string][] = texts.map(([file, text]) => [file, text]);
  desk.post({ kind: "open", seq: 1, texts: sent, seed: 1 });
  sent[0]![1] = "nonsense";
  while (time.slice());
  expect(heard.find((m) => m.kind === "read")).toMatchObject({ errors: [] });
});
