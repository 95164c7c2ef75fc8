"""The long examples of the file format, read to the last value."""

from datetime import date
from hashlib import sha256
from pathlib import Path, PurePosixPath

import pytest

from tracksworn.inspection.chart import Case, ChartComponent, Dimensions, Ends, Geometry, WearChart
from tracksworn.inspection.letterhead import Assumed, Letterhead, Signatory
from tracksworn.inspection.model import (
    FittedPart,
    Fitting,
    Hours,
    Inspection,
    Inspector,
    Instrument,
    JointTemperatures,
    Machine,
    Observation,
    Photo,
    Reading,
    Shoe,
    Spot,
    Surface,
)
from tracksworn.inspection.prices import Price, Prices, Work
from tracksworn.inspection.reading import check, read_inspection
from tracksworn.inspection.terms import Rule, Terms, Undecided
from tracksworn.inspection.values import (
    ByEye,
    ByPlace,
    ByPosition,
    Estimate,
    NotSeen,
    PerSide,
    Sizes,
    Temperatures,
)
from tracksworn.inspection.vocabulary import (
    Component,
    Evidence,
    Grade,
    Ground,
    Impact,
    Layout,
    LimitMeans,
    Origin,
    PartPlace,
    ShoeKind,
    Side,
    Sign,
    Suspension,
    Track,
    Unit,
)

JOINTS: PerSide[tuple[int, ...] | None] = PerSide((3, 13, 23, 33), (3, 13, 23, 33))
CALIBRATED = date(2031, 1, 12)


def both(gauge: str) -> PerSide[str | None]:
    return PerSide(gauge, gauge)


MACHINE = Machine(
    maker="Hollin",
    model="H-640E",
    serial="HLN640E0K00412",
    layout=Layout.ELEVATED_SPROCKET,
    year=2024,
    hours=Hours(8412.0),
    hours_per_week=35.0,
    travel_share=0.15,
    suspension=Suspension.SUSPENDED,
    track=Track.SEALED_AND_LUBRICATED,
    bottom_rollers=8,
    top_rollers=1,
    links=PerSide(45, 45),
    shoe=Shoe(610.0, ShoeKind.SINGLE_GROUSER),
    ground=(Ground.ABRASIVE, Ground.WET),
    impact=Impact.LOW,
    plate_photo=PurePosixPath("photos/plate.jpg"),
    meter_photo=PurePosixPath("photos/meter.jpg"),
)

READINGS = {
    Component.LINK: Reading(
        Component.LINK,
        PerSide(Sizes((131.2, 131.0, 130.8, 131.4)), Sizes((133.1, 133.0, 132.6, 133.2))),
        both("depth gauge"),
        JOINTS,
    ),
    Component.BUSHING: Reading(
        Component.BUSHING,
        PerSide(
            ByPlace(
                {
                    PartPlace.FORWARD_SIDE: Sizes((80.1, 80.3, 79.9)),
                    PartPlace.REVERSE_SIDE: Sizes((81.2, 81.0, 81.4)),
                }
            ),
            ByEye(Estimate.RANGE, 30.0, 50.0),
        ),
        both("caliper"),
    ),
    Component.PITCH: Reading(
        Component.PITCH, PerSide(Sizes((867.0, 868.0)), Sizes((866.0, 866.0))), both("steel tape")
    ),
    Component.BOTTOM_ROLLER: Reading(
        Component.BOTTOM_ROLLER,
        PerSide(
            Sizes((252.0, 244.5, None, 246.1, 247.0, 245.2, 244.8, 243.9)),
            ByPosition({1: Sizes((242.4,)), 8: ByEye(Estimate.RANGE, 30.0, 50.0)}, others=NotSeen("guards fitted")),
        ),
        both("caliper"),
    ),
    Component.SPROCKET: Reading(
        Component.SPROCKET,
        PerSide(ByEye(Estimate.ABOUT, 50.0, 50.0), ByEye(Estimate.AT_LEAST, 50.0, 50.0)),
    ),
    Component.TOP_ROLLER: Reading(
        Component.TOP_ROLLER, PerSide(Sizes((176.2125,), Unit.INCH), NotSeen("packed with clay"))
    ),
    Component.ADJUSTER: Reading(Component.ADJUSTER, PerSide(Sizes((92.0,)), Sizes((55.0,)))),
    Component.SAG: Reading(
        Component.SAG, PerSide(Sizes((66.0,)), Sizes((58.0,))), stopped="coasting forward", packed=False
    ),
}

