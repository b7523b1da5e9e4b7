/** The site's clock: a zone found by name, a rule of its own, or dated changes. It moves every night, and says so. */

import { Choice } from "../controls/choice";
import { TextField } from "../controls/text-field";
import { nights } from "../night/nights";
import { now } from "../night/now";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { shortDay } from "../words/moments";
import { Chooser } from "./chooser";
import { nextClockChange } from "./coming";
import { faultAt, mayChange, shared } from "./control-props";
import { fieldOf } from "./fields";
import { type Form, setFields } from "./form";
import { textOf } from "./records";
import { CLOCKS, type ClockKind, clockKind, zoneOptions } from "./zones";

export function SiteClockField({ form }: { form: Form }) {
  if (!form.record) return null;
  const kind = clockKind(form.record);
  const put = (to: ClockKind) => setFields(form, { ...CLOCKS, [to]: textOf(form.was, to) || begun(to) });
  return (
    <>
      <Choice<ClockKind>
        label={t("How its clock is known")}
        value={kind}
        options={[
          { value: "zone", label: t("By its time zone") },
          { value: "zone_rule", label: t("By a rule of its own") },
          { value: "zone_changes", label: t("By dated changes") },
        ]}
        disabled={!mayChange(form, "clock")}
        onChange={put}
      />
      {kind === "zone" ? <ZoneChooser form={form} /> : <ClockText form={form} field={kind} />}
      <p class="caution-line">{t("Changing the clock moves every start, window and closure of every night.")}</p>
      <p class="field-hint">{changeWords()}</p>
    </>
  );
}

/** What another kind of clock begins with, so that the kind can be seen: the form for the reader to change. */
function begun(kind: ClockKind): string {
  if (kind === "zone") return "Etc/UTC";
  return kind === "zone_rule" ? "UTC0" : "+00:00";
}

function ZoneChooser({ form }: { form: Form }) {
  const { onChange, onFault: _, ...props } = shared({ form, field: "zone" });
  const zone = textOf(form.record, "zone");
  return (
    <Chooser
      {...props}
      chosen={zone}
      options={zoneOptions(zone)}
      onChoose={(value) => onChange(value || null)}
      fault={faultAt(form, ["zone"])}
    />
  );
}

function ClockText({ form, field }: { form: Form; field: ClockKind }) {
  const props = shared({ form, field });
  return (
    <TextField
      {...props}
      value={textOf(form.record, field)}
      most={fieldOf("site", field)?.most}
      lines={field === "zone_changes" ? 4 : 1}
      required
    />
  );
}

function changeWords(): string {
  const change = nextClockChange(nights.value, now.value);
  if (!change) return t("No clock change in the nights this phone knows.");
  const size = duration(Math.abs(change.after_s - change.before_s));
  const night = shortDay(change.night);
  return change.after_s > change.before_s
    ? t("The clock goes forward by {size} in the night of {night}.", { size, night })
    : t("The clock goes back by {size} in the night of {night}.", { size, night });
}
