//! Knobs: the inputs that the crew may choose, how to read and turn them in a checked well and rig.
//!
//! What is not here cannot be turned: formation, ratings, design factors, wanted margins and reserves.

use crate::entries::ENTRIES;
use rigwright_physics::Range;
use rigwright_units::Kind;
use rigwright_well::Fit;

/// An input that the crew may choose.
#[derive(Debug)]
pub struct Knob {
    /// Name in plain words: "mud weight".
    pub name: &'static str,
    /// Kind of its value.
    pub kind: Kind,
    /// Whether each section has its own; otherwise the rig has one.
    pub per_section: bool,
    /// How soon it can be turned.
    pub ease: Ease,
    /// Its steps.
    pub step: Step,
    /// The value now, by section (ignored for the rig); `None` where the well has no such thing. [SI]
    pub get: fn(&Fit, usize) -> Option<f64>,
    /// Turns it. The value must be allowed. [SI]
    pub set: fn(&mut Fit, usize, f64),
    /// Where a turn still gives a sane well and rig. [SI]
    pub allowed: fn(&Fit, usize) -> Range,
}

/// How soon a knob can be turned, the easiest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ease {
    /// With what is on the rig, without pulling out.
    Today,
    /// With what is on the rig, when the string is out of the hole or between sections.
    NextTrip,
    /// Something has to be bought, or the plan of the well changed.
    NeedsBuying,
}

/// The steps of a knob.
#[derive(Clone, Copy)]
pub enum Step {
    /// Any whole number of these, up or down. [SI]
    By(f64),
    /// One of these, ascending; by section, which a knob of the rig ignores. [SI]
    Among(fn(&Fit, usize) -> Vec<f64>),
}

impl std::fmt::Debug for Step {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Step::By(step) => write!(f, "By({step})"),
            Step::Among(_) => f.write_str("Among(..)"),
        }
    }
}

/// The knob of this name.
pub fn knob(name: &str) -> Option<&'static Knob> {
    ENTRIES.iter().filter_map(|entry| entry.knob).find(|knob| knob.name == name)
}
