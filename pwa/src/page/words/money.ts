/** Money as the reader's language writes it, in the site's own currency. */

import { figure } from "./figures";
import { numberFormat } from "./formats";

const CODE = /^[A-Za-z]{3}$/;
/** Decimals where no currency says how many it has. */
const PLACES = 2;

/** An exact decimal as the server tells it, or a sum of such. Without a currency, or with one that is none, the bare figure. */
export function money(amount: string | number, currency: string | null): string {
  const value = Number(amount);
  if (currency === null || !CODE.test(currency)) return figure(value, PLACES);
  return numberFormat({ style: "currency", currency: currency.toUpperCase() }).format(value);
}
