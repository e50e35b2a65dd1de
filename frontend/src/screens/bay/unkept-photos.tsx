/** The pictures and sounds that found no room, with a way to try each again or to let it go. */
import { useEffect, useRef, useState } from "preact/hooks";
import { Button } from "../../ui/button";
import type { OpenCard } from "./open-card";
import { say } from "./say";
import { release, unkeptOf, type Unkept } from "./unkept";

export function UnkeptPhotos({ card }: { card: OpenCard }) {
  const photos = unkeptOf(card).value;
  const section = useRef<HTMLElement>(null);
  // The button of the camera may be far below.
  useEffect(() => section.current?.scrollIntoView({ block: "center" }), [photos.length]);
  return (
    <section ref={section} class="told stack" role="alert">
      <p>{say("unkept-says", { count: photos.length })}</p>
      <ul class="thumbs">
        {photos.map((photo) => (
          <li key={photo.id}>
            {photo.picture ? <Shown picture={photo.picture} /> : <Sound />}
            <Again card={card} photo={photo} />
            <Button look="quiet" onTap={() => release(card, photo.id)}>
              {say("unkept-drop")}
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Sound() {
  return <span class="thumb thumb-away">{say("unkept-sound")}</span>;
}

function Shown({ picture }: { picture: Blob }) {
  const [src, setSrc] = useState("");
  useEffect(() => {
    const url = URL.createObjectURL(picture);
    setSrc(url);
    return () => URL.revokeObjectURL(url);
  }, [picture]);
  return src === "" ? <span class="thumb" /> : <img class="thumb" src={src} alt={say("unkept-picture")} />;
}

function Again({ card, photo }: { card: OpenCard; photo: Unkept }) {
  const [trying, setTrying] = useState(false);
  const again = async () => {
    setTrying(true);
    await photo.again(card);
    setTrying(false);
  };
  return <Button onTap={() => void again()}>{say(trying ? "photo-busy" : "unkept-again")}</Button>;
}
