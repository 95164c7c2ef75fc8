"""Views of full reports for tests of the pages: one that is like most, a very short one and a very long one."""

from dataclasses import replace
from io import BytesIO

import ahead_views
from PIL import Image

from tracksworn.assessment.model import Basis, Stage
from tracksworn.assessment.sayings import Severity
from tracksworn.documents.drawing.gauge import Gauge
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Path, Stroke, Text
from tracksworn.documents.drawing.profiles.profile import Profile, ProfileWords, Size, Worn
from tracksworn.documents.drawing.ruler import Ruler
from tracksworn.documents.drawing.strip import Strip, StripPlace
from tracksworn.documents.full import view as full
from tracksworn.documents.full.ahead import Ahead
from tracksworn.documents.full.headings import Headings
from tracksworn.documents.words.cautions import cautions
from tracksworn.documents.words.language import Language
from tracksworn.inspection.dossier import Picture
from tracksworn.inspection.vocabulary import Component, Side

LABELLED = full.Labelled
WORDS = ProfileWords(
    "as new", "now", "limit", "destroyed", "typical section", "pin", "tread", "flange", "middle", "bushing", "cords"
)


def photo(name: str, number: str = "", *, size: tuple[int, int] = (1200, 800)) -> full.PhotoView:
    """A grey photo of its own."""
    out = BytesIO()
    Image.linear_gradient("L").resize(size).convert("RGB").save(out, "JPEG", quality=80)
    return full.PhotoView(
        Picture(out.getvalue(), "image/jpeg", *size),
        name,
        number,
        "Leak, marked",
        "left bottom roller 3",
        "",
        f"Photo {name}",
    )


def elevation(side: Side, height: float = 86.0) -> Drawing:
    """Something of the size of a side elevation."""
    frame = Path((Line(((0, 0), (182, 0), (182, height), (0, height)), closed=True),), stroke=Stroke(0.12, "#c3cacd"))
    wheels = Path(tuple(Circle((30.0 + 15 * k, height - 20), 6) for k in range(8)), "#e3e8ea", Stroke(0.22))
    return Drawing(182, height, (frame, wheels, Text((90, 20), f"{side} track", 9)), f"{side} side: links 79 % worn")


def gauge(percent: float, within: float = 4.0) -> Gauge:
    """A measured gauge."""
    bounds = ((100.0, Stage.PAST_LIMIT), (80.0, Stage.NEAR_LIMIT), (50.0, Stage.SECOND_HALF), (-99.0, Stage.FIRST_HALF))
    stage = next(name for bound, name in bounds if percent >= bound)
    return Gauge(Basis.MEASURED, f"{percent:.0f}", percent, percent - within, percent + within, stage)


def side(which: Side, percent: float | None, reading: str, *details: str) -> full.PartSide:
    """One side of a row; None is not seen."""
    if percent is None:
        unseen = Gauge(Basis.NOT_SEEN, "–", word="not seen", reason="packed with clay")
        return full.PartSide(
            which,
            unseen,
            Basis.NOT_SEEN,
            "",
            "",
            "",
            "",
            (),
            "",
            False,
            False,
            "packed with clay",
            f"{which}: not seen",
        )
    drawn = gauge(percent)
    assert drawn.stage is not None
    return full.PartSide(
        which,
        drawn,
        Basis.MEASURED,
        drawn.figure,
        "a, c",
        f"{percent - 4:.0f} to {percent + 4:.0f}",
        reading,
        details,
        drawn.stage.value,
        percent >= 100,
        percent >= 100,
        "",
        f"{which}: {drawn.figure} % worn",
    )


