/** "A new version is ready", on screens where nothing can be half typed. */
import type { Services } from "../../sync/services";
import { Button } from "../../ui/button";
import { say } from "./say";

export function Renewal({ services }: { services: Services }) {
  if (!services.update.ready.value) return null;
  return (
    <section class="told plain stack" role="status">
      <p>{say("update-ready")}</p>
      <Button calm onTap={() => services.update.apply()}>
        {say("update")}
      </Button>
    </section>
  );
}
