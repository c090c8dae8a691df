//! Managed pressure: what back pressure holds, what it does at every other depth, and how long the well stays over balance
//! when it is lost.

mod limits;
mod lost;
pub(crate) mod plan;

#[cfg(test)]
mod tests;

use crate::Answer;
use crate::question::{Question, Scope};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

const NO_BACK_PRESSURE: Answer = Answer::DoesNotArise("drilled without back pressure");
const NO_CUTTINGS: &str = "mud and its friction alone: cuttings, heat and the weight that the gel holds are left out";
const ANCHOR: &str = "the pressure at the anchor is that while pumping with the back pressure of the file; without an anchor in the file, the bottom of the hole";
const MATRIX: &str =
    "back pressure is part of a plan agreed beforehand: an influx or a pressure outside it is closed in on the preventers";
const LEAK: &str =
    "mud gets out at one rate until nothing presses it, out of a rigid annulus; friction falls as the pumps run down evenly";

/// Its questions.
pub(super) const QUESTIONS: &[Question] = &[
    Question {
        slug: "control/back-pressure",
        asks: "Which back pressure holds the anchor through a connection, and what does that do at the shoe and at the bottom?",
        title: "back pressure plan",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[ANCHOR, NO_CUTTINGS, MATRIX],
        ask: plan::told::<Off>,
        show: plan::told::<Working>,
    },
    Question {
        slug: "control/connection-fracture",
        asks: "While back pressure takes over from the pumps, step by step, does every depth of open hole bear it?",
        title: "connection: fracture",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &["mud weight", "back pressure, pumping"],
        assumes: &[ANCHOR, NO_CUTTINGS],
        ask: plan::fracture::<Off>,
        show: plan::fracture::<Working>,
    },
    Question {
        slug: "control/connection-pore",
        asks: "While back pressure takes over from the pumps, step by step, does every depth of open hole stay over balance?",
        title: "connection: pore",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &["mud weight", "back pressure, pumping"],
        assumes: &[ANCHOR, NO_CUTTINGS],
        ask: plan::pore::<Off>,
        show: plan::pore::<Working>,
    },
    Question {
        slug: "control/mud-alone",
        asks: "Without any back pressure, pumps off, does the mud alone hold every depth, and which weight would?",
        title: "mud without pressure",
        kind: Kind::Density,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[
            "a mud that does not hold the well alone is a choice of the plan, not a fault of it: it must be known on the rig",
        ],
        ask: lost::mud_alone::<Off>,
        show: lost::mud_alone::<Working>,
    },
    Question {
        slug: "control/back-pressure-lost",
        asks: "If the back pressure, the seal or the power is lost, how soon is a depth under balance, and is a preventer closed by then?",
        title: "back pressure lost",
        kind: Kind::Time,
        scope: Scope::Section,
        knobs: &["mud weight"],
        assumes: &[LEAK],
        ask: lost::lost::<Off>,
        show: lost::lost::<Working>,
    },
    Question {
        slug: "control/rotating-seal",
        asks: "Does the rotating seal bear the back pressure, turning and still?",
        title: "rotating seal",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["mud weight", "back pressure, pumping", "back pressure, pumps off"],
        assumes: &["the rating of the seal at this speed and size of pipe, with rubber that is not worn"],
        ask: limits::seal::<Off>,
        show: limits::seal::<Working>,
    },
    Question {
        slug: "control/managed-choke",
        asks: "Does the choke that holds back pressure bear it?",
        title: "managed choke rating",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["mud weight", "back pressure, pumping", "back pressure, pumps off"],
        assumes: &[MATRIX],
        ask: limits::choke::<Off>,
        show: limits::choke::<Working>,
    },
    Question {
        slug: "control/back-pressure-limit",
        asks: "Is the plan's back pressure inside its own limit, and that limit inside what rock, seal and choke bear, pumps off?",
        title: "back pressure limit",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &["mud weight", "back pressure, pumping", "back pressure, pumps off"],
        assumes: &[MATRIX, "while pumping the friction comes on top: the window questions judge that"],
        ask: limits::pressure::<Off>,
        show: limits::pressure::<Working>,
    },
    Question {
        slug: "control/influx-limit",
        asks: "Is the largest influx that the plan circulates out through the managed choke inside the kick tolerance?",
        title: "influx limit",
        kind: Kind::Volume,
        scope: Scope::Section,
        knobs: &["mud weight"],
        assumes: &[MATRIX, "kick tolerance as in `control/kick-tolerance`, at the end of the section"],
        ask: limits::influx::<Off>,
        show: limits::influx::<Working>,
    },
];
