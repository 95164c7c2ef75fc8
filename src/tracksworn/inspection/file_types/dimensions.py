"""What a chart may say of one way to measure a component: sizes, limits, a table, a hardened case."""

from itertools import pairwise
from typing import Annotated

from pydantic import Field, PlainValidator

from tracksworn.inspection import notation
from tracksworn.inspection.chart import Case, Dimensions, Ends, ImpactLimits
from tracksworn.inspection.file_types.base import BY_SHAPE, AsMapping, AsText, Each, FileType, Needed, given
from tracksworn.inspection.file_types.fields import (
    AnyBetween,
    Factor,
    Length,
    Percent,
    PercentRow,
    scalar,
    text_of,
)
from tracksworn.inspection.vocabulary import Between
from tracksworn.inspection.written import FaultList, Wrong

_SAME = 1e-6  # mm: sizes that differ by less are the same size in two units


def _new(node: object) -> tuple[float, float | None]:
    """A size, or a range that gives size and half-width."""
    text = text_of(node)
    if "±" in text:
        raise Wrong("the new size stands alone; beside it `tolerance:`, without `±`", text.index("±"))
    if " to " not in text:
        return notation.length(text), None
    low, high = notation.length_range(text)
    return (low + high) / 2, (high - low) / 2


NewSize = Annotated[
    tuple[float, float | None], PlainValidator(_new), scalar(examples=["143.0 mm", "1.7580 to 1.7600 in"])
]
TableSize = Annotated[float, PlainValidator(lambda key: notation.length(str(key))), scalar()]


class ImpactLimitsFile(FileType):
    """A limit that depends on how hard the machine works."""

    low: Needed[Length] = Field(description="limit under low impact")
    high: Needed[Length] = Field(description="limit under high impact")


AnyLimit = Annotated[AsText[Length] | AsMapping[ImpactLimitsFile], BY_SHAPE]


def _limits(limit: float | ImpactLimitsFile | None) -> list[float]:
    """Every limit that reads."""
    if isinstance(limit, ImpactLimitsFile):
        return [value for value in (limit.low, limit.high) if value is not None]
    return [] if limit is None else [limit]


def _plain_limit(limit: float | ImpactLimitsFile | None) -> float | ImpactLimits:
    if isinstance(limit, ImpactLimitsFile):
        return ImpactLimits(given(limit.low), given(limit.high))
    return given(limit)


class CaseFile(FileType):
    """A hardened case."""

    ends_at: Needed[Percent] = Field(description="percent worn where the case ends")
    then_times: Needed[Factor] = Field(description="how many times as fast it wears below")

    def rules(self, faults: FaultList) -> None:
        """A case ends between new and limit."""
        if self.ends_at is not None and not 0 < self.ends_at < 100:
            faults.add(self.where("ends at"), "a case ends above 0 % and under 100 %")

    def case(self) -> Case:
        """The plain value."""
        return Case(given(self.ends_at), given(self.then_times))


class EndsFile(FileType):
    """Sizes of the first and the last position, where they differ."""

    new: Needed[Length] = Field(description="new size of the first and the last position")
    limit: Needed[AnyLimit] = Field(description="limit of the first and the last position")

    def rules(self, faults: FaultList) -> None:
        """New and limit differ."""
        tell_limits(self, self.new, self.limit, faults)

    def ends(self) -> Ends:
        """The plain value."""
        return Ends(given(self.new), _plain_limit(self.limit))


