/** From when to when, and each priority's share. */

import { DateField } from "../../controls/date-field";
import { NumberField } from "../../controls/number-field";
import { fieldHelp } from "../../records/field-helps";
import { fieldLabel } from "../../records/field-labels";
import type { SiteDocument } from "../../site/document";
import { mayEdit } from "../../store/queries";
import { t } from "../../words/catalogue";
import { listed } from "../../words/lists";
import { holdsOn, prioritiesOf, type Setting, WHOLE_PCT } from "./drought";

interface DroughtFormProps {
  document: SiteDocument;
  setting: Setting;
  night: string;
  /** There is one already. */
  known: boolean;
  onSet: (setting: Setting) => void;
  onFault: (name: string, fault: string | null) => void;
}

export function DroughtForm({ document, setting, night, known, onSet, onFault }: DroughtFormProps) {
  const disabled = !mayEdit.value;
  return (
    <>
      <p class="drought-now" role="status">
        {nowWords(known, setting, night)}
      </p>
      <div class="drought-form">
        {[...prioritiesOf(document)].map(([priority, zones]) => (
          <NumberField
            key={priority}
            label={t("Priority {priority} gets", { priority })}
            hint={listed(zones.map((zone) => document.nameOf("hydrozone", zone)))}
            value={setting.shares[priority] ?? WHOLE_PCT}
            least={0}
            most={WHOLE_PCT}
            required
            unit={t("%")}
            disabled={disabled}
            onChange={(share) => onSet({ ...setting, shares: { ...setting.shares, [priority]: share ?? WHOLE_PCT } })}
            onFault={(fault) => onFault(String(priority), fault)}
          />
        ))}
      </div>
      <div class="drought-form">
        <DateField
          label={fieldLabel("droughts", "starts")}
          value={setting.starts}
          disabled={disabled}
          onChange={(starts) => onSet({ ...setting, starts: starts ?? night })}
        />
        <DateField
          label={fieldLabel("droughts", "ends")}
          value={setting.ends || null}
          hint={setting.ends ? undefined : fieldHelp("droughts", "ends")}
          disabled={disabled}
          onChange={(ends) => onSet({ ...setting, ends: ends ?? "" })}
        />
      </div>
    </>
  );
}

function nowWords(known: boolean, setting: Setting, night: string): string {
  if (!known) return t("No drought rule holds: every hydrozone gets all it needs. Lower a share to set one.");
  return holdsOn(setting, night) ? t("A drought rule holds tonight.") : t("A drought rule is to come.");
}
