/** A year's water put together: by month, by hydrozone, and what it costs step by step. Plain arithmetic, in litres. */

import type { Budget, BudgetLine, MonthCost } from "../../line/api";

export interface Water {
  allowed_l: number;
  planned_l: number;
  used_l: number;
}

export interface Month extends Water {
  /** `YYYY-MM`. */
  month: string;
  /** Of each hydrozone. */
  lines: BudgetLine[];
  /** Null where the site has no price steps. */
  cost: MonthCost | null;
}

export interface Zone extends Water {
  hydrozone: string;
}

export function total(parts: readonly Water[]): Water {
  const sum = (name: keyof Water) => parts.reduce((all, part) => all + part[name], 0);
  return { allowed_l: sum("allowed_l"), planned_l: sum("planned_l"), used_l: sum("used_l") };
}

/** Only months of which something is known. */
export function monthsOf(budget: Budget): Month[] {
  const costs = new Map(budget.costs.map((cost) => [cost.month, cost]));
  return [...grouped(budget.lines, (line) => line.month)].map(([month, lines]) => ({
    month,
    ...total(lines),
    lines,
    cost: costs.get(month) ?? null,
  }));
}

export function zonesOf(budget: Budget): Zone[] {
  return [...grouped(budget.lines, (line) => line.hydrozone)].map(([hydrozone, lines]) => ({
    hydrozone,
    ...total(lines),
  }));
}

export interface Step {
  /** Of a cubic metre. */
  price: string;
  volume_l: number;
  amount: number;
}

/** What was used, by the price it was used at, the cheapest first: months begin anew at the first step. */
export function stepsOf(months: readonly Month[]): Step[] {
  const all = months.flatMap((month) => month.cost?.steps ?? []);
  const steps = [...grouped(all, (step) => step.price)].map(([price, parts]) => ({
    price,
    volume_l: parts.reduce((sum, part) => sum + part.volume_l, 0),
    amount: parts.reduce((sum, part) => sum + Number(part.amount), 0),
  }));
  return steps.sort((one, other) => Number(one.price) - Number(other.price));
}

/** The year's bill so far, and what the whole plan would cost; null without price steps. */
export function costOf(months: readonly Month[]): { used: number; planned: number } | null {
  const costs = months.flatMap(({ cost }) => (cost ? [cost] : []));
  if (costs.length === 0) return null;
  return {
    used: costs.reduce((sum, cost) => sum + Number(cost.amount ?? 0), 0),
    planned: costs.reduce((sum, cost) => sum + Number(cost.planned_amount), 0),
  };
}

/** Heights of a month's bar, in percent of the picture's. */
export interface Bar {
  month: string;
  allowed: number;
  planned: number;
  /** What was used within the allowance, and what above it. Without an allowance nothing is above. */
  within: number;
  above: number;
}

/** The most that any bar stands for, in litres; 0 where there is nothing. */
export function topOf(months: readonly Water[]): number {
  return Math.max(0, ...months.flatMap(({ allowed_l, planned_l, used_l }) => [allowed_l, planned_l, used_l]));
}

export function barsOf(months: readonly Month[]): Bar[] {
  const top = topOf(months) || 1;
  return months.map(({ month, allowed_l, planned_l, used_l }) => {
    const within = allowed_l > 0 ? Math.min(used_l, allowed_l) : used_l;
    const share = (litres: number) => (100 * litres) / top;
    return {
      month,
      allowed: share(allowed_l),
      planned: share(planned_l),
      within: share(within),
      above: share(used_l - within),
    };
  });
}

/** In the order in which they first come. */
function grouped<Item>(items: readonly Item[], key: (item: Item) => string): Map<string, Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const known = groups.get(key(item));
    if (known) known.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
}
