/** The form for coming in by a code. What is typed stays while there is no signal, and is sent when asked again. */

import { useState } from "preact/hooks";
import { PickList } from "../controls/pick-list";
import { TextField } from "../controls/text-field";
import { person } from "../store/queries";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { language } from "../words/reader";
import { CodeField } from "./code-field";
import { typedCode } from "./codes";
import { draft, join, putDraft } from "./coming-in";
import { deviceGuess } from "./device-name";
import { fieldFault, useDoing } from "./doing";
import { FaultLine } from "./fault-line";
import { languageOptions } from "./settings-options";

const LONGEST = 200;

export function JoinForm() {
  const doing = useDoing();
  const [lacks, setLacks] = useState(false);
  const device = draft.value.device || deviceGuess(navigator.userAgent, navigator.maxTouchPoints > 1);
  const known = person.value !== null;
  const missing = missingParts(known);
  const submit = async () => {
    setLacks(missing.length > 0);
    if (missing.length === 0 && (await doing.run(() => join(device)))) refine("tonight");
  };
  return (
    <form
      class="more-form"
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
    >
      <CodeField fault={fieldFault(doing.fault, "code")} />
      {known ? null : (
        <>
          <TextField
            label={t("Your name")}
            value={draft.value.name}
            most={LONGEST}
            hint={t("As your crew knows you. With a code for your own next device your name stays as it is.")}
            fault={fieldFault(doing.fault, "name")}
            onChange={(name) => putDraft({ name })}
          />
          <PickList
            label={t("Language")}
            value={language.value}
            options={languageOptions()}
            onChange={(tag) => {
              language.value = tag;
            }}
          />
        </>
      )}
      <TextField
        label={t("Name of this device")}
        value={device}
        most={LONGEST}
        hint={t("So that you find it again in the list of your devices.")}
        fault={fieldFault(doing.fault, "device_name")}
        onChange={(name) => putDraft({ device: name })}
      />
      <button type="submit" class="button button-strong" disabled={doing.busy}>
        {t("Come in")}
      </button>
      <div role="alert">{lacks && missing.length ? <Lacking sentences={missing} /> : null}</div>
      <FaultLine fault={doing.fault} />
    </form>
  );
}

function missingParts(known: boolean): string[] {
  const code = typedCode(draft.value.code).whole === null ? [t("The code needs ten signs.")] : [];
  return known || draft.value.name.trim() ? code : [...code, t("Your name is missing.")];
}

function Lacking({ sentences }: { sentences: string[] }) {
  return (
    <ul>
      {sentences.map((one) => (
        <li key={one} class="more-alert">
          {one}
        </li>
      ))}
    </ul>
  );
}
