/** The desk's door; loaded only when a desk address is opened. */
import "../bay/card-words";
import { useEffect, useMemo } from "preact/hooks";
import type { Book } from "../../measure/book";
import type { Me } from "../../store/types";
import type { Services } from "../../sync/services";
import { Button } from "../../ui/button";
import { useBayParts } from "../bay/bay-parts";
import { BayContext, type Bay } from "../bay/context";
import { go, here } from "../route";
import { CardList } from "./card-list";
import { CardPage } from "./card-page";
import { CertificateLine } from "./certificate-line";
import { SentLine, Trouble } from "./connection";
import { DeskContext, type DeskDoor } from "./context";
import { followNames } from "./people";
import { tell } from "./tell";
import "./desk.css";

export function Desk({ services }: { services: Services }) {
  const me = services.me.value;
  const book = services.book.value;
  return me && book ? <SignedIn services={services} me={me} book={book} /> : null;
}

type Props = { services: Services; me: Me; book: Book };

function SignedIn({ services, me, book }: Props) {
  const bay = useBayParts(services, me, book);
  const desk = useMemo(() => openDesk(services), [services]);
  return (
    <BayContext.Provider value={bay}>
      <DeskContext.Provider value={desk}>
        <div class="desk">
          <Top bay={bay} services={services} />
          <main>
            <Trouble services={services} />
            <CertificateLine />
            <At />
          </main>
        </div>
      </DeskContext.Provider>
    </BayContext.Provider>
  );
}

function openDesk(services: Services): DeskDoor {
  return {
    api: services.api,
    names: followNames(services.store, services.api),
    pull: () => services.sender.tell({ is: "woke", why: "focus" }),
  };
}

function At() {
  const route = here.value;
  const card = route.at === "desk" ? route.rest.split("/").filter(Boolean)[1] : undefined;
  return card === undefined ? <Cards /> : <CardPage key={card} id={card} />;
}

function Cards() {
  useEffect(() => {
    document.title = `${tell("desk")} · Baycard`;
  }, []);
  return (
    <>
      <h1 class="hidden-words">{tell("cards-title")}</h1>
      <CardList />
    </>
  );
}

function Top({ bay, services }: { bay: Bay; services: Services }) {
  return (
    <header class="desk-top">
      <strong>{tell("desk-of", { workshop: bay.me.workshop.name })}</strong>
      <span>{bay.me.person.name}</span>
      <span class="grow">
        <SentLine services={services} />
      </span>
      <Button onTap={() => go({ at: "cards" })}>{tell("to-bay")}</Button>
      <Button look="quiet" onTap={() => void services.signOut()}>
        {tell("sign-out")}
      </Button>
    </header>
  );
}
