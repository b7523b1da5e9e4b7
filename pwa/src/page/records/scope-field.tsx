/** What a window or a closure speaks of: the whole site, or what hangs on one thing; several narrow it together. */

import { useState } from "preact/hooks";
import { Choice } from "../controls/choice";
import { t } from "../words/catalogue";
import { faultAt, mayChange } from "./control-props";
import { type Form, setFields } from "./form";
import { ReferenceField } from "./reference-field";
import { SCOPES, type Scope, scopesOf } from "./scope";

type Wish = "all" | Scope;

export function ScopeField({ form }: { form: Form }) {
  const record = form.record;
  const [wished, setWished] = useState<Scope | null>(null);
  if (!record) return null;
  const set = scopesOf(record);
  const shown = wished && !set.includes(wished) ? [...set, wished] : set;
  return (
    <>
      <Choice<Wish>
        label={t("What it speaks of")}
        value={shown.length === 1 ? (shown[0] ?? "all") : "all"}
        options={shown.length > 1 ? [] : options()}
        hint={shown.length ? about(shown) : t("It holds for the whole site.")}
        fault={faultAt(form, SCOPES)}
        disabled={!mayChange(form, "scope")}
        onChange={(wish) => {
          setWished(wish === "all" ? null : wish);
          setFields(form, Object.fromEntries(SCOPES.map((scope) => [scope, null])));
        }}
      />
      {shown.map((scope) => (
        <ReferenceField key={scope} form={form} field={scope} />
      ))}
    </>
  );
}

function options() {
  return [
    { value: "all" as const, label: t("Whole site") },
    { value: "supply" as const, label: t("One supply") },
    { value: "controller" as const, label: t("One controller") },
    { value: "hydrozone" as const, label: t("One hydrozone") },
    { value: "program" as const, label: t("One program") },
    { value: "station" as const, label: t("One station") },
  ];
}

function about(shown: readonly Scope[]): string {
  if (shown.length > 1) return t("Only what all of these have in common.");
  return shown[0] === "supply" ? t("A supply means everything that hangs on it.") : "";
}
