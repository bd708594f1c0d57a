import { defaultClientConditions, defineConfig } from "vite";

// The page is built from the sources of our packages, not from their dist: one build, nothing stale. React's syntax needs no plugin.
export default defineConfig({
  base: "./",
  resolve: { conditions: ["source", ...defaultClientConditions] },
  esbuild: { jsx: "automatic" },
  build: {
    target: "es2023",
    reportCompressedSize: false,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 3000,
  },
  worker: { format: "es" },
});
