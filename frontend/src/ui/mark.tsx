/** Marks of state. Shape and strength carry the meaning, the word beside it says it. */

export type MarkShape = "line" | "dot" | "dashed" | "hollow" | "tilde" | "two" | 0 | 1 | 2 | 3;

/** shape: bars 0-3 for a grade; line = in order; hollow = not checked; tilde = too close; two = disagreement. */
export function Mark({ shape, word }: { shape: MarkShape; word: string }) {
  return (
    <span class="mark">
      <Sign shape={shape} />
      <span>{word}</span>
    </span>
  );
}

/** The sign without its word; only where the word stands nearby. */
export function Sign({ shape }: { shape: MarkShape }) {
  return (
    <svg class="sign" viewBox="0 0 28 20" aria-hidden="true" focusable="false">
      {drawing(shape)}
    </svg>
  );
}

function drawing(shape: MarkShape) {
  switch (shape) {
    case "line":
      return <path class="line" d="M4 10H24" />;
    case "dot":
      return <circle cx="14" cy="10" r="4" fill="currentColor" />;
    case "dashed":
      return <rect class="frame void" x="4" y="3" width="20" height="14" />;
    case "hollow":
      return <rect class="frame" x="4" y="3" width="20" height="14" />;
    case "tilde":
      return <path class="line" d="M4 12C8 4 12 6 14 10S20 16 24 8" />;
    case "two":
      return <path class="line" d="M3 6H18M10 14H25" />;
    default:
      return bars(shape);
  }
}

function bars(count: 0 | 1 | 2 | 3) {
  if (count === 0) return <rect class="frame" x="3" y="2" width="6" height="16" />;
  return [0, 1, 2]
    .slice(0, count)
    .map((at) => <rect key={at} class={`bar bar-${count}`} x={3 + at * 8} y="2" width="6" height="16" />);
}
