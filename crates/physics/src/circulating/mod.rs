//! The circulating system: columns, rheology, losses, bit, pumps, cleaning, surge and swab.

pub mod column;

use crate::FormulaRecord;

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[column::RECORDS];
