/** Photos and sounds that wait for a better link or a word, why, and the button that lets them go. */
import { Button } from "../../ui/button";
import { useBay } from "./context";
import { say } from "./say";

/** Nothing while none waits for such a reason. */
export function PhotosWait() {
  const { services } = useBay();
  const { photos_wait, blobs } = services.sender.status.value;
  if (photos_wait === null) return null;
  return (
    <div class="told plain stack">
      <p>{say(`photos-wait-${photos_wait}`, { count: blobs })}</p>
      <Button onTap={() => services.sender.tell({ is: "photos-let" })}>{say("photos-let")}</Button>
    </div>
  );
}
