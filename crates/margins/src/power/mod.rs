//! The prime mover: what each operation draws from the generator sets, one lost or none, and the fuel.

mod load;
mod sets;

use crate::{Question, Scope, System};
use rigwright_physics::{Off, Working};
use rigwright_units::Kind;

/// The system.
pub static SYSTEM: System = System { name: "power", questions: QUESTIONS, not_yet: NOT_YET };

const TOGETHER: &str = "one consumer a job at its largest steady draw; short peaks and starting currents are left out";

static QUESTIONS: &[Question] = &[
    Question {
        slug: "power/sets-on-line",
        asks: "Do the sets on line carry the operation?",
        title: "sets on line",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: &["sets on line", "flow rate", "pulling speed"],
        assumes: &[TOGETHER],
        ask: sets::sets_on_line::<Off>,
        show: sets::sets_on_line::<Working>,
    },
    Question {
        slug: "power/one-set-lost",
        asks: "Is the operation still carried when the worst happens and one set is lost?",
        title: "one set lost",
        kind: Kind::Power,
        scope: Scope::Situation,
        knobs: &["sets on line", "flow rate", "pulling speed"],
        assumes: &[TOGETHER],
        ask: sets::one_set_lost::<Off>,
        show: sets::one_set_lost::<Working>,
    },
    Question {
        slug: "power/fuel",
        asks: "Does the fuel on site last until the next delivery while drilling this section?",
        title: "fuel",
        kind: Kind::Time,
        scope: Scope::Section,
        knobs: &["sets on line"],
        assumes: &["the rig drills without pause: trips and waiting burn less"],
        ask: sets::fuel::<Off>,
        show: sets::fuel::<Working>,
    },
];

static NOT_YET: &[(&str, &str)] = &[
    ("power/starting", "Does the voltage stand when the largest motor starts?"),
    ("power/emergency", "Does the emergency set carry preventer control, lights and brake?"),
    ("power/emissions", "What does the well burn and emit, operation by operation?"),
];
