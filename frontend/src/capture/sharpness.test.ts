// @vitest-environment node
/** Drawn scenes, blurred by known amounts: the tool asks about what cannot be read, and leaves sharp and plain ones alone. */
import { describe, expect, test } from "vitest";
import { greyOf, isBlurred, sharpness, type Grey } from "./sharpness";

/** A quarter of what is looked at in a photo: the measure is in pixels, so a part does as well. */
const [WIDTH, HEIGHT] = [256, 192];
/** Blur in pixels of 512: none, a good camera's, still easily read, and two that make small writing unreadable. */
const SHARP = [0, 0.7, 1.2];
const BLURRED = [3, 4, 6];

type Paint = (x: number, y: number) => number;

/** A row of numbers that look thrown, the same each time. */
function dice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Roundish parts before a grey wall, as under a car: `contrast` 1 is daylight. */
function parts(contrast: number): Paint {
  const roll = dice(7);
  const discs = Array.from({ length: 60 }, () => ({
    x: roll() * WIDTH,
    y: roll() * HEIGHT,
    r: 5 + roll() * 45,
    light: 30 + roll() * 190,
  }));
  return (x, y) => {
    const front = discs.findLast((disc) => Math.hypot(x - disc.x, y - disc.y) < disc.r);
    return 110 + ((front?.light ?? 110) - 110) * contrast;
  };
}

const SCENES: Record<string, Paint> = {
  "one edge": (x) => (x < WIDTH / 2 ? 60 : 190),
  "bars as of a plate": (x) => (Math.floor(x / 16) % 2 === 0 ? 60 : 190),
  "strokes as of writing": (x, y) => (y % 28 < 12 && (x * 7 + Math.floor(y / 28) * 13) % 11 < 4 ? 30 : 200),
  "parts in daylight": parts(1),
};

function draw(paint: Paint): Grey {
  const values = Float32Array.from({ length: WIDTH * HEIGHT }, (_, at) =>
    paint(at % WIDTH, Math.floor(at / WIDTH)),
  );
  return { values, width: WIDTH, height: HEIGHT };
}

function blur(grey: Grey, sigma: number): Grey {
  if (sigma === 0) return grey;
  return pass(pass(grey, sigma, 1, 0), sigma, 0, 1);
}

function pass({ values, width, height }: Grey, sigma: number, across: number, down: number): Grey {
  const reach = Math.ceil(3 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, at) =>
    Math.exp(-((at - reach) ** 2) / (2 * sigma ** 2)),
  );
  const sum = weights.reduce((a, b) => a + b);
  const within = (at: number, end: number) => Math.min(end - 1, Math.max(0, at));
  const blurred = values.map((_, at) => {
    const [x, y] = [at % width, Math.floor(at / width)];
    let light = 0;
    for (let n = 0; n < weights.length; n += 1) {
      const [column, row] = [within(x + across * (n - reach), width), within(y + down * (n - reach), height)];
      light += ((weights[n] ?? 0) / sum) * (values[row * width + column] ?? 0);
    }
    return light;
  });
  return { values: blurred, width, height };
}

/** With a camera's noise of so many levels (standard deviation), and rounded as a picture is. */
function noisy(grey: Grey, levels: number): Grey {
  const roll = dice(3);
  const bell = () => Math.sqrt(-2 * Math.log(1 - roll())) * Math.cos(2 * Math.PI * roll());
  const values = grey.values.map((value) => Math.round(Math.min(255, Math.max(0, value + levels * bell()))));
  return { ...grey, values };
}

describe.each(Object.entries(SCENES))("%s", (_, paint) => {
  const scene = draw(paint);

  test.each(SHARP)("blurred by %s px is not asked about, with noise or without", (sigma) => {
    expect([0, 2, 8].map((levels) => isBlurred(noisy(blur(scene, sigma), levels)))).toEqual([
      false,
      false,
      false,
    ]);
  });
});

describe.each(["one edge", "bars as of a plate", "parts in daylight"])("%s", (name) => {
  test.each(BLURRED)("blurred by %s px is asked about", (sigma) => {
    const scene = draw(SCENES[name] ?? (() => 0));
    expect([0, 1].map((levels) => isBlurred(noisy(blur(scene, sigma), levels)))).toEqual([true, true]);
  });
});

test("an edge blurred by s pixels steps by 0.4 / s of its height, as a Gaussian does", () => {
  const scene = draw(SCENES["one edge"] ?? (() => 0));
  for (const sigma of [1.5, 2, 3]) {
    const share = (sharpness(blur(scene, sigma)) ?? 0) / (0.4 / sigma);
    expect(share > 0.85 && share < 1.05, `${sigma} px: ${share}`).toBe(true);
  }
});

describe("nothing is said of", () => {
  test.each([
    ["a plain wall", draw(() => 90)],
    ["a wall with light falling along it", draw((x) => 70 + x / 6)],
    ["dark parts in a pit", draw(parts(0.08))],
    ["a blurred picture that is all noise", noisy(blur(draw(parts(1)), 4), 12)],
  ])("%s", (_, grey) => {
    expect(isBlurred(grey)).toBe(false);
  });

  test("a picture smaller than one tile", () => {
    expect(sharpness({ values: new Float32Array(100), width: 10, height: 10 })).toBeNull();
  });
});

test("a sharp subject before a blurred background is sharp", () => {
  const [far, near] = [blur(draw(parts(1)), 6), draw(SCENES["bars as of a plate"] ?? (() => 0))];
  const values = far.values.map((value, at) => {
    const [x, y] = [at % WIDTH, Math.floor(at / WIDTH)];
    return x > 60 && x < 200 && y > 40 && y < 150 ? (near.values[at] ?? 0) : value;
  });
  expect(isBlurred({ ...far, values })).toBe(false);
});

test("grey is weighed as the eye sees red, green and blue", () => {
  const rgba = new Uint8ClampedArray([255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255, 255, 255, 255, 0]);
  expect([...greyOf(rgba, 2, 2).values].map(Math.round)).toEqual([76, 150, 29, 255]);
});
