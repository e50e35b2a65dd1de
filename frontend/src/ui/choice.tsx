/** A full-width choice: the answer of one tap, or one of several boxes to tick. */
import type { ComponentChildren } from "preact";

type ChoiceProps = {
  label: string;
  onTap: (at: number) => void;
  pressed?: boolean;
  disabled?: boolean;
  children?: ComponentChildren;
};

/** One tap, one answer. `onTap` gets the time of the tap for the caller's gate. */
export function Choice({ label, onTap, pressed = false, disabled = false, children }: ChoiceProps) {
  return (
    <button
      type="button"
      class="choice"
      aria-pressed={pressed}
      aria-disabled={disabled}
      onClick={(event) => {
        if (!disabled) onTap(event.timeStamp);
      }}
    >
      <span>{label}</span>
      {children}
    </button>
  );
}

type TickProps = {
  label: string;
  ticked: boolean;
  onTick: (ticked: boolean) => void;
  hint?: string | undefined;
};

/** One of several that may be ticked. */
export function Tick({ label, ticked, onTick, hint }: TickProps) {
  return (
    <button
      type="button"
      class="choice"
      role="checkbox"
      aria-checked={ticked}
      onClick={() => onTick(!ticked)}
    >
      <span class="choice-box" aria-hidden="true" />
      <span>
        {label}
        {hint ? <span class="choice-hint">{hint}</span> : null}
      </span>
    </button>
  );
}

type PickProps<T extends string> = {
  legend: string;
  options: readonly { id: T; label: string; children?: ComponentChildren }[];
  picked: T | null;
  onPick: (id: T) => void;
};

/** Exactly one of a few, as a radio group of big rows. */
export function Pick<T extends string>({ legend, options, picked, onPick }: PickProps<T>) {
  return (
    <div class="stack" role="radiogroup" aria-label={legend}>
      <p class="field-name pick-legend">{legend}</p>
      {options.map((option) => (
        <button
          key={option.id}
          type="button"
          class="choice"
          role="radio"
          aria-checked={picked === option.id}
          onClick={() => onPick(option.id)}
        >
          <span class="choice-box" aria-hidden="true" />
          <span>{option.label}</span>
          {option.children}
        </button>
      ))}
    </div>
  );
}
