/** How sharp a picture is: by how few pixels its clearest edges need to go from dark to light. */

/** Pictures are looked at with their long edge this long: small enough to be quick, and the camera's noise averages out. */
export const LOOK_PX = 512;
/**
 * An edge between two plain surfaces, blurred by a Gaussian of s pixels, has a steepest step of 0.4 / s of its height:
 * this is s = 2 of 512, where writing as high as a fortieth of the picture can no longer be read.
 * Chosen between what drawn scenes give at s = 1.2 (still easily read: 0.28 and more) and at s = 3 (below 0.18).
 */
export const BLURRED_BELOW = 0.2;
const TILE_PX = 32;
/** How far around its steepest pixel an edge is followed. */
const REACH_PX = 8;
/** Of 255: fainter edges drown in noise. */
const LEAST_HEIGHT = 48;
/** With fewer edges nothing is said of the picture. */
const LEAST_EDGES = 6;
/** The picture counts as sharp when a tenth of its edges are: what lies behind the subject may be out of focus. */
const SHARPEST_SHARE = 0.1;

/** Brightness from 0 to 255, row by row. */
export type Grey = { values: Float32Array; width: number; height: number };

/**
 * The steepest step of the sharpest edges as a share of their height, up to about 0.7; null when there are too few
 * edges to tell, as on a plain or dark surface. Noise hides blur, so that nothing is said of a noisy picture either;
 * blur along one direction only is not seen where edges along that direction are sharp.
 */
export function sharpness(grey: Grey): number | null {
  const steps: number[] = [];
  for (let top = 0; top + TILE_PX <= grey.height; top += TILE_PX)
    for (let left = 0; left + TILE_PX <= grey.width; left += TILE_PX) {
      const step = steepestIn(grey, left, top);
      if (step !== null) steps.push(step);
    }
  if (steps.length < LEAST_EDGES) return null;
  return steps.sort((a, b) => b - a)[Math.floor(steps.length * SHARPEST_SHARE)] ?? null;
}

/** Whether a person should be asked if the picture will do. */
export function isBlurred(grey: Grey): boolean {
  const found = sharpness(grey);
  return found !== null && found < BLURRED_BELOW;
}

/** rgba: four values a pixel. The weights are those of ITU-R BT.601. */
export function greyOf(rgba: Uint8ClampedArray, width: number, height: number): Grey {
  const values = new Float32Array(width * height);
  for (let at = 0; at < values.length; at += 1) {
    const [red = 0, green = 0, blue = 0] = [rgba[4 * at], rgba[4 * at + 1], rgba[4 * at + 2]];
    values[at] = 0.299 * red + 0.587 * green + 0.114 * blue;
  }
  return { values, width, height };
}

/** The steepest step of a tile as a share of the height of its edge; null when that is too low. */
function steepestIn(grey: Grey, left: number, top: number): number | null {
  let [steepest, x, y] = [0, left, top];
  for (let row = Math.max(1, top); row < Math.min(grey.height - 1, top + TILE_PX); row += 1)
    for (let column = Math.max(1, left); column < Math.min(grey.width - 1, left + TILE_PX); column += 1) {
      const step = stepAt(grey, column, row);
      if (step > steepest) [steepest, x, y] = [step, column, row];
    }
  const height = heightAround(grey, x, y);
  return height < LEAST_HEIGHT ? null : steepest / height;
}

/** How much brighter it gets in one pixel, in the direction in which it changes most. */
function stepAt({ values, width }: Grey, x: number, y: number): number {
  const at = y * width + x;
  const across = (values[at + 1] ?? 0) - (values[at - 1] ?? 0);
  const down = (values[at + width] ?? 0) - (values[at - width] ?? 0);
  return Math.hypot(across, down) / 2;
}

function heightAround({ values, width, height }: Grey, x: number, y: number): number {
  let [darkest, lightest] = [255, 0];
  for (let row = Math.max(0, y - REACH_PX); row <= Math.min(height - 1, y + REACH_PX); row += 1)
    for (let column = Math.max(0, x - REACH_PX); column <= Math.min(width - 1, x + REACH_PX); column += 1) {
      const value = values[row * width + column] ?? 0;
      darkest = Math.min(darkest, value);
      lightest = Math.max(lightest, value);
    }
  return lightest - darkest;
}
