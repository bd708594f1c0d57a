#!/usr/bin/env node
import { existsSync } from "node:fs";

// A crash must not look like a verdict: Node would exit with 1, which says "stops". 70 is the usual code for a bug.
process.on("uncaughtException", (error) => {
  console.error(error);
  process.exit(70);
});

// Whoever reads the output may stop reading, as head does: that is no fault of anybody's. 141 is the usual code for a closed pipe.
process.stdout.on("error", (error) => {
  if (error.code !== "EPIPE") throw error;
  process.exit(141);
});

if (existsSync(new URL("../dist/main.js", import.meta.url))) {
  await import("../dist/main.js");
} else {
  console.error('Run "npm start" once, or "npm run build".');
  process.exitCode = 2;
}
