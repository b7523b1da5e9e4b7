/** Which of the sites on this phone is looked at. */

/** The address says which site it is, so that a reload and a bookmark lead to the same one. */
export function showSite(site: string): void {
  const address = new URL(location.href);
  address.searchParams.set("site", site);
  location.assign(address);
}
