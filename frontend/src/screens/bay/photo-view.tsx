/** One photo in full: caption by picking words, drawing on a copy, taking it again or back. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { EntryOf } from "../../journal/types";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { Overlay } from "../../ui/overlay";
import { captionWords, stepOf, toggleWord } from "./caption-words";
import { useBay } from "./context";
import { Finder } from "./finder";
import type { OpenCard } from "./open-card";
import { PhotoFile, Trouble, usePictureUrl } from "./photos";
import { PhotoMarking } from "./photo-marking";
import { say } from "./say";
import { useTaking } from "./taking";
import { offerUndo } from "./undo";

type Props = { card: OpenCard; photo: EntryOf<"photo">; onClose: () => void };

export function PhotoView({ card, photo, onClose }: Props) {
  const [doing, setDoing] = useState<"look" | "mark" | "retake">("look");
  const src = usePictureUrl(photo.body.blob, "full");
  const [gone, setGone] = useState("");
  if (doing === "mark") return <PhotoMarking card={card} photo={photo} src={src} onClose={onClose} />;
  if (doing === "retake") return <Retake card={card} photo={photo} onClose={onClose} />;
  return (
    <Overlay name={say("photo-full")} look="photo-full" onClose={onClose}>
      <div class="photo-scroll">
        {src && gone !== src ? (
          <img
            class="photo-whole"
            src={src}
            alt={photo.body.caption || say("photo-full")}
            onError={() => setGone(src)}
          />
        ) : null}
        {src && gone === src ? <p class="told plain">{say("photo-away-says")}</p> : null}
        <Caption card={card} photo={photo} />
      </div>
      <div class="finder-acts">
        <Button onTap={onClose}>{say("back")}</Button>
        <Button disabled={gone === src} onTap={() => setDoing("mark")}>
          {say("photo-mark")}
        </Button>
        <Button onTap={() => setDoing("retake")}>{say("photo-retake")}</Button>
      </div>
    </Overlay>
  );
}

function Caption({ card, photo }: { card: OpenCard; photo: EntryOf<"photo"> }) {
  const { book, nowMs } = useBay();
  const state = card.state.value;
  const { caption, about } = photo.body;
  const step = state && stepOf(state, about);
  const words = captionWords(
    step,
    book.stations.map((station) => station.title),
  );
  // A word tapped right after typing is added to what was typed, which may still be on its way to the disk.
  const said = useRef(caption);
  useEffect(() => void (said.current = caption), [caption]);
  const keep = async (next: string) => {
    if (next === said.current) return;
    said.current = next;
    const kept = await card.amend(photo.slot, () => ({
      kind: "photo",
      body: { ...photo.body, caption: next },
    }));
    if (kept !== null && kept !== "unchanged") offerUndo(card, say("caption-kept"), kept, nowMs());
  };
  return (
    <div class="stack photo-caption">
      <Field label={say("caption")} value={caption} onLeave={(text) => void keep(text.trim())} />
      <div class="caption-words" role="group" aria-label={say("caption-words")}>
        {words.map((word) => (
          <Button
            key={word}
            pressed={caption.split(", ").includes(word)}
            onTap={() => void keep(toggleWord(said.current, word))}
          >
            {word}
          </Button>
        ))}
      </div>
    </div>
  );
}

/** The new photo stands in the old one's place; undo brings the old one back. */
export function Retake({ card, photo, onClose }: Props) {
  const { about, round, caption } = photo.body;
  const { trouble, take } = useTaking({ card, about, round, caption, instead: photo });
  const taken = (picture: Blob) => void take(picture).then(onClose);
  return (
    <>
      <Finder onTaken={taken} onClose={(why) => why === "back" && onClose()} ghost={null}>
        <PhotoFile name={say("photo-file")} onPicked={([file]) => file && taken(file)} />
      </Finder>
      <Trouble trouble={trouble} />
    </>
  );
}
