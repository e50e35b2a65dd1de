/** Photos: one tap to the camera, kept before anything else, shown small, one tap to look closer. */
import { useEffect, useState } from "preact/hooks";
import type { CardState, Entry, EntryOf } from "../../journal/types";
import { Button } from "../../ui/button";
import { lazily } from "../../ui/lazily";
import { useBay } from "./context";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { useTaking, type PhotoTrouble } from "./taking";
import { offerUndo } from "./undo";
import { unkeptOf } from "./unkept";

const Finder = lazily(() => import("./finder").then((file) => file.Finder));
const PhotoView = lazily(() => import("./photo-view").then((file) => file.PhotoView));

/** The standing photos about a slot, oldest first. */
export function photosOf(state: CardState, about: string): EntryOf<"photo">[] {
  return state.photos.filter((photo) => photo.body.about === about);
}

/** The photos of the same check as found, for a later round; [] in the first. */
export function asFoundOf(state: CardState, about: string | null): EntryOf<"photo">[] {
  const [checklist, check, place, round] = about?.split("/") ?? [];
  if (round === undefined || round === "1") return [];
  return photosOf(state, `${checklist}/${check}/${place}/1`);
}

type ButtonProps = {
  card: OpenCard;
  about: string | null;
  round: number;
  strong?: boolean;
  label?: string;
  onKept?: (entry: Entry) => void;
};

/** One tap opens the camera in the page, or the phone's own where the page may not use it. */
export function PhotoButton({ card, about, round, strong = false, label, onKept }: ButtonProps) {
  const [finding, setFinding] = useState(false);
  const { taking, kept, trouble, take } = useTaking({ card, about, round, onKept });
  const name = taking > 0 ? say("photo-busy") : (label ?? say("photo"));
  const state = card.state.value;
  const unkept = unkeptOf(card).value.length;
  // A picture that found no room is shown on the screen behind the camera.
  useEffect(() => {
    if (unkept > 0) setFinding(false);
  }, [unkept]);
  const picked = (files: readonly Blob[]) => {
    setFinding(false);
    for (const file of files) void take(file);
  };
  return (
    <>
      {hasCamera() ? (
        <Button look={strong ? "strong" : "plain"} onTap={() => setFinding(true)}>
          {name}
        </Button>
      ) : (
        <PhotoFile name={name} strong={strong} onPicked={picked} />
      )}
      {finding ? (
        <Finder
          onTaken={(picture) => void take(picture)}
          onClose={() => setFinding(false)}
          count={kept + taking}
          ghost={(state && asFoundOf(state, about).at(-1)) ?? null}
        >
          <PhotoFile name={say("photo-file")} onPicked={picked} />
        </Finder>
      ) : null}
      <Trouble trouble={trouble} />
    </>
  );
}

export function Trouble({ trouble }: { trouble: PhotoTrouble | null }) {
  if (trouble === null) return null;
  return (
    <p class="told" role="alert">
      {trouble}
    </p>
  );
}

export function hasCamera(): boolean {
  return (navigator as Partial<Navigator>).mediaDevices !== undefined;
}

type FileProps = { name: string; strong?: boolean; onPicked: (files: File[]) => void };

/** The visible button is the label of a hidden file input, which every phone opens with one tap. */
export function PhotoFile({ name, strong = false, onPicked }: FileProps) {
  return (
    <label class={strong ? "button strong photo-button" : "button photo-button"}>
      <span>{name}</span>
      <input
        class="hidden-words"
        type="file"
        accept="image/*"
        multiple
        aria-label={name}
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])];
          if (files.length > 0) onPicked(files);
          event.currentTarget.value = "";
        }}
      />
    </label>
  );
}

/** Small pictures, each with a way to look closer and to take it back. */
export function Thumbs({ card, photos }: { card: OpenCard; photos: readonly EntryOf<"photo">[] }) {
  const { nowMs } = useBay();
  const [open, setOpen] = useState<string | null>(null);
  if (photos.length === 0) return null;
  const remove = async (photo: EntryOf<"photo">) => {
    const entry = await card.takeBack(photo, null);
    if (entry) offerUndo(card, say("photo-removed"), { entry, before: photo }, nowMs());
  };
  const opened = photos.find((photo) => photo.slot === open);
  return (
    <>
      <ul class="thumbs">
        {photos.map((photo, at) => (
          <li key={photo.slot}>
            <button
              type="button"
              class="thumb-button"
              aria-label={say("photo-open", { what: photo.body.caption || say("photo-n", { n: at + 1 }) })}
              onClick={() => setOpen(photo.slot)}
            >
              <Picture photo={photo} name="" />
              {photo.body.caption ? <span class="thumb-caption">{photo.body.caption}</span> : null}
            </button>
            <button type="button" class="button quiet" onClick={() => void remove(photo)}>
              {say("photo-remove")}
            </button>
          </li>
        ))}
      </ul>
      {opened ? <PhotoView card={card} photo={opened} onClose={() => setOpen(null)} /> : null}
    </>
  );
}

/** The picture from this phone (without a name: beside words that say it), or from the workshop once this phone has let it go. */
export function Picture({ photo, name }: { photo: EntryOf<"photo">; name: string }) {
  const src = usePictureUrl(photo.body.blob, "print");
  const [gone, setGone] = useState("");
  if (src === "") return <span class="thumb" />;
  if (gone === src) return <span class="thumb thumb-away">{say("photo-away")}</span>;
  const alt = name && (photo.body.caption || name);
  return <img class="thumb" src={src} alt={alt} onError={() => setGone(src)} />;
}

/** An address that shows the picture; "" until it is known. size: which one the workshop is asked for. */
export function usePictureUrl(blob: string, size: "print" | "full"): string {
  const { store } = useBay();
  const [src, setSrc] = useState("");
  useEffect(() => {
    let url = "";
    let gone = false;
    void store.blob(blob).then((held) => {
      if (gone) return;
      url = held ? URL.createObjectURL(new Blob([held.bytes], { type: held.mime })) : "";
      setSrc(url || `/api/blobs/${blob}${size === "print" ? "?size=print" : ""}`);
    });
    return () => {
      gone = true;
      if (url) URL.revokeObjectURL(url);
    };
  }, [store, blob, size]);
  return src;
}
