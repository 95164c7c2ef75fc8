"""The whole view, made of inspections of every kind."""

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from pathlib import Path, PurePosixPath
from typing import Any

import pytest
from builders import about, at_least, chart, inspection, machine, reading, unseen, wears
from long_example import CHART, FIRM, INSPECTION

from tracksworn.assessment.assess import assess
from tracksworn.assessment.model import Assessment, Basis
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.full.build import full_report
from tracksworn.documents.full.view import FullReport, PartRow
from tracksworn.documents.statement import statement
from tracksworn.documents.words.cautions import CAUTIONS
from tracksworn.documents.words.figures import NO_BREAK, THIN
from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.dossier import Dossier, Picture
from tracksworn.inspection.letterhead import Assumed, Letterhead, Signatory
from tracksworn.inspection.model import Hours, Inspection, Observation, Photo, Spot
from tracksworn.inspection.vocabulary import Component, Evidence, Grade, Layout, LimitMeans, ObservedPlace, Side, Sign

FIRM_HEAD = Letterhead(
    "Millrace Plant Survey",
    Signatory("Ines Marlow", "Surveyor"),
    address=("4 Tannery Row",),
    email="desk@millrace.example",
    assumed=FIRM,
)
PICTURE = Picture(b"picture", "image/jpeg", 40, 30)


def report(
    inspected: Inspection,
    wear_chart: WearChart | None,
    letterhead: Letterhead | None = None,
    assessment: Assessment | None = None,
    **asked: Any,
) -> FullReport:
    dossier = Dossier(
        inspected,
        Path("TEST-1"),
        wear_chart,
        letterhead,
        photos={PurePosixPath("photos/roller-l3.jpg"): PICTURE, PurePosixPath("photos/left.jpg"): PICTURE},
        digests={"TEST-1/inspection.yaml": "22" * 32},
    )
    assumed = letterhead.assumed if letterhead else Assumed()
    return full_report(dossier, assessment or assess(inspected, wear_chart, assumed), **asked)


@pytest.fixture(scope="module")
def long() -> FullReport:
    return report(
        replace(INSPECTION, photos=(Photo(PurePosixPath("photos/left.jpg"), Spot(None, Side.LEFT)),)), CHART, FIRM_HEAD
    )


@pytest.fixture(scope="module")
def by_eye() -> FullReport:
    seen = inspection(
        reading(Component.LINK, about(40), at_least(50)),
        reading(Component.SPROCKET, at_least(30), unseen("mud")),
        machine=machine(Layout.EXCAVATOR, bottom_rollers=3, top_rollers=1, hours=Hours(6120.0, Evidence.OWNERS_WORD)),
        no_chart_because="no figures for this make",
    )
    return report(seen, None)


def part(view: FullReport, component: Component) -> PartRow:
    return next(row for row in view.parts if row.component is component)


def plain(text: str) -> str:
    return text.replace(THIN, " ").replace(NO_BREAK, " ")


def texts(value: Any) -> Iterator[str]:
    """Every text that a view holds, but not what its drawings are made of."""
    if isinstance(value, str) and not isinstance(value, Enum):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from texts(item)
    elif is_dataclass(value) and not isinstance(value, Drawing | Picture):
        for field in fields(value):
            yield from texts(getattr(value, field.name))


# --- part by part ---


def test_a_row_says_what_was_read_and_how_worn_that_is(long: FullReport) -> None:
    row = part(long, Component.LINK)
    assert row.left is not None
    assert (row.name, plain(row.sizes)) == ("Track links", "new 143, limit 128 mm")
    assert (plain(row.left.reading), row.left.figure, row.left.interval) == ("131.1 mm", "79", "75 to 83")
    assert row.left.details == ("mean of 4 joints", "joint 23: 81", "others to 85")
    assert row.left.stage == "second half, possibly near limit"
    assert (row.delta.figure, plain(row.delta.within), row.delta.words) == ("+12", "± 4", "left more worn")


