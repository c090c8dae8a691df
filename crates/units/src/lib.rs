//! Text with a unit to SI and back: one table of unit symbols with exact factors, kinds of quantity,
//! the newtypes for values that share a dimension but must not be mixed, spreads, and the three unit
//! systems that results are printed in. Knows nothing of wells, rigs or formulas.

mod error;
mod kind;
mod newtypes;
mod parse;
mod print;
mod spread;
mod table;

pub use error::{UnitError, example};
pub use kind::{Dimension, Kind};
pub use newtypes::{AbsolutePressure, MeasuredDepth, VerticalDepth};
pub use parse::{as_written, find_unit, last_digit, parse, unit_at_end};
pub use print::{System, UnknownSystem, show, show_down, show_exact, show_exact_in, show_number, show_up, unit};
pub use spread::{Spread, Stated, parse_stated};
pub use table::{TABLE, Unit, unit_named, units_of};
