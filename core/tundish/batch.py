"""Columns: many requests of one calculation at once.

Requests are grouped by structure: lengths of lists, names, choices, counts, which optional fields
are there, method, region, date, units. A group is one kernel call (in blocks that stay in cache),
in which only quantities and pure numbers are arrays. NumPy is imported here and nowhere earlier.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final

from tundish.calculation import VERDICTS
from tundish.doubts import doubting
from tundish.findings import Judged, judge
from tundish.leaves import Based
from tundish.problems import RefusedRequest
from tundish.refusals import Refusal, RefusedRowsError
from tundish.rows import ROWS, Rows
from tundish.run import KernelError, read_request

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from tundish.calculation import Calculation
    from tundish.contract import FieldError, Node
    from tundish.doubts import Doubts
    from tundish.rules import Context, Rulebook
    from tundish.run import Request, Runner

BLOCK: Final = 4096
"""Rows a kernel call: temporaries stay in cache (see docs/performance.md before changing it)."""


# --- structure ------------------------------------------------------------------------------------


def structure_of(node: Node, value: Any) -> Any:
    """Return what must be equal for two inputs to share a kernel call; hashable."""
    if value is None:
        return None
    if node.leaf is not None:
        if not node.leaf.columnar:
            return value
        return value.basis if isinstance(value, Based) else "#"
    if node.item is not None:
        return tuple(structure_of(node.item, item) for item in value)
    return tuple(structure_of(child, getattr(value, child.name)) for child in node.fields)


def stack(node: Node, rows: Sequence[Any]) -> Any:
    """Turn inputs of one structure into one, with arrays for quantities and pure numbers."""
    import numpy as np  # noqa: PLC0415

    first = rows[0]
    if first is None:
        return None
    if node.leaf is not None:
        if not node.leaf.columnar:
            return first
        if isinstance(first, Based):
            return Based(np.array([row.value for row in rows], dtype=float), first.basis)  # type: ignore[arg-type]
        return np.array(rows, dtype=float)
    if node.item is not None:
        return [stack(node.item, [row[k] for row in rows]) for k in range(len(first))]
    assert node.model is not None
    return node.model.model_construct(
        **{
            child.name: stack(child, [getattr(row, child.name) for row in rows])
            for child in node.fields
        }
    )


def _slice(node: Node, value: Any, part: slice) -> Any:
    if value is None:
        return None
    if node.leaf is not None:
        if isinstance(value, Based):
            return Based(_slice(node, value.value, part), value.basis)
        return value[part] if getattr(value, "ndim", 0) == 1 else value
    if node.item is not None:
        return [_slice(node.item, item, part) for item in value]
    assert node.model is not None
    return node.model.model_construct(
        **{c.name: _slice(c, getattr(value, c.name), part) for c in node.fields}
    )


def _is_array(value: Any) -> bool:
    return getattr(value, "ndim", 0) == 1


def _join(parts: list[tuple[Any, int]]) -> Any:
    """Put the outputs of blocks one after the other; a whole block refused stands as none."""
    import numpy as np  # noqa: PLC0415

    present = [value for value, _ in parts if value is not None]
    if not present:
        return None
    sample = present[0]
    if isinstance(sample, dict):
        return {
            key: _join([(None if v is None else v[key], n) for v, n in parts]) for key in sample
        }
    if isinstance(sample, (list, tuple)):
        return [
            _join([(None if v is None else v[k], n) for v, n in parts]) for k in range(len(sample))
        ]
    if isinstance(sample, Based):
        return Based(_join([(None if v is None else v.value, n) for v, n in parts]), sample.basis)
    if len(parts) == 1:
        return sample
    if not any(_is_array(value) for value in present) and all(v == sample for v in present):
        return sample
    filler: Any = np.nan if np.asarray(sample).dtype.kind == "f" else sample
    return np.concatenate([np.broadcast_to(filler if v is None else v, n) for v, n in parts])


def row_of(value: Any, index: int) -> Any:
    """Return one row of stacked outputs as the plain values a single run gives."""
    if isinstance(value, dict):
        return {key: row_of(item, index) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [row_of(item, index) for item in value]
    if isinstance(value, Based):
        return Based(row_of(value.value, index), value.basis)
    if _is_array(value):
        return value[index].item()
    return value


# --- running --------------------------------------------------------------------------------------


def run_block(
    calculation: Calculation,
    context: Context,
    inputs: Any,
    count: int,
    *,
    curves: bool = False,
) -> tuple[Any, dict[int, Refusal], Doubts]:
    """Run one kernel call over ``count`` rows: outputs (none if all refused), refused rows, doubts."""
    import numpy as np  # noqa: PLC0415

    rows = Rows(count, curves=curves)
    token = ROWS.set(rows)
    try:
        with np.errstate(all="ignore"), doubting() as doubts:
            outputs = calculation.kernel(inputs, context)
    except RefusedRowsError:
        outputs = None
    except Refusal as refusal:  # decided by structure: every row alike
        outputs = None
        for row in range(count):
            rows.refused.setdefault(row, refusal)
    finally:
        ROWS.reset(token)
    if outputs is None and len(rows.refused) < count:
        message = f"{calculation.id}: rows were refused without a code"
        raise KernelError(message)
    return outputs, rows.refused, doubts


def run_inputs(
    calculation: Calculation,
    context: Context,
    inputs: Any,
    count: int,
    *,
    curves: bool = False,
    block: int = BLOCK,
) -> tuple[Any, dict[int, Refusal], Doubts]:
    """Run stacked inputs of one structure block by block."""
    import numpy as np  # noqa: PLC0415

    parts: list[tuple[Any, int]] = []
    refused: dict[int, Refusal] = {}
    doubted: Doubts = {}
    for start in range(0, count, block):
        size = min(block, count - start)
        piece = (
            inputs
            if size == count
            else _slice(calculation.inputs_node, inputs, slice(start, start + size))
        )
        outputs, failing, doubts = run_block(calculation, context, piece, size, curves=curves)
        parts.append((outputs, size))
        refused.update({start + row: why for row, why in failing.items()})
        for name, mask in doubts.items():
            if name not in doubted:
                doubted[name] = np.zeros(count, dtype=bool)
            doubted[name][start : start + size] = mask
    return _join(parts), refused, doubted


def _finite(value: Any, good: Any, where: str) -> None:
    """Refuse to pass on a NaN or an infinity in a row that was not refused."""
    import numpy as np  # noqa: PLC0415

    if isinstance(value, dict):
        for key, item in value.items():
            _finite(item, good, f"{where}/{key}")
    elif isinstance(value, (list, tuple)):
        for index, item in enumerate(value):
            _finite(item, good, f"{where}/{index}")
    elif isinstance(value, Based):
        _finite(value.value, good, where)
    elif _is_array(value) and value.dtype.kind == "f" and not np.isfinite(value[good]).all():
        message = f"{where} is not finite in some row"
        raise KernelError(message)


@dataclass
class Group:
    """Rows of one structure, with their outputs in SI and what was found."""

    indices: list[int]
    request: Request
    inputs: Any
    outputs: Any
    refused: dict[int, Refusal]
    judged: list[Judged] = field(default_factory=list)

    def verdicts(self) -> dict[str, list[str | None]]:
        """Finding code -> the worst verdict of each row; none where it does not apply."""
        import numpy as np  # noqa: PLC0415

        count = len(self.indices)
        ranks: dict[str, Any] = {}
        for item in self.judged:
            broken = VERDICTS.index(item.verdict(kept=False, capped=False))
            held = np.where(
                np.broadcast_to(item.capped, count),
                VERDICTS.index(item.verdict(kept=True, capped=True)),
                VERDICTS.index(item.verdict(kept=True, capped=False)),
            )
            rank = np.where(
                np.broadcast_to(item.applies, count), np.where(item.kept, held, broken), -1
            )
            code = item.finding.code
            ranks[code] = np.maximum(ranks[code], rank) if code in ranks else rank
        found: dict[str, list[str | None]] = {}
        for code, column in ranks.items():
            found[code] = [
                None if rank < 0 or row in self.refused else VERDICTS[rank]
                for row, rank in enumerate(column.tolist())
            ]
        return found


@dataclass
class Columns:
    """The answer to many requests: groups, and what each refused row was refused for."""

    count: int
    groups: list[Group]
    refusals: dict[int, RefusedRequest]

    def outputs(self) -> list[Any]:
        """Outputs of every row in SI, as a single run's kernel gives them; none where refused."""
        found: list[Any] = [None] * self.count
        for group in self.groups:
            for row, index in enumerate(group.indices):
                if row not in group.refused:
                    found[index] = row_of(group.outputs, row)
        return found

    def codes(self) -> list[tuple[str, str] | None]:
        """Refusal code and pointer of every row; none where it was answered."""
        found: list[tuple[str, str] | None] = [None] * self.count
        for index, refusal in self.refusals.items():
            first: FieldError = refusal.errors[0]
            found[index] = (first.code, first.pointer)
        return found


