/** Photos of the desk: small in the row, full size in a window of their own, with the arrow keys to go on. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { CardState, EntryOf } from "../../journal/types";
import { Button } from "../../ui/button";
import { Picture } from "../bay/photos";
import { useBay } from "../bay/context";
import { roundName } from "../bay/vehicle";
import { stepName, stepOfSlot } from "./evidence-of";
import { tell } from "./tell";
import { Who } from "./trail";

type Photo = EntryOf<"photo">;
type Props = { photos: readonly Photo[]; state: CardState; named?: boolean };

/** named: what each photo is of stands below it. */
export function PhotoRow({ photos, state, named = false }: Props) {
  const [at, setAt] = useState<number | null>(null);
  if (photos.length === 0) return null;
  return (
    <>
      <ul class="desk-photos">
        {photos.map((photo, n) => {
          const name = photoName(photo, state);
          return (
            <li key={photo.id}>
              <button
                type="button"
                aria-label={tell("open-photo", { n: n + 1, what: name })}
                onClick={() => setAt(n)}
              >
                <Picture photo={photo} name={name} />
              </button>
              {named ? <p class="soft">{name}</p> : null}
            </li>
          );
        })}
      </ul>
      {at === null ? null : (
        <Viewer photos={photos} state={state} at={at} onMove={setAt} onClose={() => setAt(null)} />
      )}
    </>
  );
}

/** Its caption, or the check and round it was taken in. */
function photoName({ body }: Photo, state: CardState): string {
  if (body.caption) return body.caption;
  if (body.about === null) return body.round === 1 ? tell("on-arrival") : roundName(body.round);
  const step = stepOfSlot(state, body.about);
  return step ? `${stepName(step)} · ${roundName(body.round)}` : roundName(body.round);
}

type ViewerProps = Props & { at: number; onMove: (at: number) => void; onClose: () => void };

function Viewer({ photos, state, at, onMove, onClose }: ViewerProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const photo = photos[at];
  const move = (by: number) => onMove((at + by + photos.length) % photos.length);
  useEffect(() => dialog.current?.showModal(), []);
  if (!photo) return null;
  const name = photoName(photo, state);
  return (
    <dialog
      ref={dialog}
      class="desk-viewer"
      aria-label={tell("photos")}
      onClose={onClose}
      onKeyDown={(event) => {
        if (event.key === "ArrowRight") move(1);
        if (event.key === "ArrowLeft") move(-1);
      }}
    >
      <FullSize photo={photo} name={name} />
      <div class="row">
        {photos.length > 1 ? <Button onTap={() => move(-1)}>{tell("previous-photo")}</Button> : null}
        <p class="grow">
          <span dir="auto">{name}</span>
          <br />
          <span class="soft">
            {tell("n-of-m", { n: at + 1, m: photos.length })} · <Who entry={photo} state={state} />
          </span>
        </p>
        {photos.length > 1 ? <Button onTap={() => move(1)}>{tell("next-photo")}</Button> : null}
        <Button look="strong" onTap={() => dialog.current?.close()}>
          {tell("close")}
        </Button>
      </div>
    </dialog>
  );
}

/** As kept, from this browser or from the server. */
function FullSize({ photo, name }: { photo: Photo; name: string }) {
  const { store } = useBay();
  const [src, setSrc] = useState("");
  const [missing, setMissing] = useState(false);
  const { blob, width, height } = photo.body;
  useEffect(() => {
    let url = "";
    let gone = false;
    setMissing(false);
    void store.blob(blob).then((held) => {
      if (gone) return;
      url = held ? URL.createObjectURL(new Blob([held.bytes], { type: held.mime })) : "";
      setSrc(url || `/api/blobs/${blob}`);
    });
    return () => {
      gone = true;
      if (url) URL.revokeObjectURL(url);
    };
  }, [store, blob]);
  if (missing) return <p class="told">{tell("photo-waits")}</p>;
  return src ? (
    <img src={src} alt={name} width={width} height={height} onError={() => setMissing(true)} />
  ) : null;
}
