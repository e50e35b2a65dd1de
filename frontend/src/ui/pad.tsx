/** Our own number pad: comma and dot, sign, clear, another reading, keep. It only says which key was pressed. */
import { useLayoutEffect, useRef } from "preact/hooks";
import { makeGate } from "./calm";

export type PadWords = {
  erase: string;
  sign: string;
  clear: string;
  again: string;
  keep: string;
  comma: string;
  dot: string;
};
export type PadKey =
  "0" | "1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9" | "," | "." | "sign" | "erase" | "clear";
const ROWS: readonly (readonly PadKey[])[] = [
  ["7", "8", "9"],
  ["4", "5", "6"],
  ["1", "2", "3"],
];
type PadProps = {
  onKey: (key: PadKey) => void;
  onKeep: () => void;
  onAgain?: (() => void) | undefined;
  signed: boolean;
  canKeep: boolean;
  canAgain?: boolean;
  /** false where the key only enters and a second tap does no harm */
  calm?: boolean;
  words: PadWords;
};

/** Shows three columns of keys and one of acts; `onKeep` is deaf for a moment after it acted. */
export function Pad(props: PadProps) {
  const gate = useRef(makeGate());
  const { onKey, words } = props;
  const keep = (at: number) => {
    if (props.canKeep && (props.calm === false || gate.current.pass(at))) props.onKeep();
  };
  useTypedKeys(onKey, keep);
  const [top = [], middle = [], bottom = []] = ROWS;
  const key = (name: PadKey, label: string = name) => (
    <button key={name} type="button" class="key" aria-label={label} onClick={() => onKey(name)}>
      {name}
    </button>
  );
  const act = (name: PadKey, label: string, sign: string) => (
    <button type="button" class="act" aria-label={label} onClick={() => onKey(name)}>
      {sign}
    </button>
  );
  return (
    <div class="pad" role="group">
      {top.map((digit) => key(digit))}
      {act("erase", words.erase, "⌫")}
      {middle.map((digit) => key(digit))}
      {props.onAgain ? (
        <button
          type="button"
          class={`act ${widthOf(words.again)}`}
          disabled={!props.canAgain}
          onClick={props.onAgain}
        >
          {words.again}
        </button>
      ) : (
        act("clear", words.clear, "C")
      )}
      {bottom.map((digit) => key(digit))}
      <button
        type="button"
        class={`keep ${widthOf(words.keep)}`}
        disabled={!props.canKeep}
        onClick={(event) => keep(event.timeStamp)}
      >
        {words.keep}
      </button>
      {key(",", words.comma)}
      {key("0")}
      {key(".", words.dot)}
      {props.signed ? <SignRow label={words.sign} onTap={() => onKey("sign")} /> : null}
    </div>
  );
}

/** A word as wide as the column of acts, in one language or another, is set smaller rather than broken. */
function widthOf(words: string): string {
  return words.split(" ").some((word) => word.length > 5) ? "long" : "";
}

const TYPED: Partial<Record<string, PadKey>> = {
  ...Object.fromEntries([..."0123456789,."].map((sign) => [sign, sign as PadKey])),
  "-": "sign",
  Backspace: "erase",
};

/** Keys closer together than this come from a gauge, not from fingers. */
const GAUGE_GAP_MS = 40;
type Typist = { onKey: (key: PadKey) => void; onEnter: (at: number) => void };

/**
 * Keys of a hardware keyboard, or of a gauge that types what it shows and then Enter. Enter keeps only right after
 * digits: a person who moves about with Tab means the button that has the focus.
 */
function useTypedKeys(onKey: Typist["onKey"], onEnter: Typist["onEnter"]): void {
  const now = useRef<Typist>({ onKey, onEnter });
  now.current = { onKey, onEnter };
  useLayoutEffect(() => {
    const pressed = listenToKeys(now);
    document.addEventListener("keydown", pressed);
    return () => document.removeEventListener("keydown", pressed);
  }, []);
}

function listenToKeys(now: { current: Typist }): (event: KeyboardEvent) => void {
  let run: { key: PadKey; at: number }[] = [];
  return (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || isInText(event.target)) return;
    const key = TYPED[event.key];
    if (!key && !(event.key === "Enter" && run.length > 0)) {
      run = [];
      return;
    }
    event.preventDefault();
    if (key) {
      run = [...run, { key, at: event.timeStamp }];
      now.current.onKey(key);
      return;
    }
    if (isGauge(run))
      for (const again of ["clear" as const, ...run.map((one) => one.key)]) now.current.onKey(again);
    run = [];
    // What was typed must be on the screen before it is kept.
    setTimeout(() => now.current.onEnter(event.timeStamp));
  };
}

/** A gauge says a whole reading at once: digits that stood there before are not part of it. */
function isGauge(run: readonly { at: number }[]): boolean {
  return run.length > 1 && run.every(({ at }, place) => at - (run[place - 1]?.at ?? at) < GAUGE_GAP_MS);
}

function isInText(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement;
}

function SignRow({ label, onTap }: { label: string; onTap: () => void }) {
  return (
    <button type="button" class="act sign-row" onClick={onTap}>
      ± {label}
    </button>
  );
}
