/** What people may do at a site, in words. */

import type { Role } from "../store/shapes";
import { t } from "../words/catalogue";

export const ROLES: readonly Role[] = ["crew", "lead", "manager"];

export function roleName(role: Role | null | undefined): string {
  if (role === "manager") return t("Manager");
  if (role === "lead") return t("Lead");
  return role === "crew" ? t("Crew") : t("Reads only");
}

export function roleAbout(role: Role): string {
  if (role === "manager") return t("Changes everything, invites people and ends lost phones.");
  if (role === "lead") return t("Changes run times, programs and records.");
  return t("Reads everything and writes notes.");
}
