/** Says so when the browser or somebody emptied this phone's store since it was last used. */
import type { Services } from "../../sync/services";
import { say } from "./say";

export function Cleared({ services }: { services: Services }) {
  if (!services.cleared.value) return null;
  return (
    <p class="told" role="alert">
      {say("store-cleared")}
    </p>
  );
}
