/** What covers the whole screen for a while: keeps the focus inside, closes with Escape, gives the focus back. */
import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

type OverlayProps = {
  /** what a screen reader says of it */
  name: string;
  look?: string;
  /** Escape, or the phone's own way back */
  onClose: () => void;
  children: ComponentChildren;
};

/** The browser's own dialog: what lies behind is out of reach for fingers, Tab and screen readers alike. */
export function Overlay({ name, look = "", onClose, children }: OverlayProps) {
  const frame = useRef<HTMLDialogElement>(null);
  const isGone = useRef(false);
  useLayoutEffect(() => {
    const dialog = frame.current;
    if (dialog === null) return;
    show(dialog);
    return () => {
      isGone.current = true;
      // Taken off the page while open, a dialog would keep the focus to itself: closing gives it back.
      if (dialog.open) close(dialog);
    };
  }, []);
  return (
    <dialog
      ref={frame}
      class={`finder ${look}`}
      aria-label={name}
      tabIndex={-1}
      onClose={() => !isGone.current && onClose()}
    >
      {children}
    </dialog>
  );
}

type Modal = Partial<Pick<HTMLDialogElement, "showModal" | "close">>;

function show(dialog: HTMLDialogElement): void {
  const { showModal }: Modal = dialog;
  if (showModal) showModal.call(dialog);
  else dialog.open = true;
  dialog.focus();
}

function close(dialog: HTMLDialogElement): void {
  const { close: shut }: Modal = dialog;
  if (shut) shut.call(dialog);
  else dialog.open = false;
}
