/** Something that is so or not, with its words in one target. */

interface SwitchProps {
  label: string;
  on: boolean;
  onChange: (on: boolean) => void;
  about?: string | undefined;
  disabled?: boolean | undefined;
}

export function Switch({ label, on, onChange, about, disabled }: SwitchProps) {
  return (
    <label class="option option-wide">
      <input
        type="checkbox"
        checked={on}
        disabled={disabled}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
      <span>
        <bdi>{label}</bdi>
        {about ? <span class="option-about">{about}</span> : null}
      </span>
    </label>
  );
}