INSPECTION = Inspection(
    number="MPS-2031-0418",
    inspected=date(2031, 4, 18),
    issued=date(2031, 4, 19),
    lot="114",
    place="Oxbow Sale Yard, row 14",
    purpose="condition statement before sale",
    conditions="dry, tracks washed, standing on level concrete; machine not driven",
    limits_of_access="belly guard fitted",
    inspector=Inspector(
        "Ines Marlow",
        "Millrace Plant Survey",
        "14 years in undercarriage repair",
        "Oxbow Sale Yard",
        "none",
    ),
    machine=MACHINE,
    chart=PurePosixPath("../charts/hollin-h640e.yaml"),
    letterhead=PurePosixPath("../letterheads/millrace.yaml"),
    prices=PurePosixPath("../prices/2031.yaml"),
    terms=PurePosixPath("../terms/lantern-plan.yaml"),
    earlier=(PurePosixPath("../MPS-2030-0377/inspection.yaml"),),
    fitted={
        FittedPart(Component.LINK): Fitting(5210.0, Evidence.INVOICE),
        FittedPart(Component.BUSHING): Fitting(5210.0, Evidence.INVOICE, 7100.0),
        FittedPart(Component.SPROCKET): Fitting(5210.0, origin=Origin.ANOTHER_MAKE),
        FittedPart(Component.BOTTOM_ROLLER, Side.LEFT, 3): Fitting(7900.0),
        FittedPart(Component.FRONT_IDLER): Fitting(original=True),
    },
    instruments={
        "depth gauge": Instrument(
            "depth gauge", 0.05, 0.1, calibrated=CALIBRATED, due=date(2032, 1, 12), certificate="DG-118"
        ),
        "caliper": Instrument("caliper", 0.02, 0.05, calibrated=CALIBRATED),
        "steel tape": Instrument("steel tape", 1.0, 0.5),
        "ultrasonic gauge": Instrument(
            "ultrasonic gauge",
            0.01,
            uncertainty=0.05,
            k=2.0,
            velocity="5920 m/s",
            checked_on="25 mm step of like steel",
        ),
    },
    surface=Surface(cleaned=True, temperature=18.0),
    readings=READINGS,
    joint_temperatures=JointTemperatures(
        PerSide(Temperatures((31.0, 33.0, 58.0, 32.0)), Temperatures((30.0, 31.0, 31.0, 32.0))),
        JOINTS,
        "30 min",
        18.0,
    ),
    observations=(
        Observation(
            Spot(Component.BOTTOM_ROLLER, Side.LEFT, 3),
            (Sign.LEAK,),
            Grade.SLIGHT,
            1.2,
            "Weeping at the inner seal, *not* dripping.",
            (PurePosixPath("photos/roller-l3.jpg"),),
        ),
    ),
    photos=(Photo(PurePosixPath("photos/left-side.jpg"), Spot(None, Side.LEFT), "Left track from the front quarter"),),
    notes="Free text in Markdown, printed under Remarks.\n",
)


def worn(component: Component, means: LimitMeans, dimensions: Dimensions | None, **more: object) -> ChartComponent:
    return ChartComponent(component, limit_means=means, dimensions=dimensions, **more)  # type: ignore[arg-type]


