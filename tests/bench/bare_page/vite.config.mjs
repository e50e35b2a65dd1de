// Builds the bare page as the app is built.
import preact from "@preact/preset-vite";

export default { plugins: [preact()], build: { target: "es2022" } };
