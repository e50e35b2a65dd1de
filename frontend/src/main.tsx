/** Starts the app, in the language of this phone. */
import { render } from "preact";
import { App } from "./screens/app";
import { fetchOnCard } from "./screens/bay/bay";
import { here } from "./screens/route";
import { startServices, type Services } from "./sync/services";
import { chosen, spoken, startSpeaking, surroundings } from "./words/spoken";

const PATIENCE_MS = 1_500;

/** A change of language draws every screen anew. */
function Spoken({ services }: { services: Services }) {
  return <App key={spoken.value} services={services} />;
}

const place = document.getElementById("app");
if (place !== null) {
  const speaking = startSpeaking(surroundings());
  const services = startServices(chosen);
  if ("card" in here.value) fetchOnCard();
  // a silent network must not hold up the app: it then starts in English and changes when the texts have come
  const patience = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS));
  void Promise.race([speaking, patience]).then(() => render(<Spoken services={services} />, place));
}