def test_a_bushing_says_its_place_its_side_and_its_life(long: FullReport) -> None:
    row = part(long, Component.BUSHING)
    assert row.left is not None
    assert row.left.details[0] == "forward side, mean of 3 joints"
    assert plain(row.left.stage).endswith("second side, no turn left, life used 73 %")


def test_pitch_says_which_span_governs(long: FullReport) -> None:
    row = part(long, Component.PITCH)
    assert row.left is not None
    assert (plain(row.left.reading), row.left.details) == ("868 mm", ("longest of 2 spans",))


def test_rollers_stand_by_the_worst_and_by_position(long: FullReport) -> None:
    row = part(long, Component.BOTTOM_ROLLER)
    assert row.left is not None
    assert row.name == "Bottom rollers, worst seen"
    assert plain(row.sizes) == "new 256, limit 210 mm; first and last: new 264, limit 214 mm"
    assert row.left.details == ("roller 8",)
    strip = long.strips[0].strip
    assert [place.number for place in strip.left] == [str(number) for number in range(1, 9)]
    assert strip.left[2].gauge.basis is Basis.NOT_SEEN


def test_estimates_print_as_said_and_a_bound_makes_no_delta(long: FullReport) -> None:
    row = part(long, Component.SPROCKET)
    assert row.left is not None
    assert row.right is not None
    assert (row.left.figure, row.right.figure) == ("about 50", "at least 50")
    assert (row.delta.figure, row.delta.words) == ("no delta", "only a bound is known")


def test_a_lone_roller_has_no_number(long: FullReport) -> None:
    row = part(long, Component.TOP_ROLLER)
    assert row.right is not None
    assert (row.name, row.right.reason) == ("Top roller", "packed with clay")
    assert any(one.parts == "Right top roller" for one in long.not_seen.parts)


def test_letters_at_figures_lead_to_the_values_assumed(long: FullReport) -> None:
    explained = {one.letter for one in long.assumed if one.letter}
    used = {
        letter
        for row in long.parts
        for side in (row.left, row.right)
        if side is not None
        for letter in side.letters.split(", ")
        if letter
    }
    assert used == explained
    assert plain(long.assumed[0].words) == "inspector: 1.4 points, one error for both sides"
    assert long.assumed_basis == "Some of these are the firm's own values: repeat study RS-4, 2030."


def test_past_the_limit_says_what_is_lost_and_how_far_failure_is() -> None:
    worn_out = chart(wears(Component.LINK, 143.0, 128.0, limit_means=LimitMeans.REBUILD, destroyed=124.0))
    row = part(report(inspection(reading(Component.LINK, (126.5, 126.5), (123.0, 123.0))), worn_out), Component.LINK)
    assert row.left is not None
    assert row.right is not None
    assert plain(row.left.stage) == "past limit; no longer worth rebuilding; 2.5 mm before it may fail in use"
    assert row.right.stage.endswith("at the size at which it may fail in use")
    assert row.left.past_limit


def test_a_size_without_percent_is_no_figure() -> None:
    bare = report(inspection(reading(Component.LINK, (131.0, 131.2), (132.0, 132.2))), None)
    row = part(bare, Component.LINK)
    assert row.left is not None
    assert (row.left.figure, row.left.basis, plain(row.left.reading)) == ("", Basis.MEASURED, "131.1 mm")
    assert row.left.gauge.word == "measured, no percent"
    assert bare.not_seen.sentences[0].startswith("Measured, but without percent, as no chart gives new size and limit")
    assert bare.whole.figure == "–"


def test_travel_and_range(long: FullReport) -> None:
    adjuster, sag = long.travel
    assert adjuster.left is not None
    assert sag.left is not None
    assert plain(adjuster.measured) == "rod showing, 40 to 140 mm"
    assert plain(adjuster.left.words) == "52 % used"
    assert plain(sag.measured).endswith("range 55 to 75 mm; coasting forward, not packed")
    assert (sag.left.words, sag.left.range) == ("in range", (66.0, 55.0, 75.0))


