/** When a closure holds: once, from and until a date and time; or by day rule, between two times of day. */

import { Choice } from "../controls/choice";
import { DateField } from "../controls/date-field";
import { t } from "../words/catalogue";
import { faultAt, mayChange, shared } from "./control-props";
import { type Form, setFields } from "./form";
import { DaysControl, HoursControl } from "./group-control";
import { textOf } from "./records";
import { todayHere } from "./today";

type Kind = "once" | "again";

export function ClosureSpan({ form }: { form: Form }) {
  const kind: Kind = textOf(form.record, "starts") || textOf(form.record, "ends") ? "again" : "once";
  return (
    <>
      <Choice<Kind>
        label={t("How often")}
        value={kind}
        options={[
          { value: "once", label: t("Once") },
          { value: "again", label: t("On set days") },
        ]}
        fault={faultAt(form, [null, "starts"])}
        disabled={!mayChange(form, "span")}
        onChange={(to) => setFields(form, to === "once" ? once() : again())}
      />
      {kind === "once" ? <Once form={form} /> : <Again form={form} />}
    </>
  );
}

function once() {
  const today = todayHere.value;
  return { ...NO_DAYS, starts: null, ends: null, starts_on: `${today}T21:00`, ends_on: `${today}T23:00` };
}

const again = () => ({ starts: "21:00", ends: "23:00", starts_on: null, ends_on: null });

/** A day rule says nothing of what happens once. */
const NO_DAYS = {
  days: null,
  weekdays: null,
  every_n_days: null,
  every_from: null,
  dates: null,
  season_from: null,
  season_to: null,
};

function Once({ form }: { form: Form }) {
  const value = (field: string) => textOf(form.record, field) || null;
  return (
    <div class="field-pair">
      <DateField {...shared({ form, field: "starts_on" })} value={value("starts_on")} timed />
      <DateField {...shared({ form, field: "ends_on" })} value={value("ends_on")} timed />
    </div>
  );
}

function Again({ form }: { form: Form }) {
  return (
    <>
      <HoursControl form={form} from="starts" until="ends" />
      <DaysControl form={form} />
    </>
  );
}
