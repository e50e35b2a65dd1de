/** When photos and sounds are sent, on "This phone". */
import { useEffect, useState } from "preact/hooks";
import { asPhotoChoice, PHOTOS_SETTING } from "../../store/outbox";
import { browserConnection, linkOf, PHOTO_CHOICES, type PhotoChoice } from "../../sync/link";
import { Pick } from "../../ui/choice";
import { useBay } from "./context";
import { say } from "./say";

export function PhotosSent() {
  const { store, services } = useBay();
  const [picked, setPicked] = useState<PhotoChoice | null>(null);
  useEffect(() => {
    void store.setting(PHOTOS_SETTING).then((kept) => setPicked(asPhotoChoice(kept)));
  }, [store]);
  const pick = async (next: PhotoChoice) => {
    setPicked(next);
    await store.keepSetting(PHOTOS_SETTING, next);
    services.sender.tell({ is: "woke", why: "link" });
  };
  return (
    <section class="stack">
      <h2>{say("photos-sent")}</h2>
      <Pick
        legend={say("photos-sent-when")}
        picked={picked}
        options={PHOTO_CHOICES.map((id) => ({ id, label: say(`photos-sent-${id}`) }))}
        onPick={(next) => void pick(next)}
      />
      <p class="soft">{say("photos-sent-says")}</p>
      {linkOf(browserConnection()) === null ? <p class="soft">{say("link-unknown")}</p> : null}
    </section>
  );
}
