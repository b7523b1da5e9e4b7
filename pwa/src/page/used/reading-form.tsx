/** Read a meter: what its counter shows goes into the journal, with or without signal. */

import { useState } from "preact/hooks";
import { NumberField } from "../controls/number-field";
import { PickList } from "../controls/pick-list";
import { Switch } from "../controls/switch";
import { KeepFault } from "../edits/fault";
import { tell } from "../journal/telling";
import { keepFaultWords } from "../records/fault-words";
import { textOf } from "../records/records";
import type { SiteDocument } from "../site/document";
import { copy } from "../store/queries";
import { t } from "../words/catalogue";
import { units } from "../words/reader";
import { symbol, unitsOf } from "../words/units";
import { counterUnit, litresOf } from "./counter";

const MOST = 1e12;
const PLACES = 3;

type State = "" | "busy" | "kept" | KeepFault["why"];

export function ReadingForm({ document }: { document: SiteDocument }) {
  const [supply, setSupply] = useState("");
  const [count, setCount] = useState<number | null>(null);
  const [unit, setUnit] = useState(counterUnit(units.peek()));
  const [isNew, setNew] = useState(false);
  const [state, setState] = useState<State>("");
  const found = unitsOf("volume")[unit];
  const wrong = !supply || count === null || !found;
  const submit = async (event: Event) => {
    event.preventDefault();
    if (wrong || state === "busy") return;
    setState("busy");
    const now = await kept({ kind: isNew ? "replaced" : "count", supply, count_l: litresOf(count, found) });
    setState(now);
    if (now === "kept") {
      setCount(null);
      setNew(false);
    }
  };
  return (
    <details class="as-table">
      <summary>{t("Read a meter")}</summary>
      <form class="used-reading" onSubmit={(event) => void submit(event)}>
        <PickList
          label={t("The meter of")}
          value={supply}
          options={[{ value: "", label: t("Choose a supply") }, ...suppliesOf(document)]}
          onChange={setSupply}
        />
        <NumberField
          label={t("Its counter shows")}
          value={count}
          least={0}
          most={MOST}
          places={PLACES}
          onChange={setCount}
        />
        <PickList label={t("Its unit")} value={unit} options={unitOptions()} onChange={setUnit} />
        {copy.value?.role === "crew" ? null : (
          <Switch
            label={t("This is a new meter")}
            about={t("It goes on from what it shows.")}
            on={isNew}
            onChange={setNew}
          />
        )}
        <p class="more-note">{t("Keep away from moving pumps, open pits and electricity while you read it.")}</p>
        <button type="submit" class="button button-strong" disabled={wrong || state === "busy"}>
          {t("Write it down")}
        </button>
        <p role="status" class={isFault(state) ? "more-fault" : "more-note"}>
          {state === "kept"
            ? t("Saved on this phone. It is sent once there is signal, and counts once its night is over.")
            : ""}
          {isFault(state) ? keepFaultWords(state) : ""}
        </p>
      </form>
    </details>
  );
}

const isFault = (state: State): state is KeepFault["why"] => !["", "busy", "kept"].includes(state);

async function kept(entry: Parameters<typeof tell>[0]): Promise<State> {
  try {
    await tell(entry);
    return "kept";
  } catch (fault) {
    if (!(fault instanceof KeepFault)) throw fault;
    return fault.why;
  }
}

function suppliesOf(document: SiteDocument) {
  return document.all("supplies").map((one) => ({ value: one.id, label: textOf(one, "name") }));
}

function unitOptions() {
  return Object.entries(unitsOf("volume")).map(([value, unit]) => ({ value, label: symbol(unit) }));
}
