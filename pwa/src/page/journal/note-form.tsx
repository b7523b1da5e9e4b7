/** Write a note into the journal, about a station, a supply or the whole site; with or without signal. */

import { useState } from "preact/hooks";
import { PickList } from "../controls/pick-list";
import { TextField } from "../controls/text-field";
import { KeepFault } from "../edits/fault";
import { keepFaultWords } from "../records/fault-words";
import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import type { About } from "./choosing";
import { places } from "./filters";
import { tell } from "./telling";

const LONGEST = 2000;

export function NoteForm({ document, about }: { document: SiteDocument; about: About | null }) {
  const [text, setText] = useState("");
  const [place, setPlace] = useState(about ? `${about.table}/${about.id}` : "");
  const [state, setState] = useState<"" | "busy" | "kept" | KeepFault["why"]>("");
  const wrong = !text.trim() || [...text].length > LONGEST;
  const submit = async (event: Event) => {
    event.preventDefault();
    if (wrong || state === "busy") return;
    setState("busy");
    try {
      await tell({ kind: "note", text: text.trim(), ...where(place) });
      setText("");
      setState("kept");
    } catch (fault) {
      if (!(fault instanceof KeepFault)) throw fault;
      setState(fault.why);
    }
  };
  return (
    <form class="note-form" onSubmit={(event) => void submit(event)}>
      <TextField
        label={t("A note for the journal")}
        value={text}
        lines={3}
        most={LONGEST}
        onChange={(typed) => {
          setText(typed);
          setState("");
        }}
      />
      <PickList
        label={t("What it is about")}
        value={place}
        options={[{ value: "", label: t("The whole site") }, ...places(document)]}
        onChange={setPlace}
      />
      <button type="submit" class="button button-strong" disabled={wrong || state === "busy"}>
        {state === "busy" ? t("Saving on this phone…") : t("Write it down")}
      </button>
      <p role="status" class={state && state !== "busy" && state !== "kept" ? "more-fault" : "more-note"}>
        {state === "kept" ? t("Saved on this phone. It is sent once there is signal.") : ""}
        {state && state !== "busy" && state !== "kept" ? keepFaultWords(state) : ""}
      </p>
    </form>
  );
}

function where(place: string): { station?: string; supply?: string } {
  const [table, ...id] = place.split("/");
  if (table === "station") return { station: id.join("/") };
  return table === "supply" ? { supply: id.join("/") } : {};
}
