/** Signing in and out on this phone, and knowing it again when its store was cleared. */
import type { Signal } from "@preact/signals";
import type { Api, SignIn } from "../api/api";
import type { Result } from "../api/result";
import type { Me, Store } from "../store/types";
import type { Marker } from "./marker";
import type { SenderDoor } from "./one-sender";

export type SignInTools = { store: Store; api: Api; sender: Pick<SenderDoor, "tell">; marker: Marker };

/** Signs in at the server and here, and starts sending. The device keeps its id when another person signs in on it. */
export async function signIn(tools: SignInTools, who: Omit<SignIn, "device">): Promise<Result<Me>> {
  const known = await tools.store.setting("device");
  const answer = await tools.api.signIn(typeof known === "string" ? { ...who, device: known } : who);
  if (answer.is === "ok") await keep(tools, answer.value);
  return answer;
}

/** Signs out here at once, at the server if it can be reached. Unsent work stays and waits. */
export async function signOut({ store, api, sender }: SignInTools): Promise<void> {
  await store.forgetMe();
  sender.tell({ is: "signed-out" });
  await api.signOut();
}

/** An empty store in a browser that once kept work was cleared: say so, and go on as the same person if the server agrees. */
export async function recognise(tools: SignInTools, cleared: Signal<boolean>): Promise<void> {
  const { store, api, marker } = tools;
  const isFresh = (await store.me()) === null && (await store.setting("device")) === undefined;
  if (!isFresh || !marker.isSet()) return;
  cleared.value = true;
  const answer = await api.whoAmI();
  if (answer.is === "ok" && (await store.me()) === null) await keep(tools, answer.value);
}

async function keep({ store, sender, marker }: SignInTools, me: Me): Promise<void> {
  const known = await store.setting("device");
  // A workshop gives each phone an id of its own: another id means another workshop.
  if (known !== undefined && known !== me.device.id) {
    await store.leaveWorkshop();
    await store.offerRefused();
  }
  await store.keepSetting("device", me.device.id);
  await store.keepMe(me);
  marker.set();
  sender.tell({ is: "signed-in" });
}
