/** One's own devices: which there are, ending one or all others, and a code for the next. */

import { useState } from "preact/hooks";
import { t } from "../words/catalogue";
import { CodeCard } from "./code-card";
import { endOtherDevices, endOwnDevice, type Invited, nextDeviceCode, ownDevices } from "./crew";
import { DeviceList } from "./device-list";
import { useDoing } from "./doing";
import { FaultLine } from "./fault-line";
import { NeedsSignal } from "./needs-signal";
import { PutOffButton } from "./put-off-button";
import { useKnown } from "./use-known";

export function Devices() {
  const list = ownDevices();
  const known = useKnown(list);
  const reload = () => void list.load();
  const others = known.items?.filter((device) => !device.this_one) ?? [];
  return (
    <>
      <NeedsSignal known={known} reload={reload} />
      <NextDevice />
      {known.items ? <DeviceList devices={known.items} end={endOwnDevice} onEnded={reload} /> : null}
      {others.length > 1 ? <EndOthers onEnded={reload} /> : null}
    </>
  );
}

function NextDevice() {
  const [invited, setInvited] = useState<Invited | null>(null);
  const doing = useDoing();
  if (invited) {
    return (
      <CodeCard
        invited={invited}
        forWhom={t("This code lets one more device in as you.")}
        onDone={() => setInvited(null)}
      />
    );
  }
  return (
    <div class="more-act">
      <button
        type="button"
        class="button button-strong"
        disabled={doing.busy}
        onClick={() => void doing.run(async () => setInvited(await nextDeviceCode()))}
      >
        {t("Code for my next device")}
      </button>
      <FaultLine fault={doing.fault} />
    </div>
  );
}

function EndOthers({ onEnded }: { onEnded: () => void }) {
  const doing = useDoing();
  const act = async () => {
    if (await doing.run(endOtherDevices)) onEnded();
  };
  return (
    <div class="more-act">
      <PutOffButton
        label={t("End all my other devices")}
        waiting={t("All your other devices are about to be ended.")}
        disabled={doing.busy}
        act={() => void act()}
      />
      <FaultLine fault={doing.fault} />
    </div>
  );
}
