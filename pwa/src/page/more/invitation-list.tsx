/** The invitations that can still be used, each with a way to withdraw it. */

import { whenHere } from "../shell/line-words";
import { t } from "../words/catalogue";
import { type Invitation, invitationsTo, withdraw } from "./crew";
import { faultWords, useDoing } from "./doing";
import { PutOffButton } from "./put-off-button";
import { roleName } from "./role-words";
import { useKnown } from "./use-known";

export function InvitationList({ site }: { site: string }) {
  const list = invitationsTo(site);
  const known = useKnown(list);
  if (!known.items?.length) return null;
  return (
    <section aria-labelledby="invitations-title">
      <h2 id="invitations-title" class="more-title">
        {t("Open invitations")}
      </h2>
      <ul class="more-list">
        {known.items.map((one) => (
          <InvitationRow key={one.id} invitation={one} onGone={() => void list.load()} />
        ))}
      </ul>
    </section>
  );
}

function InvitationRow({ invitation, onGone }: { invitation: Invitation; onGone: () => void }) {
  const doing = useDoing();
  const act = async () => {
    if (await doing.run(() => withdraw(invitation.id))) onGone();
  };
  const name = invitation.name ?? t("Not named");
  const until = whenHere(invitation.expires_at, Date.now());
  return (
    <li class="more-row">
      <span class="more-row-what">
        <span class="more-row-name">
          <bdi>{name}</bdi>
        </span>
        <span class="more-row-under">
          {t("{role}, until {time}", { role: roleName(invitation.role), time: until })}
        </span>
        {doing.fault ? <span class="more-fault">{faultWords(doing.fault)}</span> : null}
      </span>
      <PutOffButton
        label={t("Withdraw")}
        name={t("Withdraw the invitation for {name}", { name })}
        waiting={t("The invitation is about to be withdrawn.")}
        disabled={doing.busy}
        act={() => void act()}
      />
    </li>
  );
}
