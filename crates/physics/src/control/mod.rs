//! The control system.

use crate::FormulaRecord;

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[];
