"""JSON Schema of a calculation, and its description, from what its contract declares.

The exact form has one branch for each unit with its own range. The plain form, for OpenAPI, names
every object as a component, so that client generators read it well.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from tundish.leaves import (
    LONGEST_NAME,
    Choice,
    Column,
    Count,
    Flag,
    Name,
    Number,
    Quantity,
    Text,
)
from tundish.quantities.kinds import KINDS
from tundish.quantities.reading import LARGEST, LONGEST_TEXT, PATTERN
from tundish.reach import reachable_formulas
from tundish.rendering import MATHML, MATHML_NAMESPACE
from tundish.rules import RulesError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tundish.calculation import Calculation
    from tundish.contract import Node
    from tundish.host import Host
    from tundish.leaves import Leaf

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"
_PLAIN_TEXT: Final = r"^[^\u0000-\u001f\u007f-\u009f\u2028\u2029]+$"
_NAME_SIGN: Final = r"[^\u0000-\u001f\u007f-\u009f/~ ]"
_NAME_TEXT: Final = rf"^{_NAME_SIGN}([^\u0000-\u001f\u007f-\u009f/~]*{_NAME_SIGN})?$"
_DATE_TEXT: Final = r"^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"


def camel(text: str) -> str:
    """Write an id as the name of a component."""
    return "".join(part.capitalize() for part in text.replace("_", "-").split("-"))


# --- leaves ---------------------------------------------------------------------------------------


def _bounded(low: float | None, high: float | None) -> dict[str, Any]:
    found: dict[str, Any] = {}
    if low is not None:
        found["minimum"] = low
    if high is not None:
        found["maximum"] = high
    return found


def _units_text(leaf: Quantity) -> str:
    """Return the pattern of the short form, such as ``18 kW``."""
    escaped = [
        "".join(f"\\{sign}" if sign in "().^*+?|[]{}$" else sign for sign in unit)
        for unit in KINDS[leaf.kind].units
    ]
    basis = f" ({'|'.join(leaf.bases)})" if leaf.bases else ""
    return f"^{PATTERN} ?({'|'.join(escaped)}){basis}$"


def _exact_quantity(leaf: Quantity) -> dict[str, Any]:
    branches: list[dict[str, Any]] = []
    for unit in KINDS[leaf.kind].units:
        low, high = leaf.bounds(unit)
        members: dict[str, Any] = {
            "value": {"type": "number", **_bounded(low, high)},
            "unit": {"const": unit},
        }
        if leaf.bases:
            members["basis"] = {"enum": list(leaf.bases)}
        branches.append(
            {
                "type": "object",
                "properties": members,
                "required": list(members),
                "additionalProperties": False,
            }
        )
    branches.append({"type": "string", "pattern": _units_text(leaf), "maxLength": LONGEST_TEXT})
    return {"anyOf": branches}


def _annotation(leaf: Quantity) -> dict[str, Any]:
    low, high = leaf.bounds(leaf.unit)
    told: dict[str, Any] = {
        "kind": list(leaf.bases.values()) if leaf.bases else leaf.kind,
        "unit": leaf.unit,
        "units": list(KINDS[leaf.kind].units),
        **_bounded(low, high),
    }
    if leaf.bases:
        told["bases"] = list(leaf.bases)
    return told


def _sample(leaf: Quantity) -> str:
    """Return the short form of a value in range: the leaf's example, or one between its bounds."""
    if isinstance(leaf.example, str):
        return leaf.example
    low, high = leaf.bounds(leaf.unit)
    value = leaf.example
    if value is None:
        within = [bound for bound in (low, high) if bound is not None]
        value = sum(within) / len(within) if within else 1.0
    basis = f" {next(iter(leaf.bases))}" if leaf.bases else ""
    return f"{value:.6g} {leaf.unit}{basis}"


