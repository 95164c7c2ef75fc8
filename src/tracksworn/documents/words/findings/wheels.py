"""Words of sprockets, rollers, idlers and what they show."""

from collections.abc import Mapping
from typing import Final

from tracksworn.documents.words.findings.sentences import Sentence, Words
from tracksworn.documents.words.language import N_, NP_

_TEETH = N_("Flanks go hollow and tips hook; the thickness at the tooth's base tells more than the tip.")

FINDINGS: Final[Mapping[str, Words]] = {
    "sprocket-ahead-of-bushing": Words(
        "oiled track: sprocket worn further than the bushings on it",
        NP_("{parts} is ahead of its bushings", "{parts} are ahead of their bushings"),
        _TEETH,
    ),
    "sprocket-behind-bushing": Words(
        "oiled track: sprocket worn less than the bushings on it",
        NP_("{parts} is behind its bushings", "{parts} are behind their bushings"),
        _TEETH,
    ),
    "sprocket-ahead-of-pitch": Words(
        "dry or greased track: sprocket worn further than the pitch",
        NP_("{parts} is ahead of the pitch", "{parts} are ahead of the pitch"),
        _TEETH,
    ),
    "sprocket-behind-pitch": Words(
        "dry or greased track: sprocket worn less than the pitch",
        NP_("{parts} is behind the pitch", "{parts} are behind the pitch"),
        _TEETH,
    ),
    "sprocket-in-step": Words(
        "a sprocket in its second half that keeps step with what it turns",
        NP_("{parts} keeps step with the {partner}", "{parts} keep step with the {partner}"),
        _TEETH,
    ),
    "sprocket-teeth-worn": Words(
        "teeth seen pointed, thin at the base or worn at the face",
        NP_("{parts}: the teeth show their wear", "{parts}: the teeth show their wear"),
        N_("Teeth drawn to a point like a saw; a base that you can span where there was a broad root."),
    ),
    "roller-leak": Words(
        "a leak at a roller",
        NP_("{parts} loses oil", "{parts} lose oil"),
        N_("A wet or dirt-caked ring round the seal, streaks thrown down the flange."),
    ),
    "idler-leak": Words(
        "a leak at an idler",
        NP_("{parts} loses oil", "{parts} lose oil"),
        N_("A wet or dirt-caked ring round the shaft, streaks thrown outwards over the rim."),
    ),
    "final-drive-leak": Words(
        "a leak at a sprocket, which is the final drive behind it",
        NP_("Oil at the {parts}: the final drive may leak", "Oil at the {parts}: the final drives may leak"),
        N_("Oil run down between teeth and housing, or wet dirt packed behind the sprocket."),
    ),
    "seized": Words(
        "a wheel that does not turn",
        NP_("{parts} is seized", "{parts} are seized"),
        N_("A flat polished into the tread, and no turn while the chain runs."),
    ),
    "flat-spot": Words(
        "a flat on a tread: the wheel has stood still",
        NP_("{parts} has a flat spot", "{parts} have flat spots"),
        N_("A straight, bright patch across a round tread; it knocks once a turn."),
    ),
    "end-play": Words(
        "end play beyond the chart's, or noted where the chart has none",
        NP_("{parts} has end play", "{parts} have end play"),
        N_("Levered along its shaft the wheel clacks from stop to stop."),
    ),
    "flange-on-pin-boss": Words(
        "roller flanges seen touching the pin bosses",
        N_("Roller flanges meet the pin bosses"),
        N_("Bright crescents on the round bosses of the links, at the height of the flange."),
    ),
    "flange-near-pin-boss": Words(
        "rail and roller both near their limit, or little room measured, with no contact seen",
        N_("Roller flanges may be near the pin bosses"),
        N_("Look from the side under the rail: daylight between flange and boss, or none."),
    ),
    "flange-on-bushing": Words(
        "bushings seen grooved or touched by inner flanges",
        NP_("{parts} is touched by roller flanges", "{parts} are touched by roller flanges"),
        N_("Bright grooves round the bushing close to the link, where no tooth reaches."),
    ),
    "idler-on-bushing": Words(
        "an idler seen riding on the bushings",
        NP_("{parts} rides on the bushings", "{parts} ride on the bushings"),
        N_("A bright band along the middle of the idler's rim, and flats on the bushings."),
    ),
    "frame-alignment": Words(
        "side wear of an idler or one tread far ahead of the other: the frame may stand out of line",
        NP_("{parts}: check the line of the frame", "{parts}: check the line of the frame"),
        N_("A bright band on one face of the rim only, or one trough deeper than the other."),
    ),
    "guides-worn": Words(
        "idler guides seen worn, with no side wear yet",
        NP_("{parts}: the guides are worn", "{parts}: the guides are worn"),
        N_("The idler rocks between its guides, and the shims stand loose or are gone."),
    ),
    "rail-scalloped": Words(
        "rails seen hollowed between their joints",
        NP_("{parts}: the rail is scalloped", "{parts}: the rails are scalloped"),
        N_("A straight edge along the rail rocks on the joints and shows light between them; the ride drums."),
    ),
}

