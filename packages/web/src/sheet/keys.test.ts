import { describe, expect, test } from "vitest";
import { keyNamed, keys, type Pressed } from "./keys.ts";

const pressed = (key: string, more: Partial<Pressed> = {}): Pressed => ({
  key,
  shiftKey: false,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  typing: false,
  ...more,
});

test("no two keys of the table are the same", () => {
  expect(new Set(keys.map(({ key }) => key)).size).toBe(keys.length);
});
test.each(keys.filter(({ key }) => key.length === 1))("$key asks for $name", ({ key, name }) => {
  expect(keyNamed(pressed(key, { shiftKey: key === "Z" || key === "?" }), true)).toBe(name);
});
describe("undo and redo", () => {
  test.each([
    ["z", {}, "undo"],
    ["Z", { shiftKey: true }, "redo"],
    // With Caps Lock a plain z arrives as "Z", and Shift with it as "z".
    ["Z", {}, "undo"],
    ["z", { shiftKey: true }, "redo"],
    ["z", { ctrlKey: true }, "undo"],
    ["Z", { ctrlKey: true, shiftKey: true }, "redo"],
    ["z", { metaKey: true }, "undo"],
    ["y", { ctrlKey: true }, "redo"],
  ] as const)("%s with %o is %s", (key, more, name) => {
    expect(keyNamed(pressed(key, more), true)).toBe(name);
  });
  test("the platform's keys act where single keys are switched off", () => {
    expect(keyNamed(pressed("z", { ctrlKey: true }), false)).toBe("undo");
    expect(keyNamed(pressed("f", { metaKey: true }), false)).toBe("find");
    expect(keyNamed(pressed("z"), false)).toBeUndefined();
  });
});
test("within a text field only Escape is heard", () => {
  for (const { key } of keys)
    for (const more of [{}, { shiftKey: true }, { ctrlKey: true }])
      expect(keyNamed(pressed(key, { ...more, typing: true }), true)).toBe(key === "Escape" ? "fold" : undefined);
});
test("a letter with Alt belongs to the browser", () => {
  expect(keyNamed(pressed("f", { altKey: true }), true)).toBeUndefined();
});
test("a single letter acts with Caps Lock too", () => {
  expect(keyNamed(pressed("L"), true)).toBe("ladder");
});
