/** Somebody's devices, the newest first, each with a way to end it. */

import { whenHere } from "../shell/line-words";
import { t } from "../words/catalogue";
import type { Device } from "./crew";
import { faultWords, useDoing } from "./doing";
import { PutOffButton } from "./put-off-button";

interface DeviceListProps {
  devices: Device[];
  end: (id: string) => Promise<unknown>;
  onEnded: () => void;
}

export function DeviceList({ devices, end, onEnded }: DeviceListProps) {
  return (
    <ul class="more-list">
      {devices.map((device) => (
        <DeviceRow key={device.id} device={device} end={end} onEnded={onEnded} />
      ))}
    </ul>
  );
}

function DeviceRow({ device, end, onEnded }: { device: Device } & Omit<DeviceListProps, "devices">) {
  const doing = useDoing();
  const act = async () => {
    if (await doing.run(() => end(device.id))) onEnded();
  };
  const seen = whenHere(device.seen_at, Date.now());
  return (
    <li class="more-row">
      <span class="more-row-what">
        <span class="more-row-name">
          <bdi>{device.name}</bdi>
        </span>
        <span class="more-row-under">{device.this_one ? t("This device") : t("Last here {time}", { time: seen })}</span>
        {doing.fault ? <span class="more-fault">{faultWords(doing.fault)}</span> : null}
      </span>
      {device.this_one ? null : (
        <PutOffButton
          label={t("End")}
          name={t("End {device}", { device: device.name })}
          waiting={t("{device} is about to be ended.", { device: device.name })}
          disabled={doing.busy}
          act={() => void act()}
        />
      )}
    </li>
  );
}
