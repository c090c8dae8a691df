//! The formulas of the trade, pure: numbers and small structs in, numbers out.
//!
//! Every value is SI, gauge pressure unless the name says absolute, tension positive, measured depth
//! growing downwards, inclination from the vertical. Knows no well, no rig and no file. Each formula is
//! declared once with [`formula!`], and [`records`] lists them all.

mod field;
mod record;
mod working;

pub mod numerics;
pub mod trajectory;
pub mod tubular;

pub mod circulating;
pub mod control;
pub mod hoisting;
pub mod power;
pub mod rotating;

pub use record::{Formula, FormulaRecord, Law, Range, Symbol};
pub use rigwright_units::Kind;
pub use working::{Line, Off, Recorder, Root, Working};

/// Standard acceleration of free fall, exact by definition (CGPM 1901, in NIST SP 811). [m/s²]
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// Standard atmosphere, exact by definition (CGPM 1954, in NIST SP 811). [Pa]
pub const STANDARD_ATMOSPHERE: f64 = 101_325.0;

/// Every formula, by system, in the order in which the manual tells them.
pub fn records() -> impl Iterator<Item = &'static FormulaRecord> {
    let systems =
        [tubular::RECORDS, hoisting::RECORDS, rotating::RECORDS, circulating::RECORDS, power::RECORDS, control::RECORDS];
    [trajectory::RECORDS, trajectory::methods::RECORDS, trajectory::plan::RECORDS]
        .into_iter()
        .chain(systems.into_iter().flatten().copied())
        .flatten()
        .copied()
}

/// The formula of this slug.
pub fn record(slug: &str) -> Option<&'static FormulaRecord> {
    records().find(|record| record.slug == slug)
}
