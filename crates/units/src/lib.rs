//! Text with a unit to SI and back: one table of unit symbols with exact factors, kinds of quantity,
//! the newtypes for values that share a dimension but must not be mixed, spreads, and the three unit
//! systems that results are printed in. Knows nothing of wells, rigs or formulas.

mod kind;

pub use kind::{Dimension, Kind};
