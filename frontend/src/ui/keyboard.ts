/** Knows when the on-screen keyboard covers part of the page, so that bars at the bottom do not stand on what is typed. */

type View = Pick<
  VisualViewport,
  "height" | "offsetTop" | "scale" | "addEventListener" | "removeEventListener"
>;

/** Smaller gaps are the browser's own bars. */
const LEAST_PX = 120;

/** Height in px that something covers at the bottom; 0 for bars, and while the page is zoomed by hand. */
export function coveredPx(
  pageHeight: number,
  { height, offsetTop, scale }: Pick<View, "height" | "offsetTop" | "scale">,
): number {
  const covered = Math.round(pageHeight - height - offsetTop);
  return scale === 1 && covered >= LEAST_PX ? covered : 0;
}

/** Marks the page's root while the keyboard is up (`data-keyboard`, and `--covered` for its height); gives the end of it. */
export function watchKeyboard(view: View | null, pageHeight: () => number, root: HTMLElement): () => void {
  if (view === null) return () => undefined;
  const look = () => {
    const covered = coveredPx(pageHeight(), view);
    root.dataset["keyboard"] = covered > 0 ? "up" : "down";
    root.style.setProperty("--covered", `${covered}px`);
  };
  view.addEventListener("resize", look);
  view.addEventListener("scroll", look);
  return () => {
    view.removeEventListener("resize", look);
    view.removeEventListener("scroll", look);
  };
}
