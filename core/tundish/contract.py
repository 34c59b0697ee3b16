"""Contracts: the inputs and outputs of a calculation, and the tree of fields they make."""

from __future__ import annotations

import types
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated, Any, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, ConfigDict, ValidationError

from tundish.leaves import (
    Based,
    Choice,
    Column,
    Count,
    Flag,
    Leaf,
    Name,
    Number,
    Quantity,
    Rows,
    Text,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

__all__ = [
    "Based",
    "Choice",
    "Column",
    "Count",
    "Flag",
    "Inputs",
    "Item",
    "Name",
    "Node",
    "Number",
    "Outputs",
    "Quantity",
    "Rows",
    "Text",
    "node_of",
]


class _Record(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class Inputs(_Record):
    """Base of a calculation's inputs. Unknown fields are errors."""


class Item(_Record):
    """Base of a row of a list, or of a group of fields."""


class Outputs(_Record):
    """Base of a calculation's outputs: describes what the kernel returns."""


@dataclass(frozen=True)
class Node:
    """One place in a contract: a leaf, an object with fields, or a list of one kind of row."""

    name: str
    leaf: Leaf | None = None
    fields: tuple[Node, ...] = ()
    item: Node | None = None
    rows: Rows | None = None
    optional: bool = False
    model: type[BaseModel] | None = None
    help: str = ""
    by_name: dict[str, Node] = field(default_factory=dict, compare=False)

    @property
    def required(self) -> bool:
        """Whether a request must hold the field: no default and not optional."""
        if self.optional:
            return False
        if self.leaf is not None:
            return self.leaf.default is None and self.leaf.default_rule is None
        if self.item is not None:
            return not (self.rows is not None and self.rows.low == 0)
        return True

    def walk(self, pointer: str = "") -> Iterator[tuple[str, Node]]:
        """Every node below with its pointer; list items stand as ``*``."""
        yield pointer, self
        for child in self.fields:
            yield from child.walk(f"{pointer}/{child.name}")
        if self.item is not None:
            yield from self.item.walk(f"{pointer}/*")

    def at(self, pointer: str) -> Node | None:
        """Return the node a pointer names; any list index or name leads to the list's item."""
        here: Node | None = self
        for part in pointer.split("/")[1:]:
            if here is None:
                return None
            here = here.item if here.item is not None else here.by_name.get(part)
        return here


def _describe(name: str, annotation: Any, *, optional: bool = False) -> Node:
    metadata: tuple[Any, ...] = ()
    if get_origin(annotation) is Annotated:
        annotation, *rest = get_args(annotation)
        metadata = tuple(rest)
    origin = get_origin(annotation)
    if origin in {Union, types.UnionType}:
        arms = [arm for arm in get_args(annotation) if arm is not type(None)]
        if len(arms) != 1:
            message = f"{name}: a field is one kind of thing, or None"
            raise TypeError(message)
        inner = Annotated[arms[0], *metadata] if metadata else arms[0]
        return _describe(name, inner, optional=True)
    leaf = next((item for item in metadata if isinstance(item, Leaf)), None)
    if isinstance(leaf, Choice):
        leaf = leaf.with_options(annotation)
    if leaf is not None:
        return Node(name, leaf=leaf, optional=optional, help=leaf.help)
    if origin is list:
        rows = next((item for item in metadata if isinstance(item, Rows)), Rows())
        item = _describe("*", get_args(annotation)[0])
        return Node(name, item=item, rows=rows, optional=optional, help=rows.help)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        base = node_of(annotation)
        return Node(
            name,
            fields=base.fields,
            optional=optional,
            model=annotation,
            help=base.help,
            by_name=base.by_name,
        )
    message = f"{name}: every field needs a leaf such as Quantity or Number"
    raise TypeError(message)


@lru_cache(maxsize=512)
def node_of(model: type[BaseModel]) -> Node:
    """Return the tree of a model's fields."""
    hints = get_type_hints(model, include_extras=True)
    fields = tuple(_describe(name, hints[name]) for name in model.model_fields)
    return Node(
        "",
        fields=fields,
        model=model,
        help=(model.__doc__ or "").strip(),
        by_name={child.name: child for child in fields},
    )


# --- reading --------------------------------------------------------------------------------------


def fill_defaults(
    given: Any,
    node: Node,
    from_rule: Callable[[str], object],
    pointer: str = "",
) -> tuple[Any, dict[str, str]]:
    """Add the defaults a request left out. Returns the request and pointer -> where it came from.

    ``from_rule`` gives a rule's value as it stands on the wire. What the request did send is
    passed on untouched, wrong or not: reading it is the next step.
    """
    defaulted: dict[str, str] = {}
    if node.item is not None:
        if not isinstance(given, list) or node.item.leaf is not None:
            return given, defaulted
        rows = []
        for index, row in enumerate(given):
            filled, more = fill_defaults(row, node.item, from_rule, f"{pointer}/{index}")
            rows.append(filled)
            defaulted.update(more)
        return rows, defaulted
    if node.leaf is not None or not isinstance(given, dict):
        return given, defaulted
    result = dict(given)
    for child in node.fields:
        here = f"{pointer}/{child.name}"
        if child.name in given:
            if child.leaf is None:
                result[child.name], more = fill_defaults(given[child.name], child, from_rule, here)
                defaulted.update(more)
            continue
        leaf = child.leaf
        if leaf is not None and leaf.default_rule is not None:
            result[child.name] = from_rule(leaf.default_rule)
            defaulted[here] = leaf.default_rule
        elif leaf is not None and leaf.default is not None:
            result[child.name] = leaf.wire_default(leaf.default)
            defaulted[here] = "contract"
        elif child.optional:
            result[child.name] = None
        elif child.item is not None and not child.required:
            result[child.name] = []
            defaulted[here] = "contract"
    return result, defaulted


_CODES = {
    "missing": ("field-missing", "This field is required."),
    "extra_forbidden": ("field-unknown", "There is no field of that name here."),
    "model_type": ("object-expected", "A JSON object is expected here."),
    "model_attributes_type": ("object-expected", "A JSON object is expected here."),
    "dict_type": ("object-expected", "A JSON object is expected here."),
    "list_type": ("list-expected", "A JSON array is expected here."),
}


@dataclass(frozen=True)
class FieldError:
    """One thing wrong with a request: stable code, pointer, sentence, facts."""

    code: str
    pointer: str
    detail: str
    facts: Mapping[str, Any]


def escape(part: object) -> str:
    """Write one segment of a JSON Pointer."""
    return str(part).replace("~", "~0").replace("/", "~1")


def field_errors(error: ValidationError, node: Node) -> list[FieldError]:
    """Translate pydantic's findings into our codes, with pointers relative to the inputs."""
    found = []
    for item in error.errors(include_url=False, include_input=False):
        pointer = "".join(f"/{escape(part)}" for part in item["loc"])
        facts: dict[str, Any] = {}
        if item["type"] == "refused":
            context = item["ctx"]
            code, detail, facts = context["code"], context["sentence"], context["facts"]
        else:
            code, detail = _CODES.get(item["type"], ("field-unknown", item["msg"]))
            if code == "field-missing":
                missing = node.at(pointer)
                if missing is not None and missing.help:
                    detail = f"This field is required: {missing.help}"
            elif code == "field-unknown":
                parent = node.at(pointer.rpartition("/")[0]) or node
                facts = {"accepted": [child.name for child in parent.fields]}
        found.append(FieldError(code, pointer, detail, facts))
    return found


def read_inputs(model: type[BaseModel], given: object) -> Any:
    """Read filled inputs; raises pydantic's ``ValidationError`` for :func:`field_errors`."""
    return model.__pydantic_validator__.validate_python(given)


# --- writing --------------------------------------------------------------------------------------


def writer_of(node: Node, units: Mapping[str, str]) -> Callable[[Any], Any]:
    """Compile a function that writes a kernel's value as the JSON of an answer."""
    if node.leaf is not None:
        write = node.leaf.writer(units)
        if node.optional:
            return lambda value: None if value is None else write(value)
        return write
    if node.item is not None:
        each = writer_of(node.item, units)
        if node.optional:
            return lambda rows: None if rows is None else [each(row) for row in rows]
        return lambda rows: [each(row) for row in rows]
    parts = [(child.name, writer_of(child, units)) for child in node.fields]

    def write_object(value: Any) -> Any:
        if value is None:
            return None
        if type(value) is dict:
            return {name: write(value[name]) for name, write in parts}
        return {name: write(getattr(value, name)) for name, write in parts}

    return write_object
