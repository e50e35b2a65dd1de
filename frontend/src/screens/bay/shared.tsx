/** Photos shared from another app: shown, and laid on the card that is chosen. Each leaves the shelf once it is kept. */
import "./card-words";
import { useEffect, useState } from "preact/hooks";
import { Button } from "../../ui/button";
import { go } from "../route";
import { useCards } from "./cards";
import { captureWords } from "./capture-words";
import { useBay } from "./context";
import { openCard, type OpenCard } from "./open-card";
import { Trouble } from "./photos";
import { say } from "./say";
import { shelfOf, type Shelf, type SharedPhoto } from "./shared-shelf";
import { Screen } from "./shell";
import type { PhotoTrouble } from "./taking";
import { until } from "./until";
import { vehicleName } from "./vehicle";

export function Shared({ shelf = shelfOf(globalThis.caches) }: { shelf?: Shelf | null }) {
  const bay = useBay();
  const cards = useCards(bay);
  const { photos, drop } = useShelf(shelf);
  const [trouble, setTrouble] = useState<PhotoTrouble | null>(null);
  const [busy, setBusy] = useState(false);
  const lay = async (id: string) => {
    setBusy(true);
    const card = openCard(bay, id);
    await until(card.state, (state) => state !== null);
    const refused = await layAll(card, photos ?? [], bay.preparePhoto, drop);
    card.close();
    setBusy(false);
    setTrouble(refused);
    if (!refused) go({ at: "card", card: id }, true);
  };
  const open = cards?.filter((card) => card.stage.is !== "signed") ?? [];
  return (
    <Screen title={say("shared")} back={{ at: "cards" }}>
      <p>{say(photos?.length === 0 ? "shared-none" : "shared-says")}</p>
      <Trouble trouble={trouble} />
      <ul class="thumbs">
        {photos?.map((photo) => (
          <li key={photo.key}>
            <SharedThumb photo={photo} />
            <Button look="quiet" onTap={() => void drop(photo.key)}>
              {say("shared-drop")}
            </Button>
          </li>
        ))}
      </ul>
      {photos && photos.length > 0 ? (
        <section class="stack">
          <h2>{say("shared-which")}</h2>
          {open.map((card) => (
            <Button key={card.card} wide calm disabled={busy} onTap={() => void lay(card.card)}>
              <span class="grow row-name">{vehicleName(card)}</span>
            </Button>
          ))}
          <Button wide onTap={() => go({ at: "new" })}>
            {say("new-card")}
          </Button>
        </section>
      ) : null}
    </Screen>
  );
}

type Prepare = ReturnType<typeof useBay>["preparePhoto"];

/** Keeps one after the other; stops at the first that cannot be kept and says why. The rest stay on the shelf. */
async function layAll(
  card: OpenCard,
  photos: readonly SharedPhoto[],
  prepare: Prepare,
  drop: (key: string) => Promise<void>,
): Promise<PhotoTrouble | null> {
  for (const { key, file } of photos) {
    const photo = await prepare(file);
    if (!photo.ok) return captureWords(photo);
    const { sha256, mime, width, height, bytes } = photo;
    const round = card.state.peek()?.round ?? 1;
    const body = {
      blob: sha256,
      mime,
      bytes: bytes.byteLength,
      width,
      height,
      about: null,
      round,
      caption: "",
    };
    const kept = await card.keepWithBlob("photo", `photo/${card.newId()}`, body, bytes);
    if (!kept) return `${say("shared-not-kept")} ${say("shared-not-kept-do")}`;
    await drop(key);
  }
  return null;
}

function useShelf(shelf: Shelf | null) {
  const [photos, setPhotos] = useState<SharedPhoto[] | null>(null);
  useEffect(() => {
    if (shelf === null) setPhotos([]);
    else void shelf.photos().then(setPhotos);
  }, []);
  const drop = async (key: string) => {
    await shelf?.remove(key);
    setPhotos((now) => now?.filter((photo) => photo.key !== key) ?? null);
  };
  return { photos, drop };
}

function SharedThumb({ photo }: { photo: SharedPhoto }) {
  const [src, setSrc] = useState("");
  useEffect(() => {
    const url = URL.createObjectURL(photo.file);
    setSrc(url);
    return () => URL.revokeObjectURL(url);
  }, [photo.file]);
  return src ? <img class="thumb" src={src} alt={say("shared-photo")} /> : null;
}
