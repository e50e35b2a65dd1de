/** Makes a photo small enough to send: turned upright, long edge 1600 px, JPEG, without the camera's notes (GPS). */
import { refuse, type CaptureRefusal } from "./refusals";
import { greyOf, isBlurred, LOOK_PX, type Grey } from "./sharpness";
import { sniff, type Size } from "./sniff";

export const LONG_EDGE_PX = 1600;
/** Tried in turn until the result is below the goal; the last one is taken whatever its size. */
const QUALITIES = [0.82, 0.74, 0.66, 0.58];
const GOAL_BYTES = 360_000;
const SAMPLE_PX = 32;
/** A covered lens gives values up to about this one, of 255. */
const BLACK_BELOW = 10;

export type Picture = {
  ok: true;
  bytes: ArrayBuffer;
  mime: "image/jpeg";
  sha256: string;
  width: number;
  height: number;
  /** whether a person should be asked if it is sharp enough */
  blurred?: boolean;
};
export type Captured = Picture | CaptureRefusal;
type Context2d = CanvasDrawImage &
  CanvasImageData & { fillStyle: unknown } & CanvasRect &
  Partial<Pick<CanvasImageSmoothing, "imageSmoothingQuality">>;
/** One drawing surface, of the page or of a worker. */
export type Surface = { context: Context2d; toJpeg(quality: number): Promise<Blob>; free(): void };
export type MakeSurface = (size: Size) => Surface;

/** Never throws for a bad picture: that is a refusal. */
export async function shrink(file: Blob, makeSurface: MakeSurface): Promise<Captured> {
  const { kind, whole, size } = sniff(new Uint8Array(await file.arrayBuffer()));
  if (kind === "unknown") return refuse("not-a-picture");
  if (!whole) return refuse("cut-off");
  const bitmap = await decode(file, size);
  if (bitmap === null) return refuse(kind === "heic" ? "heic" : "unreadable");
  try {
    if (isBlack(samples(bitmap, makeSurface))) return refuse("black");
    const picture = await encode(bitmap, makeSurface);
    return picture.ok ? { ...picture, blurred: isBlurred(look(bitmap, makeSurface)) } : picture;
  } finally {
    bitmap.close();
  }
}

/** The size with its long edge at most `long_edge_px`; never larger than it was. */
export function fitted({ width, height }: Size, long_edge_px = LONG_EDGE_PX): Size {
  const scale = Math.min(1, long_edge_px / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

/** Whether every sampled pixel (red, green, blue, opacity) is nearly black. */
export function isBlack(rgba: Uint8ClampedArray): boolean {
  return rgba.every((value, place) => place % 4 === 3 || value < BLACK_BELOW);
}

/**
 * Decodes upright and already scaled: a 24-megapixel canvas comes out black on some phones, without an error.
 * Only the width is asked for, which is right whether the browser turns before or after it scales; `fitted` does the rest.
 */
async function decode(file: Blob, size: Size | null): Promise<ImageBitmap | null> {
  const large = size !== null && Math.min(size.width, size.height) > LONG_EDGE_PX;
  const scaled: ImageBitmapOptions = large ? { resizeWidth: LONG_EDGE_PX, resizeQuality: "high" } : {};
  try {
    return await createImageBitmap(file, { imageOrientation: "from-image", ...scaled });
  } catch {
    return null;
  }
}

function samples(bitmap: ImageBitmap, makeSurface: MakeSurface): Uint8ClampedArray {
  const surface = makeSurface({ width: SAMPLE_PX, height: SAMPLE_PX });
  surface.context.drawImage(bitmap, 0, 0, SAMPLE_PX, SAMPLE_PX);
  const { data } = surface.context.getImageData(0, 0, SAMPLE_PX, SAMPLE_PX);
  surface.free();
  return data;
}

function look(bitmap: ImageBitmap, makeSurface: MakeSurface): Grey {
  const { width, height } = fitted(bitmap, LOOK_PX);
  const surface = makeSurface({ width, height });
  surface.context.imageSmoothingQuality = "high";
  surface.context.drawImage(bitmap, 0, 0, width, height);
  const grey = greyOf(surface.context.getImageData(0, 0, width, height).data, width, height);
  surface.free();
  return grey;
}

async function encode(bitmap: ImageBitmap, makeSurface: MakeSurface): Promise<Captured> {
  const { width, height } = fitted(bitmap);
  const surface = makeSurface({ width, height });
  // What is clear in a PNG becomes paper, not black.
  surface.context.fillStyle = "#fff";
  surface.context.fillRect(0, 0, width, height);
  surface.context.drawImage(bitmap, 0, 0, width, height);
  const jpeg = await smallEnough(surface);
  surface.free();
  if (jpeg.type !== "image/jpeg") return refuse("unreadable");
  const bytes = await jpeg.arrayBuffer();
  return { ok: true, bytes, mime: "image/jpeg", sha256: await sha256Hex(bytes), width, height };
}

async function smallEnough(surface: Surface): Promise<Blob> {
  let jpeg = new Blob();
  for (const quality of QUALITIES) {
    jpeg = await surface.toJpeg(quality);
    if (jpeg.size <= GOAL_BYTES) break;
  }
  return jpeg;
}

/** SHA-256 in hex: the name under which a photo or sound travels. */
export async function sha256Hex(bytes: ArrayBuffer): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
