/** The readings of a run as a line, while they come in. */
import { formatNumber } from "../../../words/words";
import { unitText } from "../figures";
import { say } from "../say";

type Sample = readonly [seconds: number, value: number];
export type Plot = { points: string; lo: number; hi: number };

const WIDTH = 300;
const HEIGHT = 100;

/** Points for an SVG of 300 by 100, time to the right; a level line lies in the middle. Null without a reading. */
export function plotOf(samples: readonly Sample[], seconds: number): Plot | null {
  const values = samples.map(([, value]) => value);
  const [first] = values;
  if (first === undefined) return null;
  const lo = Math.min(...values);
  const hi = Math.max(...values);
  const end = Math.max(seconds, ...samples.map(([at]) => at));
  const x = (at: number) => (end === 0 ? 0 : (at / end) * WIDTH);
  const y = (value: number) => (hi === lo ? HEIGHT / 2 : HEIGHT - ((value - lo) / (hi - lo)) * HEIGHT);
  const points = samples.map(([at, value]) => `${round(x(at))},${round(y(value))}`).join(" ");
  return { points, lo, hi };
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

type Props = { samples: readonly Sample[]; seconds: number; now_s: number; unit: string };

export function RunPlot({ samples, seconds, now_s, unit }: Props) {
  const plot = plotOf(samples, seconds);
  if (plot === null) return null;
  const last = plot.points.split(" ").at(-1)?.split(",") ?? [];
  const nowX = round((Math.min(now_s, seconds) / seconds) * WIDTH);
  const name = say("plot-says", {
    n: samples.length,
    lo: plot.lo,
    hi: plot.hi,
    unit: unitText(unit),
  });
  return (
    <figure class="plot">
      <svg
        viewBox={`-4 -6 ${WIDTH + 8} ${HEIGHT + 12}`}
        preserveAspectRatio="none"
        role="img"
        aria-label={name}
      >
        <line class="plot-now" x1={nowX} x2={nowX} y1={-6} y2={HEIGHT + 6} />
        <polyline class="plot-line" points={plot.points} />
        <circle class="plot-last" cx={last[0]} cy={last[1]} r="4" />
      </svg>
      <figcaption class="plot-ends" aria-hidden="true">
        <span>{formatNumber(plot.hi)}</span>
        <span>{formatNumber(plot.lo)}</span>
      </figcaption>
    </figure>
  );
}
