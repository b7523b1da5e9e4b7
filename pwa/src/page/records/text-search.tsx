/** A line to narrow a list by. */

import { t } from "../words/catalogue";

interface TextSearchProps {
  value: string;
  onChange: (value: string) => void;
}

export function TextSearch({ value, onChange }: TextSearchProps) {
  return (
    <div class="text-search">
      <input
        class="field-input"
        type="search"
        dir="auto"
        autocomplete="off"
        aria-label={t("Search the list")}
        placeholder={t("Search")}
        value={value}
        onInput={(event) => onChange(event.currentTarget.value)}
      />
    </div>
  );
}
