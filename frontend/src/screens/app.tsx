/** The whole app: signed in or not, bay or desk. */
import type { ComponentType } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Services } from "../sync/services";
import { Bay } from "./bay/bay";
import { startFeel } from "./bay/feel";
import { holdOffer } from "./bay/install";
import { say } from "./bay/say";
import { SignIn } from "./bay/sign-in";
import { Starting } from "./bay/starting";
import { watchKeyboard } from "../ui/keyboard";
import { followHistory, here } from "./route";
import "../ui/base.css";
import "./bay/bay.css";

export function App({ services }: { services: Services }) {
  useEffect(followHistory, []);
  useEffect(() => holdOffer(window), []);
  useEffect(
    () => watchKeyboard(window.visualViewport, () => window.innerHeight, document.documentElement),
    [],
  );
  useMemo(() => void startFeel(services.store, document.documentElement).catch(() => undefined), [services]);
  const me = services.me.value;
  const book = services.book.value;
  const trouble = services.trouble.value;
  if (me === undefined || book === undefined) return trouble ? <Stuck fault={trouble} /> : null;
  if (me === null) return <SignIn services={services} />;
  if (book === null) return <Starting services={services} />;
  if (here.value.at === "desk") return <DeskDoor services={services} />;
  return <Bay services={services} me={me} book={book} />;
}

/** The phone's own store cannot be read: say why and what helps. */
function Stuck({ fault }: { fault: "full" | "lost" | "blocked" | "newer" }) {
  return (
    <main class="plain-page">
      <h1>{say("store-trouble")}</h1>
      <p role="alert">{say(`fault-${fault}`)}</p>
      <button type="button" class="button strong" onClick={() => location.reload()}>
        {say("reload")}
      </button>
    </main>
  );
}

/** The desk comes in its own file, so that a phone does not carry it to its first screen. */
function DeskDoor({ services }: { services: Services }) {
  const [door, setDoor] = useState<{ Desk: ComponentType<{ services: Services }> } | null>(null);
  useEffect(() => {
    void import("./desk/desk").then(setDoor);
  }, []);
  return door ? <door.Desk services={services} /> : null;
}
