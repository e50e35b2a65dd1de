/** How to do the check: the first lines on a small screen, the rest one tap away. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";

export function How({ lines }: { lines: readonly string[] }) {
  const [open, setOpen] = useState(false);
  const { text, isCut } = useCut();
  const words = lines.join(" ");
  if (!isCut && !open)
    return (
      <p class="how">
        <span ref={text}>{words}</span>
      </p>
    );
  return (
    <button type="button" class="how" aria-expanded={open} onClick={() => setOpen(!open)}>
      <span ref={text}>{words}</span>
      <span class="how-more" aria-hidden="true">
        {open ? "−" : "+"}
      </span>
    </button>
  );
}

/** Whether the text is longer than its lines, asked before it is first seen and whenever the phone is turned. */
function useCut() {
  const [isCut, setIsCut] = useState(false);
  const text = useRef<HTMLSpanElement>(null);
  useLayoutEffect(() => {
    const measure = () => {
      const span = text.current;
      if (span === null || span.closest("[aria-expanded=true]")) return; // shown whole, it tells nothing
      setIsCut(span.scrollHeight > span.clientHeight + 2);
    };
    measure();
    window.addEventListener("resize", measure);
    return () => window.removeEventListener("resize", measure);
  }, []);
  return { text, isCut };
}