class Writer:
    """Writes a contract's tree as a schema; the plain form collects its components."""

    def __init__(self, prefix: str, *, exact: bool, answers: bool = False) -> None:
        """``prefix`` names components; ``answers`` writes what is answered, not what is asked."""
        self.prefix = prefix
        self.exact = exact
        self.answers = answers
        self.components: dict[str, Any] = {}

    def _reference(self, name: str, schema: dict[str, Any]) -> dict[str, Any]:
        self.components.setdefault(name, schema)
        return {"$ref": f"#/components/schemas/{name}"}

    def _quantity(self, leaf: Quantity) -> dict[str, Any]:
        if self.exact:
            return _exact_quantity(leaf)
        name = "Quantity" + camel(leaf.kind) + ("Based" if leaf.bases else "")
        members: dict[str, Any] = {
            "value": {"type": "number"},
            "unit": {"type": "string", "enum": list(KINDS[leaf.kind].units)},
        }
        if leaf.bases:
            name += camel("-".join(leaf.bases))
            members["basis"] = {"type": "string", "enum": list(leaf.bases)}
        reference = self._reference(
            name,
            {
                "type": "object",
                "title": name,
                "properties": members,
                "required": list(members),
                "additionalProperties": False,
            },
        )
        if self.answers:
            return reference
        return {
            "anyOf": [
                reference,
                {"type": "string", "pattern": _units_text(leaf), "maxLength": LONGEST_TEXT},
            ],
            "x-quantity": {"defaultUnit": leaf.unit, **_annotation(leaf)},
            "examples": [_sample(leaf)],
        }

    def _column(self, leaf: Column) -> dict[str, Any]:
        schema = {
            "type": "object",
            "properties": {
                "values": {"type": "array", "items": {"type": "number"}},
                "unit": {"type": "string", "enum": list(KINDS[leaf.kind].units)},
            },
            "required": ["values", "unit"],
            "additionalProperties": False,
        }
        if self.exact:
            return schema
        name = "Column" + camel(leaf.kind)
        return self._reference(name, {**schema, "title": name})

    def leaf(self, leaf: Leaf) -> dict[str, Any]:
        """Return the schema of one field."""
        found: dict[str, Any]
        if isinstance(leaf, Column):
            return self._column(leaf)
        if isinstance(leaf, Quantity):
            found = self._quantity(leaf)
        elif isinstance(leaf, Count):
            found = {"type": "integer", **_bounded(leaf.low, leaf.high)}
        elif isinstance(leaf, Number):
            low = -LARGEST if leaf.low is None else leaf.low
            high = LARGEST if leaf.high is None else leaf.high
            found = {"type": "number", **({} if self.answers else _bounded(low, high))}
        elif isinstance(leaf, Choice):
            found = {"type": "string", "enum": list(leaf.options)}
        elif isinstance(leaf, Flag):
            found = {"type": "boolean"}
        elif isinstance(leaf, Name):
            found = {
                "type": "string",
                "minLength": 1,
                "maxLength": LONGEST_NAME,
                "pattern": _NAME_TEXT,
            }
        elif isinstance(leaf, Text):
            found = {
                "type": "string",
                "minLength": 1,
                "maxLength": leaf.longest,
                "pattern": _PLAIN_TEXT,
            }
        else:  # pragma: no cover  (every leaf is listed)
            message = f"no schema for {type(leaf).__name__}"
            raise TypeError(message)
        if leaf.help and "$ref" not in found:
            found["description"] = leaf.help
        if not self.answers and leaf.default is not None:
            found["default"] = leaf.wire_default(leaf.default)
        if not self.answers and leaf.default_rule is not None:
            found["x-default-rule"] = leaf.default_rule
        return found

    # --- trees ------------------------------------------------------------------------------------

    def node(self, node: Node, *, nullable: bool = True) -> dict[str, Any]:
        """Return the schema of any place in a contract."""
        if node.leaf is not None:
            found = self.leaf(node.leaf)
        elif node.item is not None:
            found = {"type": "array", "items": self.node(node.item)}
            if node.rows is not None and not self.answers:
                found |= {"minItems": node.rows.low, "maxItems": node.rows.high}
            if node.help:
                found["description"] = node.help
        else:
            found = self._object(node)
        if node.optional and nullable:
            return {"anyOf": [found, {"type": "null"}]}
        return found

    def object_schema(self, node: Node) -> dict[str, Any]:
        """Return the schema of an object with its fields, written out."""
        required = [child.name for child in node.fields if self.answers or child.required]
        schema: dict[str, Any] = {
            "type": "object",
            "properties": {child.name: self.node(child) for child in node.fields},
            "additionalProperties": False,
        }
        if required:
            schema["required"] = required
        if node.help:
            schema["description"] = node.help
        return schema

    def _object(self, node: Node) -> dict[str, Any]:
        schema = self.object_schema(node)
        if self.exact:
            return schema
        assert node.model is not None
        name = self.prefix + node.model.__name__
        return self._reference(name, {"title": name, **schema})


def _envelope(calculation: Calculation, inputs: dict[str, Any]) -> dict[str, Any]:
    members: dict[str, Any] = {"inputs": inputs}
    if calculation.methods:
        members["method"] = {
            "type": "string",
            "enum": [method.id for method in calculation.methods],
            "description": "Method of calculation; left out, the region's rule chooses.",
        }
    members["region"] = {
        "type": "string",
        "pattern": "^[A-Z]{2,3}$",
        "description": "Region whose rules apply, such as GB.",
    }
    members["date"] = {
        "type": "string",
        "pattern": _DATE_TEXT,
        "description": "Date whose editions of the rules apply.",
    }
    members["units"] = {
        "type": "string",
        "pattern": "^[A-Z]{2,3}$",
        "description": "Region whose units the answer comes in.",
    }
    return {
        "type": "object",
        "properties": members,
        "required": ["inputs"],
        "additionalProperties": False,
    }


def exact_schema(calculation: Calculation) -> dict[str, Any]:
    """Return the exact JSON Schema of a request, with a range for each unit."""
    writer = Writer(camel(calculation.id), exact=True)
    return {
        "$schema": DIALECT,
        "$id": f"/v1/calculations/{calculation.id}/schema",
        "title": calculation.title,
        "description": calculation.summary,
        **_envelope(calculation, writer.object_schema(calculation.inputs_node)),
        "examples": [example_request(calculation)],
    }


