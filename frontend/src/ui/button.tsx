/** The one button. A `calm` button ignores further taps for a moment after it acted. */
import type { ComponentChildren } from "preact";
import { useRef } from "preact/hooks";
import { makeGate } from "./calm";

export type ButtonLook = "plain" | "strong" | "quiet";

export type ButtonProps = {
  children: ComponentChildren;
  onTap: () => void;
  look?: ButtonLook;
  wide?: boolean;
  calm?: boolean;
  disabled?: boolean;
  pressed?: boolean | undefined;
  name?: string | undefined;
};

/** name: what a screen reader says, when the visible words are too few. */
export function Button({
  children,
  onTap,
  look = "plain",
  wide = false,
  calm = false,
  disabled = false,
  pressed,
  name,
}: ButtonProps) {
  const gate = useRef(makeGate());
  return (
    <button
      type="button"
      class={`button ${look}${wide ? " wide" : ""}`}
      disabled={disabled}
      aria-pressed={pressed}
      aria-label={name}
      onClick={(event) => {
        if (!calm || gate.current.pass(event.timeStamp)) onTap();
      }}
    >
      {children}
    </button>
  );
}
