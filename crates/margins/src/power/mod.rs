//! The prime movers: do the sets on line carry what the operation asks, also with one lost, and how long does the fuel last.

mod fuel;
mod load;
mod sets;

#[cfg(test)]
mod tests;

use crate::question::{Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

const CONSUMERS: &str =
    "mud pumps with their auxiliaries, rotary drive, drawworks while pulling, hotel load; lowering is braked and draws nothing";
const EVEN: &str = "sets share the load evenly";
const LOAD_KNOBS: &[&str] = &["generator sets on line", "flow rate", "nozzle area", "rotary speed"];

/// The system.
pub static SYSTEM: System = System { name: "power", questions: QUESTIONS, not_yet: NOT_YET };

const QUESTIONS: &[Question] = &[
    Question {
        slug: "power/sets-on-line",
        asks: "Do the generator sets on line carry the load of the operation?",
        title: "sets on line",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: LOAD_KNOBS,
        assumes: &[CONSUMERS, EVEN, "ratings as given: heat and thin air are not taken off"],
        ask: sets::on_line::<Off>,
        show: sets::on_line::<Working>,
    },
    Question {
        slug: "power/one-set-lost",
        asks: "Do the sets that are left carry the load when one is lost?",
        title: "one set lost",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: LOAD_KNOBS,
        assumes: &[CONSUMERS, EVEN, "the load stays what it was: nothing is shed"],
        ask: sets::one_lost::<Off>,
        show: sets::one_lost::<Working>,
    },
    Question {
        slug: "power/fuel",
        asks: "Does the fuel on site last until the next delivery?",
        title: "fuel",
        kind: Kind::Time,
        scope: Scope::Section,
        knobs: &["generator sets on line", "flow rate"],
        assumes: &[CONSUMERS, EVEN, "drilling at the end of the section all day long"],
        ask: fuel::fuel::<Off>,
        show: fuel::fuel::<Working>,
    },
    Question {
        slug: "power/best-sets",
        asks: "How many sets burn least while drilling, and what do they burn?",
        title: "best number of sets",
        kind: Kind::FuelRate,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[CONSUMERS, EVEN, "no set is kept in reserve: see power/one-set-lost"],
        ask: fuel::best::<Off>,
        show: fuel::best::<Working>,
    },
];

const NOT_YET: &[(&str, &str)] = &[
    ("power/bus-lost", "whether a lost bus or a lost pump leaves enough"),
    ("power/starting", "whether starting the largest motor dips the voltage too far"),
    ("power/emergency", "emergency power for preventer control, lights and brake"),
    ("power/well-fuel", "fuel and emissions over the whole well"),
    ("power/site-rating", "what heat and thin air leave of the ratings"),
    ("power/station-keeping", "station keeping of a floating rig"),
];
