/** What one is called here. The name is the server's: it needs signal. */

import { useState } from "preact/hooks";
import { TextField } from "../controls/text-field";
import { person } from "../store/queries";
import { t } from "../words/catalogue";
import { faultWords, fieldFault, useDoing } from "./doing";
import { rename } from "./session";

const LONGEST = 200;

export function OwnName() {
  const known = person.value?.name ?? "";
  const [name, setName] = useState(known);
  const [wrong, setWrong] = useState<string | null>(null);
  const doing = useDoing();
  const changed = name.trim() !== known && name.trim() !== "" && wrong === null;
  return (
    <form
      class="inline-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (changed) void doing.run(() => rename(name.trim()));
      }}
    >
      <TextField
        label={t("Your name")}
        value={name}
        most={LONGEST}
        required
        fault={fieldFault(doing.fault, "name") ?? (doing.fault ? faultWords(doing.fault) : null)}
        onChange={setName}
        onFault={setWrong}
      />
      {changed ? (
        <button type="submit" class="button" disabled={doing.busy}>
          {t("Keep this name")}
        </button>
      ) : null}
    </form>
  );
}
