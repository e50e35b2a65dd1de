/** Why a photo or sound was refused, and what to do, in the language of this phone. */
import type { CaptureRefusal } from "../../capture/refusals";
import { say } from "./say";

export function captureWords({ code }: Pick<CaptureRefusal, "code">): string {
  return `${say(`capture-${code}`)} ${say(`capture-${code}-do`)}`;
}
