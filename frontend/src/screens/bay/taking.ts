/** Keeping photos as they are taken: made ready one after the other, each with its ten seconds to take it back. */
import { useRef, useState } from "preact/hooks";
import type { Picture } from "../../capture/shrink";
import type { Entry, EntryOf } from "../../journal/types";
import { blurredOf } from "./blurred";
import { captureWords } from "./capture-words";
import { useBay } from "./context";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { offerUndo } from "./undo";
import { keepOrHold } from "./unkept";

export type PhotoAbout = {
  card: OpenCard;
  about: string | null;
  round: number;
  caption?: string;
  /** the photo that the next one stands in for; null for a photo of its own */
  instead?: EntryOf<"photo"> | null;
  onKept?: ((entry: Entry) => void) | undefined;
};
/** What happened and what to do, in words. */
export type PhotoTrouble = string;

/** `taking`: how many are being made ready; `kept`: how many were kept since the screen came up. */
export function useTaking(what: PhotoAbout) {
  const { preparePhoto, nowMs } = useBay();
  const [taking, setTaking] = useState(0);
  const [kept, setKept] = useState(0);
  const [trouble, setTrouble] = useState<PhotoTrouble | null>(null);
  const line = useRef<Promise<unknown>>(Promise.resolve());
  const latest = useRef(what);
  latest.current = what;
  const takeOne = async (picture: Blob) => {
    const photo = await preparePhoto(picture);
    setTrouble(photo.ok ? null : captureWords(photo));
    if (photo.ok) await keep(photo, latest.current);
  };
  const keep = async (photo: Picture, about: PhotoAbout) => {
    const kept = await keepPhoto(photo, about);
    if (kept === null) return;
    setKept((count) => count + 1);
    if (photo.blurred && kept.kind === "photo") blurredOf(about.card).value = kept;
    offerUndo(about.card, say("photo-kept"), { entry: kept, before: about.instead ?? null }, nowMs());
    about.onKept?.(kept);
  };
  // One at a time: a burst of full-size pictures in memory at once is what kills a page on a small phone.
  const take = (picture: Blob) => {
    setTaking((count) => count + 1);
    line.current = line.current.then(() => takeOne(picture)).finally(() => setTaking((count) => count - 1));
    return line.current;
  };
  return { taking, kept, trouble, take };
}

function keepPhoto(photo: Picture, what: PhotoAbout): Promise<Entry | null> {
  const { card, about, round, caption = "", instead = null } = what;
  const { sha256, mime, width, height, bytes } = photo;
  const body = { blob: sha256, mime, bytes: bytes.byteLength, width, height, about, round, caption };
  const id = card.newId();
  const keep = (now: OpenCard) => now.keepWithBlob("photo", instead?.slot ?? `photo/${id}`, body, bytes);
  return keepOrHold(card, id, () => new Blob([bytes], { type: mime }), keep);
}
