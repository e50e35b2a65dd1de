/** Signed in, but the book has not come yet: says what is missing. */
import type { Services } from "../../sync/services";
import { Button } from "../../ui/button";
import { say } from "./say";

export function Starting({ services }: { services: Services }) {
  const { problem } = services.sender.status.value;
  return (
    <main class="plain-page">
      <h1>{say("starting")}</h1>
      <p role="status">{say(problem ? "starting-trouble" : "starting-says")}</p>
      <Button look="strong" onTap={() => services.sender.tell({ is: "woke", why: "asked" })}>
        {say("try-now")}
      </Button>
    </main>
  );
}
