/** From which gravity on one is called, and in which hours rather not. Each change is sent at once. */

import { Choice } from "../controls/choice";
import { ClockField } from "../controls/clock-field";
import { Switch } from "../controls/switch";
import { faultWords, useDoing } from "../more/doing";
import { t } from "../words/catalogue";
import { type Gravity, putWishes, type Wishes } from "./calling";

const QUIET = { quiet_from: "22:00", quiet_to: "06:00" };

export function WishesForm({ wishes, reload }: { wishes: Wishes; reload: () => void }) {
  const doing = useDoing();
  const put = async (change: Partial<Wishes>) => {
    if (await doing.run(() => putWishes({ ...wishes, ...change }))) reload();
  };
  const quiet = wishes.quiet_from !== null && wishes.quiet_to !== null;
  return (
    <>
      <Choice<Gravity>
        label={t("Call me for")}
        value={wishes.least}
        options={[
          { value: "grave", label: t("Grave alarms") },
          { value: "serious", label: t("Serious ones too") },
          { value: "minor", label: t("All alarms") },
        ]}
        disabled={doing.busy}
        onChange={(least) => void put({ least })}
      />
      <Switch
        label={t("Quiet hours")}
        about={t("What comes in them is told when they are over. They go by the clock of the site.")}
        on={quiet}
        disabled={doing.busy}
        onChange={(on) => void put(on ? QUIET : { quiet_from: null, quiet_to: null, quiet_but: null })}
      />
      {quiet ? <QuietHours wishes={wishes} busy={doing.busy} put={put} /> : null}
      <p role="status" class="more-fault">
        {doing.fault ? faultWords(doing.fault) : ""}
      </p>
    </>
  );
}

interface QuietHoursProps {
  wishes: Wishes;
  busy: boolean;
  put: (change: Partial<Wishes>) => Promise<void>;
}

function QuietHours({ wishes, busy, put }: QuietHoursProps) {
  const shared = { sun: false, required: true, disabled: busy };
  return (
    <>
      <ClockField
        {...shared}
        label={t("Quiet from")}
        value={wishes.quiet_from}
        onChange={(time) => time && void put({ quiet_from: toTheMinute(time) })}
      />
      <ClockField
        {...shared}
        label={t("Quiet until")}
        value={wishes.quiet_to}
        onChange={(time) => time && void put({ quiet_to: toTheMinute(time) })}
      />
      <Switch
        label={t("Call me for grave alarms all the same")}
        on={wishes.quiet_but !== null}
        disabled={busy}
        onChange={(on) => void put({ quiet_but: on ? "grave" : null })}
      />
    </>
  );
}

/** Midnight at the end of a day is the day’s beginning here; quiet hours know no seconds. */
export function toTheMinute(time: string): string {
  const minute = time.slice(0, 5);
  return minute === "24:00" ? "00:00" : minute;
}