def example_request(calculation: Calculation) -> dict[str, Any]:
    """Return the calculation's own example as a request."""
    return {"inputs": dict(calculation.example), "region": calculation.example_region}


def components(calculation: Calculation) -> tuple[str, str, dict[str, Any]]:
    """Return the names of a calculation's request and outputs components, and all components."""
    prefix = camel(calculation.id)
    asked = Writer(prefix, exact=False)
    inputs = asked.node(calculation.inputs_node)
    answered = Writer(prefix, exact=False, answers=True)
    answered.node(calculation.outputs_node)
    request = f"{prefix}Request"
    found = {
        **answered.components,
        **asked.components,
        request: {
            "title": request,
            **_envelope(calculation, inputs),
            "examples": [example_request(calculation)],
        },
    }
    outputs = calculation.outputs_node.model
    assert outputs is not None
    return request, prefix + outputs.__name__, found


# --- description ----------------------------------------------------------------------------------


def _fields(node: Node) -> Iterator[dict[str, Any]]:
    for pointer, child in node.walk():
        if child.leaf is None:
            continue
        leaf = child.leaf
        told: dict[str, Any] = {"pointer": pointer, "help": leaf.help}
        if isinstance(leaf, Quantity):
            told |= {"symbol": leaf.symbol, **_annotation(leaf)}
        elif isinstance(leaf, (Number, Count)):
            told |= {"symbol": leaf.symbol, "kind": "number", **_bounded(leaf.low, leaf.high)}
        elif isinstance(leaf, Choice):
            told |= {"kind": "choice", "options": list(leaf.options)}
        else:
            told["kind"] = type(leaf).__name__.lower()
        told["required"] = child.required
        if leaf.default is not None:
            told["default"] = leaf.wire_default(leaf.default)
        if leaf.default_rule is not None:
            told["default_rule"] = leaf.default_rule
        yield told


def _rules(calculation: Calculation, host: Host) -> list[dict[str, Any]]:
    """Every rule the calculation may read, with the editions of each region."""
    found = []
    for name in sorted(calculation.declared_rules):
        for (region, rule_name), rule in sorted(host.book.rules.items()):
            if rule_name == name:
                found.append(
                    {
                        "rule": name,
                        "region": region,
                        "kind": rule.kind,
                        "meaning": rule.meaning,
                        "editions": [edition.edition for edition in rule.editions],
                    }
                )
    return found


def _formulas(calculation: Calculation) -> list[dict[str, Any]]:
    """Every formula the kernel can run, as text and as MathML, with what its symbols stand for."""
    found = []
    for formula in reachable_formulas(calculation.kernel):
        result = formula.result
        left, right = MATHML.symbol(result.symbol), formula.render(MATHML)
        found.append(
            {
                "name": formula.name,
                "symbol": result.symbol,
                "kind": result.kind,
                "unit": result.unit,
                "text": f"{result.symbol} = {formula.text}",
                "mathml": f'<math xmlns="{MATHML_NAMESPACE}"><mrow>{left}<mo>=</mo>{right}</mrow>'
                "</math>",
                "where": [
                    {"symbol": p.symbol, "kind": p.kind, "unit": p.unit} for p in formula.parameters
                ],
                **({"source": formula.source.as_json()} if formula.source is not None else {}),
            }
        )
    return found


def describe(calculation: Calculation, host: Host) -> dict[str, Any]:
    """Return everything a calculation declares, as JSON."""
    try:
        rules = _rules(calculation, host)
    except RulesError:  # pragma: no cover  (rules were read when the host loaded)
        rules = []
    return {
        "id": calculation.id,
        "version": calculation.version,
        "title": calculation.title,
        "summary": calculation.summary,
        "family": calculation.family,
        "questions": list(calculation.questions),
        "plugin": calculation.extra.get("plugin", {}),
        "methods": [
            {
                "id": method.id,
                "title": method.title,
                "summary": method.summary,
                **({"source": method.source.as_json()} if method.source is not None else {}),
            }
            for method in calculation.methods
        ],
        "inputs": list(_fields(calculation.inputs_node)),
        "outputs": list(_fields(calculation.outputs_node)),
        "formulas": _formulas(calculation),
        "rules": rules,
        "findings": [
            {
                "code": finding.code,
                "title": finding.title,
                "quantity": finding.quantity,
                "sense": finding.sense,
                "limit": finding.limit,
                "passed": finding.passed,
                "failed": finding.failed,
            }
            for finding in calculation.findings
        ],
        "directions": [
            {"input": item.input, "output": item.output, "direction": item.direction}
            for item in calculation.monotonic
        ],
        "cautions": list(calculation.cautions),
        "refusals": [
            {"code": r.code, "title": r.title, "remedy": r.remedy, "status": r.status}
            for r in calculation.refusals
        ],
        "charts": [{"id": chart.id, "title": chart.title} for chart in calculation.charts],
        "solvable": list(calculation.solvable),
        "example": example_request(calculation),
    }
