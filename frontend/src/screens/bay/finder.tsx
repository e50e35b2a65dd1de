/** The camera inside the page: what it sees, one big button, the lamp, several in a row, and a file instead. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { openCamera, type Camera } from "../../capture/camera";
import type { CaptureRefusal } from "../../capture/refusals";
import type { EntryOf } from "../../journal/types";
import { Button } from "../../ui/button";
import { buzz } from "../../ui/buzz";
import { Overlay } from "../../ui/overlay";
import { captureWords } from "./capture-words";
import { asText, useDraft } from "./draft";
import { usePictureUrl } from "./photos";
import { say } from "./say";

type FinderProps = {
  onTaken: (picture: Blob) => void;
  /** after a single photo was taken, or when the person goes back */
  onClose: (why: "taken" | "back") => void;
  /** how many were taken since the camera was opened */
  count?: number;
  /** the photo as found, to shoot the same angle after work */
  ghost?: EntryOf<"photo"> | null;
  /** the way to a file, for phones whose camera the page may not use */
  children: ComponentChildren;
};

/** Opens the camera when it appears and frees it when it goes. */
export function Finder({ onTaken, onClose, count = 0, ghost = null, children }: FinderProps) {
  const { camera, refusal, view } = useCamera();
  const [lit, setLit] = useState(false);
  const [several, setSeveral] = useDraft("finder-several", asText);
  const [ghosted, setGhosted] = useState(true);
  const take = async () => {
    if (!camera || !view.current) return;
    buzz();
    onTaken(await camera.take(view.current));
    if (!several) onClose("taken");
  };
  const light = async () => {
    if (camera && (await camera.torch(!lit))) setLit(!lit);
  };
  return (
    <Overlay name={say("photo")} look={refusal ? "without-camera" : ""} onClose={() => onClose("back")}>
      {refusal ? (
        <p class="told" role="alert">
          {captureWords(refusal)}
        </p>
      ) : (
        <div class="finder-sees">
          <video ref={view} class="finder-view" autoplay playsInline muted aria-label={say("finder-view")} />
          {ghost && ghosted ? <Ghost photo={ghost} /> : null}
        </div>
      )}
      <div class="finder-acts">
        <Button onTap={() => onClose("back")}>{say(several && count > 0 ? "finder-done" : "back")}</Button>
        {camera?.hasTorch ? (
          <Button pressed={lit} onTap={() => void light()}>
            {say("lamp")}
          </Button>
        ) : null}
        {refusal ? null : (
          <Button pressed={several !== null} onTap={() => setSeveral(several ? null : "yes")}>
            {say("finder-several")}
          </Button>
        )}
        {ghost ? (
          <Button pressed={ghosted} onTap={() => setGhosted(!ghosted)}>
            {say("as-found")}
          </Button>
        ) : null}
        {children}
        {refusal ? null : (
          <Button look="strong" calm disabled={!camera} onTap={() => void take()}>
            {say("take-photo")}
            {several && count > 0 ? <span role="status">· {count}</span> : null}
          </Button>
        )}
      </div>
    </Overlay>
  );
}

function Ghost({ photo }: { photo: EntryOf<"photo"> }) {
  const src = usePictureUrl(photo.body.blob, "full");
  return src ? <img class="finder-ghost" src={src} alt={say("ghost-says")} /> : null;
}

/** The camera while the screen is up, or why there is none. */
export function useCamera() {
  const [camera, setCamera] = useState<Camera | null>(null);
  const [refusal, setRefusal] = useState<CaptureRefusal | null>(null);
  const view = useRef<HTMLVideoElement>(null);
  useEffect(() => {
    let gone = false;
    let opened: Camera | null = null;
    let shownIn: HTMLVideoElement | null = null;
    void openCamera((navigator as Partial<Navigator>).mediaDevices).then((answer) => {
      if (!answer.ok) return setRefusal(answer);
      if (gone) return answer.stop();
      opened = answer;
      shownIn = view.current;
      if (shownIn) shownIn.srcObject = answer.stream;
      return setCamera(answer);
    });
    return () => {
      gone = true;
      opened?.stop();
      // A picture that is only taken off the page would keep its frames.
      if (shownIn) shownIn.srcObject = null;
    };
  }, []);
  return { camera, refusal, view };
}
