//! The circulating system: does the mud hold the formation back without breaking it, do pumps and lines bear the
//! pressure, is the hole cleaned, and what the driller wants to know beside it.

mod cleaning;
mod figures;
mod mud_window;
pub(crate) mod pumps;
mod safe_speed;
mod weight_up;
mod window;

#[cfg(test)]
mod tests;

use crate::question::{Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

pub(crate) use weight_up::{annular_volume, string_volume};

const WINDOW_KNOBS: &[&str] = &["mud weight", "back pressure, pumps off", "back pressure, pumping"];
const CLOSED_END: &str = "the string is closed at its end while it moves; an open end lowers surge and swab";
const NO_PVT: &str = "mud weight is that at surface: pressure and temperature do not change it";
const CONCENTRIC: &str = "pipe in the middle of the hole, not turning; joints are left out";

/// The system.
pub static SYSTEM: System = System { name: "circulating", questions: QUESTIONS, not_yet: NOT_YET };

const QUESTIONS: &[Question] = &[
    Question {
        slug: "circulating/overbalance",
        asks: "Does the mud hold back pore pressure and keep the wall from caving in, at every depth of open hole, pumps off and while pulling?",
        title: "overbalance",
        kind: Kind::Density,
        scope: Scope::Situation,
        knobs: &["mud weight", "pulling speed", "back pressure, pumps off", "back pressure, pumping"],
        assumes: &[CLOSED_END, NO_PVT, CONCENTRIC, "the hole is kept full"],
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
        assumes: &[CLOSED_END, NO_PVT, CONCENTRIC],
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
        slug: "circulating/mud-window",
        asks: "Which mud weights at surface satisfy the whole window, in every operation, and if none, which two conflict?",
        title: "range of mud weight",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[CLOSED_END, NO_PVT, CONCENTRIC],
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
        assumes: &[CLOSED_END, NO_PVT, CONCENTRIC],
        ask: safe_speed::safe_speed::<Off>,
        show: safe_speed::safe_speed::<Working>,
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
        slug: "circulating/cleaning",
        asks: "Is the flow enough to carry the cuttings, at every depth and inclination?",
        title: "hole cleaning",
        kind: Kind::FlowRate,
        scope: Scope::Situation,
        knobs: &["flow rate"],
        assumes: &[
            "rotation of the string is left out: it helps most above 30 degrees",
            "Moore's slip near the vertical, Larsen from 55 degrees, a line between",
        ],
        ask: cleaning::cleaning::<Off>,
        show: cleaning::cleaning::<Working>,
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
];

const NOT_YET: &[(&str, &str)] = &[
    ("circulating/pump-lost", "whether the hole is cleaned with one pump lost"),
    ("circulating/washout", "whether the flow washes the hole out"),
    ("circulating/tool-range", "whether the flow lies in the range of motors and tools"),
    ("circulating/return-line", "whether return line and shakers take the flow"),
    ("circulating/cuttings-load", "whether the share of cuttings stays small"),
    ("circulating/best-nozzles", "which nozzles make the most of the pump"),
    ("circulating/standpipe-break", "the standpipe pressure that breaks circulation"),
    ("circulating/volumes", "active and reserve volume, room to weight up, drain-back"),
    ("circulating/sample-depth", "the depth of the sample at the shaker"),
    ("circulating/waste", "whether the waste pit takes the cuttings"),
    ("circulating/total-losses", "how far the level may fall"),
    ("circulating/sticking", "sticking by differential pressure"),
    ("circulating/temperature", "circulating temperature, and the mud weight under pressure and heat"),
    ("circulating/cement-lift", "whether the rock bears the cement job"),
];
