/** What grows above the screen must not push away what a finger is about to tap. */
import { useLayoutEffect, useRef } from "preact/hooks";

/** Gives the ref of a part of the page; while that lies above the screen, what is below it stays where it is. */
export function useSteady<E extends HTMLElement>() {
  const part = useRef<E>(null);
  const before = part.current?.getBoundingClientRect().bottom ?? 0;
  useLayoutEffect(() => {
    if (holdsStill() || part.current === null || before >= 0) return;
    const grown = part.current.getBoundingClientRect().bottom - before;
    if (grown !== 0) window.scrollBy(0, grown);
  });
  return part;
}

/** Whether the browser does this by itself. */
function holdsStill(): boolean {
  return typeof CSS !== "undefined" && CSS.supports("overflow-anchor", "auto");
}
