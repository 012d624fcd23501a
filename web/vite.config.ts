import { defineConfig } from "vite";

export default defineConfig({
  root: import.meta.dirname,
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    target: "es2022",
    outDir: "dist",
    emptyOutDir: true,
    // The content security policy allows files of our own and no data: addresses.
    assetsInlineLimit: 0,
    reportCompressedSize: false,
  },
  worker: { format: "es" },
});
