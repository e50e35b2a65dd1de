/** Signing in: name and secret once; afterwards the phone works without any network. */
import { useEffect, useState } from "preact/hooks";
import type { Failure } from "../../api/result";
import type { Services } from "../../sync/services";
import { Field } from "../../ui/field";
import { Cleared } from "./cleared";
import { lazily } from "../../ui/lazily";
import { say } from "./say";

const Rescue = lazily(() => import("./rescue").then((file) => file.Rescue));

/** What the server says of a wrong sign-in, in the person's language. */
const REFUSED = new Map([
  ["wrong-name-or-secret", "sign-in-wrong"],
  ["too-many-tries", "sign-in-tries"],
  ["device-revoked", "shut-out"],
] as const) as ReadonlyMap<string, "sign-in-wrong" | "sign-in-tries" | "shut-out">;

type Trouble = { title: string; do: string };

export function SignIn({ services }: { services: Services }) {
  const [name, setName] = useState("");
  const [secret, setSecret] = useState("");
  const [device, setDevice] = useState(() => deviceName(navigator.userAgent));
  const { busy, trouble, signIn } = useSigningIn(services);
  useEffect(() => window.scrollTo(0, 0), []);
  return (
    <main class="plain-page">
      <p class="wordmark">{say("app")}</p>
      <h1>{say("sign-in")}</h1>
      <Cleared services={services} />
      <form
        class="stack-wide"
        onSubmit={(event) => {
          event.preventDefault();
          void signIn({ name: name.trim(), secret, device_name: device.trim() });
        }}
      >
        <Field label={say("name")} value={name} onType={setName} onLeave={setName} autocomplete="username" />
        <Field
          label={say("secret")}
          kind="password"
          value={secret}
          onType={setSecret}
          onLeave={setSecret}
          autocomplete="current-password"
        />
        <Field
          label={say("device-name")}
          hint={say("device-hint")}
          value={device}
          onType={setDevice}
          onLeave={setDevice}
        />
        {trouble ? (
          <p class="told" role="alert">
            {trouble.title} {trouble.do}
          </p>
        ) : null}
        <button
          type="submit"
          class="button strong wide"
          disabled={busy || name.trim() === "" || secret === ""}
        >
          {say(busy ? "signing-in" : "sign-in")}
        </button>
      </form>
      <p class="soft">{say("sign-in-offline")}</p>
      <Unsent services={services} />
    </main>
  );
}

function useSigningIn(services: Services) {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const signIn = async (who: Parameters<Services["signIn"]>[0]) => {
    setBusy(true);
    const answer = await services.signIn(who);
    setBusy(false);
    setTrouble(answer.is === "ok" ? null : troubleOf(answer, services.book.value !== null));
  };
  return { busy, trouble, signIn };
}

/** Work of whoever was here before is still on the phone: say so, and let it be carried away by hand. */
function Unsent({ services }: { services: Services }) {
  const { entries, blobs } = services.waiting.value;
  const count = entries.length + blobs.length;
  if (count === 0) return null;
  return (
    <>
      <p class="told plain">{say("unsent-waits", { count })}</p>
      <Rescue services={services} />
    </>
  );
}

function troubleOf(failure: Failure, usedBefore: boolean): Trouble {
  if (failure.is === "problem") {
    const known = REFUSED.get(failure.code);
    return known ? { title: say(known), do: "" } : { title: failure.title, do: failure.do };
  }
  if (failure.is === "not-our-server") return { title: say("not-our-server"), do: say("not-our-server-do") };
  return { title: say("unreachable"), do: say(usedBefore ? "unreachable-again" : "unreachable-do") };
}

/** A first guess that the person can change. */
function deviceName(agent: string): string {
  if (/iPhone/.test(agent)) return say("device-iphone");
  if (/iPad|Tablet/.test(agent)) return say("device-tablet");
  return say(/Android|Mobile/.test(agent) ? "device-phone" : "device-computer");
}
