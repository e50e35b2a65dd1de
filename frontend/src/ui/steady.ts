/** What grows above the screen must not push away what a finger is about to tap. */
import { useLayoutEffect, useRef } from "preact/hooks";

/** Gives the ref of a part of the page; while that lies above the screen, what is below it stays where it is. */
export function useSteady<E extends HTMLElement>() {
  const part = useRef<E>(null);
  const before = part.current?.getBoundingClientRect().bottom ?? 0;
  useLayoutEffect(() => {
    if (part.current === null || before >= 0 || holdsStill()) return;
    const grown = part.current.getBoundingClientRect().bottom - before;
    if (grown !== 0) window.scrollBy(0, grown);
  });
  return part;
}

/** Whether the browser does this by itself. */
function holdsStill(): boolean {
  const { CSS: css }: { CSS?: Partial<Pick<typeof CSS, "supports">> } = globalThis;
  return css?.supports?.("overflow-anchor", "auto") === true;
}
