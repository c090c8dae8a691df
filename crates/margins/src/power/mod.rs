//! The prime movers: do the sets on line carry what the operation asks, steady and at its peaks, also with one lost; do they
//! start the largest motor; and how long does the fuel last.

mod fuel;
mod load;
mod programme;
mod sets;
mod site;
mod start;
pub mod trace;

#[cfg(test)]
mod tests;

pub use load::Load;
pub(crate) use programme::FUEL_TODAY;

use crate::Answer;
use crate::question::{Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

const CONSUMERS: &str = "mud pumps with their auxiliaries, rotary drive, drawworks while lifting, hotel load, thrusters where given; lowering is braked and draws nothing";
const EVEN: &str = "sets share the load evenly";
const RATINGS: &str =
    "ratings hold on this site unless `aspiration` of the sets is given: then ISO 3046-1 derates them from 100 kPa and 25 °C";
const GEARS: &str =
    "direct current: the drawworks' gear is chosen so that the motor runs at full speed at the speed of the stand";
const LOAD_KNOBS: &[&str] = &["generator sets on line", "flow rate", "nozzle area", "rotary speed", "pulling speed"];
const PEAK_KNOBS: &[&str] = &["generator sets on line", "pulling speed", "flow rate"];
const NOTHING_DRAWN: Answer = Answer::DoesNotArise("nothing draws power");

/// The system.
pub static SYSTEM: System = System { name: "power", parts: &[QUESTIONS], not_yet: NOT_YET };

const QUESTIONS: &[Question] = &[
    Question {
        slug: "power/sets-on-line",
        asks: "Do the generator sets on line carry the load of the operation?",
        title: "sets on line",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: LOAD_KNOBS,
        assumes: &[CONSUMERS, EVEN, RATINGS, GEARS],
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
        assumes: &[CONSUMERS, EVEN, RATINGS, GEARS, "the load stays what it was: nothing is shed"],
        ask: sets::one_lost::<Off>,
        show: sets::one_lost::<Working>,
    },
    Question {
        slug: "power/peak",
        asks: "Do the sets on line carry the peaks of each stand, each joint of casing and each connection?",
        title: "peak load",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: PEAK_KNOBS,
        assumes: &[
            CONSUMERS,
            EVEN,
            RATINGS,
            GEARS,
            "no more than the continuous rating is asked of a set, however short the peak",
        ],
        ask: sets::peak::<Off>,
        show: sets::peak::<Working>,
    },
    Question {
        slug: "power/peak-one-set-lost",
        asks: "Do the sets that are left carry those peaks when one is lost?",
        title: "peak, one set lost",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: PEAK_KNOBS,
        assumes: &[CONSUMERS, EVEN, RATINGS, GEARS, "the load stays what it was: nothing is shed and nothing goes slower"],
        ask: sets::peak_one_lost::<Off>,
        show: sets::peak_one_lost::<Working>,
    },
    Question {
        slug: "power/starting",
        asks: "Does the voltage hold when the largest motor without a drive starts?",
        title: "starting a motor",
        kind: Kind::ApparentPower,
        scope: Scope::Rig,
        knobs: &["generator sets on line"],
        assumes: &["other loads, cable and the voltage regulator are left out of the first dip; a motor on a drive makes none"],
        ask: start::starting::<Off>,
        show: start::starting::<Working>,
    },
    Question {
        slug: "power/emergency",
        asks: "Does the emergency set carry preventer control, lights and brake together?",
        title: "emergency power",
        kind: Kind::Power,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &["all three at once, each at what the rig file says"],
        ask: start::emergency::<Off>,
        show: start::emergency::<Working>,
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
    Question {
        slug: "power/programme",
        asks: "What do all operations of the well burn and emit, with the sets of today and with the best number?",
        title: "fuel of the programme",
        kind: Kind::FluidVolume,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &[
            CONSUMERS,
            EVEN,
            "the jobs of hoisting/days; reaming draws what circulating does; while it is cemented and tested only the hotel load is drawn; logging, waiting and moves are left out",
        ],
        ask: programme::programme::<Off>,
        show: programme::programme::<Working>,
    },
    Question {
        slug: "power/bus-lost",
        asks: "Do the sets that are left carry the load when a bus section is lost?",
        title: "bus section lost",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: LOAD_KNOBS,
        assumes: &[
            CONSUMERS,
            RATINGS,
            GEARS,
            "the sets on line are shared evenly over the sections, and the fullest is lost; what it fed is fed from the others",
            "a lost mud pump is asked in circulating/pump-lost",
        ],
        ask: sets::bus_lost::<Off>,
        show: sets::bus_lost::<Working>,
    },
    Question {
        slug: "power/station-keeping",
        asks: "Do the sets that the worst single failure leaves keep a floating rig over the well?",
        title: "station keeping",
        kind: Kind::Power,
        scope: Scope::Rig,
        knobs: &["generator sets on line"],
        assumes: &[
            RATINGS,
            "after the failure drilling stops: thrusters and hotel load are left, and thrusters enough for it stay fed",
        ],
        ask: sets::station_keeping::<Off>,
        show: sets::station_keeping::<Working>,
    },
];

const NOT_YET: &[(&str, &str)] = &[];
