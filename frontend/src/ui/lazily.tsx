/** A part of a screen that comes in its own file, fetched (from the cache, as a rule) when it is first shown. */
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";

/** Shows nothing until the file is there. A file that cannot be fetched is asked for again when it is next shown. */
export function lazily<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  let Here: ComponentType<P> | null = null;
  return function Lazily(props: P) {
    const [, redraw] = useState({});
    useEffect(() => {
      if (Here !== null) return;
      load().then(
        (loaded) => {
          Here = loaded;
          redraw({});
        },
        () => undefined,
      );
    }, []);
    return Here === null ? null : <Here {...props} />;
  };
}
