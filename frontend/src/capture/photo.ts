/** Prepares a photo for keeping: in a worker where the browser can draw there, else on the page. */
import { refuse } from "./refusals";
import type { Captured, Surface } from "./shrink";
import type { Size } from "./sniff";

export type { Captured } from "./shrink";

const LIMIT_MS = 30_000;

/** A photo file or a camera frame made ready: JPEG, upright, at most 1600 px, no GPS, with its hash; or why not. */
export async function preparePhoto(file: Blob): Promise<Captured> {
  if (typeof OffscreenCanvas !== "undefined") return inWorker(file);
  const { shrink } = await import("./shrink");
  return shrink(file, pageSurface);
}

/** A fresh worker for each photo: ending it gives back all the memory at once. */
function inWorker(file: Blob): Promise<Captured> {
  const worker = new Worker(new URL("./photo.worker.ts", import.meta.url), { type: "module" });
  let limit: ReturnType<typeof setTimeout> | undefined;
  return new Promise<Captured>((resolve) => {
    limit = setTimeout(() => resolve(refuse("too-slow")), LIMIT_MS);
    worker.onmessage = ({ data }: MessageEvent<Captured>) => resolve(data);
    worker.onerror = () => resolve(refuse("unreadable"));
    worker.postMessage(file);
  }).finally(() => {
    clearTimeout(limit);
    worker.terminate();
  });
}

function pageSurface({ width, height }: Size): Surface {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d");
  if (context === null) throw new Error("no drawing surface");
  return {
    context,
    toJpeg: (quality) =>
      new Promise((resolve) => canvas.toBlob((blob) => resolve(blob ?? new Blob()), "image/jpeg", quality)),
    free: () => {
      canvas.width = 1;
      canvas.height = 1;
    },
  };
}