def run_columns(
    runner: Runner,
    requests: Sequence[object],
    book: Rulebook,
    *,
    today: dt.date,
    curves: bool = False,
) -> Columns:
    """Answer many requests. A row's refusal is data; nothing one row does touches another."""
    calculation = runner.calculation
    groups: dict[Any, tuple[Request, list[int], list[Any], dict[str, str]]] = {}
    refusals: dict[int, RefusedRequest] = {}
    for index, given in enumerate(requests):
        try:
            try:
                request = read_request(calculation, given, book, today=today)
                inputs, defaulted = runner.inputs(request)
            except Refusal as refusal:
                raise runner.refused(refusal) from None
        except RefusedRequest as refused:
            refusals[index] = refused
            continue
        context = request.context
        key = (
            context.region,
            context.date,
            context.method,
            tuple(context.doubts()),  # a default from an unchecked rule caps verdicts
            frozenset(defaulted),  # and so does a value that nobody gave
            request.units_profile,
            structure_of(calculation.inputs_node, inputs),
        )
        _, indices, rows, _ = groups.setdefault(key, (request, [], [], defaulted))
        indices.append(index)
        rows.append(inputs)
    done = [
        _run_group(runner, request, indices, rows, defaulted, refusals, curves=curves)
        for request, indices, rows, defaulted in groups.values()
    ]
    return Columns(len(requests), done, refusals)


def _run_group(
    runner: Runner,
    request: Request,
    indices: list[int],
    rows: list[Any],
    defaulted: Mapping[str, str],
    refusals: dict[int, RefusedRequest],
    *,
    curves: bool,
) -> Group:
    import numpy as np  # noqa: PLC0415

    calculation, context = runner.calculation, request.context
    stacked = stack(calculation.inputs_node, rows)
    outputs, refused, doubts = run_inputs(calculation, context, stacked, len(rows), curves=curves)
    for row, refusal in refused.items():
        refusals[indices[row]] = runner.refused(refusal)
    group = Group(indices, request, stacked, outputs, refused)
    if outputs is not None:
        good = np.ones(len(rows), dtype=bool)
        good[list(refused)] = False
        _finite(outputs, good, calculation.id)
        with np.errstate(all="ignore"):
            group.judged = judge(calculation, context, stacked, outputs, doubts, defaulted)
    return group
