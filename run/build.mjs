// npm run build: the libraries where they are missing, the compiler, the page.
import { setUp } from "./setup.mjs";

process.exitCode = setUp() ? 0 : 1;
