/** Why a photo or sound cannot be taken or kept; the catalogues say it in words, and what to do about it. */

export type CaptureCode =
  | "not-a-picture"
  | "heic"
  | "cut-off"
  | "unreadable"
  | "black"
  | "too-slow"
  | "no-camera"
  | "no-microphone"
  | "not-allowed"
  | "in-use";
export type CaptureRefusal = { ok: false; code: CaptureCode };

export function refuse(code: CaptureCode): CaptureRefusal {
  return { ok: false, code };
}

/** What a refusal of getUserMedia means; `missing` is the code for a device that is not there. */
export function refusalOf(error: unknown, missing: "no-camera" | "no-microphone"): CaptureRefusal {
  const name = error instanceof Error ? error.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") return refuse("not-allowed");
  if (name === "NotReadableError" || name === "AbortError") return refuse("in-use");
  return refuse(missing);
}