class DimensionsFile(FileType):
    """Sizes, and what lies between them."""

    new: NewSize | None = Field(None, description="size when new, or a range of it")
    limit: AnyLimit | None = Field(None, description="size at the limit; or one for low and one for high impact")
    destroyed: Length | None = Field(None, description="size at which it may fail in use")
    tolerance: Length | None = Field(None, description="half-width of the new size, part to part")
    new_doubt: Length | None = Field(None, description="half-width of doubt about the chart's own new size")
    limit_tolerance: Length | None = Field(None, description="half-width of doubt about the chart's own limit")
    spread: Length | None = Field(None, description="usual standard deviation from joint to joint")
    case: CaseFile | None = Field(None, description="a hardened case; not beside a table")
    table: Each[dict[TableSize, PercentRow]] | None = Field(
        None, description="percent worn by size; its rows at 0 and 100 are new and limit"
    )
    reading_between_rows: AnyBetween | None = Field(None, description="how the table is read between its rows")

    @property
    def has_sizes(self) -> bool:
        """Whether anything was written that only goes with sizes."""
        return any(self.written(key) is not None for key in DimensionsFile.known_keys())

    def rules(self, faults: FaultList) -> None:
        """Both sizes, a table that fits them, and nothing that shuts another out."""
        if self.has_sizes:
            for key in ("new", "limit"):
                if self.written(key) is None:
                    faults.add(self.begins, f"`{key}` is missing here; a component with sizes has `new` and `limit`")
        new = self.new[0] if self.new else None
        tell_limits(self, new, self.limit, faults)
        self._tell_destroyed(new, faults)
        if self.written("table") is not None:
            self._tell_beside_table(faults)
            self._tell_table(new, faults)
        elif self.written("reading between rows") is not None:
            faults.add(self.where_key("reading between rows"), "there is no `table` whose rows it could be between")

    def _tell_destroyed(self, new: float | None, faults: FaultList) -> None:
        if self.destroyed is None or new is None:
            return
        for limit in _limits(self.limit):
            if limit != new and (self.destroyed - limit) * (limit - new) <= 0:
                faults.add(self.where("destroyed"), "`destroyed` lies beyond the limit, away from `new`")
                return

    def _tell_beside_table(self, faults: FaultList) -> None:
        if self.written("case") is not None:
            faults.add(self.where_key("case"), "a `case` does not stand beside a `table`, which holds it already")
        if isinstance(self.limit, ImpactLimitsFile):
            faults.add(self.where_key("table"), "a `table` does not stand beside a limit by impact")

    def _tell_table(self, new: float | None, faults: FaultList) -> None:
        rows = _in_order(self.table or {})
        if self.table is None or len(rows) != _rows_written(self):
            return
        at = self.where("table")
        sizes = [size for size, _ in rows]
        steps = [later - earlier for earlier, later in pairwise(sizes)]
        if len(rows) < 2:
            faults.add(at, "a table has at least two rows, at 0 and at 100")
        if len({percent for _, percent in rows}) < len(rows):
            faults.add(at, "two rows of the table have the same percent")
        elif not (all(step > 0 for step in steps) or all(step < 0 for step in steps)):
            faults.add(at, "the sizes of the table go up and down; they move one way as the percent rises")
        for percent, name, size in ((0, "new", new), (100, "limit", _single(self.limit))):
            row = next((own for own, worn in rows if worn == percent), None)
            if row is None:
                faults.add(at, f"the table has no row at {percent}, which is `{name}`")
            elif size is not None and abs(row - size) > _SAME:
                faults.add(
                    at, f"the table's row at {percent} is {row:g} mm and `{name}` is {size:g} mm; they must be equal"
                )

    def dimensions(self) -> Dimensions | None:
        """The plain value, or None where there are no sizes."""
        if self.new is None:
            return None
        new, half_range = self.new
        return Dimensions(
            new=new,
            limit=_plain_limit(self.limit),
            tolerance=half_range if self.tolerance is None else self.tolerance,
            new_doubt=self.new_doubt,
            limit_tolerance=self.limit_tolerance,
            destroyed=self.destroyed,
            table=tuple(_in_order(self.table)) if self.table else None,
            between=self.reading_between_rows or Between.STRAIGHT,
            case=self.case.case() if self.case else None,
            spread=self.spread,
        )


def tell_limits(file: FileType, new: float | None, limit: float | ImpactLimitsFile | None, faults: FaultList) -> None:
    """Note limits that are the new size, or lie on both sides of it."""
    limits = _limits(limit)
    if new is None or not limits:
        return
    if any(abs(value - new) <= _SAME for value in limits):
        faults.add(file.where("limit"), "`limit` and `new` are the same size")
    elif min(limits) < new < max(limits):
        faults.add(file.where("limit"), "the limits lie on both sides of `new`; a size moves one way as it wears")


def _in_order(table: dict[float, float]) -> list[tuple[float, float]]:
    return sorted(table.items(), key=lambda row: row[1])


def _rows_written(file: DimensionsFile) -> int:
    node = file.written("table")
    return len(node) if isinstance(node, dict) else 0


def _single(limit: float | ImpactLimitsFile | None) -> float | None:
    return limit if isinstance(limit, float) else None
