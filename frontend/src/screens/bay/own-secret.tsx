/** Changing one's own secret: it takes the present one, and the server. */
import { useState } from "preact/hooks";
import type { Failure } from "../../api/result";
import { Button } from "../../ui/button";
import { Disclosure } from "../../ui/disclosure";
import { Field } from "../../ui/field";
import { useBay } from "./context";
import { say } from "./say";

/** What the server says of it, in the person's language. */
const REFUSED = new Map([
  ["wrong-old-secret", "own-secret-wrong"],
  ["weak-secret", "own-secret-weak"],
  ["too-many-tries", "sign-in-tries"],
] as const) as ReadonlyMap<string, "own-secret-wrong" | "own-secret-weak" | "sign-in-tries">;

export function OwnSecret() {
  const [changed, setChanged] = useState(0);
  return (
    <Disclosure title={say("own-secret")}>
      <Fields key={changed} onChanged={() => setChanged((count) => count + 1)} />
      {changed > 0 ? (
        <p class="told plain" role="status">
          {say("own-secret-done")}
        </p>
      ) : null}
    </Disclosure>
  );
}

function Fields({ onChanged }: { onChanged: () => void }) {
  const { services } = useBay();
  const [old, setOld] = useState("");
  const [secret, setSecret] = useState("");
  const [why, setWhy] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const change = async () => {
    setBusy(true);
    const answer = await services.api.changeSecret(old, secret);
    setBusy(false);
    if (answer.is === "ok") onChanged();
    else setWhy(whyNot(answer));
  };
  return (
    <div class="stack">
      <Field
        label={say("own-secret-old")}
        kind="password"
        value={old}
        onType={setOld}
        autocomplete="current-password"
      />
      <Field
        label={say("own-secret-new")}
        hint={say("own-secret-hint")}
        kind="password"
        value={secret}
        onType={setSecret}
      />
      {why === null ? null : (
        <p class="told" role="alert">
          {why}
        </p>
      )}
      <Button calm disabled={busy || old === "" || secret === ""} onTap={() => void change()}>
        {say("own-secret-change")}
      </Button>
    </div>
  );
}

function whyNot(failure: Failure): string {
  if (failure.is === "not-our-server") return say("not-our-server");
  if (failure.is !== "problem") return say("own-secret-no-server");
  const known = REFUSED.get(failure.code);
  return known ? say(known) : `${failure.title} ${failure.do}`;
}