ROWS = (
    (
        Component.LINK,
        "Track links",
        "rail height, shoe face to rail top, at the lowest place",
        "new 143.0, limit 128.0 mm",
        (79, "131.1 mm", "mean of 4 joints", "joint 23: 81"),
        (68, "132.9 mm", "mean of 4 joints", "joint 23: 69"),
    ),
    (
        Component.BUSHING,
        "Bushings",
        "outside diameter",
        "new 84.0, limit 76.5 mm",
        (61, "79.08 mm", "forward, 4 joints"),
        (45, "80.22 mm", "forward, 4 joints"),
    ),
    (
        Component.PITCH,
        "Pitch",
        "over 4 links, drawn tight",
        "new 864, limit 876 mm",
        (42, "869 mm", "span at joint 28"),
        (17, "866 mm", "span at joint 6"),
    ),
    (
        Component.SHOE,
        "Shoes",
        "grouser height",
        "new 78, limit 32 mm",
        (45, "57.2 mm", "mean of 4 shoes"),
        (41, "59.2 mm", "mean of 4 shoes"),
    ),
    (
        Component.SPROCKET,
        "Sprocket",
        "tooth, 12 mm above the root",
        "new 50.0, limit 36.0 mm",
        (50, "42.9 mm", "mean of 3 teeth"),
        (49, "43.0 mm", "mean of 3 teeth"),
    ),
    (
        Component.FRONT_IDLER,
        "Front idler",
        "tread diameter",
        "new 720, limit 690 mm",
        (47, "706.0 mm", "1 place"),
        (37, "708.8 mm", "1 place"),
    ),
    (
        Component.REAR_IDLER,
        "Rear idler",
        "tread diameter",
        "new 720, limit 690 mm",
        (37, "708.9 mm", "1 place"),
        (35, "709.4 mm", "1 place"),
    ),
    (
        Component.BOTTOM_ROLLER,
        "Bottom rollers, worst",
        "tread diameter",
        "new 256, limit 210 mm",
        (107, "206.8 mm", "roller 3"),
        (69, "224.4 mm", "roller 1"),
    ),
    (
        Component.TOP_ROLLER,
        "Top roller",
        "tread diameter",
        "new 190, limit 166 mm",
        (48, "178.6 mm", "1 place"),
        (None, ""),
    ),
)


def rows() -> tuple[full.PartRow, ...]:
    """Part by part."""
    made = []
    for component, name, measured, sizes, left, right in ROWS:
        both = left[0] is not None and right[0] is not None
        apart = (left[0] or 0) - (right[0] or 0)
        words = "left more worn" if apart >= 9 else "no difference shown"
        delta = (
            full.Delta(f"{apart:+d}", "± 4", words, "", apart >= 9)
            if both
            else full.Delta("no delta", "", "", "", False)
        )
        made.append(
            full.PartRow(component, name, measured, sizes, side(Side.LEFT, *left), side(Side.RIGHT, *right), delta)
        )
    return tuple(made)


def profile(component: Component = Component.LINK) -> Profile:
    """A section."""
    return Profile(
        component,
        "Link rail",
        "left and right",
        "section at the joint",
        (
            Worn(gauge(79), Size(131.1, "131.1"), "left", side=Side.LEFT),
            Worn(gauge(68), Size(132.9, "132.9"), "right", side=Side.RIGHT),
        ),
        WORDS,
        "Link rail in section: new 143.0, left 131.1, right 132.9, limit 128.0 mm.",
        Size(143.0, "143.0"),
        Size(128.0, "128.0"),
    )


def finding(
    number: int, severity: Severity = Severity.ACT, *, section: bool = True, photos: int = 0
) -> full.FindingView:
    """A finding."""
    return full.FindingView(
        str(number),
        "past-limit",
        severity,
        severity.value,
        f"Left bottom roller {number} is past its limit and loses oil",
        (
            "Tread 206.8 mm, limit 210.0: 107 % worn (102 to 112).",
            "Oil at the inner seal, marked; it turns stiffly by hand.",
        ),
        "Replace it before the machine works again. Rollers 1 and 8 are near their limit: order them too.",
        "A new tread is flat between its shoulders. Worn, it dishes and leaves a lip at the flange root.",
        tuple(photo(f"roller-{number}-{k}", str(number)) for k in range(photos)),
        f"observation {number}",
        profile() if section else None,
        pins=(number - 1,),
    )


def strip(count: int = 8) -> full.StripView:
    """Bottom rollers by position."""
    percents = (80, 71, 107, 65, 60, 66, 73, 81, 55, 52)
    places = tuple(
        StripPlace(str(k + 1), gauge(percents[k % 10]), f"{219.1 + k:.1f}", "S" if k % 2 else "D") for k in range(count)
    )
    return full.StripView(
        Component.BOTTOM_ROLLER,
        "Bottom rollers by position",
        "tread diameter in mm; worn from the top edge down",
        Strip(places, places, "left", "right", "front", "Bottom rollers, left from the front: 80, 71, 107 % worn."),
    )


