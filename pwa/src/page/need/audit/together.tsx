/** Stations that ran together with the audit's own, or one after the other for as long, over the same cans. */

import { Chooser } from "../../records/chooser";
import type { Form } from "../../records/form";
import { recordLine, recordTitle } from "../../records/record-words";
import { t } from "../../words/catalogue";
import { othersOf, putOthers } from "./drafting";

export function Together({ form }: { form: Form }) {
  const others = othersOf(form.name);
  const taken = new Set([...others, form.record?.station]);
  const free = form.records.of("stations").filter((station) => !taken.has(station.id));
  const title = (id: string) => recordTitle(form.records.get("stations", id), form.records);
  return (
    <div class="audit-together">
      <Chooser
        label={t("Stations that ran with it")}
        hint={t("Only if they wet the same cans, all for as long. Each gets an audit of its own with these figures.")}
        chosen=""
        verb={t("Choose a station")}
        options={free.map((station) => ({
          value: station.id,
          label: recordTitle(station, form.records),
          about: recordLine(station, form.records),
        }))}
        onChoose={(station) => putOthers(form.name, [...others, station])}
      />
      {others.map((station) => (
        <div key={station} class="dates-one">
          <bdi>{title(station)}</bdi>
          <button
            type="button"
            class="button"
            aria-label={t("Take {station} out", { station: title(station) })}
            onClick={() =>
              putOthers(
                form.name,
                others.filter((one) => one !== station),
              )
            }
          >
            {t("Take out")}
          </button>
        </div>
      ))}
    </div>
  );
}
