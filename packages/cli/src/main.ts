import { call } from "./program.ts";

process.exitCode = await call(process.argv.slice(2));
