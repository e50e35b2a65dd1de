/** What happens when a countdown's time is up: sound and shake, a notice outside of the app, a line on every screen. */
import { useEffect } from "preact/hooks";
import { beep } from "../../ui/beep";
import { buzz } from "../../ui/buzz";
import { Button } from "../../ui/button";
import { go, here, pathOf, routeOf } from "../route";
import type { Alarm } from "./alarms";
import { useAlarms } from "./context";
import { say } from "./say";

const SHAKE = [300, 150, 300, 150, 300];

/** Three tones; a notice as well while nobody sees the page, where the person has allowed it. */
export function ringFor(alarm: Alarm): void {
  buzz(SHAKE);
  for (const at of [0, 400, 800]) setTimeout(() => beep(1320), at);
  if (document.visibilityState === "hidden") void notify(alarm);
}

async function notify({ path, words }: Alarm): Promise<void> {
  if (typeof Notification === "undefined" || Notification.permission !== "granted") return;
  const worker = await (navigator as Partial<Navigator>).serviceWorker?.getRegistration();
  await worker?.showNotification(say("time-is-up"), { body: words, tag: path, data: { path } });
}

/** The line that leads to the countdown; not on its own screen, where the clock says it. */
export function TimeIsUp() {
  const alarms = useAlarms();
  const own = pathOf(here.value);
  const rung = alarms.rung.value;
  const isHere = rung.some((one) => one.path === own);
  useEffect(() => {
    if (isHere) alarms.drop(own);
  }, [isHere, own]);
  return (
    <>
      {rung
        .filter((one) => one.path !== own)
        .map((one) => (
          <section key={one.path} class="told stack" role="alert">
            <p>
              <strong>{say("time-is-up")}</strong> {one.words}
            </p>
            <Button look="strong" onTap={() => go(routeOf(one.path))}>
              {say("to-check")}
            </Button>
          </section>
        ))}
    </>
  );
}
