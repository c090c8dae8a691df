//! Strength, weight and dimensions of pipe.
use crate::FormulaRecord;
/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[];
