/** What a person draws on a copy of a photo: rings, arrows, hatched areas and words, in parts of its width and height. */

export type Point = { x: number; y: number };
export type MarkTool = "ring" | "arrow" | "hatch";
export type PhotoMark = { is: MarkTool; from: Point; to: Point } | { is: "text"; at: Point; words: string };
type Size = { width: number; height: number };
type Line = readonly [Point, Point];

/** Shorter strokes are slips of the finger; in parts of the width. */
const SHORTEST = 0.015;

/** A mark from one drag, or null when the finger hardly moved. */
export function markOf(is: MarkTool, from: Point, to: Point): PhotoMark | null {
  return Math.hypot(to.x - from.x, to.y - from.y) < SHORTEST ? null : { is, from, to };
}

/** The point of a picture under a finger; `box` is where the picture lies on the screen. Held inside the picture. */
export function pointIn(box: { left: number; top: number } & Size, x: number, y: number): Point {
  const held = (part: number) => Math.min(1, Math.max(0, part));
  return { x: held((x - box.left) / box.width), y: held((y - box.top) / box.height) };
}

/** The two strokes of an arrow's head, in px. */
export function headOf(from: Point, to: Point, long: number): Line[] {
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  return [angle - 0.5, angle + 0.5].map((turned) => [
    to,
    { x: to.x - long * Math.cos(turned), y: to.y - long * Math.sin(turned) },
  ]);
}

/** Slanted lines `gap` px apart that fill the box between two corners, in px. */
export function hatchOf(a: Point, b: Point, gap: number): Line[] {
  const [left, right] = [Math.min(a.x, b.x), Math.max(a.x, b.x)];
  const [top, bottom] = [Math.min(a.y, b.y), Math.max(a.y, b.y)];
  const lines: Line[] = [];
  // Each line has the same x + y.
  for (let sum = left + top + gap; sum < right + bottom; sum += gap) {
    const x1 = Math.max(left, sum - bottom);
    const x2 = Math.min(right, sum - top);
    lines.push([
      { x: x1, y: sum - x1 },
      { x: x2, y: sum - x2 },
    ]);
  }
  return lines;
}

type Pen = CanvasPath &
  CanvasText &
  CanvasPathDrawingStyles &
  CanvasTextDrawingStyles &
  CanvasFillStrokeStyles &
  CanvasDrawPath &
  CanvasRect;

/** Draws every mark twice, white under black, so that it shows on any ground and on a black-and-white print. */
export function drawMarks(pen: Pen, marks: readonly PhotoMark[], size: Size): void {
  const thin = Math.max(3, Math.round(Math.max(size.width, size.height) / 220));
  pen.lineCap = "round";
  pen.lineJoin = "round";
  for (const mark of marks) {
    if (mark.is === "text") {
      drawWords(pen, mark, size, thin);
      continue;
    }
    for (const [colour, width] of [
      ["#ffffff", thin * 3],
      ["#0f1719", thin],
    ] as const) {
      pen.strokeStyle = colour;
      pen.lineWidth = mark.is === "hatch" ? width * 0.7 : width;
      pen.beginPath();
      trace(pen, mark, size, thin);
      pen.stroke();
    }
  }
}

function trace(
  pen: Pen,
  { is, from, to }: Extract<PhotoMark, { is: MarkTool }>,
  size: Size,
  thin: number,
): void {
  const [a, b] = [inPx(from, size), inPx(to, size)];
  if (is === "ring") {
    const [across, down] = [Math.abs(b.x - a.x) / 2, Math.abs(b.y - a.y) / 2];
    pen.ellipse((a.x + b.x) / 2, (a.y + b.y) / 2, across, down, 0, 0, 2 * Math.PI);
    return;
  }
  const lines: Line[] = is === "arrow" ? [[a, b], ...headOf(a, b, thin * 8)] : hatchOf(a, b, thin * 6);
  for (const [start, end] of lines) {
    pen.moveTo(start.x, start.y);
    pen.lineTo(end.x, end.y);
  }
  if (is === "hatch")
    pen.rect(Math.min(a.x, b.x), Math.min(a.y, b.y), Math.abs(b.x - a.x), Math.abs(b.y - a.y));
}

function drawWords(
  pen: Pen,
  { at, words }: Extract<PhotoMark, { is: "text" }>,
  size: Size,
  thin: number,
): void {
  const high = thin * 9;
  pen.font = `700 ${high}px system-ui, sans-serif`;
  pen.textBaseline = "top";
  const wide = pen.measureText(words).width + thin * 4;
  const x = Math.min(at.x * size.width, Math.max(0, size.width - wide));
  const y = Math.min(at.y * size.height, Math.max(0, size.height - high * 1.4));
  pen.fillStyle = "#0f1719";
  pen.fillRect(x - thin, y - thin, wide + thin * 2, high * 1.4 + thin * 2);
  pen.fillStyle = "#ffffff";
  pen.fillRect(x, y, wide, high * 1.4);
  pen.fillStyle = "#0f1719";
  pen.fillText(words, x + thin * 2, y + high * 0.2);
}

function inPx({ x, y }: Point, { width, height }: Size): Point {
  return { x: x * width, y: y * height };
}
