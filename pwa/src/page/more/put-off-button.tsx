/** A button for what cannot be taken back: for a few seconds it can be called off instead. */

import { t } from "../words/catalogue";
import { usePutOff } from "./postponing";

interface PutOffButtonProps {
  label: string;
  /** For screen readers, where several buttons have the same words. */
  name?: string | undefined;
  /** What is about to happen, in a sentence. */
  waiting: string;
  disabled?: boolean | undefined;
  act: () => void;
}

export function PutOffButton({ label, name, waiting, disabled, act }: PutOffButtonProps) {
  const putOff = usePutOff(act);
  if (putOff.waits) {
    return (
      <div class="put-off" role="status">
        <span>{waiting}</span>
        <button type="button" class="button button-brass" onClick={putOff.callOff}>
          {t("Undo")}
        </button>
      </div>
    );
  }
  return (
    <button type="button" class="button button-grave" aria-label={name} disabled={disabled} onClick={putOff.start}>
      {label}
    </button>
  );
}
