/** The server takes nothing from this phone until somebody signs in again, or until it is let in again. */
import type { Services } from "../../sync/services";
import { Button } from "../../ui/button";
import { go } from "../route";
import { say } from "./say";

export function DoorClosed({ services }: { services: Services }) {
  const { phase, problem } = services.sender.status.value;
  const isShutOut = problem?.is === "problem" && problem.code === "device-revoked";
  if (!isShutOut && phase !== "sign-in-needed") return null;
  return (
    <section class="told stack" role="status">
      <p>{say(isShutOut ? "shut-out" : "sign-in-asked")}</p>
      <Button onTap={() => go({ at: "phone" })}>{say("phone")}</Button>
    </section>
  );
}