ADVICE: Final[Mapping[str, Sentence]] = {
    "sprocket-ahead-of-bushing": N_(
        "Renew when the bushings are turned or replaced, not later: worn teeth spoil them. Look for packing."
    ),
    "sprocket-behind-bushing": N_(
        "Ask when the sprocket went on. A young one on worn bushings takes on their wear; measure both again."
    ),
    "sprocket-ahead-of-pitch": N_(
        "Renew with the chain, and look for packing between the teeth, which wears them faster."
    ),
    "sprocket-behind-pitch": N_(
        "Ask when the sprocket went on. A stretched chain rides high on its teeth and wears them at its own rate."
    ),
    "sprocket-in-step": N_(
        "Renew with the chain, or when the bushings are turned: worn teeth soon wear new bushings to their own shape."
    ),
    "sprocket-teeth-worn": N_(
        "Measure the thickness at the base. Wear of the tip does not count until it reaches the contact face."
    ),
    "roller-leak": NP_(
        "See that it turns freely, and have it resealed or replaced before it runs dry; look at its neighbours too.",
        "See that they turn freely, and have them resealed or replaced before they run dry.",
    ),
    "idler-leak": NP_(
        "See that it turns freely, check its oil, and have it resealed while the bearings are sound.",
        "See that they turn freely, check their oil, and have them resealed while the bearings are sound.",
    ),
    "final-drive-leak": N_(
        "Check the oil level before the machine moves, and have the seal seen to: the gears run in that oil."
    ),
    "seized": NP_(
        "Stop and ask: the chain slides over it and wears both. "
        "Have it freed or replaced by the maker's manual, with the machine blocked.",
        "Stop and ask: the chain slides over them and wears with them. "
        "Have them freed or replaced by the maker's manual, with the machine blocked.",
    ),
    "flat-spot": N_("Clean round it and see that it turns under the chain; replace what does not."),
    "end-play": NP_(
        "Hold it against the maker's limit; beyond that have the wheel rebuilt or replaced before its seal lets go.",
        "Hold it against the maker's limit; beyond that have the wheels rebuilt or replaced before a seal lets go.",
    ),
    "flange-on-pin-boss": N_(
        "A trace of contact is ordinary. More means far worn rail and rollers: judge both before either is renewed."
    ),
    "flange-near-pin-boss": N_("Look for contact at each roller, and measure the room that is left."),
    "flange-on-bushing": N_("Renew rollers or links before the grooves deepen: a grooved bushing cracks there."),
    "idler-on-bushing": N_(
        "Build up or renew the idler, and judge the rails with it: both are far worn when they meet so."
    ),
    "frame-alignment": N_(
        "Measure the idler against the frame and shim its guides before new chains go on. "
        "Slopes and turning to one side do this too: ask."
    ),
    "guides-worn": N_("Shim or renew the guides before the idler wanders and wears the rail sides."),
    "rail-scalloped": N_("Measure rail height in the hollow, not at the joint; it is the lower figure that counts."),
}
