//! Examples of the hoisting system.
//!
//! ```text
//! pub(super) const PROCEDURES: &[Procedure] = &[Procedure { name: "two-columns", system: "hoisting", run: two_columns }];
//!
//! fn two_columns(given: &Given) -> Outcome {
//!     let density = given.quantity("density", Kind::Density)?;
//!     let heights = given.list("heights", Kind::Depth)?;
//!     ...
//!     Ok(vec![output("pressure", Kind::Pressure, pressure)])
//! }
//! ```

use super::Procedure;

pub(super) const PROCEDURES: &[Procedure] = &[];
