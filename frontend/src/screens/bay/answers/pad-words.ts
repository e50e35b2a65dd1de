/** The words on the number pad. */
import type { PadWords } from "../../../ui/pad";
import { say } from "../say";

export function padWords(keep: string): PadWords {
  return {
    erase: say("pad-erase"),
    sign: say("pad-sign"),
    clear: say("pad-clear"),
    again: say("pad-again"),
    comma: say("pad-comma"),
    dot: say("pad-dot"),
    keep,
  };
}
