/** What bay and desk hand to every screen that shows a card. */
import { useMemo } from "preact/hooks";
import type { Book } from "../../measure/book";
import type { Me } from "../../store/types";
import type { Services } from "../../sync/services";
import type { Bay } from "./context";
import { hashOf, photoOf } from "./take";

/** The same object for as long as person, device and book are the same. */
export function useBayParts(services: Services, me: Me, book: Book): Bay {
  return useMemo(
    () => ({
      services,
      store: services.store,
      me,
      book,
      nowMs: services.now,
      randomBytes: services.random,
      waiting: services.waiting,
      preparePhoto: photoOf,
      hash: hashOf,
    }),
    [services, me.person.id, me.device.id, book],
  );
}
