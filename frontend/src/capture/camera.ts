/** The phone's rear camera inside the page: a picture to look at, the lamp, one frame, and a clean end. */
import { refusalOf, refuse, type CaptureRefusal } from "./refusals";

export type Camera = {
  ok: true;
  stream: MediaStream;
  /** whether there is a lamp to switch */
  hasTorch: boolean;
  /** resolves to whether the lamp is now as wished */
  torch(on: boolean): Promise<boolean>;
  /** one frame as a picture file, to be handed to `preparePhoto` */
  take(view: HTMLVideoElement): Promise<Blob>;
  stop(): void;
};

const WISH: MediaStreamConstraints = {
  audio: false,
  video: { facingMode: { ideal: "environment" }, width: { ideal: 2560 }, height: { ideal: 1920 } },
};

/** Opens the camera, or says why not; to be called from a tap. */
export async function openCamera(devices: MediaDevices | undefined): Promise<Camera | CaptureRefusal> {
  if (devices === undefined) return refuse("no-camera");
  try {
    return cameraOf(await devices.getUserMedia(WISH));
  } catch (error) {
    return refusalOf(error, "no-camera");
  }
}

function cameraOf(stream: MediaStream): Camera | CaptureRefusal {
  const [track] = stream.getVideoTracks();
  if (track === undefined) return refuse("no-camera");
  return {
    ok: true,
    stream,
    hasTorch: canLight(track),
    torch: (on) => light(track, on),
    take: (view) => takeFrame(track, view),
    stop: () => {
      for (const one of stream.getTracks()) one.stop();
    },
  };
}

function canLight(track: MediaStreamTrack): boolean {
  const able: Record<string, unknown> = { ...track.getCapabilities() };
  return able["torch"] === true;
}

async function light(track: MediaStreamTrack, on: boolean): Promise<boolean> {
  const wish: MediaTrackConstraintSet & { torch: boolean } = { torch: on };
  try {
    await track.applyConstraints({ advanced: [wish] });
    return true;
  } catch {
    return false;
  }
}

type Taker = { takePhoto(): Promise<Blob> };
type TakerMaker = new (track: MediaStreamTrack) => Taker;

/** The camera's own still where the browser can, else a frame of the moving picture. */
async function takeFrame(track: MediaStreamTrack, view: HTMLVideoElement): Promise<Blob> {
  const maker = (globalThis as { ImageCapture?: TakerMaker }).ImageCapture;
  if (maker !== undefined) {
    try {
      return await new maker(track).takePhoto();
    } catch {
      // Some cameras refuse stills while they film; a frame is good enough.
    }
  }
  return frameOf(view);
}

function frameOf(view: HTMLVideoElement): Promise<Blob> {
  const canvas = document.createElement("canvas");
  canvas.width = view.videoWidth;
  canvas.height = view.videoHeight;
  canvas.getContext("2d")?.drawImage(view, 0, 0);
  return new Promise((resolve) => canvas.toBlob((blob) => resolve(blob ?? new Blob()), "image/jpeg", 0.92));
}
