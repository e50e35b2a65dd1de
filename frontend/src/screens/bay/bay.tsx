/** The bay's door: hands every screen what it works with, and shows the one the address names. */
import { signal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import type { Book } from "../../measure/book";
import type { Me } from "../../store/types";
import type { Services } from "../../sync/services";
import { lazily } from "../../ui/lazily";
import { here, type Route } from "../route";
import { makeAlarms, type Alarms } from "./alarms";
import { useBayParts } from "./bay-parts";
import { Cards, startCard } from "./cards";
import { AlarmsContext, BayContext, type Bay as BayParts } from "./context";
import type { OnCard as OnCardScreen } from "./on-card";
import { ringFor } from "./ringing";

const Phone = lazily(() => import("./phone").then((file) => file.Phone));
const Shared = lazily(() => import("./shared").then((file) => file.Shared));

type Props = { services: Services; me: Me; book: Book };

export function Bay({ services, me, book }: Props) {
  const alarms = useCountdowns(services);
  const bay = useBayParts(services, me, book);
  const route = here.value;
  return (
    <BayContext.Provider value={bay}>
      <AlarmsContext.Provider value={alarms}>
        <At bay={bay} route={route} />
      </AlarmsContext.Provider>
    </BayContext.Provider>
  );
}

function useCountdowns({ store, now }: Services): Alarms {
  const alarms = useMemo(() => makeAlarms({ store, nowMs: now, timer, ring: ringFor }), [store, now]);
  useEffect(() => {
    document.addEventListener("visibilitychange", alarms.look);
    return () => {
      document.removeEventListener("visibilitychange", alarms.look);
      alarms.stop();
    };
  }, [alarms]);
  return alarms;
}

function timer(run: () => void, ms: number): () => void {
  const id = setTimeout(run, ms);
  return () => clearTimeout(id);
}

function At({ bay, route }: { bay: BayParts; route: Route }) {
  const OnCard = useOnCard();
  if (route.at === "phone") return <Phone />;
  if (route.at === "shared") return <Shared />;
  if (route.at === "new") return <NewCard bay={bay} />;
  if (!("card" in route)) return <Cards />;
  return OnCard === null ? null : <OnCard key={route.card} bay={bay} route={route} />;
}

function NewCard({ bay }: { bay: BayParts }) {
  useEffect(() => startCard(bay, true), []);
  return null;
}

/** An opened card comes in its own file: the list of cards is there sooner, and the file is fetched meanwhile. */
const onCard = signal<typeof OnCardScreen | null>(null);

function useOnCard(): typeof OnCardScreen | null {
  useEffect(fetchOnCard, []);
  return onCard.value;
}

/** Fetches an opened card's file. Where the address names a card, that need not wait for the store. */
export function fetchOnCard(): void {
  if (onCard.peek() === null) void import("./on-card").then((file) => (onCard.value = file.OnCard));
}
