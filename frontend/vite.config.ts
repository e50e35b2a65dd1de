// Builds the app into the server's static folder, and says how its tests run.
import preact from "@preact/preset-vite";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";

const ink = "#14222e";

export default defineConfig({
  base: "/",
  plugins: [
    preact(),
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src/worker",
      filename: "sw.ts",
      registerType: "prompt",
      injectRegister: false,
      injectManifest: {
        // everything, lazy chunks too: an old page must find its chunks without a network
        globPatterns: ["**/*.{js,css,html,svg,png,woff2,webmanifest,wasm}"],
        maximumFileSizeToCacheInBytes: 4_000_000,
      },
      manifest: {
        id: "/",
        name: "Baycard",
        short_name: "Baycard",
        description: "Vehicle findings, recorded with or without a network.",
        start_url: "/",
        scope: "/",
        display: "standalone",
        background_color: "#ffffff",
        theme_color: ink,
        shortcuts: [
          {
            name: "New card",
            url: "/bay/new",
            icons: [{ src: "/icons/mark-192.png", sizes: "192x192", type: "image/png" }],
          },
        ],
        share_target: {
          action: "/bay/shared",
          method: "POST",
          enctype: "multipart/form-data",
          params: { files: [{ name: "photos", accept: ["image/*"] }] },
        },
        icons: [
          { src: "/icons/mark-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icons/mark-512.png", sizes: "512x512", type: "image/png" },
          { src: "/icons/mark-maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
    }),
  ],
  build: {
    outDir: "../baycard/web/static",
    emptyOutDir: true,
    manifest: true,
    target: "es2022",
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: {
        codeSplitting: {
          // one file to the list of cards and one more to an open card: each further one costs a phone milliseconds
          groups: [
            { name: "first", test: /src[\\/]main\.tsx$/, priority: 2 },
            { name: "card", test: /src[\\/]screens[\\/]bay[\\/]on-card\.tsx$/, priority: 1 },
          ],
        },
      },
    },
  },
  worker: { format: "es" },
  server: { proxy: { "/api": "http://127.0.0.1:8000" } },
  test: {
    environment: "jsdom",
    setupFiles: ["tests/set_up.ts"],
    include: ["src/**/*.test.{ts,tsx}", "tests/**/*.test.ts"],
    restoreMocks: true,
    testTimeout: 30_000,
    hookTimeout: 30_000,
  },
});
