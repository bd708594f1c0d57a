import { type Command, Option } from "commander";
import { print, seedOption, wholeNumber } from "../call.ts";

/** `open`: the live page of a project, from a server that only this computer can reach. */
export function openCommand(program: Command): void {
  program
    .command("open")
    .description("the live page of a project, for this computer alone")
    .argument("[folder]", "the project's folder", ".")
    .addOption(
      new Option("--port <number>", "the port to use; without it, any that is free").argParser(wholeNumber(0, 65535)),
    )
    .option("--no-browser", "print the address and open no browser")
    .addOption(seedOption())
    .addHelpText("after", "\nExamples:\n  tapeworthy open my-feeder\n  tapeworthy open . --no-browser --port 4700")
    .action(
      async (folder: string, options: { readonly port?: number; readonly browser: boolean; readonly seed: number }) => {
        // A terminal that goes away ends nothing by itself.
        process.stdout.on("error", () => {});
        // What only this command needs is loaded here, so that the others start as fast as before.
        const [{ OpenServer }, { openBrowser }] = await Promise.all([import("./server.ts"), import("./browser.ts")]);
        const server = await OpenServer.start(folder, { port: options.port ?? 0, seed: options.seed, say: print });
        const address = server.newAddress();
        print(`Open ${address}`);
        print("The address works once. Enter: a new one. Ctrl-C: the end.");
        if (options.browser) openBrowser(address);
        await untilEnded(() => print(`Open ${server.newAddress()}`));
        await server.close();
      },
    );
}

/** Waits for Ctrl-C or an order to end; calls back at every Enter meanwhile. */
async function untilEnded(entered: () => void): Promise<void> {
  const onData = (text: Buffer): void => {
    if (text.includes("\n")) entered();
  };
  process.stdin.on("data", onData);
  process.stdin.on("error", () => {});
  const signals = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
  await new Promise<void>((resolve) => {
    for (const signal of signals) process.once(signal, () => resolve());
  });
  process.stdin.off("data", onData);
  process.stdin.pause();
}
