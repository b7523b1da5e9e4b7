/** Who works at the site and as what. Managers invite, change roles and look after lost phones. */

import { copy, person } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { type TeamMember, teamOf } from "./crew";
import { InvitationList } from "./invitation-list";
import { NeedsSignal } from "./needs-signal";
import { roleName } from "./role-words";
import { useKnown } from "./use-known";

export function Team() {
  const site = copy.value?.site;
  if (!site) return <p class="more-note">{t("There is no site on this phone yet.")}</p>;
  return <TeamAt site={site} />;
}

function TeamAt({ site }: { site: string }) {
  const list = teamOf(site);
  const known = useKnown(list);
  const manages = copy.value?.role === "manager";
  return (
    <>
      <NeedsSignal known={known} reload={() => void list.load()} />
      {manages ? (
        <div class="more-act">
          <button type="button" class="button button-strong" onClick={() => go("more", "invite")}>
            {t("Invite somebody")}
          </button>
        </div>
      ) : null}
      <ul class="more-list">
        {known.items?.map((member) => (
          <li key={member.id}>{manages ? <MemberButton member={member} /> : <MemberRow member={member} />}</li>
        ))}
      </ul>
      {manages ? <InvitationList site={site} /> : null}
    </>
  );
}

function MemberButton({ member }: { member: TeamMember }) {
  return (
    <button type="button" class="more-row more-row-button" onClick={() => go("more", "team", member.id)}>
      <Who member={member} />
    </button>
  );
}

function MemberRow({ member }: { member: TeamMember }) {
  return (
    <div class="more-row">
      <Who member={member} />
    </div>
  );
}

function Who({ member }: { member: TeamMember }) {
  const mine = member.id === person.value?.id;
  return (
    <>
      <span class="more-row-what">
        <span class="more-row-name">
          <bdi>{member.name}</bdi>
        </span>
        {mine ? <span class="more-row-under">{t("You")}</span> : null}
      </span>
      <span class="more-row-end">{roleName(member.role)}</span>
    </>
  );
}