CHART = WearChart(
    title="Hollin H-640E, 216 mm pitch, sealed and lubricated",
    source="invented for demonstration",
    layout=Layout.ELEVATED_SPROCKET,
    geometry=Geometry(
        idler_centres=3280.0,
        sprocket_back=2540.0,
        sprocket_height=830.0,
        front_idler=720.0,
        rear_idler=720.0,
        sprocket=800.0,
        teeth=23,
        bottom_roller=256.0,
        top_roller=190.0,
        pitch=216.0,
        links=45,
    ),
    narrowest_shoe=560.0,
    components={
        Component.LINK: worn(
            Component.LINK,
            LimitMeans.REBUILD,
            Dimensions(143.0, 128.0, tolerance=0.3, destroyed=124.0, case=Case(60.0, 3.0), spread=0.4),
            measure="rail height, shoe face to rail top, at the lowest place between joints",
            share=0.24,
        ),
        Component.BUSHING: worn(
            Component.BUSHING,
            LimitMeans.TURN,
            Dimensions(84.0, 76.5, table=((84.0, 0.0), (82.0, 20.0), (79.5, 55.0), (76.5, 100.0))),
            measure="outside diameter",
            places=(PartPlace.FORWARD_SIDE, PartPlace.REVERSE_SIDE, PartPlace.RIGHT_ANGLES),
            turns=1,
            share=0.16,
        ),
        Component.PITCH: worn(
            Component.PITCH,
            LimitMeans.REPLACE,
            Dimensions(864.0, 876.0),
            measure="pin end to the same edge of the fifth pin, slack drawn out, clear of the master joint",
            over_links=4,
            share=0.0,
        ),
        Component.BOTTOM_ROLLER: worn(
            Component.BOTTOM_ROLLER,
            LimitMeans.REBUILD,
            Dimensions(256.0, 210.0),
            measure="tread diameter",
            ends=Ends(264.0, 214.0),
            share=0.22,
        ),
        Component.SPROCKET: worn(
            Component.SPROCKET, LimitMeans.REPLACE, None, measure="tooth base thickness", share=0.10
        ),
        Component.TOP_ROLLER: worn(
            Component.TOP_ROLLER, LimitMeans.REBUILD, Dimensions(190.0, 160.0), measure="tread diameter", share=0.03
        ),
        Component.ADJUSTER: ChartComponent(Component.ADJUSTER, "rod showing", start=40.0, end=140.0),
        Component.SAG: ChartComponent(Component.SAG, "straightedge, mean of both spans", range=(55.0, 75.0)),
    },
)

PRICES = Prices(
    as_of=date(2031, 3, 1),
    currency="EUR",
    labour_per_hour=95.0,
    visit_set_up=1800.0,
    track_off=6.0,
    together=((Component.LINK, Component.SPROCKET),),
    components={
        Component.LINK: {
            Work.REPLACE: Price(11800.0, 14.0),
            Work.REBUILD: Price(5200.0, 18.0, 40.0, 100.0),
        },
        Component.BUSHING: {Work.REPLACE: Price(4100.0, 16.0), Work.TURN: Price(600.0, 12.0, None, 100.0)},
        Component.BOTTOM_ROLLER: {
            Work.REPLACE: Price(420.0, 1.5),
            Work.SWAP_POSITIONS: Price(0.0, 2.0, None, 80.0),
        },
    },
)

TERMS = Terms(
    title="Lantern Plan, undercarriage cover",
    rule=Rule.GUARDED,
    allowed={
        None: ((0.0, 10.0), (4000.0, 80.0)),
        Component.BUSHING: ((0.0, 10.0), (2500.0, 60.0), (4000.0, 90.0)),
    },
    confidence=0.95,
    undecided=Undecided.MEASURE_AGAIN,
    hours_within=20.0,
)

LETTERHEAD = Letterhead(
    firm="Millrace Plant Survey",
    signatory=Signatory("Ines Marlow", "Surveyor"),
    address=("4 Tannery Row", "Withy Bridge"),
    email="desk@millrace.example",
    web="https://millrace.example",
    mark=PurePosixPath("millrace.svg"),
    fonts=(PurePosixPath("NotoSansJP.ttf"),),
    records_at="https://millrace.example/r/",
    standing_terms="Markdown, printed before the signature; it adds to the cautions and never replaces them.\n",
    assumed=Assumed(inspector=1.4, seat=0.8, basis="repeat study RS-4, 2030"),
)


