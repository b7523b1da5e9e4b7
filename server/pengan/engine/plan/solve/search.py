"""The search: many constructions, the best one kept. Effort is counted in constructions, never in seconds."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from ..bound import bound
from ..problem import Plan, Problem
from .construct import Construction
from .network import Network
from .orders import first_orders, orders_by_rank
from .score import Score, Starts, score

HOLDS = (0.0, 0.02, 0.05, 0.1)


def solve(problem, effort, start_from=None, on_construction=None):
    return Search(problem, effort, on_construction).run(start_from)


def default_effort(problem):
    cycles = sum(len(c.cycles) for c in problem.chains)
    return max(12, min(600, 150_000 // max(1, cycles)))


class Search:
    def __init__(self, problem, effort, on_construction=None):
        self.problem = problem
        self.net = Network(problem)
        self.effort = effort
        self.spent = 0
        self.best = None
        self.random = Random(1)
        self.target = bound(problem).at

    def construct(self, ranking, hold):
        self.spent += 1
        starts = Construction(self.net, ranking, hold).run()
        return score(self.problem, starts), starts

    def run(self, start_from):
        done = []
        for order in first_orders(self.net):
            for hold in HOLDS:
                if self.spent >= self.effort: break
                s, st = self.construct(order, hold)
                done.append((s, len(done), order, hold, st))
        if any(done[0][0][0]):
            for order in orders_by_rank(self.net):
                for hold in HOLDS[:2]:
                    if self.spent >= self.effort: break
                    s, st = self.construct(order, hold)
                    done.append((s, len(done), order, hold, st))
        done.sort(key=lambda d: d[:2])
        self.first = done[0][0]
        best = done[0]
        self.log = [(self.spent, best[0])]
        best = self.wheel(best)
        s, _, order, hold, st = best
        self.score = s
        return Plan(tuple(tuple(r) + (None,) * (len(c.cycles) - len(r)) for r, c in zip(st, self.problem.chains)), tuple(self.problem.chains[c].key for c in order), self.spent)

    def wheel(self, best):
        s, n, order, hold, st = best
        cur = best
        stale = 0
        while self.spent < self.effort:
            if s[1] <= self.target and not any(s[0]):
                break
            order2 = self.raise_late(cur[2], cur[4])
            h = HOLDS[int(self.random.random() * 4)] if self.random.random() < 0.3 else cur[3]
            s2, st2 = self.construct(order2, h)
            cand = (s2, 0, order2, h, st2)
            if s2 < best[0]:
                best = cand; self.log.append((self.spent, s2)); stale = 0
                s = s2
            else:
                stale += 1
            cur = cand
            if stale > 12:
                cur = best; stale = 0
        return best

    def raise_late(self, order, starts):
        r = self.random.random
        n = len(order)
        target = self.target
        power = 0.1 + 0.9 * r()
        seen = [0] * len(self.net.chains)
        keyed = []
        for pos, c in enumerate(order):
            k = seen[c]; seen[c] += 1
            row = starts[c]
            key = pos
            chain = self.net.chains[c]
            if k >= len(row):
                key -= n * power * r()
            elif row[k] + chain.cycles[k] > target - (0):
                key -= n * power * r()
            keyed.append((key, pos, c))
        keyed.sort()
        return [c for _, _, c in keyed]
