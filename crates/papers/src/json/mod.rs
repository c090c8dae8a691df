//! Everything as JSON, in the form that `docs/json.md` tells key by key. A number stands in the unit named beside it, of
//! the system of units that was asked for, unrounded; what is not known is `null`, never left out.
//!
//! Keys are only ever added; a change that breaks a reader raises [`FORMAT`].

mod due;
mod findings;
mod formulas;
mod kill_sheet;
mod limits_card;
mod proposal;
mod questions;
mod review;
mod steps;
mod trip_sheet;
mod working;

pub use due::due;
pub use findings::{Fault, checked, faults, findings};
pub use formulas::{formula, list, worked};
pub use kill_sheet::kill_sheet;
pub use limits_card::limits_card;
pub use proposal::proposal;
pub use questions::questions;
pub use review::reviews;
pub use steps::{methods, steps};
pub use trip_sheet::trip_sheet;
pub use working::explained;

use rigwright_units::{Kind, System, unit};
use serde::Serialize;

/// Version of the form of all documents.
pub const FORMAT: u32 = 1;

/// The units that hold for a whole document.
#[derive(Serialize)]
struct Units {
    system: &'static str,
    depth: &'static str,
}

impl Units {
    fn of(system: System) -> Units {
        Units { system: system.name(), depth: unit(Kind::Depth, system).symbol }
    }
}

/// A value in the unit of a system.
fn in_unit(value: f64, kind: Kind, system: System) -> f64 {
    unit(kind, system).from_si(value)
}

/// A difference in the unit of a system: a thermometer scale keeps its nought out of it.
fn difference_in_unit(value: f64, kind: Kind, system: System) -> f64 {
    value / unit(kind, system).factor
}

fn depth(value: f64, system: System) -> f64 {
    in_unit(value, Kind::Depth, system)
}

/// A document as text: indented, with a line end.
fn print(document: &impl Serialize) -> String {
    // Our documents have text keys and numbers; neither can fail, and what is not a finite number becomes null.
    let mut text = serde_json::to_string_pretty(document).unwrap_or_else(|error| format!("{{\"error\": \"{error}\"}}"));
    text.push('\n');
    text
}
