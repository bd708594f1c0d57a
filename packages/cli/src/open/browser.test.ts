import { expect, test } from "vitest";
import { browserCall } from "./browser.ts";

test.each([
  ["linux", { DISPLAY: ":0" }, ["xdg-open"]],
  ["linux", { WAYLAND_DISPLAY: "wayland-0" }, ["xdg-open"]],
  ["linux", { SSH_CONNECTION: "10.0.0.1 1 10.0.0.2 22", DISPLAY: "localhost:10.0" }, ["xdg-open"]],
  ["linux", {}, undefined],
  ["linux", { SSH_CONNECTION: "10.0.0.1 1 10.0.0.2 22" }, undefined],
  ["darwin", {}, ["open"]],
  ["darwin", { SSH_CONNECTION: "10.0.0.1 1 10.0.0.2 22" }, undefined],
  ["win32", {}, ["rundll32", "url.dll,FileProtocolHandler"]],
] as const)("on %s with %j the browser is called with %j", (platform, env, call) => {
  expect(browserCall(platform, env)).toEqual(call);
});
