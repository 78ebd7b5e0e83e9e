"""Tools as rows: who has a tool after whom, and where it is washed.

For each kind the uses form chains, one for each tool: an arc from one use to another says that the later comes next on
the tool. Uses of a merging that is done may share a tool as one use. Alike ones among them (`_classes`) can do so in
any numbers: the first of them is always there, each other only where it has a tool of its own. Where uses that are not
alike belong to one merging, each mixture of them is a node by itself, which is there or not.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations

from ladleworth.cookday.columns import DayModel, Job, Kind, Node
from ladleworth.cookday.happened import fact_at
from ladleworth.cookday.question import Merging, ToolKind, ToolUse
from ladleworth.cookday.sheet import Sum
from ladleworth.cookday.verdict import paced


def columns_for_tools(model: DayModel) -> None:
    """Add the uses of each kind of tool, what may come after what, and the washes."""
    for tool in model.question.bench.tools:
        uses = [use for use in model.question.uses if use.kind == tool.name]
        if not uses:
            continue
        nodes = list(_nodes(model, tool, uses))
        enough = tool.count >= len(uses)
        if not enough and tool.count == 0:
            model.sheet.never()
        arcs: dict[tuple[int, int], int] = {}
        if not enough and tool.count:
            nodes = [_with_wash(model, tool, node) for node in nodes]
            arcs = dict(_arcs(model, nodes))
        model.kinds.append(Kind(tool.name, tuple(nodes), arcs))


# --- nodes ---------------------------------------------------------------------------------------------------


def _nodes(model: DayModel, tool: ToolKind, uses: list[ToolUse]) -> Iterator[Node]:
    """List the uses of a kind, and the mixtures that may share a tool."""
    shared = _shared(model.question.mergings, uses) if tool.count < len(uses) else {}
    within = {use.name: merging for merging, group in shared.items() for use in group}
    for use in uses:
        if use.name not in within:
            yield _node(model, (use,), None)
    for merging, group in shared.items():
        classes = _classes(model, group)
        done = model.merged[merging]
        if len(classes) == 1:
            yield _node(model, (group[0],), None)
            for use in group[1:]:
                literal = model.sheet.either()
                model.sheet.clause(done, literal)
                yield _node(model, (use,), literal)
        else:
            yield from (_node(model, (use,), ~done) for use in group)
            yield from _mixtures(model, tool, done, classes)


def _shared(mergings: tuple[Merging, ...], uses: list[ToolUse]) -> dict[str, list[ToolUse]]:
    """List, by merging, the uses all of whose activities belong to it, where there are several."""
    groups: dict[str, list[ToolUse]] = {}
    for merging in mergings:
        group = [use for use in uses if set(use.activities) <= set(merging.activities)]
        if len(group) > 1:
            groups[merging.name] = group
    return groups


def _classes(model: DayModel, group: list[ToolUse]) -> list[list[ToolUse]]:
    """Sort uses into classes of those that are alike in what they leave and take, and in having begun."""
    classes: defaultdict[tuple[str, frozenset[str], bool], list[ToolUse]] = defaultdict(list)
    for use in group:
        classes[alike(model, use)].append(use)
    return list(classes.values())


def alike(model: DayModel, use: ToolUse) -> tuple[str, frozenset[str], bool]:
    """Say what makes a use different from others that go on at the same time."""
    return use.leaves, frozenset(use.takes), _begun(model, use)


def _mixtures(model: DayModel, tool: ToolKind, done: int, classes: list[list[ToolUse]]) -> Iterator[Node]:
    """Yield what a tool may have been used for at once; each class is on some tool, and on no more than it has uses."""
    on: defaultdict[int, list[int]] = defaultdict(list)
    for size in range(1, len(classes) + 1):
        for mixture in combinations(range(len(classes)), size):
            copies = min(tool.count, *(len(classes[n]) for n in mixture))
            for _ in range(copies):
                literal = model.sheet.either()
                model.sheet.clause(~literal, done)
                for n in mixture:
                    on[n].append(literal)
                yield _node(model, tuple(use for n in mixture for use in classes[n]), literal)
    for n, alike in enumerate(classes):
        model.sheet.clause(~done, *on[n])
        number = sum((Sum(((literal, 1),)) for literal in on[n]), Sum())
        model.sheet.row(number, None, len(alike))


def _begun(model: DayModel, use: ToolUse) -> bool:
    return any(fact_at(model.question, name, end=False) is not None for name in use.activities)


def _node(model: DayModel, uses: tuple[ToolUse, ...], when: int | None) -> Node:
    names = list(dict.fromkeys(name for name in uses[0].activities))
    start = _outermost(model, names, last=False)
    end = _outermost(model, names, last=True)
    return Node(uses, start, end, when, any(_begun(model, use) for use in uses))


def _outermost(model: DayModel, names: list[str], *, last: bool) -> Sum:
    """Give the first start, or the last end, of some activities."""
    columns = model.ends if last else model.starts
    for name in names:
        others = [other for other in names if other != name]
        if last and all(model.surely_after((name, True), (other, True)) for other in others):
            return columns[name]
        if not last and all(model.surely_after((other, False), (name, False)) for other in others):
            return columns[name]
    low = min(model.window(name, end=last)[0] for name in names)
    high = max(model.window(name, end=last)[1] for name in names)
    found = model.sheet.whole(low, high)
    sign = -1 if last else 1
    model.sheet.least_of.append((found.times(sign), tuple(columns[name].times(sign) for name in names)))
    return found


# --- washes and arcs -----------------------------------------------------------------------------------------


def _with_wash(model: DayModel, tool: ToolKind, node: Node) -> Node:
    """Give a node the wash before it, which is there or not."""
    if node.begun:
        return node
    sheet = model.sheet
    minutes = paced(model.question, tool.wash_min, slow=model.slow)
    start = sheet.whole(max(0, model.question.now), model.horizon)
    wash = Job((), start, Sum(constant=minutes), start + minutes, minutes, fixed=True, when=sheet.either())
    model.washes.append(wash)
    sheet.after(node.start, wash.end, when=wash.conditions())
    return Node(node.uses, node.start, node.end, node.when, node.begun, wash)


def _arcs(model: DayModel, nodes: list[Node]) -> Iterator[tuple[tuple[int, int], int]]:
    for n in range(1, len(nodes) + 1):
        yield (0, n), model.sheet.either()
        yield (n, 0), model.sheet.either()
    for n, earlier in enumerate(nodes, 1):
        for k, later in enumerate(nodes, 1):
            if n != k and _may_come_next(model, earlier, later):
                yield (n, k), model.sheet.either()


def _may_come_next(model: DayModel, earlier: Node, later: Node) -> bool:
    """Tell whether it is possible, as far as ties and windows say."""
    if earlier.begun and later.begun:
        return True
    for before in {name for use in earlier.uses for name in use.activities}:
        for after in {name for use in later.uses for name in use.activities}:
            if model.window(before, end=True)[0] > model.window(after, end=False)[1]:
                return False
            if model.surely_after((before, True), (after, False), 1):
                return False
    return True


def tools_are_clean(model: DayModel) -> None:
    """Every use has a tool to itself; it is washed before it where it must be, and never otherwise."""
    counts = {tool.name: tool.count for tool in model.question.bench.tools}
    for kind in model.kinds:
        if kind.arcs:
            _chains(model, kind, counts[kind.name])
            _in_turn(model, kind, counts[kind.name])
            _stay_on_their_tools(model, kind)


def _chains(model: DayModel, kind: Kind, count: int) -> None:
    sheet = model.sheet
    arcs = [(n, k, literal) for (n, k), literal in kind.arcs.items()]
    for n, node in enumerate(kind.nodes, 1):
        if node.when is not None:
            arcs.append((n, n, ~node.when))
    sheet.chain(arcs, several=count > 1)
    if count > 1:
        firsts = [literal for (n, _), literal in kind.arcs.items() if n == 0]
        sheet.row(sum((Sum(((literal, 1),)) for literal in firsts), Sum()), None, count)
    needing: defaultdict[int, list[int]] = defaultdict(list)
    for (n, k), literal in kind.arcs.items():
        if n and k:
            _comes_next(model, kind.nodes[n - 1], kind.nodes[k - 1], literal, needing[k])
    for k, node in enumerate(kind.nodes, 1):
        if node.wash is not None:
            assert node.wash.when is not None
            washed = sum((Sum(((literal, 1),)) for literal in needing[k]), Sum())
            sheet.equal(washed, Sum(((node.wash.when, 1),)))


def _comes_next(model: DayModel, earlier: Node, later: Node, literal: int, needing: list[int]) -> None:
    """What an arc asks: the later use after the earlier one, and a wash between if it needs one."""
    sheet = model.sheet
    if earlier.begun and later.begun:
        in_order = _order(model, earlier) < _order(model, later)
        sheet.after(later.end, earlier.end, 0 if in_order else 1, (literal,))
        return
    if later.wash is None or all(one.may_follow(other) for one in later.uses for other in earlier.uses):
        sheet.after(later.start, earlier.end, when=(literal,))
        return
    needing.append(literal)
    sheet.after(later.wash.start, earlier.end, when=(literal,))
    sheet.after(later.start, earlier.end, later.wash.minutes, (literal,))


def _order(model: DayModel, node: Node) -> tuple[int, int]:
    """Which of two uses that end in the same minute is the earlier on a tool: by start, then in the natural order."""
    return node.start.constant, model.question.uses.index(node.uses[0])


def _in_turn(model: DayModel, kind: Kind, count: int) -> None:
    """No more tools are held at once than there are; the chains say so too, this is quicker seen."""
    sheet, spans = model.sheet, []
    for node in kind.nodes:
        if not node.begun:
            size = sheet.whole(0, model.horizon)
            span = sheet.span(node.start, size, node.end, node.when)
            if node.when is None:
                sheet.equal(node.start + size, node.end)
            spans.append(span)
    if count == 1:
        sheet.in_turn.append(tuple(spans))
    else:
        sheet.together.append((tuple((span, 1) for span in spans), count))


def _stay_on_their_tools(model: DayModel, kind: Kind) -> None:
    """What has begun stays on the tool that an earlier timetable gave it."""
    kept = model.kept.tools
    begun = [
        (kept[node.uses[0].name], n)
        for n, node in enumerate(kind.nodes, 1)
        if node.begun and node.uses[0].name in kept
    ]
    if not begun:
        return
    lines: defaultdict[int, list[int]] = defaultdict(list)
    for which, n in begun:
        lines[which].append(n)
    nodes = kind.nodes
    follows: dict[int, int] = {}
    for line in lines.values():
        line.sort(key=lambda n: (_last_end(model, nodes[n - 1]), *_order(model, nodes[n - 1])))
        follows |= dict(zip(line[1:], line, strict=False))
    for (n, k), literal in kind.arcs.items():
        if k in follows or any(k == line[0] for line in lines.values()):
            wanted = follows.get(k, 0)
            model.sheet.clause(literal if n == wanted else ~literal)


def _last_end(model: DayModel, node: Node) -> int:
    return max(model.window(name, end=True)[1] for use in node.uses for name in use.activities)
