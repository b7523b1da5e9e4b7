/** Let a walk's path begin where its reader stands, once they tell it. */

import { useState } from "preact/hooks";
import { type LocatingFault, locate } from "../place/locating";
import type { Place } from "../place/place";
import { locatingFaultWords } from "../place/words";
import { t } from "../words/catalogue";

/** Common practice, no source: which stations are near needs no better than this. */
const NEAR_ENOUGH_M = 50;

interface FromHereProps {
  from: Place | null;
  onChange: (from: Place) => void;
}

export function FromHere({ from, onChange }: FromHereProps) {
  const [state, setState] = useState<"" | "busy" | LocatingFault>("");
  const press = async () => {
    setState("busy");
    const found = await locate(NEAR_ENOUGH_M);
    if (typeof found === "string") return setState(found);
    setState("");
    onChange(found);
  };
  return (
    <div class="wet-from">
      <button type="button" class="button" disabled={state === "busy"} onClick={() => void press()}>
        {state === "busy" ? t("Finding where you are…") : t("Begin where I am")}
      </button>
      <p role="status" class={state && state !== "busy" ? "field-fault" : "wet-note"}>
        {state && state !== "busy" ? locatingFaultWords(state) : from ? t("The walk begins where you are.") : ""}
      </p>
    </div>
  );
}
