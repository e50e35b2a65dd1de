/** The moment a screen or field is left: taken away, or its page hidden or gone. */
import { useEffect, useRef } from "preact/hooks";

/** Calls `leave` whenever that happens; it may happen more than once. */
export function useLeaving(leave: () => void): void {
  const leaving = useRef(leave);
  leaving.current = leave;
  useEffect(() => {
    const hidden = () => {
      if (document.visibilityState === "hidden") leaving.current();
    };
    const left = () => leaving.current();
    document.addEventListener("visibilitychange", hidden);
    // captured: before the store rests
    window.addEventListener("pagehide", left, true);
    return () => {
      document.removeEventListener("visibilitychange", hidden);
      window.removeEventListener("pagehide", left, true);
      leaving.current();
    };
  }, []);
}
