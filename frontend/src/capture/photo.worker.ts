/** Shrinks one photo off the page's thread, so that the screen stays alive meanwhile. */
import { shrink, type Captured, type Surface } from "./shrink";
import type { Size } from "./sniff";

self.onmessage = async ({ data }: MessageEvent<Blob>) => {
  const captured: Captured = await shrink(data, offscreenSurface);
  self.postMessage(captured, { transfer: captured.ok ? [captured.bytes] : [] });
};

function offscreenSurface({ width, height }: Size): Surface {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext("2d");
  if (context === null) throw new Error("no drawing surface");
  return {
    context,
    toJpeg: (quality) => canvas.convertToBlob({ type: "image/jpeg", quality }),
    free: () => {
      canvas.width = 1;
      canvas.height = 1;
    },
  };
}
