/** A password, seen while it is typed only where somebody asks for it. */

import { useId, useState } from "preact/hooks";
import { describedBy, FieldFrame } from "../controls/field-frame";
import { Switch } from "../controls/switch";
import { t } from "../words/catalogue";

interface PasswordFieldProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
  /** `new-password` or `current-password`, so that the device offers the right one. */
  kind: "new-password" | "current-password";
  hint?: string | undefined;
  fault?: string | null | undefined;
}

export function PasswordField({ label, value, onChange, kind, hint, fault }: PasswordFieldProps) {
  const id = useId();
  const [seen, setSeen] = useState(false);
  return (
    <div class="password-field">
      <FieldFrame id={id} label={label} hint={hint} fault={fault}>
        <input
          id={id}
          class="field-input"
          type={(seen ? "text" : "password") as "password"}
          autocomplete={kind}
          dir="ltr"
          value={value}
          aria-invalid={fault ? true : undefined}
          aria-describedby={describedBy(id, hint, fault)}
          onInput={(event) => onChange(event.currentTarget.value)}
        />
      </FieldFrame>
      <Switch label={t("Show it")} on={seen} onChange={setSeen} />
    </div>
  );
}
