/** Let a new sender in by a name; then its token, once. */

import { useState } from "preact/hooks";
import { TextField } from "../controls/text-field";
import { fieldFault, useDoing } from "../more/doing";
import { FaultLine } from "../more/fault-line";
import type { MadeSender, Sender } from "./sender-api";
import type { Senders } from "./senders-page";

const LONGEST_NAME = 80;

interface LetInProps<One extends Sender> {
  site: string;
  senders: Senders<One>;
  onMade: () => void;
}

export function LetIn<One extends Sender>({ site, senders, onMade }: LetInProps<One>) {
  const [made, setMade] = useState<MadeSender | null>(null);
  const [name, setName] = useState("");
  const doing = useDoing();
  if (made) return <senders.Card made={made} onDone={() => setMade(null)} />;
  const submit = async (event: Event) => {
    event.preventDefault();
    if (!(await doing.run(async () => setMade(await senders.api.make(site, name))))) return;
    setName("");
    onMade();
  };
  return (
    <form class="more-form" onSubmit={(event) => void submit(event)}>
      <TextField
        label={senders.newName()}
        hint={senders.newHint()}
        value={name}
        most={LONGEST_NAME}
        fault={fieldFault(doing.fault, "name")}
        onChange={setName}
      />
      <button type="submit" class="button button-strong" disabled={doing.busy || !name.trim()}>
        {senders.letIn()}
      </button>
      <FaultLine fault={doing.fault} />
    </form>
  );
}
