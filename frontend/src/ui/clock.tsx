/** The big face of a stopwatch or countdown. */
import type { ComponentChildren } from "preact";

/** `m:ss.t` under way, tenths only when asked for; never negative. */
export function clockText(ms: number, tenths: boolean): string {
  const whole = Math.max(0, Math.floor(ms / 100));
  const minutes = Math.floor(whole / 600);
  const seconds = Math.floor((whole % 600) / 10);
  const text = `${minutes}:${String(seconds).padStart(2, "0")}`;
  return tenths ? `${text}.${whole % 10}` : text;
}

type FaceProps = {
  text: string;
  name: string;
  due?: boolean;
  progress?: number;
  children?: ComponentChildren;
};

/** progress: 0 to 1, shown as a bar under the figures. */
export function Face({ text, name, due = false, progress, children }: FaceProps) {
  return (
    <div class={due ? "clock due" : "clock"}>
      <span class="label">{name}</span>
      <span class="figure face" role="timer" aria-label={name}>
        {text}
      </span>
      {progress === undefined ? null : <progress max={1} value={progress} aria-label={name} />}
      {children}
    </div>
  );
}