def test_the_long_inspection_reads_to_the_last_value(example: Path) -> None:
    assert read_inspection(example / "MPS-2031-0418").inspection == INSPECTION


def test_a_chart_reads_to_the_last_value(example: Path) -> None:
    assert read_inspection(example / "MPS-2031-0418").chart == CHART


def test_prices_terms_and_letterhead_read_to_the_last_value(example: Path) -> None:
    dossier = read_inspection(example / "MPS-2031-0418")
    assert (dossier.prices, dossier.terms, dossier.letterhead) == (PRICES, TERMS, LETTERHEAD)


def test_the_least_inspection_is_whole(example: Path) -> None:
    dossier = read_inspection(example / "OXB-0231" / "inspection.yaml")
    assert dossier.inspection == Inspection(
        number="OXB-0231",
        inspected=date(2031, 5, 2),
        inspector=Inspector("Ines Marlow"),
        machine=Machine(
            "Merrow", "Tarn 22", "20417", Layout.EXCAVATOR, hours=Hours(6120.0), bottom_rollers=8, top_rollers=2
        ),
        chart=None,
        no_chart_because="no figures for this make",
        readings={
            Component.LINK: Reading(
                Component.LINK,
                PerSide(ByEye(Estimate.ABOUT, 40.0, 40.0), ByEye(Estimate.RANGE, 40.0, 50.0)),
            ),
            Component.SPROCKET: Reading(
                Component.SPROCKET, PerSide(ByEye(Estimate.AT_MOST, 30.0, 30.0), NotSeen("mud"))
            ),
        },
        observations=(Observation(Spot(Component.FRONT_IDLER, Side.LEFT), (Sign.SIDE_WEAR,), Grade.SLIGHT),),
    )
    assert (dossier.chart, dossier.letterhead, dossier.prices, dossier.terms, dossier.earlier) == (None,) * 4 + ((),)


def test_everything_that_was_read_is_named_by_its_digest(example: Path) -> None:
    dossier = read_inspection(example / "MPS-2031-0418")
    assert set(dossier.digests or {}) == {
        "MPS-2031-0418/inspection.yaml",
        "MPS-2030-0377/inspection.yaml",
        "charts/hollin-h640e.yaml",
        "letterheads/millrace.yaml",
        "prices/2031.yaml",
        "terms/lantern-plan.yaml",
        *(f"MPS-2031-0418/photos/{name}.jpg" for name in ("plate", "meter", "roller-l3", "left-side")),
    }
    for name, digest in (dossier.digests or {}).items():
        assert digest == sha256((example / name).read_bytes()).hexdigest()


def test_photos_mark_and_earlier_inspections_come_with_it(example: Path) -> None:
    dossier = read_inspection(example / "MPS-2031-0418")
    assert {photo.media_type for photo in (dossier.photos or {}).values()} == {"image/jpeg"}
    assert len(dossier.photos or {}) == 4
    assert dossier.mark is not None
    assert dossier.mark.media_type == "image/svg+xml"
    assert [earlier.inspection.number for earlier in dossier.earlier] == ["MPS-2030-0377"]
    assert dossier.folder == example / "MPS-2031-0418"


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_byte_order_mark_change_nothing(example: Path, ending: str, mark: bytes) -> None:
    file = example / "MPS-2031-0418" / "inspection.yaml"
    file.write_bytes(mark + file.read_text().replace("\n", ending).encode())
    assert read_inspection(file).inspection == INSPECTION


def test_a_file_and_its_folder_read_alike(example: Path) -> None:
    folder = example / "MPS-2031-0418"
    assert read_inspection(folder) == read_inspection(folder / "inspection.yaml")


@pytest.mark.parametrize("file", sorted(Path(__file__).with_name("example").glob("*/*.yaml")), ids=lambda f: f.stem)
def test_a_file_of_any_kind_is_checked(example: Path, file: Path) -> None:
    assert check(example / file.parent.name / file.name) == ()
