/** What a picture or a sound needs before it can be kept: the picture made ready, the bytes named by their SHA-256. */

export { preparePhoto as photoOf } from "../../capture/photo";

/** SHA-256 in hex. */
export async function hashOf(bytes: ArrayBuffer): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
