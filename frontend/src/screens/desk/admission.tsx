/** People and phones: who may come in. A lost phone is shut out here. For those who may sign. */
import { useState } from "preact/hooks";
import type { Colleague, Device } from "../../api/admission";
import type { Failure, Result } from "../../api/result";
import { Button } from "../../ui/button";
import { formatDateTime } from "../../words/words";
import { useBay } from "../bay/context";
import { useDesk } from "./context";
import { failureWords } from "./failure";
import { NewPerson } from "./new-person";
import { tell } from "./tell";

type Known = { devices: Device[]; people: Colleague[] };
/** Does something on the server, then shows what holds there now. */
export type Doing = (deed: () => Promise<Result<true>>) => Promise<boolean>;

export function Admission() {
  const { me } = useBay();
  const { known, trouble, look, act } = useAdmission();
  if (me.person.role === "technician") return null;
  return (
    <details onToggle={(event) => event.currentTarget.open && void look()}>
      <summary class="open">
        <span>{tell("admission")}</span>
      </summary>
      <div class="open-body stack-wide">
        {trouble === null ? null : (
          <p class="told" role="alert">
            {failureWords(trouble)}
          </p>
        )}
        {known === null && trouble === null ? <p role="status">{tell("admission-loading")}</p> : null}
        {known === null ? null : <Devices devices={known.devices} act={act} />}
        {known === null || me.person.role !== "owner" ? null : <People people={known.people} act={act} />}
      </div>
    </details>
  );
}

function useAdmission() {
  const { api } = useDesk();
  const [known, setKnown] = useState<Known | null>(null);
  const [trouble, setTrouble] = useState<Failure | null>(null);
  const look = async () => {
    const [devices, people] = await Promise.all([api.devices(), api.colleagues()]);
    if (devices.is !== "ok") return setTrouble(devices);
    if (people.is !== "ok") return setTrouble(people);
    setTrouble(null);
    setKnown({ devices: devices.value, people: people.value });
  };
  const act: Doing = async (deed) => {
    const answer = await deed();
    if (answer.is !== "ok") {
      setTrouble(answer);
      return false;
    }
    await look();
    return true;
  };
  return { known, trouble, look, act };
}

function Devices({ devices, act }: { devices: Device[]; act: Doing }) {
  const { api } = useDesk();
  const { me } = useBay();
  return (
    <section class="stack" aria-labelledby="admission-devices">
      <h3 id="admission-devices">{tell("devices")}</h3>
      <p class="soft">{tell("devices-says")}</p>
      <ul class="desk-admission">
        {devices.map((device) => (
          <li key={device.id}>
            <span>
              <strong dir="auto">{device.name}</strong>{" "}
              {device.id === me.device.id ? <span class="label">{tell("device-this")}</span> : null}
              {device.revoked ? <span class="label">{tell("device-out")}</span> : null}
              <span class="soft">{lastWords(device)}</span>
            </span>
            {device.id === me.device.id ? null : (
              <Button
                calm
                name={`${tell(device.revoked ? "let-in" : "shut-out")}: ${device.name}`}
                onTap={() => void act(() => api.letDevice(device.id, device.revoked))}
              >
                {tell(device.revoked ? "let-in" : "shut-out")}
              </Button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function lastWords({ last }: Device): string {
  return last === null
    ? tell("device-nobody")
    : tell("device-last", { name: last.name, when: formatDateTime(last.at) });
}

function People({ people, act }: { people: Colleague[]; act: Doing }) {
  const { api } = useDesk();
  const { me } = useBay();
  return (
    <section class="stack" aria-labelledby="admission-people">
      <h3 id="admission-people">{tell("people")}</h3>
      <p class="soft">{tell("people-says")}</p>
      <ul class="desk-admission">
        {people.map((person) => (
          <li key={person.id}>
            <span>
              <strong dir="auto">{person.name}</strong>{" "}
              {person.active ? null : <span class="label">{tell("person-out")}</span>}
              <span class="soft">{tell(`role-${person.role}`)}</span>
            </span>
            {person.id === me.person.id ? null : (
              <Button
                calm
                name={`${tell(person.active ? "keep-out" : "let-in")}: ${person.name}`}
                onTap={() => void act(() => api.letPerson(person.id, !person.active))}
              >
                {tell(person.active ? "keep-out" : "let-in")}
              </Button>
            )}
          </li>
        ))}
      </ul>
      <NewPerson act={act} />
    </section>
  );
}
