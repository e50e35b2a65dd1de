/** A labelled text field that reports when it is left, and on every key for drafts. */
import { useEffect, useId, useRef, useState } from "preact/hooks";
import type { ComponentChildren } from "preact";
import { useLeaving } from "./leaving";

type Common = {
  id: string;
  value: string;
  "aria-describedby": string;
  autocomplete: "username" | "current-password" | "off";
  autocapitalize: "characters" | "sentences" | "none";
  spellcheck: boolean;
  class: string;
  onInput: (event: Event) => void;
  onBlur: () => void;
};

export type FieldProps = {
  label: string;
  value: string;
  onLeave?: (text: string) => void;
  onType?: (text: string) => void;
  hint?: string | undefined;
  /** what the field says about its content; announced */
  told?: ComponentChildren;
  lines?: boolean;
  figure?: boolean;
  kind?: "text" | "email" | "password" | "decimal" | "numeric";
  autocomplete?: "username" | "current-password" | "off";
  beside?: ComponentChildren;
};

/** `onLeave` is called with the text when focus goes or the page is hidden, only if it changed. */
export function Field(props: FieldProps) {
  const id = useId();
  const { text, type, leave } = useText(props);
  const common: Common = {
    id,
    value: text,
    "aria-describedby": `${id}-hint ${id}-told`,
    autocomplete: props.autocomplete ?? "off",
    autocapitalize: capitals(props),
    spellcheck: false,
    class: props.figure ? "as-figure" : "",
    onInput: (event: Event) => type(textOf(event)),
    onBlur: leave,
  };
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <div class="field-box">
        {props.lines ? <textarea rows={3} {...common} /> : <Line kind={props.kind} common={common} />}
        {props.beside}
      </div>
      {props.hint ? (
        <p class="field-hint" id={`${id}-hint`}>
          {props.hint}
        </p>
      ) : null}
      <div id={`${id}-told`} aria-live="polite">
        {props.told}
      </div>
    </div>
  );
}

function capitals({ figure, kind }: FieldProps): "characters" | "sentences" | "none" {
  if (figure) return "characters";
  return kind === "email" || kind === "password" ? "none" : "sentences";
}

function textOf(event: Event): string {
  const from = event.target;
  return from instanceof HTMLInputElement || from instanceof HTMLTextAreaElement ? from.value : "";
}

function Line({ kind = "text", common }: { kind: FieldProps["kind"]; common: Common }) {
  switch (kind) {
    case "password":
      return <input type="password" {...common} />;
    case "email":
      return <input type="email" {...common} />;
    case "text":
      return <input type="text" {...common} />;
    default:
      return <input type="text" inputMode={kind} {...common} />;
  }
}

function useText({ value, onLeave, onType }: FieldProps) {
  const [text, setText] = useState(value);
  const last = useRef({ text: value, kept: value });
  useEffect(() => {
    if (last.current.text !== last.current.kept) return;
    last.current = { text: value, kept: value };
    setText(value);
  }, [value]);
  const leave = () => {
    if (last.current.text === last.current.kept) return;
    last.current.kept = last.current.text;
    onLeave?.(last.current.text);
  };
  useLeaving(leave);
  const type = (next: string) => {
    last.current.text = next;
    setText(next);
    onType?.(next);
  };
  return { text, type, leave };
}
