/** People and phones: who may come in. A lost phone is shut out here. For those who may sign. */
import { useRef, useState } from "preact/hooks";
import type { Colleague, Device } from "../../api/admission";
import type { Failure, Result } from "../../api/result";
import { Button } from "../../ui/button";
import { formatDateTime } from "../../words/words";
import { useBay } from "../bay/context";
import { useDesk } from "./context";
import { failureWords } from "./failure";
import { NewPerson } from "./new-person";
import { NewSecret } from "./new-secret";
import { tell } from "./tell";

type Known = { devices: Device[]; people: Colleague[] };
/** Does something on the server, then shows what holds there now; or says why it was not done. */
export type Doing = (deed: () => Promise<Result<true>>) => Promise<Failure | null>;

export function Admission() {
  const { me } = useBay();
  const { known, trouble, look, doing, act } = useAdmission();
  if (me.person.role === "technician") return null;
  return (
    <details onToggle={(event) => event.currentTarget.open && void look()}>
      <summary class="open">
        <span>{tell("admission")}</span>
      </summary>
      <div class="open-body stack-wide">
        <Trouble why={trouble} />
        {known === null && trouble === null ? <p role="status">{tell("admission-loading")}</p> : null}
        {known === null ? null : <Devices devices={known.devices} act={act} />}
        {known === null || me.person.role !== "owner" ? null : (
          <People people={known.people} act={act} doing={doing} />
        )}
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
  const doing: Doing = async (deed) => {
    const answer = await deed();
    if (answer.is !== "ok") return answer;
    await look();
    return null;
  };
  /** The same for a button that has no place of its own for a refusal. */
  const act: Doing = async (deed) => {
    const why = await doing(deed);
    if (why) setTrouble(why);
    return why;
  };
  return { known, trouble, look, doing, act };
}

/** Why something was not done, beside what asked for it. */
export function Trouble({ why }: { why: Failure | null }) {
  if (why === null) return null;
  return (
    <p class="told" role="alert">
      {failureWords(why)}
    </p>
  );
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

function People({ people, act, doing }: { people: Colleague[]; act: Doing; doing: Doing }) {
  return (
    <section class="stack" aria-labelledby="admission-people">
      <h3 id="admission-people">{tell("people")}</h3>
      <p class="soft">{tell("people-says")}</p>
      <ul class="desk-admission">
        {people.map((person) => (
          <PersonRow key={person.id} person={person} act={act} doing={doing} />
        ))}
      </ul>
      <NewPerson doing={doing} />
    </section>
  );
}

function PersonRow({ person, act, doing }: { person: Colleague; act: Doing; doing: Doing }) {
  const { api } = useDesk();
  const { me } = useBay();
  const [giving, setGiving] = useState(false);
  const { id, name, active, role } = person;
  const row = useRef<HTMLLIElement>(null);
  const close = () => {
    setGiving(false);
    row.current?.querySelector("button")?.focus();
  };
  return (
    <li ref={row}>
      <span>
        <strong dir="auto">{name}</strong> {active ? null : <span class="label">{tell("person-out")}</span>}
        <span class="soft">{tell(`role-${role}`)}</span>
      </span>
      <span class="row">
        <Button
          name={`${tell("secret-new")}: ${name}`}
          pressed={giving}
          onTap={() => (giving ? close() : setGiving(true))}
        >
          {tell("secret-new")}
        </Button>
        {id === me.person.id ? null : (
          <Button
            calm
            name={`${tell(active ? "keep-out" : "let-in")}: ${name}`}
            onTap={() => void act(() => api.letPerson(id, !active))}
          >
            {tell(active ? "keep-out" : "let-in")}
          </Button>
        )}
      </span>
      {giving ? <NewSecret person={person} doing={doing} onClose={close} /> : null}
    </li>
  );
}