def test_sag_without_its_circumstances_has_no_verdict() -> None:
    without = replace(INSPECTION, readings={Component.SAG: reading(Component.SAG, 66.0, 58.0)})
    sag = report(without, CHART).travel[0]
    assert sag.left is not None
    assert sag.left.words == "no verdict"
    assert sag.measured.endswith("how it was stopped is not recorded, packing not recorded")


# --- the whole ---


def test_the_overall_figure_never_stands_alone(long: FullReport, by_eye: FullReport) -> None:
    for view in (long, by_eye):
        labels = [fact.label for fact in view.whole.facts]
        assert labels[:3] == ["Seen or measured", "Floor: all unseen as new", "Ceiling: all unseen at the limit"]
        assert labels[3].startswith("Worst: ")
    assert plain(long.whole.interval).startswith("95 % interval ")


def test_by_eye_alone(by_eye: FullReport) -> None:
    assert by_eye.summary.sentences[0].startswith("There is no wear chart: every figure was judged by eye")
    assert (by_eye.chart[0].value, by_eye.chart[0].note) == ("none", "no figures for this make")
    assert [one.words for one in by_eye.assumed if "shares" in one.words]
    assert by_eye.whole.ruler.by_eye
    assert by_eye.drawn.startswith("Percent worn: 0 is as new, 100 the limit")
    assert "Proportions are typical of the layout" in by_eye.drawn
    hours = next(one for one in by_eye.identification.strip if one.label == "Hours")
    assert (plain(hours.value), hours.note) == ("6 120 h", "told by the owner, no evidence")


def test_hours_of_the_machine_go_before_those_of_a_meter_that_was_replaced() -> None:
    hours = Hours(5840.0, Evidence.METER, meter_replaced_at=6100.0)
    view = report(inspection(reading(Component.LINK, about(40), about(40)), machine=machine(hours=hours)), None)
    told = next(one for one in view.identification.strip if one.label == "Machine hours")
    assert (plain(told.value), plain(told.note)) == ("11 940 h", "the meter was replaced and shows 5 840 h")


@pytest.mark.parametrize(("grade", "printed"), [(Grade.NONE, ""), (Grade.MARKED, "marked"), (None, "")])
def test_what_has_no_word_of_its_own_is_left_to_its_note(grade: Grade | None, printed: str) -> None:
    seen = Observation(Spot(ObservedPlace.GUARD, Side.RIGHT), (Sign.OTHER,), grade, note="Guard over rollers 3 to 6.")
    view = report(inspection(observations=(seen,), machine=machine()), None)
    assert (view.observations[0].seen, view.observations[0].grade) == ("See the note", printed)
    reasons = [reason for one in view.findings for reason in one.reasons if "guard" in reason]
    assert reasons == ([] if grade is Grade.NONE else ["Right guard: see observation 1 and its note."])


def test_without_a_letterhead_the_inspector_stands_for_the_firm(by_eye: FullReport) -> None:
    assert (by_eye.branding.firm, by_eye.branding.mark, by_eye.branding.paper) == ("Ines Marlow", None, "A4")
    assert (by_eye.signature.name, by_eye.signature.firm) == ("Ines Marlow", "")


def test_a_revision_names_what_it_replaces() -> None:
    view = report(replace(INSPECTION, revision=2, replaces=1, because="a joint was misread"), CHART)
    assert view.identification.stem == "TEST-1-r2-full"
    assert view.identification.revision == (
        "This revision replaces revision 1 of TEST-1, because: a joint was misread."
    )
    assert view.end == "End of report TEST-1, revision 2"


def test_what_was_asked_for_goes_before_the_letterhead() -> None:
    view = report(INSPECTION, CHART, FIRM_HEAD, units="in", paper="letter", language="de")
    row = part(view, Component.LINK)
    assert row.left is not None
    assert (view.branding.paper, view.branding.language) == ("letter", "de")
    assert plain(row.left.reading) == "5,161 in"


# --- findings, observations, photos ---


def test_a_photo_stands_at_its_first_finding_and_at_its_observation(long: FullReport) -> None:
    at_findings = [photo.name for finding in long.findings for photo in finding.photos]
    assert at_findings == ["roller-l3"]
    assert [photo.number for photo in long.observations[0].photos] == ["1"]
    assert [photo.name for photo in long.photos] == ["left"]


