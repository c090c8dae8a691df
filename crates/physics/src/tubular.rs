//! tubular

use crate::FormulaRecord;

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[];
