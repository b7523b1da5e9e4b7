/** Writing down what is broken: how many, and a note. */

import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { readNumber } from "../controls/number-field";
import { Stepper } from "../controls/stepper";
import { TextField } from "../controls/text-field";
import type { Read } from "../controls/typed";
import type { Kept } from "../edits/keeping";
import { keepFaultWords } from "../records/fault-words";
import type { Station } from "../site/document";
import { t, tn } from "../words/catalogue";
import { figure } from "../words/figures";
import { type Finding, keepFinding, LONGEST_NOTE, MOST_FOUND } from "./finding";
import { PhotoField } from "./photos/field";
import { letGo } from "./photos/taking";
import { change } from "./under-way";
import { noted } from "./walk";
import { foundName } from "./words";

interface FindingFormProps {
  finding: Finding;
  station: Station;
  /** Null: it is kept, or not wanted. */
  onChange: (finding: Finding | null) => void;
}

export function FindingForm({ finding, station, onChange }: FindingFormProps) {
  const [state, setState] = useState<"" | "busy" | Kept>("");
  const form = useRef<HTMLElement>(null);
  useLayoutEffect(() => form.current?.scrollIntoView({ block: "start" }), []);
  const [faults, setFaults] = useState<Record<string, string | null>>({});
  const wrong = Object.values(faults).some((fault) => fault !== null);
  const leave = () => {
    onChange(null);
    void letGo(finding.photos);
  };
  const press = async () => {
    setState("busy");
    const half = () => onChange({ ...finding, half: true });
    const kept = await keepFinding(finding, station.id, station.number, half);
    setState(kept);
    if (kept !== "kept") return;
    const { entry, repair, found, count } = finding;
    change((walk) => noted(walk, { entry, repair, found, count }));
    onChange(null);
  };
  return (
    <section ref={form} class="wet-form" aria-labelledby="finding-title">
      <h2 id="finding-title" class="wet-title">
        {foundName(finding.found)}
      </h2>
      <Count finding={finding} onChange={onChange} onFault={(count) => setFaults((all) => ({ ...all, count }))} />
      <TextField
        label={t("Note")}
        value={finding.note}
        lines={3}
        most={LONGEST_NOTE}
        onChange={(note) => onChange({ ...finding, note })}
        onFault={(note) => setFaults((all) => ({ ...all, note }))}
      />
      <PhotoField photos={finding.photos} onChange={(photos) => onChange({ ...finding, photos })} />
      <div class="keep-bar">
        <div class="keep-words" role="status">
          {state && state !== "busy" && state !== "kept" ? <p>{keepFaultWords(state)}</p> : null}
        </div>
        <div class="keep-buttons">
          {finding.half ? null : (
            <button type="button" class="button" onClick={leave}>
              {t("Not broken")}
            </button>
          )}
          <button
            type="button"
            class="button button-strong"
            disabled={wrong || state === "busy"}
            onClick={() => void press()}
          >
            {state === "busy" ? t("Saving on this phone…") : t("Note it down")}
          </button>
        </div>
      </div>
    </section>
  );
}

interface CountProps {
  finding: Finding;
  onChange: (finding: Finding) => void;
  onFault: (fault: string | null) => void;
}

function Count({ finding, onChange, onFault }: CountProps) {
  const label = t("How many");
  return (
    <Stepper
      label={label}
      value={finding.count}
      was={finding.count}
      least={1}
      most={MOST_FOUND}
      steps={[-1, 1]}
      write={(count) => figure(count, 0)}
      read={(text) => readNumber(text, { label, least: 1, most: MOST_FOUND, required: true }) as Read<number>}
      stepName={(by) => (by > 0 ? tn("{count} more", "{count} more", by) : tn("{count} less", "{count} less", -by))}
      onChange={(count) => onChange({ ...finding, count })}
      onFault={onFault}
    />
  );
}
