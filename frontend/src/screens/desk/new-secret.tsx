/** Gives a person a new secret in place of a forgotten one. What was typed stays when the server refuses it. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { Colleague } from "../../api/admission";
import type { Failure } from "../../api/result";
import { Button } from "../../ui/button";
import { Field } from "../../ui/field";
import { useBay } from "../bay/context";
import { Trouble, type Doing } from "./admission";
import { useDesk } from "./context";
import { tell } from "./tell";

type Props = { person: Colleague; doing: Doing; onClose: () => void };

export function NewSecret({ person, doing, onClose }: Props) {
  const { api } = useDesk();
  const { me } = useBay();
  const [secret, setSecret] = useState("");
  const [why, setWhy] = useState<Failure | null>(null);
  const [given, setGiven] = useState(false);
  const box = useRef<HTMLDivElement>(null);
  // A keyboard goes on in the field that has opened, and at what is left of it once it is done.
  useEffect(() => box.current?.querySelector<HTMLElement>("input, button")?.focus(), [given]);
  const isMine = person.id === me.person.id;
  const give = async () => {
    const refused = await doing(() => api.giveSecret(person.id, secret));
    setWhy(refused);
    setGiven(refused === null);
  };
  if (given)
    return (
      <div class="stack desk-under" ref={box}>
        <p class="told plain" role="status">
          {tell(isMine ? "secret-given-me" : "secret-given", { name: person.name })}
        </p>
        <div class="row">
          <Button onTap={onClose}>{tell("close")}</Button>
        </div>
      </div>
    );
  return (
    <div class="stack desk-under" ref={box}>
      <Field
        label={tell("secret-new-for", { name: person.name })}
        hint={tell(isMine ? "secret-hint-me" : "person-secret-hint")}
        value={secret}
        onType={setSecret}
      />
      <p class="soft">{tell(isMine ? "secret-says-me" : "secret-says")}</p>
      <Trouble why={why} />
      <div class="row">
        <Button look="strong" calm disabled={secret === ""} onTap={() => void give()}>
          {tell("secret-give")}
        </Button>
        <Button onTap={onClose}>{tell("cancel")}</Button>
      </div>
    </div>
  );
}
