// Lint rules; the room boundaries are those of docs/architecture.md.
import boundaries from "eslint-plugin-boundaries";
import tseslint from "typescript-eslint";

const rooms = ["measure", "journal", "store", "sync", "capture", "ui", "words", "api", "screens", "worker"];
const mayImport = {
  measure: [],
  journal: ["measure"],
  store: ["measure", "journal"],
  api: ["measure", "journal"],
  sync: ["measure", "journal", "store", "api"],
  capture: ["measure", "journal", "store"],
  ui: ["words"],
  words: [],
  screens: ["measure", "journal", "store", "sync", "capture", "ui", "words", "api"],
  worker: [],
};

export default tseslint.config({ ignores: ["node_modules", "dist"] }, ...tseslint.configs.strict, {
  files: ["src/**/*.{ts,tsx}"],
  plugins: { boundaries },
  settings: {
    "boundaries/elements": rooms.map((room) => ({ type: room, pattern: `src/${room}` })),
    "import/resolver": { node: { extensions: [".ts", ".tsx"] } },
  },
  rules: {
    "boundaries/element-types": [
      "error",
      {
        default: "disallow",
        rules: rooms.map((room) => ({ from: [room], allow: [room, ...mayImport[room]] })),
      },
    ],
    "@typescript-eslint/no-non-null-assertion": "error",
    "@typescript-eslint/no-explicit-any": "error",
    "max-lines": ["error", { max: 400, skipBlankLines: true, skipComments: true }],
  },
});
