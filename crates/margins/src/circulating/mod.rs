//! The circulating system: does the mud hold the formation back without breaking it, do pumps and lines bear the
//! pressure, is the hole cleaned, and what the driller wants to know beside it.

mod cleaning;
mod figures;
mod losses;
mod mud_choice;
mod mud_window;
mod nozzles;
mod pits;
pub(crate) mod pumps;
mod ratings;
pub(crate) mod safe_speed;
mod samples;
mod solids;
mod start;
mod sticking;
mod temperature;
pub(crate) mod weight_up;
mod window;

#[cfg(test)]
mod tests;

use crate::answer::Answer;
use crate::question::{Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

pub(crate) use safe_speed::slowed;
pub(crate) use weight_up::{annular_volume, string_volume};
pub(crate) use window::{place_of, weight as equivalent_weight};

const WINDOW_KNOBS: &[&str] = &["mud weight", "back pressure, pumps off", "back pressure, pumping"];
const CLOSED_END: &str = "the string is closed at its end while it moves; an open end lowers surge and swab";
const PVT: &str =
    "mud weight under pressure and heat where the file has a retort, the rock's heat on trips; else that at surface";
const CONCENTRIC: &str =
    "friction as stand-off and rotation factor say; surge and swab with pipe in the middle; couplings of casing left out";

const AT_ONCE: &str =
    "gel breaks and mud is sped up along the whole annulus at once, without giving way: an upper bound on a long string";
const SLIPS: &str = "while the string hangs in slips no compensator takes the heave: its largest speed counts";

/// Before there is a riser.
const TO_SEA: Answer = Answer::DoesNotArise("no riser yet: the mud goes out at the sea bed");

/// The system.
pub static SYSTEM: System = System { name: "circulating", parts: &[QUESTIONS], not_yet: NOT_YET };

const QUESTIONS: &[Question] = &[
    Question {
        slug: "circulating/overbalance",
        asks: "Does the mud hold back pore pressure and keep the wall from caving in, at every depth of open hole, pumps off and while pulling?",
        title: "overbalance",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &["mud weight", "pulling speed", "back pressure, pumps off", "back pressure, pumping"],
        assumes: &[CLOSED_END, PVT, CONCENTRIC, "the hole is kept full"],
        ask: window::overbalance::<Off>,
        show: window::overbalance::<Working>,
    },
    Question {
        slug: "circulating/fracture",
        asks: "Does the rock bear the mud, at every depth of open hole, still, flowing with cuttings, and while running in?",
        title: "fracture",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &[
            "running speed",
            "casing running speed",
            "flow rate",
            "mud weight",
            "back pressure, pumping",
            "back pressure, pumps off",
        ],
        assumes: &[CLOSED_END, PVT, CONCENTRIC],
        ask: window::fracture::<Off>,
        show: window::fracture::<Working>,
    },
    Question {
        slug: "circulating/break-circulation",
        asks: "Does the rock bear the pressure that breaks the gel when the pumps start after ten minutes?",
        title: "breaking the gel",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: WINDOW_KNOBS,
        assumes: &["the gel breaks along the whole annulus at once: an upper bound"],
        ask: window::break_circulation::<Off>,
        show: window::break_circulation::<Working>,
    },
    Question {
        slug: "circulating/start-pulling",
        asks: "Does the mud still hold back pore and collapse pressure when the pipe starts upwards out of its slips?",
        title: "start of pulling",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[CLOSED_END, PVT, CONCENTRIC, AT_ONCE],
        ask: start::pulling::<Off>,
        show: start::pulling::<Working>,
    },
    Question {
        slug: "circulating/start-running",
        asks: "Does the rock bear the mud when pipe or casing starts downwards out of its slips?",
        title: "start of running in",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[CLOSED_END, PVT, CONCENTRIC, AT_ONCE],
        ask: start::running::<Off>,
        show: start::running::<Working>,
    },
    Question {
        slug: "circulating/heave-swab",
        asks: "Does the mud still hold back pore and collapse pressure when the string, in slips, is lifted by the heave of the rig?",
        title: "swab by heave",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[CLOSED_END, PVT, CONCENTRIC, SLIPS],
        ask: window::heave_swab::<Off>,
        show: window::heave_swab::<Working>,
    },
    Question {
        slug: "circulating/heave-surge",
        asks: "Does the rock bear the mud when the string, in slips, is lowered by the heave of the rig?",
        title: "surge by heave",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[CLOSED_END, PVT, CONCENTRIC, SLIPS],
        ask: window::heave_surge::<Off>,
        show: window::heave_surge::<Working>,
    },
    Question {
        slug: "circulating/mud-window",
        asks: "Which mud weights at surface satisfy the whole window, in every operation, and if none, which two conflict?",
        title: "range of mud weight",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[CLOSED_END, PVT, CONCENTRIC],
        ask: mud_window::mud_window::<Off>,
        show: mud_window::mud_window::<Working>,
    },
    Question {
        slug: "circulating/safe-speed",
        asks: "How fast may pipe be pulled and run, and casing be run, and which depth is the weakest?",
        title: "safe trip speed",
        kind: Kind::Speed,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[CLOSED_END, PVT, CONCENTRIC],
        ask: safe_speed::safe_speed::<Off>,
        show: safe_speed::safe_speed::<Working>,
    },
    Question {
        slug: "circulating/equivalent-density",
        asks: "What does the mud weigh at shoe and bottom, still and while drilling?",
        title: "equivalent mud weight",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[PVT, CONCENTRIC],
        ask: temperature::equivalent_density::<Off>,
        show: temperature::equivalent_density::<Working>,
    },
    Question {
        slug: "circulating/temperature",
        asks: "How hot does the circulating mud get, and do mud and tools bear it?",
        title: "circulating temperature",
        kind: Kind::Temperature,
        scope: Scope::Section,
        knobs: &["flow rate"],
        assumes: &[
            "steady circulation in a straight hole of mean sizes and even rock; casing and cement left out",
            "sea and riser left out: the rock is taken to reach to the top",
        ],
        ask: temperature::temperature::<Off>,
        show: temperature::temperature::<Working>,
    },
    Question {
        slug: "circulating/standpipe-pressure",
        asks: "Do liners and surface lines bear the standpipe pressure?",
        title: "standpipe pressure",
        kind: Kind::Pressure,
        scope: Scope::Situation,
        knobs: &["flow rate", "nozzle area", "liner"],
        assumes: &[CONCENTRIC, "discharge coefficient of the nozzles 0.95"],
        ask: pumps::standpipe_pressure::<Off>,
        show: pumps::standpipe_pressure::<Working>,
    },
    Question {
        slug: "circulating/standpipe-break",
        asks: "Do liners and surface lines bear the pressure that breaks circulation after ten minutes?",
        title: "breaking circulation",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["liner"],
        assumes: &["the gel breaks in string and annulus at once: an upper bound", CONCENTRIC],
        ask: ratings::standpipe_break::<Off>,
        show: ratings::standpipe_break::<Working>,
    },
    Question {
        slug: "circulating/pump-power",
        asks: "Have the pumps on the hole the power for this flow at this pressure?",
        title: "pump power",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: &["pumps on", "flow rate", "nozzle area"],
        assumes: &["the pumps share the flow evenly"],
        ask: pumps::pump_power::<Off>,
        show: pumps::pump_power::<Working>,
    },
    Question {
        slug: "circulating/pump-speed",
        asks: "Do the pumps on the hole make this flow within their speed?",
        title: "pump speed",
        kind: Kind::StrokeRate,
        scope: Scope::Section,
        knobs: &["pumps on", "liner", "flow rate"],
        assumes: &["the pumps share the flow evenly"],
        ask: pumps::pump_speed::<Off>,
        show: pumps::pump_speed::<Working>,
    },
    Question {
        slug: "circulating/booster",
        asks: "Do liners and surface lines bear the pressure of the booster line?",
        title: "booster line",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["liner"],
        assumes: &["one of the rig's pumps stands on the booster line, with the same liners"],
        ask: pumps::booster::<Off>,
        show: pumps::booster::<Working>,
    },
    Question {
        slug: "circulating/cleaning",
        asks: "Is the flow enough to carry the cuttings, at every depth and inclination?",
        title: "hole cleaning",
        kind: Kind::FlowRate,
        scope: Scope::Situation,
        knobs: &["flow rate"],
        assumes: &[
            "rotation of the string is left out: from 30 degrees on it is the main lever, 120 rpm and more by a rule of the trade",
            "Moore's slip is for near-vertical hole, Larsen's flow for 55 to 90 degrees, fitted in a narrow loop with little turning: \
             too careful in wide hole; between them a straight line",
        ],
        ask: cleaning::cleaning::<Off>,
        show: cleaning::cleaning::<Working>,
    },
    Question {
        slug: "circulating/pump-lost",
        asks: "How much of the flow that cleans is left with one pump lost?",
        title: "one pump lost",
        kind: Kind::FlowRate,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["a spare pump takes over where there is one"],
        ask: cleaning::pump_lost::<Off>,
        show: cleaning::pump_lost::<Working>,
    },
    Question {
        slug: "circulating/cuttings-load",
        asks: "Does the share of cuttings in the annulus stay small?",
        title: "cuttings in the annulus",
        kind: Kind::Fraction,
        scope: Scope::Situation,
        knobs: &["flow rate"],
        assumes: &["Moore's slip velocity: for near-vertical hole; beds in inclined hole are left to hole cleaning"],
        ask: cleaning::cuttings_load::<Off>,
        show: cleaning::cuttings_load::<Working>,
    },
    Question {
        slug: "circulating/penetration-rate",
        asks: "How fast may the bit drill before the flow no longer cleans?",
        title: "fastest drilling",
        kind: Kind::DrillingRate,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["Moore's slip velocity: for near-vertical hole; beds in inclined hole are left to hole cleaning"],
        ask: cleaning::penetration_rate::<Off>,
        show: cleaning::penetration_rate::<Working>,
    },
    Question {
        slug: "circulating/washout",
        asks: "Does the wall of the open hole bear the flow?",
        title: "washing out",
        kind: Kind::Speed,
        scope: Scope::Section,
        knobs: &["flow rate"],
        assumes: &[],
        ask: ratings::washout::<Off>,
        show: ratings::washout::<Working>,
    },
    Question {
        slug: "circulating/return-line",
        asks: "Do return line and shakers take the flow?",
        title: "returns",
        kind: Kind::FlowRate,
        scope: Scope::Section,
        knobs: &["flow rate"],
        assumes: &["as much comes back as is pumped"],
        ask: ratings::return_line::<Off>,
        show: ratings::return_line::<Working>,
    },
    Question {
        slug: "circulating/weight-up",
        asks: "Is there barite on site to raise the weight of all mud by the kick intensity?",
        title: "barite to weight up",
        kind: Kind::Mass,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["barite of 4.2 sg; volumes add up", "hole, string and active pits are weighted up, none is thrown away"],
        ask: weight_up::weight_up::<Off>,
        show: weight_up::weight_up::<Working>,
    },
    Question {
        slug: "circulating/weighting-up",
        asks: "What does it take to raise the weight of all mud by the kick intensity?",
        title: "weighting up",
        kind: Kind::Mass,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["barite of 4.2 sg; volumes add up", "hole, string and active pits are weighted up, none is thrown away"],
        ask: pits::weighting_up::<Off>,
        show: pits::weighting_up::<Working>,
    },
    Question {
        slug: "circulating/volumes",
        asks: "How much mud is in hole, string and pits?",
        title: "volumes",
        kind: Kind::Volume,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[],
        ask: pits::volumes::<Off>,
        show: pits::volumes::<Working>,
    },
    Question {
        slug: "circulating/pit-room",
        asks: "Do the pits take what runs back when the pumps stop and what weighting up adds?",
        title: "room in the pits",
        kind: Kind::Volume,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["barite of 4.2 sg; volumes add up", "hole, string and active pits are weighted up, none is thrown away"],
        ask: pits::pit_room::<Off>,
        show: pits::pit_room::<Working>,
    },
    Question {
        slug: "circulating/waste",
        asks: "Does the waste pit take the cuttings of the well to the end of this section?",
        title: "waste",
        kind: Kind::Volume,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["nothing is carried away before"],
        ask: pits::waste::<Off>,
        show: pits::waste::<Working>,
    },
    Question {
        slug: "circulating/total-losses",
        asks: "How far may the mud level fall before a layer flows?",
        title: "total losses",
        kind: Kind::Depth,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["nobody fills the hole; what leaves comes from the annulus alone", PVT],
        ask: losses::total_losses::<Off>,
        show: losses::total_losses::<Working>,
    },
    Question {
        slug: "circulating/solids",
        asks: "Do light solids stay few in the mud, by its retort and weight?",
        title: "light solids",
        kind: Kind::Fraction,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["what is neither oil, water, salt nor light solids is weighting material", "all salt is dissolved"],
        ask: solids::solids::<Off>,
        show: solids::solids::<Working>,
    },
    Question {
        slug: "circulating/next-mud",
        asks: "What brings this mud to the weight of the next section, and what does each way cost?",
        title: "mud of the next section",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["barite of 4.2 sg, water or base oil to dilute; volumes add up"],
        ask: mud_choice::next_mud::<Off>,
        show: mud_choice::next_mud::<Working>,
    },
    Question {
        slug: "circulating/candidate-muds",
        asks: "How do the candidate muds compare by window, cleaning, pressure and cost?",
        title: "candidate muds",
        kind: Kind::Count,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["candidate muds take flow model and method for losses of the mud in use; no law on discharge is looked at"],
        ask: mud_choice::candidate_muds::<Off>,
        show: mud_choice::candidate_muds::<Working>,
    },
    Question {
        slug: "circulating/filtrate",
        asks: "What does the filter press tell of spurt, filtrate and cake?",
        title: "filtrate",
        kind: Kind::Filtrate,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the filtrate grows with the root of time; the cake does not give way to pressure"],
        ask: solids::filtrate::<Off>,
        show: solids::filtrate::<Working>,
    },
    Question {
        slug: "circulating/sticking",
        asks: "Does the pull that is left free collars that lie stuck in the mud cake?",
        title: "differential sticking",
        kind: Kind::Force,
        scope: Scope::Situation,
        knobs: &["mud weight"],
        assumes: &[
            "layers that name a fluid are permeable, the others are tight",
            "cake does not give way and has one thickness; pipe that its joints hold off the wall does not bed in",
        ],
        ask: sticking::sticking::<Off>,
        show: sticking::sticking::<Working>,
    },
    Question {
        slug: "circulating/most-overbalance",
        asks: "Does the mud press on permeable rock no harder than the crew allows?",
        title: "most overbalance",
        kind: Kind::Pressure,
        scope: Scope::Situation,
        knobs: &["mud weight", "flow rate"],
        assumes: &["layers that name a fluid are permeable, the others are tight"],
        ask: sticking::most_overbalance::<Off>,
        show: sticking::most_overbalance::<Working>,
    },
    Question {
        slug: "circulating/lag",
        asks: "How many strokes and minutes from the pump to the bit, and from the bit to surface?",
        title: "lag",
        kind: Kind::Count,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the mud itself; cuttings lag behind by their slip"],
        ask: figures::lag::<Off>,
        show: figures::lag::<Working>,
    },
    Question {
        slug: "circulating/sample-depth",
        asks: "From which depth is the sample at the shaker, and when is the next due?",
        title: "samples",
        kind: Kind::Depth,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["without readings of depth and strokes, pumping and drilling have been steady", "Moore's slip velocity"],
        ask: figures::sample_depth::<Off>,
        show: figures::sample_depth::<Working>,
    },
    Question {
        slug: "circulating/bit",
        asks: "What do the nozzles give: pressure, power per area, impact, jet speed?",
        title: "bit hydraulics",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["discharge coefficient of the nozzles 0.95"],
        ask: figures::bit::<Off>,
        show: figures::bit::<Working>,
    },
    Question {
        slug: "circulating/best-nozzles",
        asks: "Which nozzles make the most of the pump?",
        title: "best nozzles",
        kind: Kind::Area,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["the loss outside the bit is a power of the flow", "discharge coefficient of the nozzles 0.95"],
        ask: nozzles::best_nozzles::<Off>,
        show: nozzles::best_nozzles::<Working>,
    },
];

const NOT_YET: &[(&str, &str)] = &[
    ("circulating/tool-range", "whether the flow lies in the range of motors and tools"),
    ("circulating/cement-lift", "whether the rock bears the cement job"),
];
