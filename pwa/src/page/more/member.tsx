/** One person of the team, for managers: their role here, their devices, and a code for a lost phone. */

import { useState } from "preact/hooks";
import { copy, person } from "../store/queries";
import { t } from "../words/catalogue";
import { CodeCard } from "./code-card";
import { deviceCodeFor, devicesOf, endDeviceOf, type Invited, type TeamMember, teamOf } from "./crew";
import { DeviceList } from "./device-list";
import { useDoing } from "./doing";
import { FaultLine } from "./fault-line";
import { MemberRole } from "./member-role";
import { NeedsSignal } from "./needs-signal";
import { useKnown } from "./use-known";

export function Member({ id }: { id: string }) {
  const list = teamOf(copy.value?.site ?? "");
  const known = useKnown(list);
  const member = known.items?.find((one) => one.id === id);
  return (
    <>
      <NeedsSignal known={known} reload={() => void list.load()} />
      {member ? (
        <MemberBody member={member} onChanged={() => void list.load()} />
      ) : known.items ? (
        <p class="more-note">{t("This person does not work at this site.")}</p>
      ) : null}
    </>
  );
}

function MemberBody({ member, onChanged }: { member: TeamMember; onChanged: () => void }) {
  return (
    <>
      <h2 class="more-name">
        <bdi>{member.name}</bdi>
      </h2>
      <MemberRole member={member} onChanged={onChanged} />
      {member.id === person.value?.id ? null : <MemberDevices member={member} />}
    </>
  );
}

function MemberDevices({ member }: { member: TeamMember }) {
  const list = devicesOf(member.id);
  const known = useKnown(list);
  return (
    <section aria-labelledby="devices-title">
      <h2 id="devices-title" class="more-title">
        {t("Devices")}
      </h2>
      <NeedsSignal known={known} reload={() => void list.load()} />
      {known.items ? (
        <DeviceList
          devices={known.items}
          end={(device) => endDeviceOf(member.id, device)}
          onEnded={() => void list.load()}
        />
      ) : null}
      <LostPhoneCode member={member} />
    </section>
  );
}

function LostPhoneCode({ member }: { member: TeamMember }) {
  const [invited, setInvited] = useState<Invited | null>(null);
  const doing = useDoing();
  if (invited) {
    const words = t("This code lets one more device in as {name}.", { name: member.name });
    return <CodeCard invited={invited} forWhom={words} onDone={() => setInvited(null)} />;
  }
  return (
    <div class="more-act">
      <button
        type="button"
        class="button"
        disabled={doing.busy}
        onClick={() => void doing.run(async () => setInvited(await deviceCodeFor(member.id)))}
      >
        {t("Code for a new phone")}
      </button>
      <p class="more-note">{t("After a phone is lost: end it above, then hand over this code.")}</p>
      <FaultLine fault={doing.fault} />
    </div>
  );
}
