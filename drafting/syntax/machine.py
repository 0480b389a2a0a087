"""The machine that follows lark's tables.

Takes terminals one by one and builds nodes as rules are finished. It can say beforehand which terminals it
would accept, and it can step back to the last place where a slip may stand, so that one slip does not hide
the next.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from drafting.syntax.tables import END, Production, Tables

Build = Callable[[str, int, int, list[Any]], Any]
"""Makes a node of its production's name, the place it stands in, and its children."""


@dataclass(slots=True)
class Machine:
    """States and what has been built so far. Each value stands with the place it begins and ends at."""

    tables: Tables
    build: Build
    states: list[int]
    values: list[tuple[Any, int, int]]

    @classmethod
    def starting(cls, tables: Tables, start: str, build: Build) -> Machine:
        return cls(tables, build, [tables.starts[start]], [])

    def accepts(self, terminal: str) -> bool:
        """Whether `terminal` may stand here; nothing is changed."""
        action = self.tables.actions[self.states[-1]].get(terminal)
        if action is None or action >= 0:
            return action is not None
        return self._advanced(self.states, terminal) is not None

    def accepts_all(self, terminals: Sequence[str]) -> bool:
        """Whether `terminals` may stand here, one after another; nothing is changed."""
        states = self.states
        for terminal in terminals:
            advanced = self._advanced(states, terminal)
            if advanced is None:
                return False
            states = advanced
        return True

    def ahead(self, terminals: Sequence[str]) -> Machine:
        """A machine that has read accepted `terminals` on top, to ask what it accepts; it builds nothing."""
        states = self.states
        for terminal in terminals:
            states = self._advanced(states, terminal) or states
        return Machine(self.tables, self.build, list(states), [])

    def at_depth(self, depth: int) -> Machine:
        """A machine that has read only so much of this one's states, to ask what it accepts."""
        return Machine(self.tables, self.build, self.states[:depth], [])

    def accepted(self) -> list[str]:
        """Every terminal that may stand here, sorted."""
        known = sorted(self.tables.actions[self.states[-1]])
        return [terminal for terminal in known if self.accepts(terminal)]

    def _advanced(self, states: list[int], terminal: str) -> list[int] | None:
        """The states after `terminal`, or None where it may not stand."""
        actions, gotos, productions = self.tables.actions, self.tables.gotos, self.tables.productions
        depth = len(states)
        above: list[int] = []
        action = actions[states[-1]].get(terminal)
        while action is not None and action < 0:
            production = productions[-1 - action]
            taken = min(production.size, len(above))
            del above[len(above) - taken :]
            depth -= production.size - taken
            above.append(gotos[above[-1] if above else states[depth - 1]][production.origin])
            action = actions[above[-1]].get(terminal)
        return None if action is None else [*states[:depth], *above, action]

    def feed(self, terminal: str, value: Any, start: int, end: int) -> None:
        """Take in an accepted terminal, finishing the rules that end before it."""
        actions = self.tables.actions
        action = actions[self.states[-1]][terminal]
        while action < 0:
            self._reduce(self.tables.productions[-1 - action], start)
            action = actions[self.states[-1]][terminal]
        self.states.append(action)
        self.values.append((value, start, end))

    def finish(self, start: str, place: int) -> Any:
        """The end of the text: finish every rule and give what the whole has become."""
        end_state = self.tables.ends[start]
        while self.states[-1] != end_state:
            action = self.tables.actions[self.states[-1]][END]
            self._reduce(self.tables.productions[-1 - action], place)
        return self.values[-1][0]

    def has_behind(self, terminal: str, floor: int) -> bool:
        """Whether there is a place to step back to, no deeper than `floor`, where `terminal` may stand."""
        return any(terminal in self.tables.actions[state] for state in self.states[floor:])

    def step_back(self, terminal: str) -> None:
        """Forget what was read since the last place where `terminal` may stand."""
        while not self.accepts(terminal):
            self.states.pop()
            self.values.pop()

    def _reduce(self, production: Production, place: int) -> None:
        size = production.size
        parts = self.values[len(self.values) - size :] if size else []
        if size:
            del self.states[-size:]
            del self.values[-size:]
        start, end = (parts[0][1], parts[-1][2]) if parts else (place, place)
        self.states.append(self.tables.gotos[self.states[-1]][production.origin])
        self.values.append((self._value(production, parts, start, end), start, end))

    def _value(self, production: Production, parts: list[tuple[Any, int, int]], start: int, end: int) -> Any:
        """A node, or for a rule that only groups (its name begins with `_`) the list of its children."""
        children: list[Any] = []
        for at, inline in production.children:
            if at < 0:
                children.append(None)
            elif not inline:
                children.append(parts[at][0])
            elif children:
                children.extend(parts[at][0])
            else:
                children = parts[at][0]
        if production.origin.startswith("_"):
            return children
        if production.is_transparent and len(children) == 1:
            return children[0]
        return self.build(production.name, start, end, children)
