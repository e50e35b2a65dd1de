/** Why the last thing done here could not be kept. */
import type { OpenCard } from "../bay/open-card";
import { say } from "../bay/say";

export function Fault({ card }: { card: OpenCard }) {
  const fault = card.fault.value;
  const refusal = card.refusal.value;
  if (fault === null && refusal === null) return null;
  return (
    <p class="told" role="alert">
      {fault ? say(`fault-${fault}`) : `${refusal?.title ?? ""}. ${refusal?.do ?? ""}`}
    </p>
  );
}
