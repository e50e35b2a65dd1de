/** Enters a person of the workshop. What was typed stays when the server refuses it. */
import { useState } from "preact/hooks";
import type { NewPerson as Person } from "../../api/admission";
import type { Failure } from "../../api/result";
import { Button } from "../../ui/button";
import { Pick } from "../../ui/choice";
import { Field } from "../../ui/field";
import { Trouble, type Doing } from "./admission";
import { useDesk } from "./context";
import { tell } from "./tell";

const ROLES = ["technician", "foreman", "owner"] as const;
const NOBODY: Person = { name: "", role: "technician", secret: "" };

export function NewPerson({ doing }: { doing: Doing }) {
  const { api } = useDesk();
  const [who, setWho] = useState(NOBODY);
  const [entered, setEntered] = useState("");
  const [why, setWhy] = useState<Failure | null>(null);
  const set = (change: Partial<Person>) => setWho((last) => ({ ...last, ...change }));
  const enter = async () => {
    const refused = await doing(() => api.enterPerson(who));
    setWhy(refused);
    setEntered(refused ? "" : who.name);
    if (!refused) setWho(NOBODY);
  };
  return (
    <div class="stack desk-form">
      <h4>{tell("person-new")}</h4>
      <Field label={tell("person-name")} value={who.name} onType={(name) => set({ name })} />
      <Field
        label={tell("person-secret")}
        hint={tell("person-secret-hint")}
        value={who.secret}
        onType={(secret) => set({ secret })}
      />
      <Pick
        legend={tell("person-role")}
        options={ROLES.map((role) => ({ id: role, label: tell(`role-${role}`) }))}
        picked={who.role}
        onPick={(role) => set({ role })}
      />
      <Trouble why={why} />
      <div class="row">
        <Button
          look="strong"
          calm
          disabled={who.name.trim() === "" || who.secret === ""}
          onTap={() => void enter()}
        >
          {tell("person-enter")}
        </Button>
      </div>
      {entered ? (
        <p class="told plain" role="status">
          {tell("person-entered", { name: entered })}
        </p>
      ) : null}
    </div>
  );
}
