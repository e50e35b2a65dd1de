/** All that this phone holds, for a server that was put back from a backup and lacks what a phone had sent that is gone. */
import "./card-words";
import { saveHeld } from "../../sync/rescue";
import type { Services } from "../../sync/services";
import { Button } from "../../ui/button";
import { Disclosure } from "../../ui/disclosure";
import { SavedFile, useSaving } from "./rescue";
import { say } from "./say";

export function GiveBack({ services }: { services: Services }) {
  const saving = useSaving(services, saveHeld);
  return (
    <Disclosure title={say("give-back")}>
      <p>{say("give-back-says")}</p>
      <Button calm disabled={saving.busy} onTap={saving.save}>
        {say(saving.busy ? "rescue-saving" : "give-back-save")}
      </Button>
      <SavedFile saving={saving} />
      <p class="soft">{say("rescue-care")}</p>
    </Disclosure>
  );
}