def report() -> full.FullReport:
    """A report like most."""
    picture = Picture(
        b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect width="9" height="9" fill="#1f5c6b"/></svg>',
        "image/svg+xml",
        10,
        10,
    )
    readings = tuple(
        full.ReadingView(
            row.name,
            "131.2, 131.0, 130.8, 131.4 mm",
            "133.1, 132.9, 132.7, 133.0 mm",
            "depth gauge; joints 3, 13, 23, 33",
        )
        for row in rows()
    )
    return full.FullReport(
        branding=full.Branding(
            "Millrace Plant Survey",
            "#1f5c6b",
            picture,
            ("4 Tannery Row, Withy Bridge",),
            ("desk@millrace.example",),
            "A4",
            "en",
        ),
        identification=full.Identification(
            "MPS-2031-0418-r0-full",
            "Undercarriage condition report",
            "MPS-2031-0418 · revision 0",
            "For Oxbow Sale Yard",
            (
                LABELLED("Machine", "Hollin H-640E, 2024"),
                LABELLED("Serial number", "HLN640E0K00412"),
                LABELLED("Machine hours", "8 412 h"),
                LABELLED("Inspected", "18 April 2031"),
                LABELLED("Place", "Oxbow Sale Yard, row 14"),
                LABELLED("Inspector", "Ines Marlow"),
            ),
            (
                LABELLED("Purpose", "condition statement before sale"),
                LABELLED("Conditions", "dry, tracks washed"),
                LABELLED("Track", "sealed and lubricated"),
            ),
            "",
            (LABELLED("Links and bushings", "at 5 210 h (by invoice)"),),
            (photo("plate"),),
            "2031-04-18",
        ),
        headings=Headings(),
        summary=full.Summary(
            "About half worn, and unevenly.",
            (
                "Left bottom roller 3 is past its limit and leaks: replace it before the machine works.",
                "The left chain leads the right.",
                "A dry joint in the left chain is likely.",
            ),
        ),
        whole=full.Whole(
            "53",
            "",
            "%",
            "worn as a whole, by cost",
            "95 % interval 51 to 55",
            "shares from the chart",
            (
                LABELLED("Seen or measured", "93 % of the cost"),
                LABELLED("Floor: all unseen as new", "49 %"),
                LABELLED("Ceiling: all unseen at the limit", "56 %"),
                LABELLED("Worst: left bottom roller 3", "107 %", strong=True),
            ),
            (LABELLED("Past limit", "1"), LABELLED("Near limit", "2"), LABELLED("Not seen", "5")),
            Ruler(
                53,
                51,
                55,
                49,
                56,
                "whole 53",
                "floor 49",
                "ceiling 56",
                "as new",
                "limit",
                "Whole 53 %, floor 49, ceiling 56, worst 107.",
                107,
                "worst",
                Stage.PAST_LIMIT,
            ),
        ),
        sides=tuple(
            full.SideView(
                which,
                f"{which.value.title()} side",
                f"front of the machine at {which.value}",
                elevation(which),
                "1 : 27",
                (),
            )
            for which in Side
        ),
        drawn="Drawn as new and to scale: idler centres 3 280 mm, 45 links of 216 mm.",
        parts=rows(),
        travel=(
            full.TravelRow(
                Component.ADJUSTER,
                "Adjuster",
                "rod showing, 20 to 120 mm",
                full.TravelSide(Side.LEFT, "74 mm", "54 % used", False, 54.0, None, "left adjuster 54 % used"),
                full.TravelSide(Side.RIGHT, "55 mm", "35 % used", False, 35.0, None, "right adjuster 35 % used"),
            ),
            full.TravelRow(
                Component.SAG,
                "Sag",
                "range 55 to 75 mm",
                full.TravelSide(Side.LEFT, "79 mm", "out of range", True, None, (79, 55, 75), "left sag out of range"),
                None,
            ),
        ),
        strips=(strip(),),
        assumed=(
            full.AssumedView("a", "inspector: 2 points, one error for both sides"),
            full.AssumedView("c", "joint to joint: 3 points, no spread in the chart"),
        ),
        assumed_basis="Judgement, no source.",
        findings=(
            finding(1, photos=1),
            finding(2),
            finding(3, Severity.WATCH),
            finding(4, Severity.NOTE, section=False),
        ),
        profiles=(profile(Component.SHOE),),
        observations=tuple(
            full.ObservationView(
                str(k),
                "left bottom roller 3",
                "Leak",
                "marked",
                "1.2 mm",
                "Weeping at the inner seal, *not* dripping.",
                k == 5,
                (photo(f"roller-{k}-0", str(k)),) if k < 3 else (),
                (str(k),) if k <= 4 else (),
            )
            for k in range(1, 8)
        ),
        photos=(photo("left-side"),),
        not_seen=full.NotSeen(
            (full.NotSeenView("right bottom rollers 3 to 6", "guard fitted"),),
            ("Joints inside the chain cannot be seen at all.",),
        ),
        readings=readings,
        instruments=tuple(
            full.InstrumentView(name, "0.05 mm", "± 0.1 mm", "12 Jan 2031", "DG-118", "")
            for name in ("depth gauge", "bow caliper", "rule")
        ),
        chart=(LABELLED("Chart", "Hollin H-640E, 216 mm pitch"), LABELLED("Source", "invented for demonstration")),
        remarks="Chains renewed at **5 210 hours** by the invoice.",
        standing_terms="Given to the addressee for the purpose named.",
        cautions=cautions(Language()),
        signature=full.Signature(
            "Ines Marlow",
            "Surveyor",
            "Millrace Plant Survey",
            "18 April 2031",
            "She answers for what is written here; the file itself is not sealed.",
        ),
        foot=(
            LABELLED("Document", "MPS-2031-0418-r0-full"),
            LABELLED("Arithmetic", "method 1"),
            LABELLED("Chart", "Hollin H-640E, 216 mm pitch"),
            LABELLED("Fingerprint", "a41c 09e7 5d2f 88b3", "not sealed"),
            LABELLED("Signed", "Ines Marlow, 18 April 2031"),
        ),
        fingerprint="a41c09e75d2f88b3" * 4,
        sealed=False,
        end="End of the report",
        stages=tuple((stage, stage.value) for stage in Stage),
        ahead=ahead_views.like_most(),
    )


