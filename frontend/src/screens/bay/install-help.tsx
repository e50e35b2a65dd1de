/** How to put the app on the home screen of this very phone, in plain steps. */
import { Button } from "../../ui/button";
import { canInstall, install, isInstalled, platformOf } from "./install";
import { say } from "./say";

export function InstallHelp() {
  const platform = platformOf(navigator.userAgent, navigator.maxTouchPoints);
  return (
    <section class="stack">
      <h2>{say("install")}</h2>
      {isInstalled(window) ? (
        <p>{say("installed")}</p>
      ) : (
        <>
          <p>{say("install-why")}</p>
          {canInstall.value ? (
            <Button look="strong" calm onTap={install}>
              {say("install-now")}
            </Button>
          ) : (
            <p class="told plain">{say(`install-${platform}`)}</p>
          )}
        </>
      )}
    </section>
  );
}
