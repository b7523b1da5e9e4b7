/** A value of one's own for what is disputed or was refused: the record's own controls, with its effect beside them. */

import { useEffect, useRef } from "preact/hooks";
import { KeepBar } from "../edits/keep-bar";
import { EffectPanel } from "../effect/effect-panel";
import { groupValue } from "../records/changes";
import { faultLine } from "../records/fault-words";
import { FieldControl } from "../records/field-control";
import { groupsOf } from "../records/fields";
import { formOf, putBack, setFields, unreadIn } from "../records/form";
import { GroupControl } from "../records/group-control";
import { partsOf } from "../store/groups";
import type { Waiting } from "../store/shapes";
import { t } from "../words/catalogue";
import { settleWith, weighed } from "./deciding";
import { fieldOf, proposed, records } from "./ground";
import type { WaitingSet } from "./sets";
import { valuesWords } from "./values";

interface AnotherValueProps {
  set: WaitingSet;
  one: Waiting;
  onKept: () => void;
  onBack: () => void;
}

export function AnotherValue({ set, one, onKept, onBack }: AnotherValueProps) {
  const { table, record } = one.edit;
  const field = fieldOf(one.edit);
  const name = `settle/${one.edit.id}`;
  const form = formOf(name, table, record);
  const top = useRef<HTMLElement>(null);
  useEffect(() => {
    const begun = form.draft.size > 0 || !form.record;
    if (!begun) setFields(form, partsOf(table, field, proposed(one)));
    top.current?.scrollIntoView({ block: "start" });
  }, [name]);
  if (!form.record) return null;
  const value = groupValue(form.record, table, field);
  const changes = settleWith(set.items, one, value);
  const [words = ""] = valuesWords(table, field, [value, proposed(one), one.edit.was], records.value);
  const done = () => {
    putBack(name);
    onKept();
  };
  const faults = [...unreadIn(name), ...form.faults.map((fault) => faultLine(fault, form.records))];
  return (
    <section class="another" ref={top} aria-label={t("Another value")}>
      <div class="another-fields">
        {isOneControl(table, field) ? (
          <GroupControl form={form} field={field} />
        ) : (
          (groupsOf(table)[field] ?? [field]).map((part) => <FieldControl key={part} form={form} field={part} />)
        )}
      </div>
      <EffectPanel changes={weighed(changes)} turn={table === "turns" ? record : null} />
      <KeepBar
        changes={changes}
        faults={faults}
        said={() => t("Settled on {value}.", { value: words })}
        back={t("Back")}
        onBack={() => {
          putBack(name);
          onBack();
        }}
        keep={t("Use {value}", { value: words })}
        onKept={done}
      />
    </section>
  );
}

/** Groups that have a control of their own, and fields that stand alone. */
function isOneControl(table: string, field: string): boolean {
  const names = groupsOf(table)[field] ?? [field];
  return ["days", "hours", "span", "clock"].includes(field) || (names.length === 1 && names[0] === field);
}