def test_each_section_is_drawn_once(long: FullReport) -> None:
    drawn = [finding.profile for finding in long.findings if finding.profile is not None] + list(long.profiles)
    components = [profile.component for profile in drawn]
    assert len(components) == len(set(components))
    assert Component.LINK in components


def test_findings_are_numbered_as_they_stand(long: FullReport) -> None:
    assert [finding.number for finding in long.findings] == [str(n) for n in range(1, len(long.findings) + 1)]
    assert all(finding.title and finding.reasons and finding.advice for finding in long.findings)


def test_what_is_said_of_several_rollers_stands_once_on_the_page_and_apart_in_the_data() -> None:
    leaks = [Observation(Spot(Component.BOTTOM_ROLLER, Side.LEFT, n), (Sign.LEAK,), Grade.MARKED) for n in (4, 6)]
    inspected = replace(INSPECTION, observations=tuple(leaks))
    (shown,) = (one for one in report(inspected, CHART).findings if one.code == "roller-leak")
    (stated,) = (one for one in statement(assess(inspected, CHART))["findings"] if one["code"] == "roller-leak")
    assert "Left bottom rollers 4 and 6: leak (marked)." in shown.reasons
    assert {f"Left bottom roller {n}: leak (marked)." for n in (4, 6)} <= set(stated["because"])


def test_findings_in_brief_come_last_and_all_that_names_a_finding_follows(long: FullReport) -> None:
    brief = [finding.brief for finding in long.findings]
    assert True in brief
    assert brief == sorted(brief)
    for index, observation in enumerate(long.observations):
        assert observation.findings == tuple(one.number for one in long.findings if index in one.pins)


def test_what_was_looked_for_and_not_seen_is_listed_but_not_pinned() -> None:
    looked = Observation(Spot(ObservedPlace.TRACK_FRAME, Side.LEFT), (Sign.CRACK,), Grade.NONE)
    view = report(replace(INSPECTION, observations=(looked,)), CHART)
    assert (view.observations[0].number, view.observations[0].looked) == ("1", True)
    assert "Observation 1" not in view.sides[0].drawing.alternative


def test_readings_stand_as_taken(long: FullReport) -> None:
    taken = {one.part: one for one in long.readings}
    assert plain(taken["Links"].left) == "131.2, 131.0, 130.8, 131.4 mm"
    assert plain(taken["Top roller"].left) == "6 15/16 in"
    assert plain(taken["Joint temperatures"].left) == "31, 33, 58, 32 °C"


def test_gauges(long: FullReport) -> None:
    gauges = {one.name: one for one in long.instruments}
    assert plain(gauges["Ultrasonic gauge"].accuracy) == "U 0.05 mm, k 2"
    assert plain(gauges["Depth gauge"].calibrated) == "12 Jan 2031, due 12 Jan 2032"
    assert gauges["Steel tape"].calibrated == "not recorded"


# --- what every report must have ---


def test_every_report_has_its_cautions_and_its_fingerprint(long: FullReport, by_eye: FullReport) -> None:
    for view in (long, by_eye):
        assert [one.identity for one in view.cautions] == [one.identity for one in CAUTIONS]
        assert re.fullmatch("[0-9a-f]{64}", view.fingerprint)
        sealed = next(one for one in view.foot if one.label == "Fingerprint")
        assert sealed.note == "not sealed"
        assert sealed.value.replace(" ", "") == view.fingerprint[:16]


def test_no_text_of_a_view_shows_how_it_was_made(long: FullReport, by_eye: FullReport) -> None:
    for view in (long, by_eye):
        for text in texts(view):
            assert not re.search(r"[{}]|None|<[A-Z]|nan|\binf\b", text), text


def test_figures_keep_their_units_beside_them(long: FullReport) -> None:
    """No plain space between a figure and its unit, where a line could break."""
    for text in texts(long):
        assert not re.search(r"\d (mm|%|h\b|°C)", text), text
