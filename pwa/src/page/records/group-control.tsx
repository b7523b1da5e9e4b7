/** A group of fields with one control: days, hours, a span, the site's clock, a scope; any other is a single field. */

import { ClockField } from "../controls/clock-field";
import { DayRuleField } from "../controls/day-rule";
import { t } from "../words/catalogue";
import { ClosureSpan } from "./closure-span";
import { type ControlProps, faultAt, mayChange, shared } from "./control-props";
import { FieldControl } from "./field-control";
import { fieldLabel } from "./field-labels";
import { groupsOf } from "./fields";
import { type Form, reportUnread, setFields } from "./form";
import { dayRuleOf } from "./record-words";
import { textOf } from "./records";
import { ScopeField } from "./scope-field";
import { SiteClockField } from "./site-clock-field";
import { todayHere } from "./today";

export function GroupControl({ form, field }: ControlProps) {
  if (field === "days") return <DaysControl form={form} />;
  if (field === "hours") return <HoursControl form={form} from="opens" until="closes" />;
  if (field === "span") return <ClosureSpan form={form} />;
  if (field === "clock") return <SiteClockField form={form} />;
  if (field === "scope") return <ScopeField form={form} />;
  return <FieldControl form={form} field={field} />;
}

export function DaysControl({ form }: { form: Form }) {
  if (!form.record) return null;
  return (
    <DayRuleField
      label={fieldLabel(form.table, "days")}
      value={dayRuleOf(form.record)}
      today={todayHere.value}
      asked={form.table === "programs"}
      fault={faultAt(form, groupsOf(form.table).days ?? [])}
      disabled={!mayChange(form, "days")}
      onFault={(words) => reportUnread(form, "days", words)}
      onChange={(rule) => setFields(form, { ...rule })}
    />
  );
}

interface HoursControlProps {
  form: Form;
  from: string;
  until: string;
}

/** Two times of day; the second at or before the first is on the next day, and says so. */
export function HoursControl({ form, from, until }: HoursControlProps) {
  const sun = form.records.site?.latitude_deg != null && form.records.site?.longitude_deg != null;
  const [start, end] = [textOf(form.record, from), textOf(form.record, until)];
  return (
    <>
      <div class="field-pair">
        <ClockField {...shared({ form, field: from })} value={start || null} sun={sun} required />
        <ClockField {...shared({ form, field: until })} value={end || null} sun={sun} required />
      </div>
      {overMidnight(start, end) ? <p class="field-hint">{t("It ends on the day after it begins.")}</p> : null}
    </>
  );
}

function overMidnight(start: string, end: string): boolean {
  return /^\d/.test(start) && /^\d/.test(end) && end <= start;
}