def short_report() -> full.FullReport:
    """By eye alone, hardly anything seen: no chart, no mark, no findings, no photos."""
    base = report()
    return replace(
        base,
        branding=replace(base.branding, mark=None, contact=(), address=()),
        identification=replace(base.identification, details=(), fitted=(), plates=()),
        parts=base.parts[:2],
        travel=(),
        strips=(),
        assumed=(),
        findings=(),
        profiles=(),
        observations=(),
        photos=(),
        readings=base.readings[:2],
        instruments=(),
        remarks="",
        standing_terms="",
        ahead=Ahead(None, "No hours left are given: there is no wear chart.", None),
    )


LONG = "Amalgamated Quarry and Haulage Undercarriage Surveyors of the Upper Valleys and Adjoining Districts"


def long_report() -> full.FullReport:
    """Twenty rollers, forty findings, long notes, long names."""
    base = report()
    head = tuple(replace(one, value=f"{one.value}, {LONG}") for one in base.identification.strip)
    severities = tuple(Severity)
    return replace(
        base,
        branding=replace(base.branding, firm=LONG),
        identification=replace(
            base.identification, strip=head, addressed=f"For {LONG}", number=f"{'MPS-2031-0418-' * 4}A · revision 12"
        ),
        summary=replace(base.summary, sentences=base.summary.sentences * 2),
        sides=tuple(replace(one, drawing=elevation(one.side, 50.0)) for one in base.sides),  # what long words leave
        strips=(strip(20), strip(6)),
        findings=tuple(finding(k, severities[k // 14], section=k % 3 != 0, photos=k % 4 == 0) for k in range(1, 41)),
        observations=tuple(
            replace(one, number=str(k), findings=(str(k),) if k <= 40 else ())
            for k, one in enumerate(base.observations * 6, start=1)
        ),
        readings=base.readings * 3,
        instruments=base.instruments * 4,
        remarks="\n\n".join([f"{LONG}. " * 6] * 12),
        standing_terms="\n\n".join([f"{LONG}. " * 5] * 6),
        ahead=ahead_views.as_long_as_it_gets(),
        foot=tuple(
            replace(one, value=f"{one.value} {LONG}") if one.label in ("Chart", "Signed") else one for one in base.foot
        ),
    )
