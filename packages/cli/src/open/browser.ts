import { spawn } from "node:child_process";

/** The program that opens an address on this system, and its arguments before it; undefined where there is no screen to show it on. */
export function browserCall(
  platform: NodeJS.Platform,
  env: Readonly<Record<string, string | undefined>>,
): readonly [string, ...string[]] | undefined {
  if (platform === "win32") return ["rundll32", "url.dll,FileProtocolHandler"];
  if (env.SSH_CONNECTION && !env.DISPLAY) return undefined;
  if (platform === "darwin") return ["open"];
  return env.DISPLAY || env.WAYLAND_DISPLAY ? ["xdg-open"] : undefined;
}
/** Shows an address in a browser where there is one, without a shell between; says nothing where it fails, since the address is printed too. */
export function openBrowser(address: string): void {
  const call = browserCall(process.platform, process.env);
  if (!call) return;
  const [program, ...before] = call;
  const child = spawn(program, [...before, address], { detached: true, stdio: "ignore", shell: false });
  child.on("error", () => {});
  child.unref();
}
