/** Reads the VIN from a bar code or square code: by the camera in the page, or from a photo of it. */
import { useEffect, useRef, useState } from "preact/hooks";
import { makeCodeReader, type CodeReader, type DetectorMaker } from "../../capture/code-reader";
import { Button } from "../../ui/button";
import { buzz } from "../../ui/buzz";
import { Overlay } from "../../ui/overlay";
import { captureWords } from "./capture-words";
import { useCamera } from "./finder";
import { PhotoFile } from "./photos";
import { say } from "./say";
import { vinIn } from "./vin";

type Props = { onFound: (vin: string) => void; onClose: () => void };

/** Between two looks at the picture: time for the screen to answer. */
const PAUSE_MS = 150;
const LOOK_PX = 1280;

export function VinScan({ onFound, onClose }: Props) {
  const { camera, refusal, view } = useCamera();
  const reader = useReader();
  const [other, setOther] = useState<string | null>(null);
  const found = (texts: readonly string[]) => {
    const vin = texts.map(vinIn).find((one) => one !== null);
    if (vin) {
      buzz();
      onFound(vin);
    } else if (texts[0] !== undefined) setOther(texts[0]);
    return vin !== undefined;
  };
  useLooking(view, camera !== null ? reader : null, found);
  const fromFile = async (file: Blob) => {
    const texts = (await reader?.read(file).catch(() => [])) ?? [];
    if (!found(texts) && texts.length === 0) setOther("");
  };
  return (
    <Overlay name={say("vin-scan")} look={refusal ? "without-camera" : ""} onClose={onClose}>
      {refusal ? (
        <p class="told" role="alert">
          {captureWords(refusal)}
        </p>
      ) : (
        <div class="finder-sees">
          <video ref={view} autoplay playsInline muted aria-label={say("finder-view")} />
          <div class="finder-band" />
        </div>
      )}
      <p class="finder-says" role="status">
        {refusal && other === null ? "" : saysOf(other)}
      </p>
      <div class="finder-acts">
        <Button onTap={onClose}>{say("back")}</Button>
        <PhotoFile name={say("photo-file")} onPicked={([file]) => file && void fromFile(file)} />
      </div>
    </Overlay>
  );
}

function saysOf(other: string | null): string {
  if (other === null) return say("vin-scan-says");
  return other === "" ? say("vin-scan-nothing") : say("vin-scan-other", { text: other.slice(0, 40) });
}

function useReader(): CodeReader | null {
  const [reader, setReader] = useState<CodeReader | null>(null);
  useEffect(() => {
    const browser = (globalThis as { BarcodeDetector?: DetectorMaker }).BarcodeDetector;
    void makeCodeReader(browser).then(setReader);
  }, []);
  return reader;
}

/** Looks at the picture again and again until `found` says that it is enough, or the screen goes. */
function useLooking(
  view: { current: HTMLVideoElement | null },
  reader: CodeReader | null,
  found: (texts: string[]) => boolean,
): void {
  const latest = useRef(found);
  latest.current = found;
  useEffect(() => {
    if (reader === null) return undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let gone = false;
    const look = async () => {
      const picture = view.current && frameOf(view.current);
      const texts = picture ? await reader.read(picture).catch(() => []) : [];
      if (gone || latest.current(texts)) return;
      timer = setTimeout(() => void look(), PAUSE_MS);
    };
    void look();
    return () => {
      gone = true;
      clearTimeout(timer);
    };
  }, [reader, view]);
}

/** What the camera sees now, made small enough to be looked through quickly; null before the first picture. */
function frameOf(view: HTMLVideoElement): ImageData | null {
  if (view.videoWidth === 0) return null;
  const scale = Math.min(1, LOOK_PX / view.videoWidth);
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(view.videoWidth * scale);
  canvas.height = Math.round(view.videoHeight * scale);
  const context = canvas.getContext("2d", { willReadFrequently: true });
  context?.drawImage(view, 0, 0, canvas.width, canvas.height);
  return context?.getImageData(0, 0, canvas.width, canvas.height) ?? null;
}
