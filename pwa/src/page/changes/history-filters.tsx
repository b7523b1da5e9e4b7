/** What of the history is shown: of one person, or of one record. */

import { isTable, TABLES } from "../records/fields";
import { recordTitle } from "../records/record-words";
import { tableTitle } from "../records/table-words";
import { copy } from "../store/queries";
import { t } from "../words/catalogue";
import { book, type Filters, newest } from "./book";
import { records } from "./ground";
import { nameOf } from "./people";

interface HistoryFiltersProps {
  filters: Filters;
  onChange: (filters: Filters) => void;
}

export function HistoryFilters({ filters, onChange }: HistoryFiltersProps) {
  const people = { ...copy.value?.people, ...newest.value.people, ...book.value.people };
  const { person: _, ...withoutPerson } = filters;
  const { table: __, record: ___, ...withoutTable } = filters;
  return (
    <div class="history-filters">
      <Select
        label={t("By")}
        value={filters.person ?? ""}
        every={t("Everybody")}
        options={Object.keys(people).map((id) => [id, nameOf(id, people[id])])}
        onPick={(person) => onChange(person ? { ...filters, person } : withoutPerson)}
      />
      <Select
        label={t("What it is about")}
        value={filters.table ?? ""}
        every={t("Everything")}
        options={TABLES.map((table) => [table, tableTitle(table)])}
        onPick={(table) => onChange(table ? { ...withoutTable, table } : withoutTable)}
      />
      {filters.table && isTable(filters.table) ? (
        <Select
          label={t("Which one")}
          value={filters.record ?? ""}
          every={t("All of them")}
          options={records.value.of(filters.table).map((one) => [one.id, recordTitle(one, records.value)])}
          onPick={(record) => onChange({ ...withoutTable, table: filters.table ?? "", ...(record ? { record } : {}) })}
        />
      ) : null}
    </div>
  );
}

interface SelectProps {
  label: string;
  value: string;
  every: string;
  options: [string, string][];
  onPick: (value: string) => void;
}

function Select({ label, value, every, options, onPick }: SelectProps) {
  return (
    <label class="history-filter">
      <span>{label}</span>
      <select value={value} onChange={(event) => onPick(event.currentTarget.value)}>
        <option value="">{every}</option>
        {options.map(([id, name]) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
